# Allocations that find no memory, one after the other: in the night's own process, and in those that work for lifters. ALLOCATIONS=all
# (make check-nightly) tries each of theirs and one in 23 of its own.

preload=$work/fail_malloc.so
mkdir -p "$work/small/logs"
for each in Ada Bor; do
    { echo 'date,lift,weight,reps' && for day in 05 12 19 26; do echo "2026-01-$day,squat,100 kg,5"; done; } >"$work/small/logs/$each.csv"
done
cat >"$work/small/gym.ini" <<'INI'
[lifter "Ada"]
log = logs/Ada.csv
[lifter "Bor"]
log = logs/Bor.csv
INI
gym="$work/small/gym.ini"

starve() { # AT: a night; its status in $status
    rm -rf "$work/starved"
    FAIL_MALLOC_AT=$1 FAIL_MALLOC_COUNT="$work/count" timeout 60 env LD_PRELOAD="$preload" "$TAUTLINE" team --gym "$gym" --into "$work/starved" \
        --today 2026-02-03 --render none --jobs 1 >"$work/out" 2>"$work/err" </dev/null
    status=$?
}

# What is wrong with what a starved night left; nothing: nothing.
judge_starved() {
    case $status in
    0 | 1) diff -r -x night.json -x 'team.sqlite*' "$work/fed" "$work/starved" ;;
    3 | 4) [ -s "$work/err" ] || echo "status $status without a word" ;;
    *) echo "status $status: $(head -1 "$work/err")" ;;
    esac
    [ $status != 3 ] || grep -q 'state=failed' "$work/err" || grep -q '^tautline: ' "$work/err" || echo "status 3, and no reason given"
    for each in "$work"/starved/lifters/*; do
        # the state comes last: without it, the next night makes the folder again
        [ ! -e "$each" ] || diff -r "$work/fed/lifters/${each##*/}" "$each" | grep -v '^Only in .*/fed/.*: state.json$'
    done
    for each in index.html team.csv night.json; do # of a night that does not know all lifters they are others
        [ ! -e "$work/starved/$each" ] || [ -s "$work/starved/$each" ] || echo "$each is empty"
    done
    [ ! -e "$work/starved/index.html" ] || tail -c 9 "$work/starved/index.html" | grep -q '</html>' || echo "index.html is cut"
    for each in "$work"/starved/lifters/.*.new "$work"/starved/.*.tmp; do
        [ ! -e "$each" ] || [ $status = 3 ] || echo "left behind: $each"
    done
    LD_PRELOAD='' "$TAUTLINE" team --gym "$gym" --into "$work/starved" --today 2026-02-03 --render none >/dev/null 2>&1
    diff -r -x night.json -x 'team.sqlite*' -x .lock -x '.*.failed' -x index.html -x team.csv "$work/fed" "$work/starved"
}

starving() { # TEXT STEP LAST
    at=1 bad=0 tried=0
    while [ $at -le "$3" ]; do
        starve $at
        tried=$((tried + 1))
        wrong=$(judge_starved 2>&1)
        if [ -n "$wrong" ]; then
            bad=$((bad + 1))
            [ $bad -gt 5 ] || echo "$1: allocation $at: $wrong" | head -20
        fi
        at=$((at + $2))
    done
    [ $bad = 0 ] && [ $tried -gt 3 ]
    check "$1: $bad of $tried nights went wrong" $?
}

if ${CC:-cc} -shared -fPIC -O1 -o "$preload" "$TOP/tests/tools/fail_malloc.c" -ldl -lpthread 2>/dev/null &&
    FAIL_MALLOC_COUNT="$work/count" LD_PRELOAD="$preload" "$TAUTLINE" --version >/dev/null 2>&1 && [ -s "$work/count" ]; then
    starve 0
    most=$(cat "$work/count")
    rm -rf "$work/fed" && mv "$work/starved" "$work/fed"
    own=1 # allocations of a process that works for lifters: as many as one that has no more fails of
    while export FAIL_MALLOC_IN=children && starve $own && [ "$status" = 3 ]; do own=$((own + 50)); done
    unset FAIL_MALLOC_IN
    for once in '' yes; do
        [ -z "$once" ] || export FAIL_MALLOC_ONCE=yes
        step=$((most / 8)) && [ "${ALLOCATIONS:-some}" != all ] || step=23
        starving "no memory${once:+ once}" $step "$most"
        step=83 && [ "${ALLOCATIONS:-some}" != all ] || step=1
        export FAIL_MALLOC_IN=children
        starving "no memory${once:+ once} for lifters" $step $own
        unset FAIL_MALLOC_IN
    done
    unset FAIL_MALLOC_ONCE
else
    skip "no library can be preloaded here"
fi
