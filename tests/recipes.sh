#!/bin/sh
# tautline-recipes(7), run as it stands: each block is a file to be written (after the comment `file NAME`) or commands behind `$ ` with what
# comes of them; `needs TOOL` before it leaves it out where the tool is missing. Then what the page promises beyond that.
#
# SLOW=yes runs R and LibreOffice too, which make check leaves to make check-recipes.
. "${TOP:?the source folder}/tests/check.sh"
export LC_ALL=C.UTF-8
page="$TOP/man/tautline-recipes.7" skipped=0 schemas="$work/schemas"
mkdir "$schemas" && cp "$TOP"/src/schemas/*.json "${SCHEMAS_MADE:?the folder of the schemas that are made}"/*.json "$schemas"
mkdir "$work/bin" "$work/run" && ln -s "$TAUTLINE" "$work/bin/tautline" && PATH="$work/bin:$PATH"
cp -R "$TOP/samples" "$work/run/samples" && chmod -R u+w "$work/run/samples" && chmod +x "$work/run/samples/pre-commit"
for each in python3 /usr/bin/python3; do # the first may be one without Debian's modules
    "$each" -c 'from jsonschema import Draft202012Validator' 2>/dev/null && ln -s "$(command -v "$each")" "$work/bin/python3" && break
done
git config --file "$work/.gitconfig" user.name "Edda Moorcroft" 2>/dev/null && git config --file "$work/.gitconfig" user.email edda@example.org

there() { # TOOL
    case $1 in
    python3-jsonschema) [ -e "$work/bin/python3" ] ;;
    Rscript | soffice) [ -n "${SLOW:-}" ] && command -v "$1" >/dev/null ;;
    *) command -v "$1" >/dev/null ;;
    esac
}

if [ "${MANDOC:-none}" != none ]; then
    "$MANDOC" -T lint -W warning "$page" >"$work/out" 2>&1 && [ ! -s "$work/out" ] && pass || { fail "the page has faults" && cat "$work/out"; }
fi

# --- the page ---------------------------------------------------------------------------------------------------------------

# A file a block: `needs TOOL` or `needs`, `file NAME` or `file`, then its lines.
awk -v into="$work/block" '
    /^\.\\" needs / { needs = $3 }
    /^\.\\" file / { file = $3 }
    /^\.Bd/ { count++; block = sprintf("%s-%02d", into, count); print "needs " needs > block; print "file " file > block; shown = 1; next }
    /^\.Ed/ { shown = 0; needs = file = ""; close(block) }
    shown {
        gsub(/\\\(dq/, "\""); gsub(/\\\(aq/, "\047"); gsub(/\\\[u2026\]/, "\342\200\246"); gsub(/\\&/, ""); gsub(/\\-/, "-"); gsub(/\\e/, "\\")
        print > block
    }
' "$page"

# The commands of a block, each in a file of its own with the lines that it is to print: it ends where the shell sees a whole one.
commands() { # BLOCK
    rm -f "$work"/command-* "$work"/expected-*
    n=0 whole=yes
    sed 1,2d "$1" >"$work/lines"
    while IFS= read -r line; do
        case $whole$line in
        'yes$ '*) n=$((n + 1)) && printf '%s\n' "${line#??}" >"$work/command-$n" && : >"$work/expected-$n" ;;
        yes*) printf '%s\n' "$line" >>"$work/expected-$n" && continue ;;
        no*) printf '%s\n' "$line" >>"$work/command-$n" ;;
        esac
        whole=no
        case $line in *'\') ;; *) sh -n "$work/command-$n" 2>/dev/null && whole=yes ;; esac
    done <"$work/lines"
}

run_commands() { # BLOCK TOOL
    commands "$1"
    i=0
    while [ $((i = i + 1)) -le "$n" ]; do
        sed "s|/usr/share/tautline/schemas|$schemas|" "$work/command-$i" >"$work/command"
        (cd "$work/run" && sh "$work/command") >"$work/out" 2>"$work/err" </dev/null
        [ "$2" != git ] || cat "$work/err" >>"$work/out" # a hook speaks on standard error
        if awk -v expected="$work/expected-$i" -f "$TOP/tests/shown.awk" "$work/out"; then pass; else fail "$(cat "$work/command-$i")" && head -5 "$work/err"; fi
    done
}

blocks=0
for block in "$work"/block-*; do
    tool=$(sed -n '1s/^needs *//p' "$block") file=$(sed -n '2s/^file *//p' "$block")
    blocks=$((blocks + 1))
    if ! there "$tool"; then
        case ${SLOW:-}$tool in
        Rscript | soffice) echo "$tool is left to make check-recipes" ;;
        *) skipped=$((skipped + 1)) && echo "no $tool here: a recipe is left out" ;;
        esac
    elif [ -n "$file" ]; then
        mkdir -p "$(dirname "$work/run/$file")" && sed 1,2d "$block" >"$work/run/$file"
    else
        run_commands "$block" "$tool"
    fi
