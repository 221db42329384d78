# Sourced by house.sh: what a machine can see of the rules of the source tree.

rooms='base|model|reading|analysis|writing|commands'

climbing() { # SOURCES ROOM ROOMS: no file of ROOM includes one of ROOMS, however the include is spelled
    [ ! -d "$1/$2" ] || grep -rnE "^[[:space:]]*#[[:space:]]*include[[:space:]]*[<\"]($3)/" "$1/$2" --include='*.[ch]'
}

source_violations() { # SOURCES: of the text, one line each
    climbing "$1" base 'reading|model|analysis|writing|commands'
    climbing "$1" model 'reading|analysis|writing|commands'
    climbing "$1" analysis 'reading|writing|commands'
    climbing "$1" reading 'analysis|writing|commands'
    climbing "$1" writing 'reading|model|analysis|commands'
    grep -rnE "^[[:space:]]*#[[:space:]]*include[[:space:]]*<($rooms)/" "$1" --include='*.[ch]' | sed 's/$/: a header of ours in angle brackets/'
    grep -rnE '^[[:space:]]*#[[:space:]]*include[[:space:]]*"([^"]*/)?\.\./' "$1" --include='*.[ch]' | sed 's/$/: an include names its folder, from src/'
    grep -rnE '^[[:space:]]*#[[:space:]]*include[[:space:]]*"[^/"]+"' "$1" --include='*.[ch]' | grep -vE '"(config\.h|diagnostics\.def|findings\.def)"' | sed 's/$/: an include names its folder, from src/'
    grep -rnE '^[[:space:]]*extern\b' "$1" --include='*.c' | sed 's/$/: declared in a .c file; include the header/'
    grep -rnE 'setlocale *\(' "$1" --include='*.c' | grep -v LC_CTYPE | sed 's/$/: the numeric locale stays C/'
    find "$1" -name '*.c' | sort | while read -r source; do
        header=${source%.c}.h
        [ -f "$header" ] || case $source in
        */commands/main.c | */plots_embedded.c) continue ;;
        */no_workbook.c | */no_report_workbook.c) continue ;; # what workbook_log.h and report_workbook.h say, where workbooks are left out
        *) echo "$source: no header of its name" && continue ;;
        esac
        first=$(grep -m 1 '^#include' "$source")
        [ "$first" = "#include \"${header#"$1"/}\"" ] || echo "$source: does not include its own header first"
    done
    find "$1" -type d | while read -r folder; do
        count=$(find "$folder" -maxdepth 1 -name '*.c' | wc -l)
        [ "$count" -le 16 ] || echo "$folder: $count files in one folder"
    done
}

object_violations() { # SOURCES BUILD SYMBOLS RULES: of the objects in BUILD/src that still have a source; SYMBOLS is a file to work in
    (cd "$2" && find src -name '*.o' | while read -r object; do
        [ -f "$1/$(echo "${object#src/}" | sed 's/o$/c/')" ] && echo "$object"
    done | xargs nm -A) 2>/dev/null >"$3"
    awk -f "$4" "$3" "$3"
}
