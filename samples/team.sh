#!/bin/sh
# Writes an invented team of any size: a gym file and its logs. Equal arguments give equal bytes with every awk.
#   team.sh [--lifters N] [--weeks W] [--seed S] FOLDER
set -eu
here=$(cd "$(dirname "$0")" && pwd)
lifters=20 weeks=26 seed=1 into=
while [ $# -gt 0 ]; do
    case $1 in
    --lifters) lifters=$2 && shift 2 ;;
    --weeks) weeks=$2 && shift 2 ;;
    --seed) seed=$2 && shift 2 ;;
    -*) echo "team.sh: no option $1; it takes --lifters, --weeks, --seed and a folder" >&2 && exit 2 ;;
    *) into=$1 && shift ;;
    esac
done
[ -n "$into" ] || { sed -n '2,3s/^# *//p' "$0" >&2; exit 2; }
mkdir -p "$into/logs"
LC_ALL=C "${AWK:-awk}" -v lifters="$lifters" -v weeks="$weeks" -v seed="$seed" -v into="$into" -f "$here/team.awk"
