#!/bin/sh
# Ratios of tautline to the parse floor, on logs made here. TAUTLINE names the program; see README.md.
#   bench.sh [-w WORKDIR] [-n RUNS] [-r ROWS] [-d FILES] [-s SETS]
# defaults: ./bench-work, 5 runs, 1000000 rows, 2000 files (0: none), 30000 sets of one lifter (0: none)
set -eu
export PYTHONDONTWRITEBYTECODE=1
here=$(cd "$(dirname "$0")" && pwd)
work=bench-work runs=5 rows=1000000 files=2000 sets=30000
while getopts w:n:r:d:s: o; do
    case $o in
    w) work=$OPTARG ;; n) runs=$OPTARG ;; r) rows=$OPTARG ;; d) files=$OPTARG ;; s) sets=$OPTARG ;;
    *) sed -n '2,4s/^# \{0,1\}//p' "$0"; exit 2 ;;
    esac
done
for tool in python3 "${CC:-cc}" "${TAUTLINE:?names the program to measure}"; do
    command -v "$tool" >/dev/null || { echo "needs $tool: see README.md" >&2; exit 1; }
done
mkdir -p "$work"
cd "$work"
${CC:-cc} -O2 -o floor_libcsv "$here/floor_libcsv.c" -lcsv
[ -f "log-$rows.csv" ] || python3 "$here/gen_log.py" --rows "$rows" -o "log-$rows.csv"
[ "$files" = 0 ] || [ -d "dir-$files" ] || python3 "$here/gen_log.py" --athletes "$files" --sets 1000 -o "dir-$files"
athletes=$((rows / 5000))
mkdir -p gym # a folder of its own: beside the log it would be read for trend, too
python3 "$here/gen_gym.py" "$((athletes > 0 ? athletes : 1))" >gym/gym.ini

asked=lifter,lift,week,sets,lifts,volume_straight_kg,peak_straight_kg # as in weekly.py, whose mean weight is volume by lifts

totals() { # NAME LOG: the same sets, repetitions and volume as the reference, where one is kept
    want=$(sed -n "s/^$1 .*\(sets=.*\) max=.*/\1/p" "$here/expected_totals.txt")
    got=$("$TAUTLINE" trend --format csv "$2" 2>/dev/null >trend.csv || [ $? = 1 ]; python3 "$here/trend_totals.py" trend.csv)
    if [ -z "$want" ]; then
        echo "$1: $got (no reference is kept)"
    elif [ "$want" = "$got" ]; then
        echo "$1: $got, as expected"
    else
        echo "$1: $got, expected $want" >&2
        return 1
    fi
}

totals "rows-$rows" "log-$rows.csv"
[ -s "weekly-$rows.csv" ] || python3 "$here/weekly.py" "log-$rows.csv" >"weekly-$rows.csv"
"$TAUTLINE" trend --format csv --columns "$asked" "log-$rows.csv" 2>/dev/null >asked.csv || [ $? = 1 ]
python3 "$here/trend_rows.py" "weekly-$rows.csv" asked.csv
python3 "$here/ratios.py" "$runs" "./floor_libcsv log-$rows.csv" \
    "trend=$TAUTLINE trend --jobs 1 --format csv log-$rows.csv" "the same by two=$TAUTLINE trend --jobs 2 --format csv log-$rows.csv" \
    "what others answer, by two=$TAUTLINE trend --jobs 2 --format csv --columns $asked log-$rows.csv" \
    "loads=$TAUTLINE loads --jobs 1 --format csv --gym gym/gym.ini log-$rows.csv"
if [ "$files" != 0 ]; then
    totals "dir-$files" "dir-$files"
    python3 "$here/ratios.py" "$runs" "./floor_libcsv dir-$files" "trend, $files files=$TAUTLINE trend --jobs 1 --format csv dir-$files" \
        "the same by two=$TAUTLINE trend --jobs 2 --format csv dir-$files"
fi
if [ "$sets" != 0 ]; then
    [ -d "one-$sets" ] || python3 "$here/gen_log.py" --athletes 1 --sets "$sets" --miss 4 --start 2016-01-04 -o "one-$sets"
    one=one-$sets/athlete-00001.csv
    python3 "$here/ratios.py" "$runs" "./floor_libcsv $one" "report, one lifter=$TAUTLINE report $one" \
        "the same with a gym=$TAUTLINE report --gym gym/gym.ini $one"
    if command -v gnuplot >/dev/null; then
        plot="$TAUTLINE plot --gym gym/gym.ini --into pictures $one"
        $plot --render none >/dev/null 2>&1 || [ $? = 1 ]
        python3 "$here/ratios.py" "$runs" 'cd pictures; for each in *.gp; do gnuplot -d "$each"; done' "plot, to gnuplot=$plot --jobs 1" \
            "the same, two at a time=$plot --jobs 2"
    else
        echo "no gnuplot: plot is left out" >&2
    fi
fi
python3 "$here/ratios.py" 20 true "--version, to true=$TAUTLINE --version"
