# Logs that are shared, deleted, named badly.

team "$work/team"
gym="$work/team/gym.ini"

# Hibrin and Jobrin share an export. Somebody without a block, and somebody in a log that is not theirs.
printf '2026-02-02,Nobody Known,squat,100,3,5,,\n2026-02-02,Dobrin Obrin,squat,101,3,5,,\n2026-02-30,Hibrin Obrin,squat,100,3,5,,\n' >>"$work/team/logs/team-export.csv"
printf '2026-02-30,,squat,100,3,5,,"a\nbreak"\n' >>"$work/team/logs/team-export.csv"
night "$gym" "$work/one"
is "a lifter without a block makes status 1" 1 "$status"
grep -q '^no \[lifter\] block: Nobody Known, 3 sets$' "$work/out"
check "a lifter without a block is named" $?
grep -q '<li>Nobody Known: 3 sets</li>' "$work/one/index.html"
check "and stands on the page" $?
grep -q 'sets of Dobrin Obrin, whose own log' "$work/out"
check "sets in a log that is not theirs are told of" $?
is "a refused line that names a lifter stands there" 1 "$(grep -c '2026-02-30,Hibrin Obrin' "$work/one/lifters/Hibrin-Obrin/refused.csv")"
is "and with nobody else" 0 "$(grep -c '2026-02-30,Hibrin Obrin' "$work/one/lifters/Jobrin-Obrin/refused.csv")"
is "in all, it stands once" 1 "$(grep -c '2026-02-30,Hibrin Obrin' "$work/one/refused.csv")"
if command -v strace >/dev/null && strace -f -o "$work/trace" true 2>/dev/null; then
    rm -rf "$work/traced"
    strace -f -qq -e trace=openat -o "$work/trace" "$TAUTLINE" team --gym "$gym" --into "$work/traced" --today 2026-06-03 --render none >/dev/null 2>&1
    is "a shared export is opened to be digested and to be read, and no more" 2 "$(grep -c 'team-export.csv' "$work/trace")"
else
    skip "no strace to see how often a shared export is opened"
fi

# A deleted log takes exactly its own sets along.
mkdir "$work/two"
head -20 "$work/team/logs/00001.csv" >"$work/two/a.csv"
{ sed 1q "$work/team/logs/00001.csv" && sed 1,20d "$work/team/logs/00001.csv"; } >"$work/two/b.csv"
printf '[lifter "Una"]\nlog = *.csv\n' >"$work/two/gym.ini"
night "$work/two/gym.ini" "$work/una"
all=$(sqlite3 "$work/una/team.sqlite" 'SELECT count(*) FROM sets')
of_a=$(sqlite3 "$work/una/team.sqlite" "SELECT count(*) FROM sets WHERE file LIKE '%a.csv'")
rm "$work/two/a.csv"
night "$work/two/gym.ini" "$work/una" --accept Una
is "a deleted log's sets go" "$((all - of_a))" "$(sqlite3 "$work/una/team.sqlite" 'SELECT count(*) FROM sets')"
is "its file goes" 1 "$(sqlite3 "$work/una/team.sqlite" 'SELECT count(*) FROM files')"
rm "$work/two/b.csv"
night "$work/two/gym.ini" "$work/una"
is "with no log left, that is a failure" 3 "$status"
is "and the last good night stands" "$((all - of_a))" "$(sqlite3 "$work/una/team.sqlite" 'SELECT count(*) FROM sets')"
grep -q '^Una,Una,kept,' "$work/una/team.csv"
check "team.csv says kept" $?

# A lifter who leaves the gym file leaves the store; the folder stays and is named.
printf '[lifter "Duo"]\nlog = c.csv\n' >"$work/two/gym.ini"
printf 'date,lift,weight,reps\n2026-01-05,squat,100,5\n' >"$work/two/c.csv"
night "$work/two/gym.ini" "$work/una"
is "who left the gym file leaves the store" Duo "$(sqlite3 "$work/una/team.sqlite" 'SELECT name FROM lifters')"
[ -d "$work/una/lifters/Una" ] && grep -q '<li>Una</li>' "$work/una/index.html"
check "the folder stays and is named" $?

# Ten thousand files, and a folder that leads back to itself.
mkdir -p "$work/many/logs/deep"
awk -v into="$work/many/logs" 'BEGIN { for (i = 0; i < 10000; i++) { file = sprintf("%s/%05d.csv", into, i) # a day each
    printf "date,lift,weight,reps\n%d-%02d-%02d,squat,100,5\n", 1990 + int(i / 336), int(i / 28) % 12 + 1, i % 28 + 1 > file; close(file) } }'
ln -s ../.. "$work/many/logs/deep/back"
ln -s logs "$work/many/again"
printf '[lifter "Many"]\nlog = logs\nlog = again\n' >"$work/many/gym.ini"
night "$work/many/gym.ini" "$work/many-out"
is "ten thousand files and a loop of links: findings are new, nothing else" 1 "$status"
is "each of ten thousand files is read once" 10000 "$(sqlite3 "$work/many-out/team.sqlite" 'SELECT sum(n) FROM (SELECT count(DISTINCT file) AS n FROM sets)')"
night "$work/many/gym.ini" "$work/many-out"
is "and none of them the second night" unchanged "$(state_of Many)"
