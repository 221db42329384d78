#!/bin/sh
# Every command line shown in README.md is run, and what it prints is compared with what is shown: `    $ COMMAND`, then the expected lines.
# A line `…` alone stands for any number of lines. Standard error is left out: it is in the golden files.
set -u
: "${TAUTLINE:?the program to test}" "${TOP:?the source folder}"
work=$(mktemp -d) || exit 99
trap 'rm -rf "$work"' EXIT
export LC_ALL=C.UTF-8 TZ=UTC NO_COLOR=1 HOME="$work"
cp -R "$TOP/samples" "$work/samples" && chmod -R u+w "$work"
passed=0 failed=0

# One file a command: the command in line 1, the expected output below.
awk -v into="$work/block" '
    /^    \$ / { count++; file = sprintf("%s-%03d", into, count); print substr($0, 7) > file; shown = 1; blank = 0; next }
    /^    / && shown { for (; blank > 0; blank--) print "" > file; print substr($0, 5) > file; next }
    /^$/ && shown { blank++; next } # within a block only if more of it follows
    { shown = 0 }
' "$TOP/README.md"

for block in "$work"/block-*; do
    [ -f "$block" ] || { echo "README.md shows no command"; exit 1; }
    sed -n 1p "$block" >"$work/command"
    command=$(sed "s|^tautline |\"\$TAUTLINE\" |" "$work/command")
    (cd "$work" && eval "$command") >"$work/got" 2>/dev/null
    sed 1d "$block" >"$work/expected"
    if awk -v expected="$work/expected" -f "$TOP/tests/shown.awk" "$work/got"; then
        passed=$((passed + 1))
    else
        failed=$((failed + 1))
        echo "FAIL: $(cat "$work/command")"
    fi
done
echo "$passed passed, $failed failed"
[ "$failed" = 0 ] && [ "$passed" -gt 0 ]
