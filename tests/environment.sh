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
    ok "$command with closed output says so" grep -q 'standard output' "$work/err"
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

# --- signals: a page in the making is gone with its program -------------------------------------------------------------------------------
mkdir "$work/bin" "$work/pages" "$work/tmp"
printf '#!/bin/sh\n: >"%s/drawing"\nexec sleep 60\n' "$work" >"$work/bin/gnuplot" && chmod +x "$work/bin/gnuplot"
for signal in TERM INT HUP; do
    rm -f "$work/drawing"
    echo untouched >"$work/pages/page.html"
    # env: what whoever runs this ignores stays ignored, as SIGINT is by a program in the background.
    env --default-signal=HUP,INT,TERM PATH="$work/bin:$PATH" TMPDIR="$work/tmp" "$TAUTLINE" report --html "$work/pages/page.html" "$small" >/dev/null 2>&1 &
    program=$! tries=0
    until [ -e "$work/drawing" ] || [ $tries = 200 ]; do sleep 0.05; tries=$((tries + 1)); done
    [ "$(ls -A "$work/tmp")" ] && [ "$(ls -A "$work/pages" | wc -l)" = 2 ] && pass || fail "SIG$signal came too early to tell"
    kill -s $signal $program
    wait $program 2>/dev/null
    status=$?
    [ $status -gt 128 ] && pass || fail "SIG$signal: status $status"
    ok "SIG$signal leaves no half page" test "$(ls -A "$work/pages")" = page.html
    ok "SIG$signal leaves the old page" test "$(cat "$work/pages/page.html")" = untouched
    ok "SIG$signal leaves no folder of drawings" test -z "$(ls -A "$work/tmp")"
done

# --- no memory at each allocation ---------------------------------------------------------------------------------------------------------
# Each command's result goes into $work/made, where an older one stands. Whichever allocation fails: the whole result or the old one, nothing
# beside it, a word on standard error, and a status that fits. ALLOCATIONS=all (make check-nightly) tries each one of each command.
step=41
[ "${ALLOCATIONS:-some}" = all ] && step=1
preload=$work/fail_malloc.so no_gnuplot=$work/none # pictures that are drawn have tests of their own
renew() {
    rm -rf "$work/made" && mkdir "$work/made" "$work/made/into"
    echo untouched >"$work/made/result"
}
judge() { # what is wrong with what is in $work/made after a run that ended with $status; nothing: nothing
    for found in "$work"/made/.[!.]* "$work"/made/into/.[!.]* "$work"/tmp/*; do
        [ -e "$found" ] && echo "left behind: ${found#"$work"/}"
    done
    if [ "$status" -gt 4 ]; then
        echo "status $status: $(head -1 "$work/err")"
    elif [ "$status" -ge 2 ] && ! [ -s "$work/err" ]; then
        echo "status $status without a word"
    elif [ "$status" -le 1 ]; then
        diff -rq "$work/whole" "$work/made"
    else
        [ "$(cat "$work/made/result")" = untouched ] || cmp "$work/whole/result" "$work/made/result"
        diff -rq "$work/whole/into" "$work/made/into" | grep -v '^Only in .*/whole'
    fi
}
no_memory() { # TEXT STEP ARGUMENT...: every STEPth allocation in turn, and all behind it or it alone
    text=$1 by=$2
    shift 2
    renew
    FAIL_MALLOC_COUNT="$work/count" LD_PRELOAD="$preload" PATH="$no_gnuplot" TMPDIR="$work/tmp" "$TAUTLINE" "$@" >/dev/null 2>"$work/err" </dev/null
    status=$?
    [ $status -le 1 ] || fail "$text: status $status: $(head -1 "$work/err")"
    rm -rf "$work/whole" && mv "$work/made" "$work/whole"
    count=$(cat "$work/count") bad=0 FAIL_MALLOC_AT=1
    while [ "$FAIL_MALLOC_AT" -le "$count" ]; do
        for alone in no yes; do
            renew
            if [ $alone = yes ]; then export FAIL_MALLOC_ONCE=yes; else unset FAIL_MALLOC_ONCE; fi
            export FAIL_MALLOC_AT
            LD_PRELOAD="$preload" PATH="$no_gnuplot" TMPDIR="$work/tmp" "$TAUTLINE" "$@" >/dev/null 2>"$work/err" </dev/null
            status=$?
            wrong=$(judge)
            [ -z "$wrong" ] && continue
            bad=$((bad + 1))
            [ $bad -gt 5 ] || echo "$text: allocation $FAIL_MALLOC_AT of $count, alone: $alone: $wrong"
        done
        FAIL_MALLOC_AT=$((FAIL_MALLOC_AT + by))
    done
    unset FAIL_MALLOC_AT FAIL_MALLOC_ONCE
    if [ $bad = 0 ] && [ "$count" -gt 0 ]; then pass; else fail "$text: $bad times with $count allocations"; fi
}
if ${CC:-cc} -shared -fPIC -O1 -o "$preload" "$TOP/tests/tools/fail_malloc.c" -ldl 2>/dev/null &&
    FAIL_MALLOC_COUNT="$work/count" LD_PRELOAD="$preload" "$TAUTLINE" --version >/dev/null 2>&1 && [ -s "$work/count" ]; then
    gym=$TOP/samples/gym.ini
    result=$work/made/result
    printf 'band,length (m),pull (kg)\nb29,1.04,0\nb29,1.2,12\nb29,1.6,27\nb29,2.0,38\n' >"$work/pulls.csv"
    no_memory "report of 20 rows" 1 report --today 2026-11-02 --gym "$gym" --output "$result" "$small"
    for command in check loads audit plan "trend --slopes" "trend --velocity" "waves --slopes" "loads --format json"; do
        # shellcheck disable=SC2086 # a command is words
        no_memory "$command of 20 rows" $step $command --today 2026-11-02 --gym "$gym" --output "$result" "$small"
    done
    no_memory "a page of 20 rows" $step report --today 2026-11-02 --gym "$gym" --html "$result" "$small"
    no_memory "pictures of 20 rows" $step plot --render none --into "$work/made/into" --today 2026-11-02 --gym "$gym" "$small"
    no_memory "setup" $step setup --gym "$gym" --output "$result" '100 kg + 2 chains/side + band b24'
    no_memory "setup --share" $((step * 499)) setup --gym "$gym" --share 20% --lift squat --lifter 'Tobin Rasker' --output "$result"
    no_memory "fit" $step fit --output "$result" "$work/pulls.csv"
    no_memory "report of the sample year" 97 report --today 2026-11-02 --gym "$gym" --output "$result" "$logs"
else
    echo "no library can be preloaded into this build: memory that runs out is not tried"
fi
finish
