#!/bin/sh
# The world around: locales, time zones, homes, closed and full outputs, broken pipes, little memory, and no memory at each single
# allocation. The answer is the same, or a clean message and a status; nothing is half-written.
. "${TOP:?the source folder}/tests/check.sh"
logs=$TOP/samples/logs
small="$work/small.csv" # 20 rows with chains and bands
{ sed -n 1p "$logs/tobin-1.csv"; grep -iE 'chain|band' "$logs/tobin-1.csv" | sed -n '1,20p'; } >"$small"

# --- locales and time zones: the same bytes everywhere ------------------------------------------------------------------------------
answer() { # FILE: what three commands print, whatever the environment
    for arguments in "trend --format json" "report"; do
        # shellcheck disable=SC2086 # arguments are words
        "$TAUTLINE" $arguments --today 2026-11-02 "$logs"
    done >"$1" 2>&1
}
(export LC_ALL=C.UTF-8 && answer "$work/expected")
same() { # TEXT
    if cmp -s "$work/expected" "$work/got"; then pass; else fail "$1: the answer differs"; fi
}
for locale in C no_such.locale; do
    (export LC_ALL=$locale && answer "$work/got")
    same "LC_ALL=$locale"
done
for zone in Pacific/Kiritimati Etc/GMT+12 nonsense; do
    (export LC_ALL=C.UTF-8 TZ="$zone" && answer "$work/got")
    same "TZ=$zone"
done
comma=
if command -v localedef >/dev/null && [ -f /usr/share/i18n/locales/de_DE ]; then
    mkdir -p "$work/locales"
    localedef -c -i de_DE -f UTF-8 "$work/locales/de_DE.UTF-8" >/dev/null 2>&1
    [ -d "$work/locales/de_DE.UTF-8" ] && comma=yes
fi
if [ -n "$comma" ]; then
    (export LOCPATH="$work/locales" LC_ALL=de_DE.UTF-8 LANG=de_DE.UTF-8 && answer "$work/got")
    same "a locale with a decimal comma"
else
    echo "no decimal-comma locale can be made here: left out"
fi
(unset HOME LANG LC_ALL TERM && answer "$work/got")
same "no HOME, LANG, TERM"
mkdir "$work/home" && chmod 500 "$work/home"
(export HOME="$work/home" LC_ALL=C.UTF-8 && cd "$work/home" && answer "$work/got")
same "a read-only HOME and folder"
"$TAUTLINE" loads --format csv "$small" >"$work/expected-small" 2>/dev/null

# --- outputs that fail -----------------------------------------------------------------------------------------------------------------
for command in check loads trend waves audit report; do
    "$TAUTLINE" $command "$small" >&- 2>"$work/err"
    status=$?
    status_in "$command with closed output" 3
    said "$command with closed output" 'standard output'
    if [ -w /dev/full ]; then
        "$TAUTLINE" $command "$small" >/dev/full 2>"$work/err"
        status=$?
        status_in "$command into a full device" 3
        "$TAUTLINE" $command "$small" >/dev/null 2>/dev/full
        status=$?
        status_in "$command with full standard error" 0 1
        "$TAUTLINE" $command "$small" >"$work/out" 2>&-
        status=$?
        status_in "$command with closed standard error" 0 1
    fi
done
{ "$TAUTLINE" loads --format csv "$logs" 2>"$work/err"; echo $? >"$work/status"; } | head -1 >"$work/out"
status=$(cat "$work/status")
status_in "a reader that leaves after one line" 0 1 3
run --help
status_in "help" 0
"$TAUTLINE" --help >&- 2>"$work/err"
status=$?
status_in "help with closed output" 3
mkdir "$work/locked" && chmod 500 "$work/locked"
if [ "$(id -u)" != 0 ]; then # nothing is locked for root
    run loads --output "$work/locked/x.csv" "$small"
    status_in "a folder that cannot be written" 3
    run plot --render none --into "$work/locked/plots" "$small"
    status_in "plots where nothing can be written" 3
