#!/bin/sh
# Another program's CSV: the sample year goes into SQLite, which exports it with its own quoting and line ends; what is read must be equal.
. "${TOP:?the source folder}/tests/check.sh"
command -v sqlite3 >/dev/null || { echo "sqlite3 is not here: its export is not read"; exit 77; }
for log in "$TOP"/samples/logs/*.csv "$TOP"/samples/plain/export.csv; do
    name=$(basename "$log" .csv)
    mkdir -p "$work/$name/own" "$work/$name/exported"
    sed -n '/Exercise/,$p' "$log" >"$work/$name/own/log.csv" # from the header on: SQLite knows no titles above it
    # Lines that are refused are left out: SQLite would fill what they lack with nothing, and make good lines of them.
    (cd "$work/$name/own" && "$TAUTLINE" check --format csv --gym "$TOP/samples/gym.ini" log.csv 2>/dev/null) |
        awk -F, '$4 == "error" { print $2 "d" }' >"$work/refused.sed"
    sed -f "$work/refused.sed" "$work/$name/own/log.csv" >"$work/good.csv" && mv "$work/good.csv" "$work/$name/own/log.csv"
    # one column a header cell, all text; the delimiter is the log's own
    delimiter=$(sed -n 1p "$work/$name/own/log.csv" | tr -cd ';\t|,' | cut -c1)
    sqlite3 "$work/$name.db" 2>"$work/err" <<END
.separator "$delimiter" "\n"
.mode csv
.separator "$delimiter" "\n"
.import '$work/$name/own/log.csv' log
.headers on
.separator "$delimiter" "\r\n"
.once '$work/$name/exported/log.csv'
SELECT * FROM log ORDER BY rowid;
END
    (cd "$work/$name/own" && "$TAUTLINE" loads --format csv --gym "$TOP/samples/gym.ini" log.csv) >"$work/before.csv" 2>/dev/null
    (cd "$work/$name/exported" && "$TAUTLINE" loads --format csv --gym "$TOP/samples/gym.ini" log.csv) >"$work/after.csv" 2>/dev/null
    [ "$(wc -l <"$work/before.csv")" -gt 10 ] || fail "$name: nothing to compare"
    cut -d, -f3- "$work/before.csv" >"$work/a" && cut -d, -f3- "$work/after.csv" >"$work/b" # lines differ: blank ones are gone
    if cmp -s "$work/a" "$work/b"; then pass; else fail "$name: read back otherwise"; diff "$work/a" "$work/b" | head -4; fi
done
finish
