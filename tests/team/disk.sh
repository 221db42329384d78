# Disks that are full, files that may not be written.

team "$work/team"
gym="$work/team/gym.ini"
night "$gym" "$work/good"
sums() { # DIR: all files of the folders, but for what was said of failures
    (cd "$1/lifters" && find . -type f ! -name '.*.failed' -exec cksum {} + | sort)
}

# The largest file that may be written is smaller than a table: as a full disk, in the middle of a write.
cp -R "$work/good" "$work/limited"
sums "$work/limited" >"$work/sums-1"
for each in 1 2 4; do
    echo '2026-03-06,squat,100 kg,1,1,,' >>"$work/team/logs/0000$each.csv"
done
(ulimit -f 8 && night "$gym" "$work/limited" && exit "$status")
is "no room for files: status" 3 "$?"
sums "$work/limited" >"$work/sums-2"
diff "$work/sums-1" "$work/sums-2" >"$work/out"
check "no room for files: the last good night stands" $?
night "$gym" "$work/limited"
rm -rf "$work/fresh"
night "$gym" "$work/fresh"
diff -r -x night.json -x 'team.sqlite*' -x .lock -x index.html -x team.csv "$work/limited" "$work/fresh" >"$work/out"
check "no room for files: the next night makes up for it" $?

# A small disk of its own, where that is allowed.
mkdir "$work/small"
if [ "$(id -u)" = 0 ] && mount -t tmpfs -o size=400k tmpfs "$work/small" 2>/dev/null; then
    night "$gym" "$work/small/out"
    is "disk full: status" 3 "$status"
    grep -q 'cannot be written\|is full\|No space' "$work/err"
    check "disk full: it is said" $?
    is "disk full: no file is cut" 0 "$(find "$work/small" -name '*.csv' ! -path '*/.*' -size +0 -exec sh -c 'tail -c 1 "$1" | tr -d "\n"' - {} \; | wc -c | tr -d ' ')"
    mount -o remount,size=100m "$work/small"
    night "$gym" "$work/small/out"
    diff -r -x night.json -x 'team.sqlite*' -x .lock -x index.html -x team.csv "$work/small/out" "$work/fresh" >"$work/out"
    check "disk full: with room again, all is made up for" $?
    mount -o remount,ro "$work/small" 2>/dev/null && {
        night "$gym" "$work/small/out"
        is "read-only disk: status" 3 "$status"
        diff -r -x night.json -x 'team.sqlite*' -x .lock -x index.html -x team.csv "$work/small/out" "$work/fresh" >"$work/out"
        check "read-only disk: all stands" $?
    }
    umount "$work/small"
else
    skip "no small disk may be mounted here"
fi

# A folder that may not be written to; root may write everywhere, so it must be somebody else.
mkdir "$work/read-only" && chmod 555 "$work/read-only"
if [ "$(id -u)" != 0 ]; then
    night "$gym" "$work/read-only"
    is "read-only folder: status" 3 "$status"
elif command -v setpriv >/dev/null && chmod a+x "$scratch" && chmod -R a+rX "$work" && setpriv --reuid=65534 --regid=65534 --clear-groups test -x "$TAUTLINE"; then
    setpriv --reuid=65534 --regid=65534 --clear-groups "$TAUTLINE" team --gym "$gym" --into "$work/read-only" --render none >"$work/out" 2>"$work/err"
    is "read-only folder: status" 3 "$?"
    grep -q 'cannot be made' "$work/err"
    check "read-only folder: it is said" $?
else
    skip "nobody who may not write to a folder"
fi
