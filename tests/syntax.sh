#!/bin/sh
# The sources for a machine of 32 bits, looked over by the compiler and not built: no warning of ours may be one there. Takes seconds.
set -u
: "${TOP:?the source folder}" "${BUILD:?the build folder}"
work=$(mktemp -d) || exit 99
trap 'rm -rf "$work"' EXIT
mkdir "$work/gnu" && : >"$work/gnu/stubs-32.h" # which Debian keeps in libc6-dev-i386, with nothing in it that matters here
machine=$(${CC:-gcc} -print-multiarch 2>/dev/null)
flags="-std=gnu17 -m32 -msse2 -mfpmath=sse -fsyntax-only -Wall -Wextra -Wconversion -Wshadow -Werror -D_GNU_SOURCE -D_FILE_OFFSET_BITS=64 -D_TIME_BITS=64"
folders="-I$work -I/usr/include/$machine -I$TOP/src -I$BUILD/src -I$BUILD"
echo 'int main(void) { return 0; }' >"$work/none.c"
# shellcheck disable=SC2086 # flags are words
if ! ${CC:-gcc} $flags $folders "$work/none.c" 2>/dev/null; then
    echo "this compiler has no -m32: left out"
    exit 77
fi
passed=0 failed=0
for source in $(cd "$TOP" && find src -name '*.c' | sort); do
    # shellcheck disable=SC2086
    if ${CC:-gcc} $flags $folders "$TOP/$source"; then passed=$((passed + 1)); else failed=$((failed + 1)); fi
done
echo "$passed passed, $failed failed"
[ "$failed" = 0 ] && [ "$passed" -gt 0 ]