done
if [ "$blocks" -ge 10 ]; then pass; else fail "only $blocks blocks in the page"; fi

# The short ones of README.md.
awk '/^## / { on = $0 == "## With other programs" } on && sub(/^    /, "")' "$TOP/README.md" >"$work/short"
while IFS= read -r line; do
    case $line in
    *jq*) there jq || continue ;;
    *.git*) there git && git init --quiet "$work/run" || continue ;;
    esac
    (cd "$work/run" && sh -c "$line") >"$work/out" 2>"$work/err"
    if [ $? -le 1 ]; then pass; else fail "README.md: $line" && head -3 "$work/err"; fi # 1: lines were refused
done <"$work/short"
ok "README.md has short recipes" [ "$(grep -c . "$work/short")" -ge 3 ]

# The page's list of schemas is that of those there are.
sed -n 's/^\.It Li \([a-z-]*\) Ta.*/\1/p' "$page" | sort >"$work/listed"
ls "$schemas" | sed -n 's/\.schema\.json$//p' | grep -v -e '-lb$' | sort >"$work/there"
if [ -s "$work/there" ] && diff "$work/there" "$work/listed"; then pass; else fail "the page lists the schemas"; fi

# --- R: the picture ------------------------------------------------------------------------------------------------------------

if there Rscript; then ok "R draws the year" grep -q PNG "$work/run/year.png"; fi

# --- LibreOffice: cells of the kinds that they ought to have, where commas are decimal, too -------------------------------------

cells() { # SHEET ROW: kind and value of each cell, one a line
    tr -d '\n' <"$1" | sed -e 's/> *</></g' -e 's/<table:table-row/\n&/g' | sed -n "$(($2 + 1))p" | sed 's/<table:table-cell/\n&/g' | sed -n \
        -e 's/.*table:formula.*/formula/p' -e 's/.*office:value-type="float" office:value="\([^"]*\)".*/number \1/p' \
        -e 's/.*office:value-type="date" office:date-value="\([^"]*\)".*/date \1/p' -e 's/.*office:value-type="string".*<text:p>\([^<]*\).*/text \1/p'
}

if there soffice; then
    ok "a sheet is made" [ -s "$work/run/loads.ods" ]
    filter=$(sed -n "s/^--infilter=\\\\(aq\(.*\)\\\\(aq .*/\1/p" "$page")
    printf 'date,lifter,lift,weight,reps,note\n2026-01-05,007,squat,82.5,5,5-6\n2026-01-06,007,squat,1e2,5,=1+1\n' >"$work/run/odd.csv"
    (cd "$work/run" && tautline loads --log-unit kg --format csv --spreadsheet-safe odd.csv) >"$work/run/sheet.csv" 2>/dev/null
    for country in C.UTF-8 de_DE.UTF-8; do
        (cd "$work/run" && rm -f sheet.fods && LC_ALL=$country soffice "-env:UserInstallation=file://$work/office-$country" --headless --convert-to fods --infilter="$filter" sheet.csv) >"$work/out" 2>&1
        cells "$work/run/sheet.fods" 2 >"$work/first"
        cells "$work/run/sheet.fods" 3 >"$work/second"
        for wanted in 'date 2026-01-05' 'text 2026-W02' 'text 007' 'number 82.5' 'number 96.25' 'text 5-6'; do
            ok "$country: a cell is: $wanted" grep -qxF "$wanted" "$work/first"
        done
        for wanted in 'number 100' "text &apos;=1+1"; do
            ok "$country: a cell is: $wanted" grep -qxF "$wanted" "$work/second"
        done
        if grep -q formula "$work/first" "$work/second"; then fail "$country: a formula out of a note"; else pass; fi
    done
