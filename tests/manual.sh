#!/bin/sh
# The manual against the program: pages without faults, the same commands, options, columns and diagnostics on both sides, and every
# key, wording and header that the pages name tried out.
#
# A command's own options are in its page; tautline(1) explains those that several commands share, and the page of each names the ones it takes.
#
# The pages keep to a form for this: an option is `.It Fl -name`, a column `.It Va name`, a diagnostic `.It Sy name Pq severity`, a key of
# the gym file `.It Ic key No = Li value`, a wording of a load `.It Li wording`. The command lines of the pages are run by examples.sh.
. "${TOP:?the source folder}/tests/check.sh"
mandoc=${MANDOC:-none}
export LC_ALL=C
page="$TOP/man/tautline.1" gym_page="$TOP/man/tautline-gym.5" log_page="$TOP/man/tautline-log.5" diagnostics_page="$TOP/man/tautline-diagnostics.5"

same() { # TEXT WANTED GOT: two files, wanted from the manual; neither may be empty
    diff "$2" "$3" >"$work/diff" && [ -s "$2" ]
    check "$1" $? "$work/diff"
}

# Lines of a part of a page: from its .Sh or .Ss up to the next heading of that kind (.Ss also ends at .Sh).
part() { # PAGE HEADING
    awk -v heading="$2" '$0 == heading { on = 1; next }
        on && (/^\.Sh / || (heading ~ /^\.Ss/ && /^\.Ss /)) { exit }
        on' "$1"
}

# What check says of a log, as CSV without its header; a program that says nothing at all says that.
said_of() { # PATTERN GYM LOG
    "$TAUTLINE" check --format csv --gym "$2" "$3" >"$work/csv" 2>"$work/stderr"
    if [ "$(sed -n 1p "$work/csv")" = "file,line,column,severity,id,message,hint,excerpt" ]; then
        sed 1d "$work/csv" | grep -E "$1"
    else
        echo "nothing came of tautline check $3" && cat "$work/stderr"
    fi >"$work/said"
}

plain() { # mdoc's escapes that the pages use
    sed -e 's/\\(dq/"/g' -e 's/\\(aq/'"'"'/g' -e 's/\\&//g' -e 's/\\-/-/g'
}

# --- the pages themselves -----------------------------------------------------------------------------------------------------

if [ "$mandoc" = none ]; then
    echo "no mandoc here: the pages are not linted"
else
    for each in "$TOP"/man/*.[1-9]; do
        "$mandoc" -T lint -W warning "$each" >"$work/lint" 2>&1 && [ ! -s "$work/lint" ]
        status=$? # a command in the words of the check would take its place
        check "$(basename "$each") has no fault that mandoc sees" $status "$work/lint"
    done
fi

# A page that another names is there.
sed -n 's/^\.Xr \(tautline[a-z-]*\) \([0-9]\).*/\1.\2/p' "$TOP"/man/*.[1-9] | sort -u >"$work/named"
(cd "$TOP/man" && ls -- *.[1-9]) | sort >"$work/pages"
same "every page is named in another, and every page named is there" "$work/named" "$work/pages"

# A section that a page names is in it.
for each in "$TOP"/man/*.[1-9]; do
    sed -n 's/^\.Sx \(.*[^ ,.:;)]\)\( [,.:;)]\)*$/\1/p' "$each" | plain | sort -u >"$work/named"
    sed -n 's/^\.S[hs] //p' "$each" | plain | sort -u | comm -23 "$work/named" - >"$work/missing"
    [ ! -s "$work/missing" ]
    status=$?
    check "every section that $(basename "$each") names is there" $status "$work/missing"
done

# --- commands and options ----------------------------------------------------------------------------------------------------

"$TAUTLINE" --help >"$work/help"
check "--help works" $?
commands=$(awk '/^Commands:/ { on = 1; next } on && !/^  / { exit } on { print $1 }' "$work/help")

printf '%s\n' $commands | sort >"$work/commands"
part "$page" ".Sh COMMANDS" | sed -n 's/^\.It Cm //p' | sort >"$work/documented"
same "COMMANDS are those of --help" "$work/documented" "$work/commands"

page_of() { # COMMAND
    echo "$TOP/man/tautline-$1.1"
}

own() { # PAGE: the options that it explains, which is all of them between .Bl and .El of OPTIONS
    part "$1" ".Sh OPTIONS" | sed -n 's/^\.It Fl \(h , Fl \)*-\([a-z-]*\).*/\2/p' | sort
}

shared() { # PAGE: those that it says are explained in tautline(1)
    part "$1" ".Sh OPTIONS" | awk '/^The common ones, explained in$/ { on = 1 } on' | sed -n 's/^\.Fl //p' | tr ' ' '\n' | sed -n 's/^-\([a-z-]*\)$/\1/p' | sort
}

