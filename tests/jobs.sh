#!/bin/sh
# However many readers are at work, output, diagnostics and exit status are the same, byte for byte.
. "${TOP:?the source folder}/tests/check.sh"
cp -r "$TOP/samples/." "$work/samples"
odd=$work/odd
mkdir -p "$odd/deep/er" "$odd/empty"
cd "$work" || exit 99

csv() { # FILE ROW...: under the usual header
    file=$1
    shift
    printf '%s\n' "Date,Athlete,Exercise,Weight,Reps,RPE,Notes" "$@" >"$file"
}

# The same names in other spellings, so that the first in order counts; the same loads in other words; what is said once a run.
csv "$odd/a.csv" "2026-01-05,Oda  Brandvik,ZERCHER  squat,20 lb,5,8,+ 2 chains/side" '2026-01-05,ODA BRANDVIK,Zercher-Squat,100,5,,"swapped chains, later"' \
    "2026-01-06,Ilmar Holm,Squat,100,5,,+ band b77" "2026-01-07,Ilmar Holm,Squat,120%,1,," "2026-01-08,Ilmar Holm,Squat,60%,3,,"
csv "$odd/b.csv" "2026-01-05,oda brandvik,zercher squat,9.0718474,5,8,2 chains per side" "2026-01-09,Torvi Ask,Run,0,0,," "2026-01-09,torvi ask,pull-up,BW,8,," \
    "2026-02-30,Torvi Ask,Squat,100,5,," "2026-01-09,Torvi Ask,Squat,1x2x3,5,," "2026-01-09,Torvi Ask,Squat,100,5,99,"
csv "$odd/c.csv" "2026-01-06,Ilmar Holm,Squat,100,5,,+ band b77" "2026-01-06,Ilmar Holm,Squat,100,5,," "2026-01-08,ILMAR holm,squat,60%,3,,"
csv "$odd/deep/d.csv" "03/04/2026,Una,Squat,100,5,,"
csv "$odd/deep/e.csv" "2026-01-05,Una,Squat,100,5,,\"never closed"
csv "$odd/deep/er/f.csv" "2026-03-01,Vesna,\"Board Press (barbell) (barbell)\",80,3,,"
csv "$odd/deep/er/g.csv" "2026-03-02,vesna,board press (Barbell),80,3,,1 chain" "2026-03-02,Vesna,Banded Squat,80,3,,"
printf 'Datum;Athlet;\334bung;Gewicht;Wdh\n05.01.2026;Zo\353;Kniebeuge;102,5;5\n' >"$odd/h.csv"
printf 'Date;Athlete;Exercise;Weight;Reps\n05.01.2026;Zo\353;Squat;102,5;5\n06.01.2026;Zo\353;Squat;1.002,5;5\n' >"$odd/i.csv"
printf '2026-01-12\nlifter: Wendel\nsquat 100 + 2 chains/side: 5x3\nsquat 60%%: 2x5\nzercher squat 60: 3x8\nnot a line\nrun 5 km\n' >"$odd/j.txt"
printf '2026-01-12\nlifter: Wendel\nsquat 100 + 2 chains/side: 5x3\nsquat 60%%: 2x5\n' >"$odd/k.txt"
csv "$odd/carried.csv" "2026-01-12,Una,Squat,100,5,,2 chains/side" "2026-01-12,Una,Squat,100,5,," "2026-01-12,Una,Squat,110,5,," \
    '2026-01-13,Una,Squat,90,5,,"2 chains/side, last set without"' "2026-01-13,Una,Squat,90,5,," "2026-01-13,Una,Squat,90,5,,"
awk 'BEGIN { print "Date,Athlete,Exercise,Weight,Reps,RPE,Notes"
    for (i = 0; i < 900; i++) printf "2026-01-%02d,Stranger %d,Squat,%d,5,,%s\n", i / 60 + 1, i / 3 % 5, i % 7 ? 100 : 90, i % 3 ? "" : "2 chains/side" }' >"$odd/carried-far.csv"
printf 'Dear all,\nsee you.\n' >"$odd/letter"
printf 'and more\n' >"$odd/deep/letter"
: >"$odd/nothing"
csv "$odd/only-header.csv"
awk 'BEGIN { print "Date,Athlete,Exercise,Weight,Reps"
    for (i = 0; i < 30; i++) printf "2026-01-%02d,Stranger %d,Squat,x%d,5\n2026-01-%02d,Stranger %d,Lift %d,100,5\n", i % 28 + 1, i, i, i % 28 + 1, i, i % 7 }' >"$odd/strangers.csv"
