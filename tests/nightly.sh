#!/bin/sh
# make check-nightly: what takes too long for each change. valgrind over the commands, how their work grows, ten minutes of each fuzzer (FUZZ_SECONDS), threads under
# ThreadSanitizer, places of model and analysis changed (MUTANTS), other machines (MACHINES), a cluster, the statistics of another program. What a machine lacks is left
# out, which is said; a part that fails fails all.
. "${TOP:?the source folder}/tests/check.sh"
logs=$TOP/samples/logs
seconds=${FUZZ_SECONDS:-600}

# Valgrind knows nothing of sanitizers.
if ! command -v valgrind >/dev/null; then
    echo "left out: valgrind is not here"
elif ! valgrind --error-exitcode=0 -q "$TAUTLINE" --version >/dev/null 2>&1; then
    echo "left out: this build does not run in valgrind"
else
    checked() { # ARGUMENT...
        valgrind -q --leak-check=full --show-leak-kinds=all --errors-for-leak-kinds=all --error-exitcode=99 \
            "$TAUTLINE" "$@" >"$work/out" 2>"$work/err" </dev/null
        status=$?
        [ "$status" -le 3 ] && pass || { fail "valgrind: $*"; grep '^==' "$work/err" | head -20; }
    }
    checked check "$logs"
    checked loads --format csv "$logs"
    checked trend --slopes --format json "$logs"
    checked waves "$logs"
    checked audit --format csv "$logs"
    checked report "$logs"
    checked report --html "$work/page.html" "$TOP/samples/plain/export.csv"
    checked plan --today 2026-11-02 "$logs" --lift squat
    checked plot --render none --into "$work/plots" "$logs"
    checked setup --gym "$TOP/samples/gym.ini" '100 kg + 2 chains/side'
    checked loads "$TOP/samples/refused.csv"
    checked check "$work/none"
    sh "$TOP/tests/growth.sh" >"$work/growth" 2>&1
    growth=$?
    [ "$growth" = 0 ] && pass || { fail "growth of work" && cat "$work/growth"; }
fi

# Errors of loads by as many draws as the goal names.
if SLOW=yes CK_DEFAULT_TIMEOUT=600 tests/unit/test_effect >"$work/out" 2>&1; then
    pass
else
    fail "the uncertainty of loads, drawn"
    tail -5 "$work/out"
fi

replays() { # the readers alone, over all that ever made them fall over
    for program in tests/fuzz/replay_*; do
        crashes=$TOP/tests/fuzz/crashes/${program##*/replay_}
        [ -x "$program" ] && [ -d "$crashes" ] && command -v valgrind >/dev/null || continue
        valgrind -q --leak-check=no --error-exitcode=99 "$program" "$crashes" >"$work/out" 2>&1 && pass ||
            { fail "valgrind: $program"; tail -20 "$work/out"; }
    done
}
replays

if ! command -v clang >/dev/null; then
    echo "left out: clang is not here, and with it the fuzzers"
else
    mkdir fuzzers 2>/dev/null
    top=$(cd "$TOP" && pwd)
    if (cd fuzzers && { [ -f Makefile ] || "$top/configure" --quiet --enable-fuzz CC=clang >"$work/out" 2>&1; } && make -s all >>"$work/out" 2>&1 &&
        make -s fuzz SECONDS="$seconds" >>"$work/out" 2>&1); then
        pass
    else
        fail "the fuzzers, in $(pwd)/fuzzers"
        tail -20 "$work/out"
    fi
fi

# Readers at work at the same time, watched: what ThreadSanitizer says of them stands among their diagnostics, which must be those of one.
mkdir threads 2>/dev/null
top=$(cd "$TOP" && pwd)
if ! (cd threads && { [ -f Makefile ] || "$top/configure" --quiet CFLAGS="-O1 -g -fsanitize=thread" >"$work/out" 2>&1; } &&
    make -s tautline >>"$work/out" 2>&1 && ./tautline --version >>"$work/out" 2>&1); then
    echo "left out: ThreadSanitizer does not run here"
elif TAUTLINE=$(pwd)/threads/tautline sh "$TOP/tests/jobs.sh" >"$work/out" 2>&1; then
    pass
else
    fail "readers at work together, under ThreadSanitizer"
    tail -40 "$work/out"
fi

# What only some systems have, left out: src/base/system.c does without.
mkdir fallbacks 2>/dev/null
missing=
for each in renameat2 getdents64 pipe2 memrchr syncfs sched_getaffinity prctl; do missing="$missing ac_cv_func_$each=no"; done
# shellcheck disable=SC2086 # words
if (cd fallbacks && { [ -f Makefile ] || "$top/configure" --quiet --disable-lto --enable-werror $missing ac_cv_have_decl_FNM_LEADING_DIR=no \
    ac_cv_member_struct_stat_st_mtim=no ac_cv_member_struct_stat_st_mtimespec=no >"$work/out" 2>&1; } &&
    make -s tautline >>"$work/out" 2>&1 && make -s check TESTS='tests/golden.sh tests/overwriting.sh tests/jobs.sh tests/team-night.sh' \
    check_PROGRAMS= >>"$work/out" 2>&1); then
    pass
else
    fail "a build that does without what only some systems have, in $(pwd)/fallbacks"
    tail -20 "$work/out"
fi

# Which of 60 changes of model and analysis does no test notice? Each night tries others; up to a twentieth may go unnoticed, and all that do are named.
if ! command -v python3 >/dev/null; then
    echo "left out: python3 is not here, and with it the changed places"
else
    make -s check-mutants >"$work/out" 2>&1
    noticed=$(sed -n 's/.* changes were noticed (\([0-9]*\) %).*/\1/p' "$work/out")
    [ "${noticed:-0}" -ge 95 ] && pass || fail "changed places that no test notices"
    tail -30 "$work/out"
fi

export ALLOCATIONS=all
if sh "$TOP/tests/team.sh" memory >"$work/out" 2>&1; then
    pass
else
    fail "team without memory"
    tail -20 "$work/out"
fi
for other in environment reference machines cluster; do
    sh "$TOP/tests/$other.sh" >"$work/out" 2>&1
    case $? in
    0) pass ;;
    77) echo "left out: $(tail -1 "$work/out")" ;;
    *) fail "$other"; tail -20 "$work/out" ;;
    esac
done
finish