fi
run loads --output "$work/none/x.csv" "$small"
status_in "a folder that is not there" 3
: >"$work/file"
run plot --render none --into "$work/file" "$small"
status_in "plots into a file" 2 3
(ulimit -f 1 && exec "$TAUTLINE" loads --format csv --output "$work/kept.csv" "$logs") >/dev/null 2>"$work/err"
status=$?
ok "a result that is too large leaves nothing behind" test -z "$(find "$work" -maxdepth 1 -name '*kept.csv*')"
[ "$status" = 0 ] && fail "a result that was cut has status 0" || pass

# --- little memory --------------------------------------------------------------------------------------------------------------------
if (ulimit -v 300000 && "$TAUTLINE" --version) >/dev/null 2>&1; then
    for kilobytes in 9000 12000 15000 20000; do
        cp "$work/expected-small" "$work/result.csv"
        (ulimit -v $kilobytes && exec "$TAUTLINE" report --output "$work/result.csv" "$logs") >/dev/null 2>"$work/err"
        status=$?
        case $status in
        0 | 1) pass ;;
        127) pass ;; # the loader itself had no room
        4) if cmp -s "$work/expected-small" "$work/result.csv"; then pass; else fail "$kilobytes KB: half a result"; fi ;;
        *) fail "$kilobytes KB of memory: status $status: $(head -1 "$work/err")" ;;
        esac
    done
else
    echo "this build reserves too much address space: little memory is not tried"
fi

# --- no memory at each allocation ---------------------------------------------------------------------------------------------------------
no_memory() { # TEXT FIRST STEP ARGUMENT...: every STEPth allocation in turn
    text=$1 at=$2 step=$3
    shift 3
    FAIL_MALLOC_COUNT="$work/count" LD_PRELOAD="$preload" "$TAUTLINE" "$@" --output "$work/whole.out" >/dev/null 2>&1
    count=$(cat "$work/count") bad=0
    while [ "$at" -le "$count" ]; do
        echo untouched >"$work/result.out"
        FAIL_MALLOC_AT=$at LD_PRELOAD="$preload" "$TAUTLINE" "$@" --output "$work/result.out" >/dev/null 2>"$work/err"
        status=$?
        if [ "$status" -gt 4 ]; then
            bad=$((bad + 1))
            echo "$text: allocation $at of $count: status $status: $(head -1 "$work/err")"
        elif [ "$(cat "$work/result.out")" != untouched ] && ! cmp -s "$work/whole.out" "$work/result.out"; then
            bad=$((bad + 1))
            echo "$text: allocation $at of $count: another result, status $status"
        elif [ "$status" -ge 2 ] && ! [ -s "$work/err" ]; then
            bad=$((bad + 1))
            echo "$text: allocation $at of $count: status $status without a word"
        fi
        at=$((at + step))
    done
    if [ $bad = 0 ] && [ "$count" -gt 0 ]; then pass; else fail "$text: $bad of $count allocations"; fi
    ok "$text: nothing half-written is left" test -z "$(find "$work" -maxdepth 1 -name '.*.tmp')"
}
preload=$work/fail_malloc.so
if ${CC:-cc} -shared -fPIC -O1 -o "$preload" "$TOP/tests/tools/fail_malloc.c" -ldl 2>/dev/null &&
    FAIL_MALLOC_COUNT="$work/count" LD_PRELOAD="$preload" "$TAUTLINE" --version >/dev/null 2>&1 && [ -s "$work/count" ]; then
    for command in loads audit report; do
        no_memory "$command of 20 rows" 1 1 $command --today 2026-11-02 "$small"
    done
    no_memory "report of the sample year" 1 97 report --today 2026-11-02 "$logs"
else
    echo "no library can be preloaded into this build: memory that runs out is not tried"
fi
finish