sed 's/Stranger/STRANGER/; s/,100,/,102.5,/' "$odd/strangers.csv" >"$odd/strangers2.csv"
# Tables of other layouts, names and loads that the files above have, too, dates and lifts said once, years that the file's name says.
printf 'Date,Exercise,Set 1 Weight,Set 1 Reps,Set 2 Weight,Set 2 Reps,Notes\n2026-03-01,ZERCHER squat,100,5,110,,+ 2 chains/side\n,,60%%,3,,,\n' >"$odd/wide-groups.csv"
printf 'Date;zercher Squat;Board press;Notes\n1 Mar;102,5x5, 110x3;rest;chains\n8 Mar;;80x5\n' >"$odd/wide-lifts-2026.csv"
printf 'Exercise,01/02/2026,15/02/2026\nBanded squat,"100x5, 8ox3",120x1\n' >"$odd/deep/wide-dates.csv"
printf 'Date,Workout\n2026-01-05,"Squat: 100x5, 110x3; run 5 km; felt odd"\n' >"$odd/deep/wide-sessions.csv"
printf 'Week,Day,Exercise,Reps,Load\n1,1,squat,5,100\n' >"$odd/wide-no-start.csv"
printf 'Date,Exercise,Weight 1,Reps 1,Set 1\n2026-01-05,squat,100,5,100x5\n2026-01-06,squat,100,5,100x5\n' >"$odd/deep/wide-twice.csv"
printf 'Date,Exercise,Weight,Reps\n2026-05-04 speed,,,\n,Squat,80,2\n,,82.5,2\n\n,,85,2\n' >"$odd/date-rows.csv"
awk 'BEGIN { print "Date,Exercise,Weight,Reps"; for (i = 0; i < 3000; i++) printf "%s,%s,%d,5\n", i % 9 ? "" : sprintf("2026-%02d-%02d", i / 300 + 1, i / 9 % 28 + 1), i % 3 ? "" : "Lift " i % 7, 50 + i % 60 }' >"$odd/said-once.csv"
awk 'BEGIN { print "Date,Athlete,Exercise,Weight,Reps,RPE,Notes"
    for (i = 0; i < 9000; i++) printf "2026-01-%02d,Una,Squat,%d,5,,\n", i / 400 + 1, 60 + i % 60
    printf "2026-02-01,Una,Squat,100,5,,\"" ; for (i = 0; i < 120000; i++) printf "far too long"; print ""
    for (i = 0; i < 9000; i++) printf "2026-03-%02d,Una,Squat,%s,5,,\n", i / 400 + 1, i % 3000 ? 60 + i % 60 : "x" }' >"$odd/long-line.csv"
ln -s .. "$odd/deep/back"
ln -s ../a.csv "$odd/deep/again.csv"
ln -s nowhere "$odd/dangling"
mkfifo "$odd/pipe" 2>/dev/null
printf '[gym]\nunit = kg\n[lifter "Oda Brandvik"]\nlog = odd/a.csv\n[lifter "Ilmar Holm"]\nlog = odd/c.csv\nlog = odd/missing-*.csv\nlog = odd/*.txt\n' >"$work/some.ini"

result() { # JOBS COMMAND...: output, diagnostics and status in one file
    jobs=$1
    shift
    "$TAUTLINE" "$@" --jobs "$jobs" --today 2026-04-01 >"$work/result.$jobs" 2>"$work/stderr"
    echo "status $?" | cat "$work/stderr" - >>"$work/result.$jobs"
}

alike() { # COMMAND...
    result 1 "$@"
    [ "$(wc -l <"$work/result.1")" -gt 1 ] || fail "nothing came of $*"
    for each in 2 3 8; do
        result "$each" "$@"
        if diff "$work/result.1" "$work/result.$each" >"$work/diff"; then pass; else fail "$* with $each readers" && head -n 40 "$work/diff"; fi
    done
}

for command in check loads trend waves audit; do
    alike "$command" --format csv odd
    alike "$command" --format csv --gym some.ini odd
    alike "$command" --format json --gym some.ini
    alike "$command" --format csv samples/logs samples/plain samples/refused.csv
    alike "$command" --format csv odd/c.csv odd/a.csv nowhere odd/a.csv odd/deep odd/letter odd
done
alike report odd
alike report --gym some.ini odd
alike report samples/logs
alike trend --format csv --slopes odd
alike trend --format csv --columns week,lifter,sets odd
alike loads --format json --columns note,straight_kg,line odd
result 1 loads --format csv odd
grep -q "Board Press" "$work/result.1" && grep -q "ZERCHER squat" "$work/result.1" && pass || fail "the first spelling in order is not the one shown"

