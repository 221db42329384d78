#!/bin/sh
# Workbooks on the command line: what is read of them, what is refused and how soon, and the workbook of a report, which is read back. SLOW=yes has
# LibreOffice open it too, where it is there.
. "${TOP:?the source folder}/tests/check.sh"
mkdir "$work/temporary" && export TMPDIR="$work/temporary" # of its own: others may be at work in /tmp
make_workbooks=$(dirname "$TAUTLINE")/tests/unit/test_workbook
if "$TAUTLINE" --version | grep -q 'Built without workbooks'; then
    printf 'PK\003\004' >"$work/year.xlsx"
    run loads "$work/year.xlsx"
    status_in "a workbook without workbooks" 3
    said "a workbook without workbooks" 'built without workbooks'
    run report --workbook "$work/report.xlsx" "$TOP/samples/logs"
    status_in "a report's workbook without workbooks" 2
    [ ! -e "$work/report.xlsx" ] && pass || fail "a workbook is there"
    finish
    exit
fi

# --- files that are something else, each in one line that says what ------------------------------------------------------------

other() { # NAME BYTES WORDS
    printf "$2" >"$work/$1"
    run loads --format csv "$work/$1"
    status_in "$1" 3
    said "$1" "error: $3.*: nothing in it was used"
    said "$1: what to do" 'hint: .*(CSV|unpack|plain text)'
    [ "$(grep -c ': error:' "$work/err")" = 1 ] && pass || fail "$1: not one line"
}
other old.xls '\320\317\021\340\241\261\032\341rest' 'an old binary workbook \(\.xls\), or one with a password'
other page.pdf '%%PDF-1.7\n' 'a PDF'
other picture.png '\211PNG\r\n\032\n' 'a picture \(PNG\)'
other picture.jpg '\377\330\377\340' 'a picture \(JPEG\)'
other year.csv.gz '\037\213\010' 'a file packed by gzip'
other logs.7z '7z\274\257\047\034' 'an archive \(7z\)'
run loads --format csv "$work"
status_in "a folder of them" 0 3
grep -q 'a PDF' "$work/err" && fail "a folder's PDF is said to be one" || pass

# --- workbooks that are made to hurt: within a second of the processor and 64 MiB ----------------------------------------------

sanitized=no
(ulimit -v 300000 && "$TAUTLINE" --version) >/dev/null 2>&1 || sanitized=yes
bounded() { # ARGUMENT...
    if [ $sanitized = yes ]; then
        "$TAUTLINE" "$@" >"$work/out" 2>"$work/err" </dev/null
    else
        (ulimit -t 1 && ulimit -v 65536 && exec "$TAUTLINE" "$@") >"$work/out" 2>"$work/err" </dev/null
    fi
    status=$?
}
if [ -x "$make_workbooks" ] && mkdir "$work/made" && "$make_workbooks" --write "$work/made"; then
    while read -r name words; do
        bounded loads --format csv "$work/made/$name"
        status_in "$name" 3
        said "$name" "error: .*$words"
    done <<'END'
