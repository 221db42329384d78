#!/bin/sh
# The rules of the house that a machine can see: no include climbs, library code does not print or exit, numbers are read in one place.
set -u
src=${SRC:?the src folder}
passed=0 failed=0

rule() { # TEXT FINDINGS
    if [ -z "$2" ]; then
        passed=$((passed + 1))
    else
        failed=$((failed + 1))
        printf 'FAIL: %s\n%s\n' "$1" "$2"
    fi
}

never() { # ROOM ROOMS: no file of ROOM includes one of ROOMS
    rule "$1 does not know $2" "$(grep -rnE "^#include \"($2)/" "$src/$1" --include='*.[ch]')"
}

never base 'reading|model|analysis|writing|commands'
never model 'reading|analysis|writing|commands'
never analysis 'reading|writing|commands'
never reading 'analysis|writing|commands'
never writing 'reading|model|analysis|commands'

rule "model and analysis do no input or output" \
    "$(grep -rnE '\b(fopen|fprintf|printf|puts|fputs|fwrite|open|read|write) *\(' "$src"/model "$src"/analysis --include='*.c')"
rule "library code does not exit" "$(grep -rnE '\b(exit|_exit|err|errx) *\(' "$src"/base "$src"/reading "$src"/model "$src"/analysis --include='*.c' | grep -v 'abort()')"
rule "the numeric locale stays C" "$(grep -rnE 'setlocale *\(' "$src" | grep -v LC_CTYPE)"
rule "no function that forgets the size of its buffer" "$(grep -rnE '\b(strcpy|strcat|sprintf|gets|strtok) *\(' "$src" --include='*.c')"
rule "numbers are read by base/number.c" "$(grep -rnE '\b(strtod|atof|strtof|strtol|atoi) *\(' "$src" --include='*.c' | grep -v 'base/number.c')"
for c in $(find "$src"/base "$src"/reading "$src"/model "$src"/analysis "$src"/writing -name '*.c'); do
    own=${c#"$src"/}
    own=${own%.c}.h
    [ -f "$src/$own" ] || continue
    rule "$c includes its own header first" "$(grep -m 1 -n '^#include' "$c" | grep -v "\"$own\"")"
done

# The version: once in configure.ac, first in CHANGELOG.md, and what the program says.
top=$src/..
version=$(sed -n 's/^AC_INIT(\[tautline\], \[\([^]]*\)\].*/\1/p' "$top/configure.ac")
said=$("${TAUTLINE:?the program}" --version | sed -n 1p)
rule "--version says 'tautline $version' first" "$([ "$said" = "tautline $version" ] || echo "$said")"
rule "the version is of semantic versioning" "$(echo "$version" | grep -vxE '(0|[1-9][0-9]*)\.(0|[1-9][0-9]*)\.(0|[1-9][0-9]*)')"
newest=$(sed -n 's/^## \([^ ]*\).*/\1/p' "$top/CHANGELOG.md" | grep -v '^Unreleased$' | sed -n 1p)
rule "CHANGELOG.md begins with the version of configure.ac" "$([ "$newest" = "$version" ] || echo "$newest, not $version")"
for command in $("$TAUTLINE" --help | awk '/^Commands:/ { on = 1; next } on && !/^  / { exit } on { print $1 }'); do
    rule "CHANGELOG.md knows $command" "$(grep -q "^- \`$command\`" "$top/CHANGELOG.md" || echo "$command")"
done
echo "$passed passed, $failed failed"
[ "$failed" = 0 ]
