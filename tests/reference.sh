#!/bin/sh
# make check-reference: the sample year's slopes, intervals, p-values, medians and regressions, held against R (Debian: r-base-core), and the
# logs as R's own write.csv exports them.
set -u
: "${TAUTLINE:?the program to test}" "${TOP:?the source folder}"
command -v Rscript >/dev/null || { echo "Rscript is not here: nothing is compared"; exit 77; }
work=$(mktemp -d) || exit 99
trap 'rm -rf "$work"' EXIT
export LC_ALL=C TZ=UTC NO_COLOR=1
logs=$TOP/samples/logs
# the sample logs hold bad lines on purpose: status 1
"$TAUTLINE" trend --format csv --today 2026-11-02 "$logs" >"$work/trend.csv" 2>/dev/null || [ $? = 1 ] || exit 1
"$TAUTLINE" trend --slopes --format csv --today 2026-11-02 "$logs" >"$work/slopes.csv" 2>/dev/null || [ $? = 1 ] || exit 1
"$TAUTLINE" loads --format csv --today 2026-11-02 "$logs" >"$work/loads.csv" 2>/dev/null || [ $? = 1 ] || exit 1
"$TAUTLINE" trend --velocity --format csv "$TOP/tests/golden/velocity-trend/log.txt" >"$work/velocity.csv" 2>/dev/null || exit 1
"$TAUTLINE" loads --format csv "$TOP/tests/golden/velocity-trend/log.txt" >"$work/velocity-loads.csv" 2>/dev/null || exit 1

for log in "$TOP"/samples/logs/tobin-*.csv "$TOP/samples/plain/export.csv"; do
    mkdir -p "$work/own" "$work/exported"
    # Lines that are refused are left out: R would fill what they lack with nothing.
    "$TAUTLINE" check --format csv --gym "$TOP/samples/gym.ini" "$log" 2>/dev/null | awk -F, '$4 == "error" { print $2 "d" }' >"$work/refused.sed"
    sed -f "$work/refused.sed" "$log" >"$work/own/log.csv"
    LC_ALL=C.UTF-8 Rscript --vanilla -e 'a <- commandArgs(TRUE); log <- read.csv(a[1], colClasses = "character", check.names = FALSE, na.strings = NULL)' \
        -e 'write.csv(log, a[2], row.names = FALSE)' "$work/own/log.csv" "$work/exported/log.csv" || exit 1
    for side in own exported; do
        (cd "$work/$side" && "$TAUTLINE" loads --format csv --gym "$TOP/samples/gym.ini" log.csv) 2>/dev/null | cut -d, -f3- >"$work/$side.csv"
    done
    [ "$(wc -l <"$work/own.csv")" -gt 10 ] && cmp "$work/own.csv" "$work/exported.csv" || { echo "$log: what R exports reads back otherwise"; exit 1; }
done
"$TAUTLINE" waves --format csv --today 2026-11-02 "$logs" >"$work/waves.csv" 2>/dev/null || [ $? = 1 ] || exit 1
"$TAUTLINE" waves --slopes --format csv --today 2026-11-02 "$logs" >"$work/wave-slopes.csv" 2>/dev/null || [ $? = 1 ] || exit 1
Rscript --vanilla "$TOP/tests/reference.R" "$work/trend.csv" "$work/slopes.csv" "$work/loads.csv" "$work/velocity.csv" "$work/velocity-loads.csv" \
    "$work/waves.csv" "$work/wave-slopes.csv"