own "$page" >"$work/common"
: >"$work/taken"
for command in $commands; do
    "$TAUTLINE" "$command" --help >"$work/help-$command"
    sed -n 's/^  --\([a-z-]*\).*/\1/p' "$work/help-$command" | sort >"$work/options-$command"
    each=$(page_of "$command")
    { own "$each" && shared "$each"; } | sort >"$work/documented"
    same "OPTIONS of $command are those of its --help" "$work/documented" "$work/options-$command"
    shared "$each" | tee -a "$work/taken" | comm -23 - "$work/common" >"$work/missing"
    [ ! -s "$work/missing" ]
    check "the common options of $command are in tautline(1)" $? "$work/missing"
    grep -q "man tautline-$command'" "$work/help-$command"
    check "$command --help names its page" $?
    for heading in SYNOPSIS DESCRIPTION OPTIONS EXAMPLES "SEE ALSO"; do
        grep -qx "\.Sh $heading" "$each"
        status=$?
        check "$(basename "$each") has $heading" $status
    done
done
sort -u -o "$work/taken" "$work/taken"
same "the common options in tautline(1) are those that commands share" "$work/common" "$work/taken"

# --- columns ------------------------------------------------------------------------------------------------------------------

column_names() { # PAGE HEADING
    part "$@" | sed -n 's/^\.It Va //p'
}

columns() { # HEADING COMMAND...: the list in the command's page and the CSV header
    heading=$1
    shift
    column_names "$(page_of "$1")" "$heading" >"$work/documented"
    "$TAUTLINE" "$@" --format csv "$TOP/samples/plain/export.csv" 2>"$work/stderr" | sed 1q | tr ',' '\n' >"$work/columns"
    same "${heading#.S? } of $1 are those of its CSV" "$work/documented" "$work/columns"
}
columns ".Sh COLUMNS" loads
columns ".Ss Columns of trend" trend
columns ".Ss Columns of trend with slopes" trend --slopes
columns ".Ss Columns of trend with velocity" trend --velocity
columns ".Ss Columns of trend with speed loss" trend --speed-loss
columns ".Ss Columns of waves" waves
columns ".Ss Columns of waves with slopes" waves --slopes
columns ".Ss Columns of waves with verdicts" waves --verdicts
columns ".Sh COLUMNS" plan
"$TAUTLINE" plan --format csv "$TOP/samples/plain/export.csv" >"$work/plan.csv" 2>"$work/stderr"
columns ".Ss Columns of waves with a plan" waves --plan "$work/plan.csv"
columns ".Sh COLUMNS" audit
columns ".Sh COLUMNS" check

# Findings, their severities and limits, as in src/findings.def.
part "$(page_of audit)" ".Ss Findings" | sed -n 's/^\.It Sy \([a-z-]*\) Pq \(.*\)$/\1 \2/p' >"$work/documented"
sed -n -e 's/^FINDING([A-Z_]*, "\([a-z-]*\)", \([A-Z]*\), [A-Z]*, \([0-9.]*\),.*/\1 \2, \3/p' -e 's/^LIMIT([A-Z_]*, "\([a-z-]*\)", [A-Z]*, \([0-9.]*\)).*/\1 \2/p' \
    "$TOP/src/findings.def" | sed 's/\(\.[0-9]*[1-9]\)0*$/\1/' | tr 'A-Z' 'a-z' >"$work/findings"
same "Findings are those of src/findings.def, in its order" "$work/documented" "$work/findings"

setup_columns() { # HEADING ARGUMENT...
    heading=$1
    shift
    column_names "$(page_of setup)" "$heading" >"$work/documented"
    "$TAUTLINE" setup --gym "$TOP/samples/gym.ini" --lifter "Maren Holtvik" --lift squat "$@" 2>"$work/stderr" | sed 1q | tr ',' '\n' >"$work/columns"
    same "${heading#.S? } are those of its CSV" "$work/documented" "$work/columns"
}
setup_columns ".Ss Columns of setup" "60 kg + 2 chains/side" --format csv
setup_columns ".Ss Columns of setup with a curve" "60 kg + 2 chains/side" --curve csv
setup_columns ".Ss Columns of setup with a share" --share 20% --format csv

fit_columns() { # HEADING OPTION...
    heading=$1
    shift
    column_names "$(page_of fit)" "$heading" >"$work/documented"
    "$TAUTLINE" fit "$TOP/tests/golden/fit-pair/b26.csv" --format csv "$@" 2>"$work/stderr" | sed 1q | tr ',' '\n' >"$work/columns"
    same "${heading#.S? } are those of its CSV" "$work/documented" "$work/columns"
}
fit_columns ".Ss Columns of fit"
fit_columns ".Ss Columns of fit with compare" --compare

