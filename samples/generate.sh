#!/bin/sh
# Writes the logs of the invented gym again, next to this script or into the folder named. Every awk gives the same bytes.
#   generate.sh [FOLDER]        AWK=gawk generate.sh /tmp/samples
set -eu
here=$(cd "$(dirname "$0")" && pwd)
into=${1:-$here}
mkdir -p "$into/logs" "$into/plain"
LC_ALL=C "${AWK:-awk}" -v gym="$here/gym.ini" -v into="$into" -f "$here/generate.awk"
