#!/bin/sh
# make check-reference: the sample year's slopes, intervals, p-values, medians and regressions, held against R (Debian: r-base-core).
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
Rscript --vanilla "$TOP/tests/reference.R" "$work/trend.csv" "$work/slopes.csv" "$work/loads.csv" "$work/velocity.csv" "$work/velocity-loads.csv"