part "$page" ".Ss Assumptions" | sed -n 's/^\.It Sy //p' >"$work/documented"
sed -n 's/^ *X([A-Z_]*, "\([a-z-]*\)").*/\1/p' "$TOP/src/model/load.h" >"$work/words"
same "Assumptions are those of src/model/load.h" "$work/documented" "$work/words"

# The alarms of a plan, which are no findings.
part "$(page_of plan)" ".Sh DESCRIPTION" | sed -n 's/^\.Sq \([a-z]*-[a-z-]*\) ,$/\1/p' >"$work/documented"
"$TAUTLINE" plan --percent 101,111 --format csv "$TOP/samples/plain/export.csv" 2>"$work/stderr" |
    sed -e 1d -e 's/.*,//' | tr ';' '\n' | grep -E '^(above|top)-' | sort -u >"$work/alarms"
same "the alarms of a plan are those of its CSV" "$work/documented" "$work/alarms"

# --- diagnostics ----------------------------------------------------------------------------------------------------------------

part "$diagnostics_page" ".Sh DIAGNOSTICS" | sed -n 's/^\.It Sy \([a-z-]*\) Pq \([a-z]*\)$/\1 \2/p' >"$work/documented"
sed -n 's/^DIAG([A-Z_]*, *\([A-Z]*\), *"\([a-z-]*\)".*/\2 \1/p' "$TOP/src/diagnostics.def" |
    awk '{ print $1, tolower($2) }' >"$work/diagnostics"
same "DIAGNOSTICS are those of src/diagnostics.def, in its order" "$work/documented" "$work/diagnostics"

# --- the gym file ---------------------------------------------------------------------------------------------------------------

cat >"$work/log.csv" <<'LOG'
date,lift,weight,reps
2026-01-12,squat,80 + 2 chains/side,2
2026-01-19,squat,80 + band b26 doubled,2
LOG

# A gym file out of the keys' own examples, in the page's order.
part "$gym_page" ".Sh BLOCKS AND KEYS" | plain | sed -n -e 's/^\.Ss //p' -e 's/^\.It Ic \([a-z-]*\) No = Li /\1 = /p' >"$work/keys.ini"
grep -c ' = ' "$work/keys.ini" >"$work/count"
[ "$(cat "$work/count")" -ge 40 ]
check "tautline-gym(5) lists the keys" $? "$work/count"
said_of ',error,' "$work/keys.ini" "$work/log.csv"
[ ! -s "$work/said" ]
check "every key of tautline-gym(5) is accepted with its example" $? "$work/said"

# The same file with each key misspelt must not pass: the check above can fail.
sed 's/^\([a-z-]*\) = /\1x = /' "$work/keys.ini" >"$work/wrong.ini"
wanted=$(awk '/^\[/ { counted = $0 !~ /limits/ } / = / && counted' "$work/keys.ini" | grep -c .)
said_of ',gym-key,' "$work/wrong.ini" "$work/log.csv"
[ "$(grep -c . "$work/said")" = "$wanted" ]
check "every misspelt key is refused ($wanted wanted)" $? "$work/said"

# The keys of the table and those of the page.
awk '/^static const struct gym_key [a-z]*_keys/ { split($5, name, "_"); block = name[1] } /^    \{"[a-z-]*", read_/ { split($0, q, "\""); print block, q[2] }' \
    "$TOP/src/reading/gym/gym_keys.c" | sort >"$work/table"
awk '/^\[/ { gsub(/[][]/, ""); block = $1; next } block != "columns" && block != "limits" { print block, $1 }' "$work/keys.ini" | sort >"$work/documented"
same "keys are those of src/reading/gym/gym_keys.c" "$work/documented" "$work/table"

fields() { # the fields of src/reading/csv/columns.h
    sed -n 's/^ *X([A-Z_]*, *"\([a-z]*\)").*/\1/p' "$TOP/src/reading/csv/columns.h"
}
fields >"$work/fields"
awk '/^\[/ { block = $0; next } block == "[columns]" { print $1 }' "$work/keys.ini" >"$work/documented"
same "[columns] names the fields of src/reading/csv/columns.h" "$work/documented" "$work/fields"

# The whole example: nothing to remark, and the loads that the page gives.
part "$gym_page" ".Sh EXAMPLES" | awk '/^\.Bd/ { on = 1; next } /^\.Ed/ { exit } on && !/^\$ /' | plain >"$work/gym.ini"
said_of . "$work/gym.ini" "$work/log.csv"
[ ! -s "$work/said" ] && [ -s "$work/gym.ini" ]
check "the example of tautline-gym(5) is read without a remark" $? "$work/said"
"$TAUTLINE" loads --gym "$work/gym.ini" --format csv "$work/log.csv" 2>&1 | awk -F, 'NR == 2 { printf "%.1f %.1f\n", $15, $16 }' >"$work/got"
part "$gym_page" ".Sh EXAMPLES" | sed -n 's/^\([0-9.]*\) kg at the bottom, \([0-9.]*\) kg at the top\.$/\1 \2/p' >"$work/wanted"
same "the example of tautline-gym(5) weighs what the page says" "$work/wanted" "$work/got"