fi

# --- SQL: the queries of tautline-team(5) -----------------------------------------------------------------------------------------

if there sqlite3; then
    awk -v into="$work/query" '/^\.Ss Queries/ { on = 1 } /^\.Sh/ { on = 0 } on && /^\.Bd/ { file = into "-" ++n; shown = 1; next } /^\.Ed/ { shown = 0 } shown { print > file }' \
        "$TOP/man/tautline-team.5"
    for each in "$work"/query-*; do
        sqlite3 -readonly "$work/run/team/team.sqlite" <"$each" >"$work/out" 2>"$work/err" && [ ! -s "$work/err" ] && pass || { fail "a query of tautline-team(5)" && cat "$each" "$work/err"; }
    done
    ok "five queries" [ -f "$work/query-5" ]
fi

# --- git: what the hook does with less usual commits ------------------------------------------------------------------------------

commit() { # TEXT STATUS: of a commit of what is staged
    (cd "$work/repo" && git commit --quiet -m "$1") >"$work/out" 2>&1
    got=$?
    if [ "$got" = "$2" ]; then pass; else fail "git commit, $1: status $got" && cat "$work/out"; fi
}
bad() { printf '2026-01-05\nsquat 100 kg + 3 chains: 5x2\n'; }
good() { printf '2026-01-05\nsquat 100 kg: 5x2\n'; }

if there git; then
    git init --quiet "$work/repo" && cp "$work/run/samples/pre-commit" "$work/repo/.git/hooks/pre-commit" && cd "$work/repo" || exit 99
    echo "no log at all" >notes.txt && echo "int main;" >main.c && git add . && commit "no log in it" 0
    good >log.txt && bad >unstaged.txt && git add log.txt && commit "a bad log that is not staged" 0
    git add unstaged.txt && good >unstaged.txt && commit "bad as staged, mended in the folder" 1
    said "the hook tells where" '\./unstaged\.txt:2:[0-9]+: error: odd number of chains'
    git add unstaged.txt && commit "mended" 0
    git rm --quiet log.txt && commit "a log removed" 0
    odd=$(printf -- '-a "b" $c\nd;é.TXT') && good >"./$odd" && git add . && commit "an odd name" 0
    bad >"./$odd" && git add . && commit "an odd name, and bad" 1
    git reset --quiet --hard && mkdir -p 'deep er/still' && bad >'deep er/still/log.csv.txt' && git add . && commit "in a folder, and bad" 1
    git reset --quiet --hard && ln -s /etc/passwd link.txt && git add . && commit "a link" 0
    printf 'date,lift,weight,reps\n03/04/2026,squat,100,5\n' >unsettled.csv && git add . && commit "a whole file refused" 1
    git reset --quiet --hard
    printf 'date,lift,weight,reps,chain\n2026-01-05,squat,100,5,2 x long/side\n' >chains.csv && git add . && commit "gear that nobody describes" 0
    printf '[chain "long"]\nmass = 7 kg\nlength = 1.8 m\n' >gym.ini && git add . && commit "a gym file" 0
    printf '[chain "long"]\nmass = 7\n' >gym.ini && git add . && commit "a gym file that makes logs wrong" 1
    git reset --quiet --hard && bad >late.txt && git add . && git commit --quiet --no-verify -m "past the hook" && good >fresh.txt && git add fresh.txt &&
        commit "only what the commit touches is looked at" 0
    good >more.txt && git add more.txt
    if [ ! -x /usr/bin/tautline ]; then
        PATH=/usr/bin:/bin commit "without tautline on the path" 1
        said "the hook tells what it lacks" 'tautline is not on the path'
    fi
    cd / || exit 99
fi

echo "$passed passed, $failed failed"
[ "$failed" = 0 ] && [ "$passed" -gt 0 ] || exit 1
[ "$skipped" = 0 ] || exit 77
