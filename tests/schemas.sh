#!/bin/sh
# The JSON Schemas: the properties are the columns, in their order, and the words of an enumeration those of the program. Where Python's
# jsonschema is there, real output of every command is validated, and each schema must refuse what is wrong by one thing.
. "${TOP:?the source folder}/tests/check.sh"
: "${SCHEMAS_MADE:?the folder of the schemas that are made: of src/columns, and all those in pounds}"
schemas="$work/schemas"
mkdir "$schemas" && cp "$TOP"/src/schemas/*.json "$SCHEMAS_MADE"/*.json "$schemas"
gym="$TOP/samples/gym.ini" log="$TOP/samples/plain/export.csv" band="$TOP/tests/golden/fit-pair/b26.csv"
"$TAUTLINE" plan --format csv "$log" >"$work/plan.csv" 2>/dev/null

header() { # NAME OPTION: the columns of that table
    case $1 in
    check | loads | trend | waves | audit | plan) "$TAUTLINE" "$1" "$log" --format csv $2 ;;
    trend-* | waves-slopes | waves-verdicts) "$TAUTLINE" "${1%%-*}" "--${1#*-}" "$log" --format csv $2 ;;
    waves-plan) "$TAUTLINE" waves --plan "$work/plan.csv" "$log" --format csv $2 ;;
    setup) "$TAUTLINE" setup "60 kg" --gym "$gym" --format csv $2 ;;
    setup-curve) "$TAUTLINE" setup "60 kg" --gym "$gym" --heights "0.8 m 1.4 m" --curve csv $2 ;;
    setup-share) "$TAUTLINE" setup --share 20% --gym "$gym" --heights "0.8 m 1.4 m" --max "150 kg" --format csv $2 ;;
    fit) "$TAUTLINE" fit "$band" --format csv $2 ;;
    fit-compare) "$TAUTLINE" fit "$band" --compare --format csv $2 ;;
    esac 2>/dev/null | sed 1q | tr , '\n'
}

properties() { sed -n 's/^    "\([a-z0-9_]*\)": {.*/\1/p' "$1"; }
required() { sed -n '/"required": \[/,/\]/p' "$1" | sed 1d | grep -o '"[a-z0-9_]*"' | tr -d '"'; }

same() { # TEXT WANTED GOT: two files
    if [ -s "$2" ] && diff "$2" "$3" >"$work/diff"; then pass; else fail "$1" && cat "$work/diff"; fi
}

of_schema() { # FILE NAME [UNIT]
    header "$2" "${3:-}" >"$work/columns"
    properties "$1" >"$work/properties"
    required "$1" >"$work/required"
    same "$(basename "$1") has the columns of its table" "$work/columns" "$work/properties"
    same "$(basename "$1") requires them all" "$work/columns" "$work/required"
}
for each in "$schemas"/*.schema.json; do
    case $each in *-lb.schema.json) continue ;; esac
    name=$(basename "$each" .schema.json)
    of_schema "$each" "$name"
    # where a column has its unit in its name there is a second one, in pounds
    if grep -q _kg "$each"; then of_schema "$schemas/$name-lb.schema.json" "$name" "--unit lb"; fi
done

words() { # SCHEMA PROPERTY: the words of its enumeration, one a line
    sed -n "s/^    \"$2\": .*\"enum\": \[\(.*\)\]}.*/\1/p" "$schemas/$1.schema.json" | tr -d '" ' | tr , '\n'
}
words check id >"$work/got"
sed -n 's/^DIAG([A-Z_0-9]*, *[A-Z]*, *"\([a-z0-9-]*\)".*/\1/p' "$TOP/src/diagnostics.def" >"$work/wanted"
same "check names the diagnostics of src/diagnostics.def" "$work/wanted" "$work/got"
words audit id >"$work/got"
sed -n 's/^FINDING([A-Z_]*, "\([a-z-]*\)".*/\1/p' "$TOP/src/findings.def" >"$work/wanted"
same "audit names the findings of src/findings.def" "$work/wanted" "$work/got"
sed -n 's/^ *X([A-Z_]*, "\([a-z-]*\)").*/\1/p' "$TOP/src/model/load.h" | paste -s -d '|' - >"$work/wanted"
for name in loads setup setup-share; do
    sed -n 's/^    "assumed": .*"pattern": "^(\([a-z|-]*\))(.*/\1/p' "$schemas/$name.schema.json" >"$work/got"
    same "$name assumes in the words of src/model/load.h" "$work/wanted" "$work/got"
done

python=
for each in python3 /usr/bin/python3; do # the first may be one without Debian's modules
    "$each" -c 'from jsonschema import Draft202012Validator' 2>/dev/null && python=$each && break
done
if [ -z "$python" ]; then
    echo "$passed passed, $failed failed; no Python with jsonschema here: no output is validated"
    [ "$failed" = 0 ] || exit 1
    exit 77
fi
if "$python" "$TOP/tests/schemas/validate.py" "$TOP" "$TAUTLINE" "$schemas"; then pass; else fail "output is not as its schema says"; fi
finish