bomb.xlsx more than 200 times its size
entities.ods declares a document type
deep.xlsx more than 64 deep
dots.xlsx a part of it is missing: .etc/passwd
cut.xlsx damaged or cut short
checksum.xlsx is damaged: CRC error
dimensions.xlsx rows beyond 1048576
columns.xlsx cells beyond column 4096
repeated.ods more than 16 million cells
END
    run loads --format csv --columns file,line,date,lift,reps,straight_kg "$work/made/good.xlsx"
    status_in "a good workbook" 1
    printf '%s\n' "file,line,date,lift,reps,straight_kg" "$work/made/good.xlsx:March,2,2026-03-02,squat,5,100" >"$work/expected"
    ok "what is read of it" cmp -s "$work/expected" "$work/out"
    said "the place of a bad cell" 'good\.xlsx:March!C3: error: '
    run check "$work/made/good.xlsx"
    said "check says so too" 'good\.xlsx:March!C3: error: '

    # A refused row is corrected beside the workbook, and a night over it is as one over an export.
    mkdir "$work/team"
    cp "$work/made/good.xlsx" "$work/team/oda.xlsx"
    printf '[gym]\nunit = kg\n[lifter "Oda Brandvik"]\nlog = oda.xlsx\n' >"$work/team/gym.ini"
    run team --gym "$work/team/gym.ini" --into "$work/night" --today 2026-04-01 --render none
    status_in "a night over a workbook" 1
    ok "the night names the cell" grep -q 'oda\.xlsx:March' "$work/night/refused.csv"
    run check --corrections "$work/team/corrections.csv" "$work/team/oda.xlsx"
    ok "the refused row is in the corrections" grep -q '^oda\.xlsx:March,3,"2026' "$work/team/corrections.csv"
    sed -i 's/^\(oda.xlsx:March,3,"[^"]*"\),,/\1,"2026-03-03,squat,105,5",/' "$work/team/corrections.csv"
    run loads --format csv --columns line,date,lift,reps,straight_kg "$work/team/oda.xlsx"
    status_in "a corrected workbook" 0
    printf '%s\n' line,date,lift,reps,straight_kg 2,2026-03-02,squat,5,100 3,2026-03-03,squat,5,105 >"$work/expected"
    ok "the corrected row is read" cmp -s "$work/expected" "$work/out"
    run team --gym "$work/team/gym.ini" --into "$work/night" --today 2026-04-02 --render none
    status_in "the night after" 0 1
    ok "a night reads the correction" [ "$(grep -c oda "$work/night/refused.csv")" = 0 ]
else
    echo "no test_workbook here: what it makes is left out"
fi

# --- the workbook of a report --------------------------------------------------------------------------------------------------

loads_of() { # FILE: what each set weighed, whatever file it came from
    "$TAUTLINE" loads --gym "$TOP/samples/gym.ini" --format csv --today 2026-11-25 \
        --columns date,lifter,lift,kind,reps,straight_kg,bottom_kg,top_kg,mean_kg "$@" 2>"$work/err"
}
run report --gym "$TOP/samples/gym.ini" --today 2026-11-25 --workbook "$work/report.xlsx" "$TOP/samples/logs"
status_in "a report's workbook" 0 1
[ -s "$work/report.xlsx" ] && pass || fail "no workbook"
cp "$work/report.xlsx" "$work/first.xlsx"
run report --gym "$TOP/samples/gym.ini" --today 2026-11-25 --workbook "$work/report.xlsx" "$TOP/samples/logs"
ok "the same logs make the same bytes" cmp "$work/first.xlsx" "$work/report.xlsx"
loads_of "$TOP/samples/logs" >"$work/from-logs"
loads_of "$work/report.xlsx" >"$work/from-workbook"
check "the sheet of sets gives the same loads" "$(cmp -s "$work/from-logs" "$work/from-workbook" && echo 0 || echo 1)" "$work/err"
diff "$work/from-logs" "$work/from-workbook" | head -10
ok "there are sets in it" [ "$(wc -l <"$work/from-workbook")" -gt 100 ]

printf 'Date,Exercise,Weight,Reps,Notes\n2026-01-05,=1+1,100 kg,5,"=HYPERLINK(""x"")"\n' >"$work/formula.csv"
run report --workbook "$work/formula.xlsx" "$work/formula.csv"
run loads --format csv --columns lift,note "$work/formula.xlsx"
ok "what looks like a formula is text" grep -q '^=1+1,' "$work/out"
run report --workbook "$work/nowhere/report.xlsx" "$work/formula.csv"
status_in "a workbook that cannot be written" 3
run report --workbook "$work/absent.xlsx" "$work/page.pdf"
status_in "no log" 3
[ ! -e "$work/absent.xlsx" ] && pass || fail "a workbook of nothing"
for twice in "--html $work/a.html" "--output $work/a.txt"; do
    run report --workbook "$work/a.xlsx" $twice "$work/formula.csv"
    status_in "--workbook and $twice" 2
done
run report --workbook "$work/report.pdf" "$work/formula.csv"
status_in "a workbook called .pdf" 2
[ -z "$(find "$work" -name 'tautline-??????')" ] && pass || fail "a temporary file is left"

# --- LibreOffice: opens it, cell by cell, and makes workbooks of its own --------------------------------------------------------

