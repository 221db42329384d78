#!/bin/sh
# The nightly job: what it writes, what it skips, and what must not harm it. Each file under tests/team is one matter.
#   tests/team.sh [NAME...]      only these, as in: tests/team.sh kills disk
set -u
: "${TOP:?the source folder}" "${TAUTLINE:?the program to test}"
export LC_ALL=C TZ=UTC NO_COLOR=1
command -v sqlite3 >/dev/null || { echo "no sqlite3 here: skipped" && exit 77; }
scratch=$(mktemp -d) || exit 99
trap 'rm -rf "$scratch"' EXIT
. "$TOP/tests/team/lib.sh"
[ $# -gt 0 ] || set -- nights second gym logs links quiet faults kills disk store memory machines
for name in "$@"; do
    work="$scratch/$name" # none finds what another left
    mkdir "$work" && . "$TOP/tests/team/$name.sh"
    rm -rf "$work"
done
echo "$passed passed, $failed failed, $skipped skipped"
[ "$failed" = 0 ] && [ "$passed" -gt 0 ]
