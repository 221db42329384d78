# Shared by the shell tests: a scratch folder, counting, and a few ways to ask. Sourced, not run.
set -u
: "${TAUTLINE:?the program to test}" "${TOP:?the source folder}"
work=$(mktemp -d) || exit 99
trap 'chmod -R u+rwx "$work" 2>/dev/null; rm -rf "$work"' EXIT
export TZ=UTC NO_COLOR=1 HOME="$work"
passed=0 failed=0

pass() { passed=$((passed + 1)); }
fail() { # TEXT
    failed=$((failed + 1))
    echo "FAIL: $*"
}

check() { # TEXT STATUS [FILE]: FILE is shown where it failed
    if [ "$2" = 0 ]; then pass; else fail "$1"; [ $# -lt 3 ] || cat "$3"; fi
}

ok() { # TEXT COMMAND...: the command must succeed
    ok_text=$1
    shift
    if "$@" >/dev/null 2>&1; then pass; else fail "$ok_text"; fi
}

run() { # ARGUMENT...: runs the program; its output is in $work/out and $work/err, its status in $status
    "$TAUTLINE" "$@" >"$work/out" 2>"$work/err" </dev/null
    status=$?
}

status_in() { # TEXT STATUS...: the last status must be one of these
    status_text=$1
    shift
    for wanted in "$@"; do
        [ "$status" = "$wanted" ] && { pass; return; }
    done
    fail "$status_text: status $status, not $*"
    head -3 "$work/err"
}

said() { # TEXT PATTERN: a diagnostic must name it (check writes its own to standard output)
    if grep -qE "$2" "$work/out" "$work/err"; then pass; else fail "$1: not said: $2"; head -3 "$work/err"; fi
}

finish() {
    echo "$passed passed, $failed failed"
    [ "$failed" = 0 ] && [ "$passed" -gt 0 ]
}
