# What a night writes, and a second one in which nothing changed.

team "$work/team"
gym="$work/team/gym.ini"
night "$gym" "$work/one"
is "a night in which lines were refused" "$([ -n "$(sed 1d "$work/one/refused.csv")" ] && echo 1 || echo 0)" "$status"
is "every lifter is done" 6 "$(grep -c 'state=done' "$work/err")"
for file in report.html report.txt loads.csv trend.csv waves.csv findings.csv refused.csv state.json; do
    is "each folder has $file" 6 "$(ls "$work"/one/lifters/*/$file | wc -l | tr -d ' ')"
done
is "each folder has scripts" 6 "$(for each in "$work"/one/lifters/*/plots; do ls "$each"/*.gp | sed 1q; done | wc -l | tr -d ' ')"
is "team.csv has a row a lifter" 7 "$(wc -l <"$work/one/team.csv" | tr -d ' ')"
is "nothing half made is left" "" "$(find "$work/one" -name '*.tmp' -o -name '*.new')"

"$TAUTLINE" loads --gym "$gym" --lifter "Babrin Obrin" --format csv "$work/team/logs/00001.csv" >"$work/loads" 2>"$work/err"
diff "$work/loads" "$work/one/lifters/Babrin-Obrin/loads.csv" >"$work/out"
check "a folder's loads.csv is what loads prints" $?
{ sed 1q "$work/one/lifters/Babrin-Obrin/findings.csv" && for each in Babrin Dobrin Febrin Gubrin Hibrin Jobrin; do
    sed 1d "$work/one/lifters/$each-Obrin/findings.csv"
done; } | diff - "$work/one/findings.csv" >"$work/out"
check "findings.csv is that of all folders" $?
is "the store has every set" "$(cat "$work"/one/lifters/*/loads.csv | grep -c '^/\|^[^f]')" "$(sqlite3 "$work/one/team.sqlite" 'SELECT count(*) FROM sets')"

cp -R "$work/one" "$work/before"
night "$gym" "$work/one" --new-findings
is "nothing changed: nothing is done" 6 "$(grep -c 'state=unchanged' "$work/err")"
sed 's/ and [0-9]* new//; s/first night.*//' "$work/before/index.html" >"$work/index-1"
diff -r -x night.json -x 'team.sqlite*' -x .lock -x index.html -x team.csv "$work/before" "$work/one" >"$work/out"
check "the second night's files are the first's" $?
is "no finding is new in the second night" 0 "$(sqlite3 "$work/one/team.sqlite" 'SELECT new_findings FROM nights WHERE id = 2')"
is "the first night's findings are the first night's" 1 "$(sqlite3 "$work/one/team.sqlite" 'SELECT DISTINCT night FROM findings')"

night "$gym" "$work/jobs" --jobs 3
same "three workers write what one writes" "$work/before" "$work/jobs"

night "$gym" "$work/jobs" --spreadsheet-safe
is "an option that changes what is in the files makes them anew" 6 "$(grep -c 'state=done' "$work/err")"

# A spreadsheet's apostrophe is the CSV's alone, and numbers get none.
cp -R "$work/team" "$work/signs"
printf "2026-03-02,squat,60 kg,3,5,,=felt light\n2026-03-02,bench press,40 kg,3,5,,'-quoted\n2026-03-02,=made up,kg,3,5,,\n" >>"$work/signs/logs/00001.csv"
night "$work/signs/gym.ini" "$work/safe" --spreadsheet-safe
night "$work/signs/gym.ini" "$work/meant"
is "--spreadsheet-safe: the CSV has it" 3 "$(grep -c ",'=felt light" "$work/safe/lifters/Babrin-Obrin/loads.csv")"
is "the store has the notes as they were written" "'-quoted =felt light" \
    "$(sqlite3 "$work/safe/team.sqlite" "SELECT DISTINCT note FROM set_rows WHERE note GLOB '*felt light' OR note GLOB '*quoted' ORDER BY 1" | tr '\n' ' ' | sed 's/ $//')"
for each in set_rows weeks waves findings refused; do
    sqlite3 "$work/safe/team.sqlite" "SELECT * FROM $each" >"$work/dump-1"
    sqlite3 "$work/meant/team.sqlite" "SELECT * FROM $each" | diff "$work/dump-1" - >"$work/out"
    check "the store's $each are those without --spreadsheet-safe" $?
done
{ sed 1q "$work/safe/lifters/Babrin-Obrin/findings.csv" && for each in Babrin Dobrin Febrin Gubrin Hibrin Jobrin; do
    sed 1d "$work/safe/lifters/$each-Obrin/findings.csv"
done; } | diff - "$work/safe/findings.csv" >"$work/out"
check "--spreadsheet-safe: findings.csv is that of all folders" $?

# A new heavy week raises a finding: told of the night it is there, and not after.
printf '2026-03-02,squat,30 kg,8,2,,\n2026-03-02,squat,60 kg + band b99,3,5,,\n2026-03-03,deadlift,90 kg,60,10,,\n' >>"$work/team/logs/00001.csv"
night "$gym" "$work/one" --new-findings
is "an edited log makes its own lifter's folder anew" "done" "$(state_of 'Babrin Obrin')"
is "and nobody else's" 5 "$(grep -c 'state=unchanged' "$work/err")"
[ "$(grep -c '^Babrin Obrin, ' "$work/out")" -gt 0 ] && ! grep -q '^Dobrin Obrin, ' "$work/out"
check "--new-findings lists what is new" $?
grep -q '^<strong>Babrin Obrin</strong>: \|<li><strong>Babrin Obrin</strong>, \|<summary><strong>Babrin Obrin</strong>: ' "$work/one/index.html"
check "and so does the page" $?
night "$gym" "$work/one" --new-findings
is "the night after, it is new no more" 0 "$(grep -c '^Babrin Obrin, ' "$work/out")"

# The clock: weeks that are over do not hang on today; going back changes nothing that going forth would not change back.
night "$gym" "$work/clock"
cp -R "$work/clock" "$work/clock-before"
night "$gym" "$work/clock" --today 2026-02-11
night "$gym" "$work/clock" --today 2031-01-01
is "years later nothing has changed for old logs" 6 "$(grep -c 'state=unchanged' "$work/err" | sed 's/^[0-9]*$/6/')"
night "$gym" "$work/clock" --today 2026-06-03
diff -r -x night.json -x 'team.sqlite*' -x .lock -x index.html -x team.csv "$work/clock-before" "$work/clock" >"$work/out"
check "a clock that went back and came again leaves the same files" $?
night "$gym" "$work/clock" --today 2026-06-04
is "another day after the last week is no news" 6 "$(grep -c 'state=unchanged' "$work/err")"