if [ -n "${SLOW:-}" ] && command -v soffice >/dev/null; then
    office() { # FORMAT FILE
        (cd "$work" && soffice -env:UserInstallation=file://"$work"/office --headless --convert-to "$1" --outdir "$work/office-out" "$2") >"$work/out" 2>"$work/err"
    }
    # Each sheet as CSV with the cells' own values, of all lifters and of each: what the command of its name says, cell by cell.
    set -- --gym "$TOP/samples/gym.ini" --today 2026-11-25 --log-unit kg
    books=
    for lifter in all Corvin Maren Tobin; do
        [ $lifter = all ] && only= || only="--lifter $lifter"
        # shellcheck disable=SC2086 # words
        "$TAUTLINE" report "$@" $only --workbook "$work/$lifter.xlsx" "$TOP/samples/logs" >/dev/null 2>&1
        books="$books $work/$lifter.xlsx"
        for sheet in "Verdicts waves --verdicts" "Waves waves" "Weeks trend" "Sets loads" "Findings audit"; do
            # shellcheck disable=SC2086
            "$TAUTLINE" ${sheet#* } "$@" $only --format csv "$TOP/samples/logs" >"$work/$lifter-${sheet%% *}.own.csv" 2>/dev/null
        done
    done
    # shellcheck disable=SC2086
    (cd "$work" && soffice -env:UserInstallation=file://"$work"/office --headless --convert-to \
        'csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,false,false,false,false,-1' --outdir "$work/office-out" $books) >"$work/out" 2>"$work/err"
    if command -v python3 >/dev/null; then
        python3 - "$work" <<'END' && pass || fail "LibreOffice's cells differ"
import csv, math, sys
def rows(path):
    with open(path, newline='', encoding='utf-8') as file:
        return list(csv.reader(file))
def number(text): # LibreOffice writes a cell shown in percent with its sign
    return float(text[:-1]) / 100 if text.endswith('%') else float(text)
compared = differing = 0
for lifter in ('all', 'Corvin', 'Maren', 'Tobin'):
    for sheet in ('Verdicts', 'Waves', 'Weeks', 'Sets', 'Findings'):
        own = rows(f'{sys.argv[1]}/{lifter}-{sheet}.own.csv')
        shown = rows(f'{sys.argv[1]}/office-out/{lifter}-{sheet}.csv')
        if len(own) != len(shown):
            differing += 1
            print(lifter, sheet, len(own), 'rows, not', len(shown))
        for line, (a, b) in enumerate(zip(own[1:], shown[1:])):
            for name, x, y in zip(own[0], a, b):
                if name == 'week':
                    continue # a week is its Monday in the sheet
                compared += 1
                try:
                    same = math.isclose(float(x), number(y), rel_tol=1e-8, abs_tol=1e-8)
                except ValueError:
                    same = x == y
                if not same:
                    differing += 1
                    if differing < 9:
                        print(lifter, sheet, line + 2, name, repr(x), repr(y))
print(compared, 'cells compared,', differing, 'differ')
sys.exit(differing > 0 or compared < 100000)
END
    fi
    # Opened and saved again by LibreOffice, it gives the same loads.
    office ods "$work/all.xlsx"
    loads_of "$work/office-out/all.ods" >"$work/from-office"
    check "the sheet of sets, saved by LibreOffice, gives the same loads" "$(cmp -s "$work/from-logs" "$work/from-office" && echo 0 || echo 1)" "$work/err"
    for format in xlsx ods; do
        printf 'Date,Exercise,Weight (kg),Reps\n2026-03-02,squat,100,5\n2026-03-02,squat,102.5,3\n2026-03-05,bench press,80,8\n' >"$work/plain.csv"
        office "$format" "$work/plain.csv"
        "$TAUTLINE" loads --format csv --columns date,lift,reps,straight_kg "$work/plain.csv" >"$work/expected" 2>/dev/null
        "$TAUTLINE" loads --format csv --columns date,lift,reps,straight_kg "$work/office-out/plain.$format" >"$work/got" 2>"$work/err"
        check "LibreOffice's .$format reads as the CSV does" "$(cmp -s "$work/expected" "$work/got" && echo 0 || echo 1)" "$work/err"
    done
else
    echo "LibreOffice is left to make check-recipes"
fi
finish
