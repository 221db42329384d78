# Links and pipes where the job writes and reads: nothing beyond DIR is touched, and nothing hangs.

team "$work/team"
gym="$work/team/gym.ini"
night "$gym" "$work/good"

victim() { # makes somebody else's folder anew
    rm -rf "$work/victim" && mkdir -p "$work/victim/plots"
    for each in keep.txt index.html state.json report.html plots/keep.svg; do
        echo precious >"$work/victim/$each"
    done
}

untouched() { # TEXT
    is "$1: the other folder is as it was" 5 "$(find "$work/victim" -type f -exec grep -lx precious {} + | wc -l | tr -d ' ')"
}

fresh() {
    rm -rf "$work/links" && cp -R "$work/good" "$work/links"
    victim
    touch_log
}

touch_log() { # so that there is work
    printf '2026-03-0%s,squat,60 kg,3,5,,\n' 3 >>"$work/team/logs/00001.csv"
}

run_links() { # GYM DIR OPTION...: as night, and it must end
    night_gym=$1 night_dir=$2
    shift 2
    timeout 60 "$TAUTLINE" team --gym "$night_gym" --into "$night_dir" --today 2026-06-03 --render none "$@" >"$work/out" 2>"$work/err"
    status=$?
}

fresh
ln -s "$work/victim" "$work/links/lifters/.Babrin-Obrin.new"
run_links "$gym" "$work/links"
untouched "a link where a folder is to be made"
is "a link where a folder is to be made: the work is done" "done" "$(state_of 'Babrin Obrin')"

fresh
mkdir "$work/links/lifters/.x.new"
ln -s "$work/victim" "$work/links/lifters/.x.new/plots"
run_links "$gym" "$work/links"
untouched "a link within what a killed run left"

fresh
rm -rf "$work/links/lifters/Babrin-Obrin"
ln -s "$work/victim" "$work/links/lifters/Babrin-Obrin"
run_links "$gym" "$work/links"
untouched "a link in place of a lifter's folder"
is "a link in place of a lifter's folder: it is a failure" failed "$(state_of 'Babrin Obrin')"

fresh
rm -rf "$work/links/lifters/Babrin-Obrin/plots"
ln -s "$work/victim/plots" "$work/links/lifters/Babrin-Obrin/plots"
sed 's|"report.txt":|"plots/keep.svg":|' "$work/good/lifters/Babrin-Obrin/state.json" >"$work/links/lifters/Babrin-Obrin/state.json"
run_links "$gym" "$work/links"
untouched "a link in place of the pictures' folder"

for name in ../../../victim/keep.txt "$work/victim/keep.txt" plots/../../../../victim/keep.txt plots/; do
    fresh
    sed "s|\"report.txt\":|\"$name\":|" "$work/good/lifters/Babrin-Obrin/state.json" >"$work/links/lifters/Babrin-Obrin/state.json"
    run_links "$gym" "$work/links"
    untouched "a state that names $name"
done

for name in index.html team.csv findings.csv refused.csv lifters/Babrin-Obrin/state.json lifters/Babrin-Obrin/report.html lifters/.Babrin-Obrin.failed; do
    fresh
    rm -f "$work/links/$name"
    ln -s "$work/victim/keep.txt" "$work/links/$name"
    run_links "$gym" "$work/links"
    untouched "a link in place of $name"
    [ ! -L "$work/links/$name" ]
    check "a link in place of $name: the file has taken its place" $?
done

fresh
rm -f "$work/links/team.sqlite"*
cp "$work/good/team.sqlite" "$work/theirs.sqlite" && cksum <"$work/theirs.sqlite" >"$work/sum-1"
ln -s "$work/theirs.sqlite" "$work/links/team.sqlite"
run_links "$gym" "$work/links"
is "a link in place of the store: status" 3 "$status"
cksum <"$work/theirs.sqlite" | cmp -s - "$work/sum-1"
check "a link in place of the store: it is not followed" $?

# Pipes: whoever opens one waits for ever.
for name in team.csv findings.csv refused.csv index.html team.sqlite .lock lifters/.Babrin-Obrin.failed lifters/.Babrin-Obrin.lock \
    lifters/Babrin-Obrin/state.json lifters/Babrin-Obrin/findings.csv lifters/Babrin-Obrin/loads.csv; do
    for how in "" --gather "--lifter=Babrin Obrin"; do
        fresh
        rm -f "$work/links/$name"
        mkfifo "$work/links/$name"
        if [ -n "$how" ]; then run_links "$gym" "$work/links" "$how"; else run_links "$gym" "$work/links"; fi
        [ "$status" -ne 124 ] && [ "$status" -lt 128 ]
        check "a pipe in place of $name, $how: the run ends (status $status)" $?
    done
done

# A log that is none: a hole of a terabyte is its lifter's trouble alone.
if truncate -s 1T "$work/team/logs/huge.csv" 2>/dev/null; then
    sed 's|^log = logs/00002.csv|log = logs/huge.csv|' "$gym" >"$work/team/huge.ini"
    run_links "$work/team/huge.ini" "$work/huge"
    is "a log of a terabyte: status" 3 "$status"
    is "a log of a terabyte: the others are done" 5 "$(grep -c 'state=done' "$work/err")"
    grep -q 'lifter="Dobrin Obrin" state=failed.*larger than 4 GiB' "$work/err"
    check "a log of a terabyte: it is said" $?
    rm -f "$work/team/logs/huge.csv"
else
    skip "no file system for a large hole here"
fi
