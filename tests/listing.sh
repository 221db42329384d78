#!/bin/sh
# A folder whose listing fails is not an empty folder: what could not be read is said, and nothing passes for the whole.
. "${TOP:?the source folder}/tests/check.sh"
preload=$work/fail_listing.so
if ! ${CC:-cc} -shared -fPIC -D_GNU_SOURCE -o "$preload" "$TOP/tests/tools/fail_listing.c" -ldl 2>"$work/err" ||
    ! LD_PRELOAD="$preload" "$TAUTLINE" --version >/dev/null 2>"$work/err" || [ -s "$work/err" ]; then
    echo "no library can be preloaded here (sanitizers want to come first): left out"
    exit 77
fi
mkdir -p "$work/logs/deep"
printf 'Date,Exercise,Weight (kg),Reps\n2026-01-05,Squat,100,5\n' >"$work/logs/a.csv"
printf 'Date,Exercise,Weight (kg),Reps\n2026-01-06,Squat,100,5\n' >"$work/logs/deep/b.csv"

failing() { # VARIABLE CALL ARGUMENT...
    variable=$1 call=$2
    shift 2
    env "$variable=$call" LD_PRELOAD="$preload" "$TAUTLINE" "$@" >"$work/out" 2>"$work/err" </dev/null
    status=$?
}

# Calls of readdir(): the folder's entries with . and .., and its end, then those of the folder below.
for command in check loads trend report audit; do
    for call in 1 2 5; do
        failing FAIL_READDIR_AT $call $command "$work/logs"
        status_in "$command, entry $call of the folder" 3
        said "$command, entry $call of the folder" 'logs: error: Input/output error'
        if grep -q 'No sets were read' "$work/out" "$work/err"; then fail "$command, entry $call: an empty folder, it says"; else pass; fi
    done
    failing FAIL_READDIR_AT 6 $command "$work/logs"
    status_in "$command, a folder below" 3
    said "$command, a folder below" 'logs/deep: error: Input/output error'
    failing FAIL_CLOSEDIR_AT 1 $command "$work/logs"
    status_in "$command, closing" 3
done
run check "$work/logs"
status_in "no fault" 0
finish
