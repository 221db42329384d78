#!/bin/sh
# Corrections beside logs: the same however many readers there are, in folders, from standard input, and night by night.
. "${TOP:?the source folder}/tests/check.sh"
cd "$work" || exit 99
mkdir -p logs/deep/er none
head='Date,Athlete,Exercise,Weight (kg),Reps'
for name in a b c d; do
    { echo "$head"; echo "2026-01-05,Oda,Squat,8o,5"; echo "2026-01-06,Oda,Squat,9$name,5"; echo "2026-01-07,Oda $name,Squat,100,5"; } >logs/$name.csv
done
cp logs/a.csv logs/deep/a.csv && sed -i 's/Squat/Bench press/' logs/deep/a.csv
cp logs/a.csv logs/deep/er/e.csv && sed -i 's/Squat/Deadlift/' logs/deep/er/e.csv
printf '2026-01-05\nlifter: Oda\nrow 8o: 3x5\n' >logs/f.txt
rows='file,line,record,correction,why'
{
    echo "$rows"
    for name in a b c; do echo "$name.csv,2,\"2026-01-05,Oda,Squat,8o,5\",\"2026-01-05,Oda $name,Squat,80,5\","; done
    echo 'd.csv,2,"2026-01-05,Oda,Squat,8o,5",-,'
    echo 'a.csv,2,"2026-01-05,Oda,Bench press,8o,5","2026-01-05,Oda,Bench press,60,5",'
    echo 'deep/er/e.csv,2,"2026-01-05,Oda,Deadlift,8o,5","2026-01-05,Oda,Deadlift,140,5",'
    echo 'f.txt,3,row 8o: 3x5,row 80: 3x5,'
    echo 'a.csv,9,gone,back,'
} >logs/corrections.csv
{ echo "$rows"; echo 'a.csv,2,"2026-01-05,Oda,Bench press,8o,5","2026-01-05,Oda,Bench press,65,5",'; } >logs/deep/corrections.csv

answer() { # ARGUMENT...: all that a run says, and its status
    "$TAUTLINE" "$@" 2>&1
    echo "status $?"
}
for command in 'loads --format csv' check 'check --format csv' report; do
    # shellcheck disable=SC2086 # words of the command
    answer $command --today 2026-02-01 --jobs 1 logs >one
    for jobs in 2 3 8; do
        # shellcheck disable=SC2086
        answer $command --today 2026-02-01 --jobs $jobs logs >many
        if cmp -s one many; then pass; else fail "$command with $jobs readers"; diff one many | head -5; fi
    done
done
"$TAUTLINE" loads --format csv --columns file,line,lift,straight_kg logs 2>/dev/null >got
has() { # TEXT LINE
    if grep -qx "$2" got; then pass; else fail "$1"; cat got; fi
}
has "beside the log" 'logs/a.csv,2,squat,80'
has "the nearest counts" 'logs/deep/a.csv,2,bench press,65'
has "by its path, from above" 'logs/deep/er/e.csv,2,deadlift,140'
has "a text log" 'logs/f.txt,3,row,80'
if grep -q 'd.csv,2' got; then fail "a record that is left out"; else pass; fi
"$TAUTLINE" check logs >said 2>&1
if grep -q 'corrections.csv:9:1: note: no record of a.csv' said; then pass; else fail "what matches nothing"; cat said; fi
if grep -q 'corrections.csv: CSV' said; then fail "corrections are read as a log"; else pass; fi

# By --corrections from elsewhere, and from standard input.
printf '%s\n-,2,"2026-01-05,Oda,Squat,8o,5","2026-01-05,Oda,Squat,70,5",\n' "$rows" >none/fixes.csv
"$TAUTLINE" loads --format csv --columns line,straight_kg --corrections none/fixes.csv - <logs/a.csv >got 2>/dev/null
has "standard input" '2,70'
run loads --corrections none/there-is-none.csv logs/a.csv
status_in "corrections that are not there" 3
run loads --corrections logs/a.csv logs/b.csv
status_in "corrections that are a log" 3
run check --corrections logs/a.csv logs/b.csv
status_in "corrections over a log" 3
if grep -q 8o logs/a.csv; then pass; else fail "a log was written over"; fi

# Filled in and written again: what is filled in stays, what is refused is added, once.
run check --corrections kept.csv logs/a.csv
cp kept.csv first.csv
run check --corrections kept.csv logs/a.csv
if cmp -s kept.csv first.csv && [ "$(wc -l <kept.csv)" = 3 ]; then pass; else fail "written twice"; cat kept.csv; fi
sed -i 's/8o,5",,/8o,5","2026-01-05,Oda,Squat,81,5",/' kept.csv
run check --corrections kept.csv logs/a.csv logs/b.csv
if [ "$(wc -l <kept.csv)" = 5 ] && grep -q 'Squat,81,5",' kept.csv; then pass; else fail "filled in, then written"; cat kept.csv; fi
run loads --corrections kept.csv --format csv --columns line,straight_kg logs/a.csv
if grep -qx '2,81' out; then pass; else fail "read as filled in"; cat out; fi

# A night notices that corrections changed.
printf '[lifter "Oda a"]\nlog = logs/a.csv\n' >gym.ini
night() {
    "$TAUTLINE" team --gym gym.ini --into team --render none --today 2026-02-01 >said 2>&1
    cut -d, -f2,14 team/lifters/Oda-a/loads.csv >got
}
night
has "a night reads them" '2,80'
sed -i 's/Oda a,Squat,80,5/Oda a,Squat,82,5/' logs/corrections.csv
night
has "the next night sees the change" '2,82'
finish