# One file read in stretches by several readers. What one record may tell about others far from it, and line ends where no record ends,
# stand in the middle, near the cuts.
mkdir "$work/one"
rows() { # COUNT AWK: rows of three lifters by day; the AWK may change `row`, a whole record without its line end, by `i`
    awk -v count="$1" 'BEGIN { split("Oda Brandvik|ILMAR Holm|Stranger", who, "|"); split("Squat|bench press|Banded Deadlift|Pull-up", what, "|")
        print "Date,Athlete,Exercise,Weight,Reps,RPE,Notes"
        for (i = 1; i <= count; i++) {
            row = sprintf("2026-%02d-%02d,%s,%s,%s,%d,%s,%s", i / 28 % 12 + 1, i % 28 + 1, who[i % 3 + 1], what[int(i / 2) % 4 + 1], 60 + i % 50 * 2.5, i % 7 + 1,
                i % 3 ? "" : 7.5, i % 5 ? i % 7 ? "" : "easy" : "2 chains/side + band b" i % 11)
            '"$2"'
            print row
        } }'
}
rows 700 '' >one/plain.csv
rows 700 'if (i % 9 == 0) row = row " and\r"; if (i % 50 == 0) row = row "\r\n\r"' | sed 's/$/\r/' >one/crlf.csv
rows 700 'if (i % 6 == 0) { sub(/,[^,]*$/, "", row); row = row ",\"a note\n2026-01-05,Oda Brandvik,Squat,100,5,8,of two \"\"lines\"\"\"" }' >one/lines.csv
rows 700 'if (i > 300 && i < 340) { sub(/,[^,]*$/, "", row); row = row ",\"a note"; for (k = 0; k < 60; k++) row = row "\n2026-01-05,Oda Brandvik,Squat,100,5,8,quoted"; row = row "\"" }' >one/all-lines.csv
rows 700 'if (i % 8 == 0) row = row "; swapped chains, later"; if (i % 40 == 0) sub(/,[0-9.]+,/, ",x1,", row); if (i % 90 == 0) sub(/2026-/, "2026-99-", row)' >one/refused.csv
rows 700 'if (i % 31 == 0) sub(/2026-../, "2026-02-30", row)' | sed 's/Squat,[0-9.]*/Squat,70%/' >one/percent.csv
rows 700 'if (i > 400) gsub(/-/, "/", row); if (i == 650) sub(/2026.../, "25/04/2026 ", row)' >one/unsettled.csv
rows 700 'if (i == 600) row = row " Zo\353"' >one/latin.csv
rows 700 'if (i == 500) row = row ",\"never closed"' >one/open.csv
rows 700 'if (i > 200 && i < 500) row = row "\n\n \n"' >one/blanks.csv
rows 700 'if (i % 20 == 0) sub(/Pull-up,[0-9.]*/, "Run,", row)' | sed 's/$/,81.5/; 1s/,81.5/,Bodyweight/' >one/body.csv
rows 700 '' | sed 's/$/,Odd/; 1s/Odd/Type/; 300,400s/Odd/Sly/' >one/kinds.csv
rows 700 '' | tr ',' ';' >one/semicolons.csv
rows 700 '' | tr ',' ';' | sed 's/\.5;/,5;/' >one/commas.csv
rows 700 '' | tr '\n' '\r' >one/cr.csv
printf '\357\273\277An export\n\n' | cat - one/plain.csv >one/titles.csv
head -c 20000 one/plain.csv >one/cut.csv
{ head -n 1 one/plain.csv && printf '\357\273\2772026-01-05,Oda Brandvik,Squat,100,5,8,marked\n' && sed 1d one/plain.csv; } >one/mark.csv
awk '{ print } NR % 200 == 0 { printf "2026-01-05,Oda Brandvik,Squat,x1,5,8,\"a note"
    for (i = 0; i < 7500; i++) print " of very many lines, each of which says as much as this one"
    print "\"" }' one/plain.csv >one/long.csv # records of 450 KB
# Lines before the header that look like records, enough of them for cuts.
{ awk 'BEGIN { for (i = 0; i < 15; i++) { printf "2026-01-05,Oda Brandvik,Squat,100,5,8,"; for (k = 0; k < 300; k++) printf "long ago, "; print "" } }' && cat one/refused.csv; } >one/late.csv
for each in one/*.csv; do
    alike check --format csv "$each"
    alike loads --format csv --gym some.ini "$each"
    alike trend --format csv "$each" odd
    alike trend --format csv --gym some.ini "$each"
    alike trend --format csv --gym samples/gym.ini "$each" # which knows none of the lifters: what is said of them is said once
done
alike audit --format csv --gym some.ini one/plain.csv
alike report one/refused.csv

# Pictures: a stand-in for gnuplot draws some at once, fails at some, and leaves what it was asked for.
mkdir "$work/bin"
cat >"$work/bin/gnuplot" <<'END'
#!/bin/sh
case $2 in
*-e1rm.gp) echo "no ink for $2"; exit 1 ;;
*) cksum "$2" >"${2%.gp}.svg" ;;
esac
END
chmod +x "$work/bin/gnuplot"
drawn() { # JOBS; one script cannot be written: a folder is in its place
    mkdir -p "$work/drawn.$1/into/corvin-ashdale-bench-press-set-ups.gp"
    cd "$work/drawn.$1" || exit 99
    PATH="$work/bin:$PATH" "$TAUTLINE" plot --into into --jobs "$1" --today 2026-11-02 "$work/samples/logs" >said 2>&1
    echo "status $?" >>said
    cd "$work" || exit 99
}
drawn 1
grep -q "no ink for" "$work/drawn.1/said" && grep -q "cannot be written" "$work/drawn.1/said" && ls "$work/drawn.1/into" | grep -q 'svg$' && pass ||
    fail "the stand-in for gnuplot was not asked"
for each in 2 7; do
    drawn "$each"
    if diff -r "$work/drawn.1" "$work/drawn.$each" >"$work/diff"; then pass; else fail "pictures drawn $each at a time" && head -n 40 "$work/diff"; fi
done
finish
