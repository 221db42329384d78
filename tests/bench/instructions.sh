#!/bin/sh
# Instructions that trend and loads take on 50,000 rows, and report on 10,000 sets of one lifter, beside those kept in instructions.txt: a
# rise over 5 % fails. Counts are steady where times are not. ACCEPT=yes writes the new counts; see README.md.
set -eu
export PYTHONDONTWRITEBYTECODE=1
here=$(cd "$(dirname "$0")" && pwd)
work=${1:-bench-work} kept=$here/instructions.txt rows=50000 limit=105
command -v valgrind >/dev/null || { echo "needs valgrind: see README.md" >&2; exit 1; }
mkdir -p "$work"
cd "$work"
python3 "$here/gen_log.py" --rows "$rows" -o "log-$rows.csv" # anew: the generator may have changed
rm -rf one
python3 "$here/gen_log.py" --athletes 1 --sets 10000 --miss 4 --start 2016-01-04 -o one
[ "${ACCEPT:-}" != yes ] || : >"$kept.new"
worse=0
for command in trend loads report; do
    case $command in
    report) set -- report one ;;
    *) set -- "$command" --format csv "log-$rows.csv" ;;
    esac
    valgrind --tool=callgrind --callgrind-out-file="callgrind.$command" "$TAUTLINE" "$@" --jobs 1 --today 2026-04-01 >/dev/null 2>valgrind.txt
    now=$(sed -n 's/.*refs: *//p' valgrind.txt | tr -d ,)
    was=$(sed -n "s/^$command //p" "$kept")
    echo "$command: $now instructions, $((now * 100 / ${was:-$now})) % of those kept"
    [ -z "$was" ] || [ "$((now * 100))" -le "$((was * limit))" ] || worse=1
    [ "${ACCEPT:-}" != yes ] || echo "$command $now" >>"$kept.new"
done
if [ "${ACCEPT:-}" = yes ]; then
    mv "$kept.new" "$kept"
elif [ $worse = 1 ]; then
    echo "more than 5 % above what is kept: callgrind_annotate $work/callgrind.trend shows where; README.md says how to accept it" >&2
    exit 1
fi
