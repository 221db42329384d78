#!/bin/sh
# Seconds since 1970 of the sources, for what should come out the same whenever it is made: SOURCE_DATE_EPOCH where it is set, else what a
# tarball says of itself, else the last commit. The tarball goes first: it may lie unpacked within somebody else's repository.
cd "$(dirname "$0")/.." || exit 1
if [ -n "${SOURCE_DATE_EPOCH:-}" ]; then
    echo "$SOURCE_DATE_EPOCH"
elif [ -f .source-date ]; then
    cat .source-date
elif [ -e .git ] && git log -1 --format=%ct 2>/dev/null; then
    :
else
    echo "neither a tarball nor a git clone that can be read: set SOURCE_DATE_EPOCH to the date of these sources" >&2
    exit 1
fi
