#!/bin/sh
# Plain words: phrases that read like riddles must not come back where a person reads them, which is in the strings of src/, in the schemas, in the
# manual and in the READMEs. Comments may use them. The phrases are planted first, and each must be found.
. "${TOP:?the source folder}/tests/check.sh"
export LC_ALL=C

# One extended regular expression a line, for lower-case text.
cat >"$work/riddles" <<'EOF'
(^|[^a-z])nobody([^a-z]|$)
(^|[^a-z])anew([^a-z]|$)
(^|[^a-z])mend(s|ed|ing)?([^a-z]|$)
(^|[^a-z])mates?([^a-z]|$)
on the (mean|average)([^a-z]|$)
1rm in force
would point at
out of reason
(taken for|are|is) a slip
to settle it
would sharpen
stands? (under|behind|beside|twice|in for)
bears? (chains|bands)
(is|are|was|were) told([^a-z]|$)
(^|[^a-z])(a|one) (row|line|folder|block|point) an? [a-z]
(^|[^a-z])(is|are) no (bodyweight|date|days|field|file|focus|kind|lift|line|load|log|logs|mates|monday|number|pair|plate|rpe|set|sets|side|slip|step|terminal|unit|velocity|week|weight)([^a-z]|$)
EOF

# The string literals of C, each with its place; comments are left out.
strings_of() { # FILE...
    awk 'FNR == 1 { in_comment = 0 }
        {
            rest = $0
            while (rest != "") {
                if (in_comment) {
                    at = index(rest, "*/")
                    if (!at) break
                    rest = substr(rest, at + 2); in_comment = 0
                } else if (match(rest, /"([^"\\]|\\.)*"|\047([^\047\\]|\\.)\047|\/\*|\/\//)) {
                    found = substr(rest, RSTART, RLENGTH); rest = substr(rest, RSTART + RLENGTH)
                    if (found == "//") break
                    if (found == "/*") in_comment = 1
                    else if (found ~ /^"/) print FILENAME ":" FNR ": " found
                } else break
            }
        }' "$@"
}

# What a person reads, a line each with its place. \(aq and the like of a page become plain.
shown_in() { # FOLDER
    find "$1/src" -name '*.c' -o -name '*.h' -o -name '*.def' | sort | while read -r file; do strings_of "$file"; done
    for file in "$1"/man/*.[1-9] "$1/README.md" "$1/samples/README.md" "$1"/src/schemas/*.json; do
        [ ! -f "$file" ] || sed -e '/^\.\\"/d' -e "s/\\\\(aq/'/g" -e 's/\\(dq/"/g' -e 's/\\-/-/g' "$file" | awk -v file="$file" '{ print file ":" NR ": " $0 }'
    done
}

riddles_in() { # FOLDER; "there is no load" is plain
    shown_in "$1" | tr '[:upper:]' '[:lower:]' | sed -e 's/there is no/there isnt a/g' -e 's/there are no/there arent/g' | grep -E -f "$work/riddles"
}

# --- the rule sees what it is there for -----------------------------------------------------------------------------------------

mkdir -p "$work/tree/src/commands" "$work/tree/man"
planted() { # TEXT: must be found in a string, a page and a README, and not in a comment
    printf '/* %s */\nstatic const char *const text = "%s"; /* a "quote" */\n' "$1" "$1" >"$work/tree/src/commands/planted.c"
    printf '%s\n' "$1" | tee "$work/tree/README.md" >"$work/tree/man/planted.1"
    riddles_in "$work/tree" >"$work/found"
    [ "$(wc -l <"$work/found")" = 3 ]
    check "a riddle is found in a string, a page and README: $1" $? "$work/found"
}

plain() { # TEXT: must not be found
    printf 'static const char *const text = "%s";\n' "$1" >"$work/tree/src/commands/planted.c"
    printf '%s\n' "$1" | tee "$work/tree/README.md" >"$work/tree/man/planted.1"
    riddles_in "$work/tree" >"$work/found"
    [ ! -s "$work/found" ]
    check "a plain sentence is no riddle: $1" $? "$work/found"
}

planted "a lift that nobody names"
planted "Choose the loads anew"
planted "how to mend it"
planted "left and right are not mates"
planted "100 kg on the mean"
planted "the 1RM in force"
planted "what a coach would point at"
planted "'%s' is out of reason"
planted "200 sets are a slip"
planted "To settle it: weigh the chain"
planted "What would sharpen this"
planted "an estimate stands in for it"
planted "logs that bear chains"
planted "the lifter is told"
planted "One row a set: straight, bottom"
planted "'o' is no load"
planted "these are no sets"
plain "there is no load before this mark"
plain "one row per set; a row above"
plain "nothing was recommended to them; the team stands together"
plain "reinforced and automated"

# --- and there are none ------------------------------------------------------------------------------------------------------------

shown_in "$TOP" >"$work/shown"
[ "$(wc -l <"$work/shown")" -gt 5000 ]
check "there are texts to look at" $?
riddles_in "$TOP" | sed "s|^$(printf '%s' "$TOP" | tr '[:upper:]' '[:lower:]')/||" >"$work/found"
[ ! -s "$work/found" ]
check "what a person reads holds no riddle; say it plainly" $? "$work/found"

echo "$passed passed, $failed failed"
[ "$failed" = 0 ]
