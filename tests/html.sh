#!/bin/sh
# The page of `report --html`: valid, quiet, and fit for every window; and every picture's script, which gnuplot must draw without a
# word. The page is made of the samples, of straight weight alone, of names that look like markup, and without gnuplot.
#
# Wants node, chromium, and two packages of the npm registry (html-validate, playwright-core), which are installed into a folder that is
# gone afterwards; HTML_TOOLS=FOLDER names one that has them in its node_modules. What is missing is skipped and said.
set -u
: "${TAUTLINE:?the program to test}" "${TOP:?the top of the source}"
export LC_ALL=C.UTF-8 TZ=UTC
work=$(mktemp -d) || exit 99
trap 'rm -rf "$work"' EXIT
passed=0 failed=0 skipped=0

check() { # WHAT COMMAND...: what it says is shown where it fails
    what=$1
    shift
    if "$@" >"$work/said" 2>&1; then
        passed=$((passed + 1))
    else
        failed=$((failed + 1))
        echo "FAIL: $what"
        head -n 20 "$work/said" | cut -c1-300
    fi
}

skip() {
    skipped=$((skipped + 1))
    echo "skipped: $1"
}

page() { # NAME ARGUMENT...
    name=$1
    shift
    "$TAUTLINE" report --today 2026-11-02 --html "$work/$name.html" "$@" >"$work/$name.out" 2>"$work/$name.err"
    [ $? -le 1 ] && [ ! -s "$work/$name.out" ] && [ -s "$work/$name.html" ]
}

page_without_gnuplot() {
    (PATH=/nonexistent && page "$@")
}

# No browser is needed to see that a page asks for nothing and that markup in names is text.
is_quiet() {
    grep -q "http-equiv=\"Content-Security-Policy\" content=\"default-src &#39;none&#39;; style-src &#39;unsafe-inline&#39;; img-src data:\"" "$1" || {
        echo "no Content-Security-Policy"
        return 1
    }
    # Text between tags may say anything; only what a tag says counts.
    ! sed 's/>[^<]*</></g' "$1" | grep -niE '<(script|link|iframe|object|embed|img|base|form)[ >]|(src|href)="?[a-z]+:|[ "]on[a-z]+="|@import'
}

has_tables_for_pictures() {
    grep -q 'No gnuplot was found' "$1" && grep -q '<details open="">' "$1" && ! grep -q '<svg' "$1"
}

# A line break within a text would be shown as \x0A.
has_no_escapes() {
    ! grep -n -m 3 '\\x0A' "$@"
}

whole() { # NAME LIFTER: a whole page, for paper alone
    "$TAUTLINE" report --today 2026-11-02 --html "$work/sheets/$1.html" "$TOP/samples/logs" --lifter "$2" >/dev/null 2>&1
    [ $? -le 1 ] && [ -s "$work/sheets/$1.html" ]
}

names_are_text() {
    grep -q '&lt;script&gt;alert(1)&lt;/script&gt;' "$1" && ! grep -q '<script>alert' "$1"
}

