# Many machines, and what starts the job at night.

team "$work/team"
gym="$work/team/gym.ini"
night "$gym" "$work/plain"
if command -v parallel >/dev/null && parallel --version 2>/dev/null | grep -q '^GNU parallel'; then
    sed -n 's/^\[lifter "\(.*\)"\].*/\1/p' "$gym" |
        parallel -j 2 "$TAUTLINE" team --gym "$gym" --into "$work/spread" --today 2026-06-03 --render none --lifter {} >"$work/out" 2>"$work/err"
else
    skip "no GNU parallel here: the lifters are worked on one after another"
    sed -n 's/^\[lifter "\(.*\)"\].*/\1/p' "$gym" | while IFS= read -r name; do
        "$TAUTLINE" team --gym "$gym" --into "$work/spread" --today 2026-06-03 --render none --lifter "$name" >"$work/out" 2>"$work/err"
    done
fi
[ ! -e "$work/spread/index.html" ] && [ ! -e "$work/spread/team.sqlite" ]
check "--lifter writes a folder and nothing else" $?
night "$gym" "$work/spread" --gather
is "--gather: status as the plain run's" 1 "$status"
same "--lifter for each and --gather write what the plain run writes" "$work/plain" "$work/spread"
rm -rf "$work/spread/lifters/Babrin-Obrin"
night "$gym" "$work/spread" --gather
is "--gather misses who is missing" 3 "$status"
grep -q '^Babrin Obrin,Babrin-Obrin,none,' "$work/spread/team.csv"
check "and says so" $?

# What a job said when it failed reaches the page that another makes.
cp -R "$work/plain" "$work/failed-1" && cp -R "$work/plain" "$work/failed-2"
mv "$work/team/logs/00002.csv" "$work/gone.csv"
night "$gym" "$work/failed-1"
night "$gym" "$work/failed-2" --lifter 'Dobrin Obrin'
is "a job that failed: status" 3 "$status"
night "$gym" "$work/failed-2" --gather
is "a job that failed: status of --gather" 3 "$status"
same "a job that failed: --gather writes what the plain run writes" "$work/failed-1" "$work/failed-2"
grep -q 'Dobrin Obrin.*,kept,.*no log matches' "$work/failed-2/team.csv" && grep -q 'no log matches' "$work/failed-2/index.html"
check "a job that failed: its message is on the page" $?
mv "$work/gone.csv" "$work/team/logs/00002.csv"
night "$gym" "$work/failed-2" --lifter 'Dobrin Obrin'
night "$gym" "$work/failed-2" --gather
is "a job that made up for it: nothing is new" 0 "$status"

for each in "" "--gym $gym" "--into $work/x" "--gym $gym --into $work/x LOG" "--gym $gym --into $work/x --lifter Nemo" "--gym $gym --into $work/x --gather --lifter Babrin"; do
    "$TAUTLINE" team $each >"$work/out" 2>"$work/err"
    is "wrong usage: team $each" 2 "$?"
done

# The Slurm script is the manual's, and each task of it does its part.
(cd "$work/team" && tautline() { printf '%s|' "$@"; } && SLURM_ARRAY_TASK_ID=2 SLURM_ARRAY_TASK_COUNT=3 && sed 's/^exec //' "$TOP/samples/nightly/tautline-team.slurm" >"$work/slurm" && . "$work/slurm") >"$work/out" 2>"$work/err"
is "the Slurm job of task 2" "team|--gym|gym.ini|--into|team|--part|2/3|--wait|--jobs|1|" "$(cat "$work/out")"
size=$(sed -n 's/^#SBATCH --array=1-\([0-9]*\)$/\1/p' "$TOP/samples/nightly/tautline-team.slurm")
[ "$size" -gt 0 ] && [ "$size" -lt 1001 ]
check "its array is within what Slurm takes by default" $?

# Parts: together all, each once, those who share a log together; a run for some says nothing of news.
"$TAUTLINE" team --gym "$gym" --list >"$work/all"
for i in 1 2 3; do
    "$TAUTLINE" team --gym "$gym" --list --part $i/3
done >"$work/parts"
is "parts: all of them, each once" "$(sort "$work/all")" "$(sort "$work/parts")"
for i in 1 2 3; do
    night "$gym" "$work/by-part" --part $i/3
    is "part $i: status" 0 "$status"
done
night "$gym" "$work/by-part" --gather --store "$work/elsewhere.sqlite"
is "parts: status of --gather" 1 "$status"
[ ! -e "$work/by-part/team.sqlite" ] && mv "$work/elsewhere.sqlite" "$work/by-part/team.sqlite"
check "--store: the store is there" $?
night "$gym" "$work/plain-2"
same "parts and --gather write what the plain run writes" "$work/plain-2" "$work/by-part"
printf 'Babrin Obrin\n\ndobrin obrin\n' >"$work/some"
night "$gym" "$work/from-file" --lifters-from "$work/some"
is "--lifters-from: those and nobody else" "Babrin-Obrin Dobrin-Obrin" "$(ls "$work/from-file/lifters" | tr '\n' ' ' | sed 's/ $//')"
echo Nemo >>"$work/some"
night "$gym" "$work/from-file" --lifters-from "$work/some"
is "--lifters-from: a name that is none" 2 "$status"

if command -v systemd-analyze >/dev/null; then
    cp "$TOP"/samples/nightly/*.service "$TOP"/samples/nightly/*.timer "$work"
    systemd-analyze verify --man=no "$work/tautline-team.service" "$work/tautline-team.timer" "$work/tautline-team-failed.service" >"$work/out" 2>"$work/err"
    check "systemd takes the units" $?
else
    skip "no systemd-analyze here"
fi
line=$(grep -v '^#\|^[A-Z]*=' "$TOP/samples/nightly/crontab")
is "the crontab has one line, of five times and a command" 1 "$(printf '%s\n' "$line" | grep -c '^[0-9*/,-]* [0-9*/,-]* [0-9*/,-]* [0-9*/,-]* [0-9*/,-]*  *[a-z]')"
mkdir -p "$work/home/gym" "$work/bin" && cp -R "$work/team/." "$work/home/gym" && ln -s "$TAUTLINE" "$work/bin/tautline"
(HOME="$work/home" PATH="$work/bin:$PATH" && export HOME PATH && sh -c "$(printf '%s\n' "$line" | sed 's/^[^ ]* [^ ]* [^ ]* [^ ]* [^ ]* *//; s/ --summary/ --render none&/')") >"$work/out" 2>"$work/err"
[ -s "$work/home/gym/team/index.html" ] && [ -s "$work/out" ]
check "the crontab's command does its work, and tells of refused lines" $?