# --- logs -----------------------------------------------------------------------------------------------------------------------

wordings() { # HEADING: each wording of a list
    part "$log_page" "$1" | plain | sed -n 's/^\.It Li //p'
}

csv_of() { # wordings on standard input to a log, one a line from line 2 on
    echo 'date,lift,weight,reps'
    sed -e 's/"/""/g' -e 's/.*/2026-01-12,squat,"&",2/'
}

{
    cat "$work/gym.ini"
    printf '[band "b11"]\nflat = 0.70 m\ntension = 1.15 m : 6.0 kg\n[band "b48"]\nflat = 1.04 m\ntension = 1.75 m : 24.6 kg\n'
} >"$work/words.ini"

for heading in ".Ss Straight weight" ".Ss Chains" ".Ss Bands"; do
    wordings "$heading" >"$work/wordings"
    csv_of <"$work/wordings" >"$work/read.csv"
    said_of ',error,' "$work/words.ini" "$work/read.csv"
    [ ! -s "$work/said" ] && [ -s "$work/wordings" ]
    check "each wording under ${heading#.Ss } is read" $? "$work/said"
done

# The words of a phrase, and those of the page.
grep -o 'X("[^"]*"' "$TOP/src/model/notation.def" | sed 's/^X("\(.*\)"$/\1/' | sort >"$work/words"
part "$log_page" ".Ss Words" | plain | sed -n 's/^\.Em words Ns : //p' | sed 's/, /\
/g' | sort >"$work/documented"
same "the words of tautline-log(5) are those of src/model/notation.def" "$work/documented" "$work/words"

wordings ".Sh REFUSED" >"$work/wordings"
csv_of <"$work/wordings" >"$work/refused.csv"
said_of ',error,' "$work/words.ini" "$work/refused.csv"
cut -d, -f2 "$work/said" | sort -n >"$work/got"
awk '{ print NR + 1 }' "$work/wordings" >"$work/wanted"
same "each wording under REFUSED is refused" "$work/wanted" "$work/got"

# Each header stands for the field that the page says; what check tells of a file is compared.
part "$log_page" ".Ss Columns" | plain | awk '
    /^\.It Ic / { field = $3 }
    /^\.Em headers Ns : / { sub(/^\.Em headers Ns : /, ""); count = split($0, header, /, /); for (i = 1; i <= count; i++) print header[i] " = " field }' |
    grep -Ev ' = (side|superset|week|weekday)$' >"$work/wanted"
part "$log_page" ".Ss Columns" | sed -n 's/^\.It Ic //p' >"$work/documented"
same "tautline-log(5) has the fields of src/reading/csv/columns.h" "$work/documented" "$work/fields"
sed 's/ = .*//' "$work/wanted" | paste -s -d, - >"$work/headers.csv"
"$TAUTLINE" check "$work/headers.csv" 2>&1 | sed -n 's/^    \(.* = .*; .*\)/\1/p' | sed 's/; /\
/g' >"$work/got"
same "each header of tautline-log(5) names its field" "$work/wanted" "$work/got"

part "$log_page" ".Sh TEXT LOG" | awk '/^\.Bd/ { on = 1; next } /^\.Ed/ { exit } on' | plain >"$work/example.txt"
said_of ',error,' "$work/words.ini" "$work/example.txt"
[ ! -s "$work/said" ] && [ -s "$work/example.txt" ]
check "the text log of tautline-log(5) is read" $? "$work/said"

# Each line under "Sets", in a session of its own.
{
    printf 'lifter: Oda Brandvik\n\n2026-01-12\n'
    wordings ".Ss Sets"
} >"$work/sets.txt"
said_of ',error,' "$work/words.ini" "$work/sets.txt"
[ ! -s "$work/said" ] && [ "$(grep -c '' "$work/sets.txt")" -gt 10 ]
check "each line under Sets of tautline-log(5) is read" $? "$work/said"

# --- what samples/README.md says of the audit ---------------------------------------------------------------------------------------

# Its table counts each finding twice over: planted, and beyond that.
sed -n 's/^| `\([a-z-]*\)` | \([0-9]*\) | \([0-9]*\) |.*/\1 \2 \3/p' "$TOP/samples/README.md" | awk '{ print $1, $2 + $3 }' | sort >"$work/documented"
"$TAUTLINE" audit --format csv "$TOP/samples/logs" 2>"$work/stderr" | sed -e 1d -e 's/,.*//' | sort | uniq -c | awk '{ print $2, $1 }' >"$work/found"
same "samples/README.md counts the findings of its logs" "$work/documented" "$work/found"

finish