# Each template by hand, then every script that the samples make.
draws_without_a_word() {
    for template in "$TOP"/plots/*.gp; do
        [ "$(basename "$template")" != style.gp ] || continue
        for kind in png svg pdf dumb; do
            said=$(cd "$TOP/plots" && "$gnuplot" -d -e "picture = '$kind'; picture_name = '$work/by-hand.$kind'" "$template" 2>&1)
            [ -z "$said" ] && [ -s "$work/by-hand.$kind" ] && continue
            echo "$template as $kind: $said"
            return 1
        done
    done
    "$TAUTLINE" plot "$TOP/samples/logs" --into "$work/plots" --render none --today 2026-11-02 >/dev/null 2>&1
    for script in "$work"/plots/*.gp; do
        printf 'load "%s"\nreset session\n' "$(basename "$script")"
    done >"$work/plots/all"
    said=$(cd "$work/plots" && "$gnuplot" -d all 2>&1)
    [ -z "$said" ] || {
        echo "$said"
        return 1
    }
    for script in "$work"/plots/*.gp; do
        [ -s "${script%.gp}.svg" ] || {
            echo "$script drew nothing"
            return 1
        }
    done
}

# One sheet per lifter: of a year, of a single session, of pounds, of many lifts with long names.
sheets() { # NAME ARGUMENT...
    name=$1
    shift
    mkdir -p "$work/sheets" && "$TAUTLINE" report --today 2026-11-02 --page "$work/sheets/$name.html" "$@" >/dev/null 2>&1
    [ $? -le 1 ] && [ -s "$work/sheets/$name.html" ]
}

many_lifts() { # fourteen lifts of names that do not fit, three waves each
    echo 'Lifter,Date,Exercise,Weight,Reps'
    awk 'BEGIN { for (week = 0; week < 12; week++) for (lift = 1; lift <= 14; lift++)
        printf "Ottoline Featherstonehaugh-Marchbanks the Younger,2026-%02d-%02d,paused wide-grip competition-style press number %d from the low pins,%d,5\n",
            6 + int(week / 4), 1 + week % 4 * 7, lift, 100 + 5 * (week % 3) + int(week / 3) }'
}

page_of_a_night() {
    sh "$TOP/samples/team.sh" --lifters 6 --weeks 8 "$work/night" &&
        "$TAUTLINE" team --gym "$work/night/gym.ini" --into "$work/night/out" --render none --today 2026-06-03 >/dev/null 2>&1
    cp -R "$work"/night/out/. "$work" && mv "$work/index.html" "$work/night.html"
}

gnuplot=${GNUPLOT:-$(command -v gnuplot)}
check "a page of a team" page team "$TOP/samples/logs" --from 2026-08-01
check "a page of one lifter" page one "$TOP/samples/logs" --lifter "Maren Holtvik"
check "a page of a bare export" page plain "$TOP/samples/plain/export.csv"
check "a page of straight weight alone" page straight "$TOP/tests/html/straight.csv"
check "a page of hostile names" page hostile "$TOP/tests/html/hostile.csv"
check "a page of a night" page_of_a_night
check "a page without gnuplot" page_without_gnuplot tables "$TOP/samples/plain/export.csv"
printf 'Date,Exercise,Weight,Reps\n2026-10-05,squat,100,5\n' >"$work/session.csv"
many_lifts >"$work/many.csv"
check "a sheet per lifter" sheets year "$TOP/samples/logs"
check "a sheet of one session" sheets session "$work/session.csv"
check "a sheet in pounds" sheets pounds --unit lb "$TOP/samples/logs" --lifter "Maren Holtvik"
check "a sheet of many lifts" sheets many "$work/many.csv"
check "a whole page for paper" whole tobin "Tobin Rasker"
check "another one" whole corvin "Corvin Ashdale"
check "no escapes are shown" has_no_escapes "$work/one.html" "$work/plain.html"
for html in "$work"/*.html; do
    check "$(basename "$html") asks for nothing" is_quiet "$html"
done
check "names are text" names_are_text "$work/hostile.html"
check "tables stand for pictures without gnuplot" has_tables_for_pictures "$work/tables.html"
if [ -n "$gnuplot" ] && [ "$gnuplot" != no ] && [ "$gnuplot" != none ]; then
    check "gnuplot draws without a word" draws_without_a_word
else
    skip "no gnuplot: the pictures are not drawn"
fi

tools=${HTML_TOOLS:-$work/tools}
browser=$(command -v chromium || command -v chromium-browser)
if ! command -v node >/dev/null; then
    skip "no node: the pages are neither validated nor opened"
elif [ ! -d "$tools/node_modules" ] && ! { command -v npm >/dev/null && mkdir -p "$tools" &&
    (cd "$tools" && npm install --silent --no-audit --no-fund --prefix . html-validate@9 playwright-core@1 >/dev/null 2>&1); }; then
    skip "html-validate and playwright-core cannot be installed by npm: the pages are neither validated nor opened"
else
    check "valid HTML" node "$tools/node_modules/html-validate/bin/html-validate.mjs" --config "$TOP/tests/html/validate.json" "$work"/*.html
    if [ -n "$browser" ]; then
        check "in a browser" node "$TOP/tests/html/page.mjs" "$tools" "$browser" "$work"/*.html
        check "on paper" node "$TOP/tests/html/print.mjs" "$tools" "$browser" "$work/one.html<=8" "$work/sheets/tobin.html<=8" \
            "$work/sheets/corvin.html<=8" "$work/sheets/year.html=3" \
            "$work/sheets/session.html=1" "$work/sheets/pounds.html=1" "$work/sheets/many.html=1"
    else
        skip "no chromium: the pages are not opened"
    fi
fi
echo "$passed passed, $failed failed, $skipped skipped"
[ "$failed" = 0 ] || exit 1
[ "$skipped" = 0 ] || exit 77
