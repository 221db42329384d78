#!/bin/sh
# The rules of the house that a machine can see: no include and no symbol climbs, library code does not print or exit, numbers are read in
# one place. house-rules.sh and house-rules.awk say them; house-selftest.sh plants violations and wants each found.
set -u
: "${TOP:?the source folder}" "${TAUTLINE:?the program}"
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

. "$TOP/tests/house-rules.sh"
work=$(mktemp -d) || exit 1
trap 'rm -rf "$work"' EXIT
build=$(dirname "$TAUTLINE")
rule "the sources keep the rules of the house" "$(source_violations "$src")"
if command -v nm >/dev/null; then
    rule "the objects keep the rules of the house" "$(object_violations "$src" "$build" "$work/symbols" "$TOP/tests/house-rules.awk")"
    rule "there are objects to look at" "$([ "$(wc -l <"$work/symbols")" -gt 1000 ] || echo "few symbols in $build/src")"
fi

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
for id in $(sed -n 's/^FINDING([A-Z_]*, "\([a-z-]*\)".*/\1/p' "$src/findings.def"); do
    rule "a test raises the finding $id" "$(grep -qE "(^|[^a-z-])$id([^a-z-]|\$)" "$TOP"/tests/unit/*.c "$TOP"/tests/golden/*/stdout || echo "none of tests/unit or tests/golden")"
done

# A store that was released has its columns for ever: a new one names the version after 6, and each release raises the 6 and adds its columns.
released=6 released_columns='loads.def 1: 29
loads.def 6: 2
trend.def 1: 26
waves.def 1: 28'
by_version() { # the columns of each version, and the versions after the released one without a gap
    for each in "$src"/columns/*.def; do
        sed -n "s/^COLUMN(\([0-9]*\),.*/$(basename "$each") \1/p" "$each"
    done | sort | uniq -c
}
echo "$released_columns" >"$work/released"
rule "a released version of the store keeps its columns" "$(by_version | awk -v released=$released '$3 <= released { print $2 " " $3 ": " $1 }' |
    diff - "$work/released")"
rule "the store's versions have no gap" "$(by_version | awk -v next_one=$((released + 1)) '$3 >= next_one { print $3 }' | sort -nu |
    awk -v wanted=$((released + 1)) '$1 != wanted++ { print "a column names version " $1 ", and none " wanted - 1 }')"
for each in "$TOP"/plots/*.gp; do
    name=$(basename "$each" .gp)
    [ "$name" = style ] || rule "plots/$name.gp is drawn with data of every size" "$(grep -q "^    {\"$name\"," "$TOP/tests/unit/test_gnuplot.c" ||
        echo "add it to templates[] of tests/unit/test_gnuplot.c")"
done
rule "a check's words run nothing before its status is taken" "$(grep -nE '\$\(.*\$\?' "$TOP"/tests/*.sh "$TOP"/tests/team/*.sh | grep 'check "' | grep -v 'grep -nE')"

# What must be named in a second place.
for each in "$TOP"/plots/*.gp; do
    name=plots/$(basename "$each")
    rule "$name is embedded" "$(grep -q "$name " "$TOP/Makefile.am" || echo "add it to PLOTS of Makefile.am")"
done
for member in $(sed -n 's/^ .*OFF([a-z_]*, \([a-z_.]*\)).*/\1/p' "$src/reading/gym/gym_keys.c" | sed 's/.*\.//' | sort -u); do
    rule "a night is made anew where $member of the gym file changes" "$(grep -qE "(->|\.)$member\>" "$src/commands/team/team_inputs.c" || echo "add it to digest_...() of commands/team/team_inputs.c")"
done
# What an option of team sets is in what a night compares, or no lifter's files depend on it.
cat >"$work/apart" <<'WHY'
gym          its blocks are compared
into         another folder has nights of its own
lifter       which lifters, not how
lifters_from which lifters
part         which lifters
accept       compared with what was lost
today        week_that_matters()
jobs         the same for any number: tests/jobs.sh
time_limit   one who takes longer is worked on again
wait         when
list         only lists
gather       only the team's files
store        the team's
summary      the team's
new_findings the team's
strict       the exit status
WHY
awk '/^const struct option_row/ { on = 1 } on' "$src/commands/options/options.c" | tr -d '\n' | sed 's/{"/\
{"/g' | sed -n 's/.*TAKES_TEAM.*, *set_\([a-z_]*\)}.*/\1/p' | sort -u >"$work/setters"
sed -n '/^static void digest_options/,/^}/p' "$src/commands/team/team_inputs.c" | grep -o 'options->[a-z_]*' | sort -u >"$work/compared"
rule "there are options of team to look at" "$([ "$(wc -l <"$work/setters")" -gt 20 ] || cat "$work/setters")"
while read -r setter; do
    members=$(sed -n "/^static bool set_$setter(/,/^}/p" "$src/commands/options/options.c" | grep -o 'options->[a-z_]*' | sort -u)
    for member in ${members:-options->$setter}; do # of a macro: the member has the setter's name
        grep -qx "$member" "$work/compared" || grep -q "^$setter " "$work/apart" || echo "$setter: add $member to digest_options() of commands/team/team_inputs.c"
    done
done <"$work/setters" >"$work/missing"
rule "a night is made anew where an option changes its results" "$(cat "$work/missing")"
echo "$passed passed, $failed failed"
[ "$failed" = 0 ]
