#!/bin/sh
# Golden files of the command line. A case is a folder under tests/golden: `cmd` (shell lines that use "$TAUTLINE"), its inputs, and what
# is expected: stdout, stderr, status, and every file under into/.
#
#   make check                              compares; prints the difference of each part
#   make golden-update CASES='waves-*'      rewrites what was expected; review it with git diff
#   make golden-new NAME=band-mismatch      makes a case with an empty expectation
#
# What the world varies is fixed: locale, time zone, home, and today (cases pass --today where it matters).
set -u
: "${TAUTLINE:?the program to test}" "${GOLDEN:?the folder of cases}"
update=${UPDATE:-} cases=${CASES:-*}
export LC_ALL=C TZ=UTC NO_COLOR=1 TAUTLINE
samples=$(cd "$GOLDEN/../../samples" && pwd) # each case sees them as samples/: no path of this machine gets into an expectation
SAMPLES=samples
export SAMPLES
work=$(mktemp -d) || exit 99
trap 'rm -rf "$work"' EXIT
export HOME="$work"
passed=0 failed=0

compare() { # EXPECTED GOT: also true where neither is there
    [ -e "$1" ] || [ -e "$2" ] || return 0
    if [ -n "$update" ]; then
        [ -s "$2" ] || { rm -f "$1"; return 0; }
        mkdir -p "$(dirname "$1")" && cp "$2" "$1"
        return 0
    fi
    [ -e "$1" ] || set -- /dev/null "$2"
    [ -e "$2" ] || set -- "$1" /dev/null
    diff -u "$1" "$2"
}

for case in "$GOLDEN"/$cases/; do
    name=$(basename "$case")
    [ -f "$case/cmd" ] || continue
    scratch="$work/$name"
    cp -R "$case" "$scratch" && rm -rf "$scratch/into" "$scratch/stdout" "$scratch/stderr" "$scratch/status"
    chmod -R u+w "$scratch"
    ln -s "$samples" "$scratch/samples"
    (cd "$scratch" && sh ./cmd >"$work/stdout" 2>"$work/stderr")
    echo $? >"$work/status"
    good=yes
    for part in stdout stderr status; do
        compare "$case/$part" "$work/$part" || good=no
    done
    [ -n "$update" ] && rm -rf "$case/into"
    for file in $( (cd "$scratch" && find into -type f ! -name '*.svg' ! -name '*.png' 2>/dev/null; cd "$case" && find into -type f 2>/dev/null) | sort -u); do
        compare "$case/$file" "$scratch/$file" || good=no
    done
    if [ $good = yes ]; then
        passed=$((passed + 1))
    else
        failed=$((failed + 1))
        echo "FAIL: $name"
    fi
done
echo "$passed passed, $failed failed"
[ "$failed" = 0 ] && [ "$passed" -gt 0 ]
