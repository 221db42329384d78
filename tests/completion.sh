#!/bin/sh
# The completions, tried out in the shells themselves: what each offers for a line, beside what it should. A shell that is not here is left
# out, which is said.
. "${TOP:?the source folder}/tests/check.sh"
export LC_ALL=C.UTF-8 TERM=dumb
export HOME="$work/home" XDG_CONFIG_HOME="$work/home" XDG_DATA_HOME="$work/home"

mkdir "$work/home" "$work/bin" "$work/zsh" "$work/here" "$work/here/logs"
ln -s "$TAUTLINE" "$work/bin/tautline"
PATH="$work/bin:$PATH"
cd "$work/here" || exit 99
cat >gym.ini <<'GYM'
[lifter "Oda Brandvik"]
[lifter "$(touch ran)"]
[lifter "`touch ran`; *"]
[lift "squat"]
[lift "bench press"]
[band "b26"]
flat = 0.70 m
tension = 1.15 m : 17.0 kg
GYM
printf '[lifter "Sunniva Moen"]\n' >logs/gym.ini
printf 'date,lift,weight,reps\n2026-01-12,squat,80,2\n' >logs/log.csv

# --- lines and what is to be offered, in the C order, the line's own options from --help -----------------------------------------

"$TAUTLINE" --help | awk '/^Commands:/ { on = 1; next } on && !/^  / { exit } on { print $1 }' >"$work/commands"
offer() { # LINE WORD...
    printf '%s\n' "$1" >>"$work/lines"
    shift
    { [ $# = 0 ] || printf '%s\n' "$@" | sort; echo .; } >>"$work/wanted"
}
: >"$work/lines"
offer 'tautline ' help $(cat "$work/commands")
offer 'tautline tr' trend
offer 'tautline xyz'
offer 'tautline --' --help --version
offer 'tautline help se' setup
for command in $(cat "$work/commands"); do
    offer "tautline $command --" $("$TAUTLINE" "$command" --help | sed -n 's/^  \(--[a-z-]*\).*/\1/p')
done
offer 'tautline loads --form' --format --formula
offer 'tautline loads --format ' csv json text
offer 'tautline loads --format=' csv json text
offer 'tautline loads log.csv --format=j' json
offer 'tautline report --unit ' kg lb
offer 'tautline plot --render p' pdf png
offer 'tautline plan --focus s' skill speed strength
offer 'tautline trend --formula l' lander lombardi
offer 'tautline audit --severity ' caution fault note
offer 'tautline audit --only band-s' band-slack
offer 'tautline audit --only chain-swings,band-s' chain-swings,band-slack
offer 'tautline audit --except=chain-swings,band-s' chain-swings,band-slack
offer 'tautline loads --from '
offer 'tautline completion ' bash fish zsh
offer 'tautline loads --lift ' 'bench press' squat
offer 'tautline loads --lift b' 'bench press'
offer 'tautline fit --band ' b26
offer 'tautline loads --lifter O' 'Oda Brandvik'
offer 'tautline loads --lifter ' 'Oda Brandvik' '$(touch ran)' '`touch ran`; *'
offer 'tautline loads --gym logs/gym.ini --lifter ' 'Sunniva Moen'
offer 'tautline loads --gym=logs/gym.ini --lifter ' 'Sunniva Moen'
offer 'tautline loads logs/log.csv --lifter ' 'Sunniva Moen'
offer 'tautline loads --gym nowhere.ini --lifter '
offer 'tautline loads lo' '{logs}'
offer 'tautline trend --columns mono' monotony
offer 'tautline audit --columns sev' severity
offer 'tautline waves --columns=focus,wav' focus,wave
offer 'tautline loads --gym g' '{gym.ini}'
offer 'tautline plot --into lo' '{{logs}}'

in_order() { # the words of each line sorted, without what was typed before a = and a slash at the end
    sed -e 's/^--[a-z-]*=//' -e 's,/$,,' -e '/^$/d' |
        awk 'BEGIN { sort = "sort -u" } $0 == "." { close(sort); print; fflush(); next } { print | sort }'
}

compare() { # SHELL WANTED
    in_order <"$work/got" >"$work/got-$1"
    diff "$2" "$work/got-$1" >"$work/diff"
    status=$? # a command in the words of the check would take its place
    check "$1 offers what the tables have ($(grep -c . "$work/lines") lines)" $status "$work/diff"
    [ ! -e ran ]
    check "$1 runs nothing that stands in a gym file" $?
}

here() { # SHELL
    command -v "$1" >/dev/null && return 0
    echo "no $1 here: its completion is not tried"
    return 1
}

for shell in bash zsh fish; do
    "$TAUTLINE" completion $shell >"$work/script.$shell" && [ -s "$work/script.$shell" ]
    check "tautline completion $shell" $?
done

paths() { # FILE FOLDER: what stands for a file and a folder of that name
    sed -e "s/^{{\(.*\)}}$/$2/" -e "s/^{\(.*\)}$/$1/" "$work/wanted"
}

if here bash; then
    bash --norc "$TOP/tests/completion/offered.bash" "$work/script.bash" <"$work/lines" >"$work/got" 2>&1
    sed -e '/^\[-o filenames\]$/d' -e '/^\[-o nospace\]$/d' "$work/got" >"$work/plain" && mv "$work/plain" "$work/got"
    paths '[-o default]' '[-o dirnames]' >"$work/wanted-bash"
    compare bash "$work/wanted-bash"
fi
if here zsh; then
    cp "$work/script.zsh" "$work/zsh/_tautline"
    zsh -f "$TOP/tests/completion/offered.zsh" "$work/zsh" "$work" <"$work/lines" 2>&1 | tr -d '\\' >"$work/got" # quoted by backslashes
    # What stands before the last comma is no part of a match there.
    paths '\1' '\1' | sed 's/^[a-z-]*,//' >"$work/wanted-zsh"
    compare zsh "$work/wanted-zsh"
fi
if here fish; then
    fish --no-config "$TOP/tests/completion/offered.fish" "$work/script.fish" <"$work/lines" >"$work/got" 2>&1
    paths '\1' '\1' >"$work/wanted-fish"
    compare fish "$work/wanted-fish"
fi

finish
