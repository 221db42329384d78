# One lifter's trouble: pipes, workers that die, gnuplot that hangs, logs that go or grow while they are read.

team "$work/team"
gym="$work/team/gym.ini"

mkfifo "$work/team/logs/pipe.csv"
sed 's|^log = logs/00002.csv|log = logs/pipe.csv|' "$gym" >"$work/team/pipe.ini"
timeout 60 "$TAUTLINE" team --gym "$work/team/pipe.ini" --into "$work/pipe" --today 2026-06-03 --render none >"$work/out" 2>"$work/err"
is "a pipe for a log does not hang" 3 "$?"
is "its lifter failed" failed "$(state_of 'Dobrin Obrin')"
is "the others did not" 5 "$(grep -c 'state=done' "$work/err")"
rm "$work/team/logs/pipe.csv"

# The worker of one lifter is killed in the middle of its work.
gnuplot_stub <<'STUB'
for last; do :; done
case $last in *dobrin*) kill -9 $PPID ;; esac
STUB
drawn_night "$gym" "$work/killed"
is "a worker was killed: status" 3 "$status"
is "a worker was killed: its lifter failed" failed "$(state_of 'Dobrin Obrin')"
grep -q 'signal 9' "$work/err"
check "a worker was killed: why is said" $?
is "a worker was killed: the others are done" 5 "$(grep -c 'state=done' "$work/err")"
grep -q '^Dobrin Obrin,Dobrin-Obrin,none,' "$work/killed/team.csv"
check "a worker was killed: team.csv says so" $?
gnuplot_stub </dev/null
drawn_night "$gym" "$work/killed"
drawn_night "$gym" "$work/undisturbed"
diff -r -x night.json -x 'team.sqlite*' -x .lock -x index.html -x team.csv "$work/killed" "$work/undisturbed" >"$work/out"
check "a worker was killed: the next night makes up for it" $?

# What shared logs do to their reader harms those who share them and nobody else: it dies, or stops, while it reads a large one.
cp -R "$work/team" "$work/shared"
awk 'BEGIN { for (i = 0; i < 1000000; i++) printf "2026-02-%02d,Hibrin Obrin,squat,%d,3,5,,\n", i % 27 + 1, 60 + i % 97 }' \
    >>"$work/shared/logs/team-export.csv"
for each in KILL:"signal 9" STOP:"longer than 3 s"; do
    "$TAUTLINE" team --gym "$work/shared/gym.ini" --into "$work/shared-out" --today 2026-06-03 --render none --jobs 1 --time-limit 3 \
        >"$work/out" 2>"$work/err" &
    victim=$! reader=
    while [ -z "$reader" ] && kill -0 $victim 2>/dev/null; do
        read -r reader _ 2>/dev/null <"/proc/$victim/task/$victim/children"
    done
    kill -"${each%%:*}" "$reader"
    wait $victim
    is "a reader of shared logs got ${each%%:*}: status" 3 "$?"
    is "a reader of shared logs got ${each%%:*}: those who share failed" 2 "$(grep -c "state=failed.*shares with others.*${each#*:}" "$work/err")"
    is "a reader of shared logs got ${each%%:*}: the others did not" 4 "$(grep -c 'state=done\|state=unchanged' "$work/err")"
done
rm -rf "$work/shared" "$work/shared-out"

# A gnuplot that hangs costs its pictures and nothing else.
gnuplot_stub <<'STUB'
exec sleep 1000
STUB
started=$(date +%s)
drawn_night "$gym" "$work/hung" --time-limit 8 --jobs 6
is "gnuplot hung: status" 3 "$status"
is "gnuplot hung: all folders are there" 6 "$(ls "$work"/hung/lifters/*/report.html | wc -l | tr -d ' ')"
[ $(($(date +%s) - started)) -lt 60 ]
check "gnuplot hung: in time" $?
grep -q 'gnuplot took too long' "$work/hung/index.html"
check "gnuplot hung: the page says so" $?
diff "$work/hung/lifters/Babrin-Obrin/loads.csv" "$work/undisturbed/lifters/Babrin-Obrin/loads.csv" >"$work/out"
check "gnuplot hung: the tables are whole" $?

# A lifter who takes too long is ended; the others are not.
gnuplot_stub <<'STUB'
for last; do :; done
case $last in *gubrin*) kill -STOP $PPID ;; esac
STUB
drawn_night "$gym" "$work/late" --time-limit 9 --jobs 2
is "too late: status" 3 "$status"
grep -q 'lifter="Gubrin Obrin" state=failed.*longer than 9 s' "$work/err"
check "too late: it is said" $?
is "too late: the others are done" 5 "$(grep -c 'state=done' "$work/err")"

# A log grows while its lifter is worked on: tonight's folder is that of the log as it was read, tomorrow's of the whole log.
cp -R "$work/team" "$work/growing"
gnuplot_stub <<STUB
for last; do :; done
case \$last in *babrin*) ;; *) echo "<svg></svg>" >"\${last%.gp}.svg" && exit 0 ;; esac
[ -e "$work/grown" ] || { : >"$work/grown" && echo '2026-03-06,squat,100 kg,1,1,,' >>"$work/growing/logs/00001.csv"; }
STUB
rm -f "$work/grown"
drawn_night "$work/growing/gym.ini" "$work/grew" --jobs 1
grep -q 'Babrin Obrin" state=done.*changed while it was read' "$work/err"
check "a log grew: it is said" $?
is "a log grew: that is no failure" 0 "$(grep -c 'state=failed' "$work/err")"
drawn_night "$work/growing/gym.ini" "$work/grew" --jobs 1
is "a log grew: the next night reads it again" "done" "$(state_of 'Babrin Obrin')"
is "a log grew: and has the new line" 1 "$(grep -c '2026-03-06,' "$work/grew/lifters/Babrin-Obrin/loads.csv")"

# A log vanishes between the listing and its reading: its lifter keeps the last good night.
gnuplot_stub <<STUB
rm -f "$work/growing/logs/00002.csv"
STUB
cp -R "$work/grew/lifters/Dobrin-Obrin" "$work/dobrin"
echo '2026-03-06,squat,100 kg,1,1,,' >>"$work/growing/logs/00001.csv"
echo '2026-03-06,squat,100 kg,1,1,,' >>"$work/growing/logs/00002.csv"
drawn_night "$work/growing/gym.ini" "$work/grew" --jobs 1
is "a log vanished: status" 3 "$status"
is "a log vanished: its lifter failed" failed "$(state_of 'Dobrin Obrin')"
diff -r "$work/dobrin" "$work/grew/lifters/Dobrin-Obrin" >"$work/out"
check "a log vanished: the last good night stands" $?

# Two runs in one folder.
night "$gym" "$work/locked"
if command -v flock >/dev/null; then
    flock "$work/locked/.lock" sleep 3 &
    sleep 1
    night "$gym" "$work/locked"
    is "a second run gives up" 3 "$status"
    grep -q 'another run is using' "$work/err"
    check "and says why" $?
    night "$gym" "$work/locked" --wait
    is "with --wait it waits" 6 "$(grep -c 'state=unchanged' "$work/err")"
    wait
else
    skip "no flock(1) to hold the lock with"
fi
