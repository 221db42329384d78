#!/bin/sh
# Does house.sh see what it is there for? A small tree that keeps the rules, then seventeen that break one each, are compiled and judged.
set -u
. "${TOP:?the source folder}/tests/house-rules.sh"
compiler=${CC:-cc}
command -v nm >/dev/null && command -v "${compiler%% *}" >/dev/null || { echo "no nm or no compiler"; exit 77; }
work=$(mktemp -d) || exit 1
trap 'rm -rf "$work"' EXIT
passed=0 failed=0

clean_tree() { # DIR
    for room in base reading/csv model analysis writing commands; do
        mkdir -p "$1/src/$room"
        name=$(basename "$room")
        printf 'int %s_value(int of);\n' "$name" >"$1/src/$room/$name.h"
        printf '#include "%s/%s.h"\n\nint %s_value(int of)\n{\n    return of + 1;\n}\n' "$room" "$name" "$name" >"$1/src/$room/$name.c"
    done
}

judge() { # DIR: what is wrong with it
    (cd "$1" && find src -name '*.c' | while read -r source; do
        $compiler -w -O0 -Isrc -c "$source" -o "${source%.c}.o" || echo "does not compile: $source"
    done)
    source_violations "$1/src"
    object_violations "$1/src" "$1" "$1/symbols" "$TOP/tests/house-rules.awk"
}

caught() { # WHAT FILE LINE...: the lines are added at the end of FILE
    tree=$work/$((passed + failed))
    what=$1 file=$2
    shift 2
    clean_tree "$tree"
    mkdir -p "$(dirname "$tree/src/$file")"
    printf '%s\n' "$@" >>"$tree/src/$file"
    found=$(judge "$tree" 2>/dev/null)
    case $found in
    "" | *"does not compile"*) failed=$((failed + 1)) && printf 'FAIL: not caught: %s\n%s\n' "$what" "$found" ;;
    *) passed=$((passed + 1)) ;;
    esac
}

clean_tree "$work/clean"
found=$(judge "$work/clean")
[ -z "$found" ] && passed=$((passed + 1)) || { failed=$((failed + 1)); printf 'FAIL: a clean tree is blamed\n%s\n' "$found"; }

caught "an include that climbs" analysis/analysis.c '#include "commands/commands.h"'
caught "an include that climbs, spelled with blanks" model/model.c '#  include "reading/csv/csv.h"'
caught "an include in angle brackets" writing/writing.c '#include <model/model.h>'
caught "an include by way of .." base/base.c '#include "base/../model/model.h"'
caught "an include without its folder" reading/csv/csv.c '#include "csv.h"'
caught "a subfolder's include that climbs" reading/csv/csv.c '#include "analysis/analysis.h"'
caught "an extern declaration" analysis/analysis.c 'extern int commands_value(int of);' 'int climbs(int of) { return commands_value(of); }'
caught "a symbol that climbs without an include" model/model.c 'int analysis_value(int of);' 'int climbs(int of) { return analysis_value(of); }'
caught "printf in reading" reading/csv/csv.c '#include <stdio.h>' 'void says(int of) { printf("%d\n", of); }'
caught "puts in analysis" analysis/analysis.c '#include <stdio.h>' 'void says(void) { printf("here\n"); }'
caught "a file opened in model" model/model.c '#include <fcntl.h>' 'int opens(void) { return open("x", 0); }'
caught "exit in writing" writing/writing.c '#include <stdlib.h>' 'void ends(void) { exit(1); }'
caught "strtoul in commands" commands/commands.c '#include <stdlib.h>' 'unsigned long reads(const char *s) { return strtoul(s, 0, 10); }'
caught "sscanf in base" base/base.c '#include <stdio.h>' 'int reads(const char *s, int *n) { return sscanf(s, "%d", n); }'
caught "strcpy in writing" writing/writing.c '#include <string.h>' 'char *copies(char *to, const char *s) { return strcpy(to, s); }'
caught "a .c file without a header of its name" analysis/other.c 'int other_value(int of) { return of; }'
caught "the numeric locale changed" commands/commands.c '#include <locale.h>' 'void changes(void) { setlocale(LC_ALL, ""); }'

echo "$passed passed, $failed failed"
[ "$failed" = 0 ]
