#!/bin/sh
# make check-static: gcc's analyzer and cppcheck over all sources. tests/analyzer.txt and tests/cppcheck.txt hold what they may say, each with its reason.
. "${TOP:?the source folder}/tests/check.sh"
some=no
build=$(pwd)
analyze() { # SOURCE NUMBER: what gcc says goes into err-NUMBER
    # shellcheck disable=SC2046 # options are words
    gcc $(sed -n "s|^${1#"$TOP"/} ||p" "$TOP/tests/analyzer.txt") -std=c17 -D_GNU_SOURCE -O1 -fanalyzer -fdiagnostics-path-format=none \
        -I"$TOP/src" -I"$build" -I"$build/src" -c -o "$work/object-$2.o" "$1" 2>"$work/err-$2" || echo "gcc ends with status $?" >>"$work/err-$2"
}
if gcc -fanalyzer -E -x c /dev/null >/dev/null 2>&1; then
    some=yes number=0 at_once=$(nproc 2>/dev/null || echo 1)
    sources=$(find "$TOP"/src -name '*.c')
    for source in $sources; do
        analyze "$source" $number &
        number=$((number + 1))
        [ $((number % at_once)) != 0 ] || wait
    done
    wait
    number=0
    for source in $sources; do
        if [ -s "$work/err-$number" ]; then fail "gcc -fanalyzer: ${source#"$TOP"/}"; cat "$work/err-$number"; else pass; fi
        number=$((number + 1))
    done
fi
if command -v cppcheck >/dev/null; then
    some=yes
    sed '/^#/d; /^$/d' "$TOP/tests/cppcheck.txt" >"$work/suppressions"
    # Jansson's loop is a macro of a header that cppcheck does not read.
    (cd "$TOP" && cppcheck -q --std=c11 --enable=warning,performance,portability --inline-suppr --suppressions-list="$work/suppressions" \
        --library=posix -D_GNU_SOURCE '-Djson_object_foreach(object,name,value)=while(json_object_iter_next(object,name,value))' -Isrc --error-exitcode=1 --template='{file}:{line}: {id}: {message}' src) >"$work/out" 2>&1 && pass ||
        { fail "cppcheck"; head -40 "$work/out"; }
fi
[ $some = yes ] || { echo "neither gcc nor cppcheck is here"; exit 77; }
finish
