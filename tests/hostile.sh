#!/bin/sh
# Text that wants to be more than text: names, notes, labels and file names with shell, gnuplot, HTML, spreadsheet and terminal
# tricks. Nothing runs, nothing leaves its folder, nothing reaches a terminal raw.
. "${TOP:?the source folder}/tests/check.sh"
canary="$work/canary"
esc=$(printf '\033') bidi=$(printf '\342\200\256') csi=$(printf '\302\233')
mkdir "$work/in"

# One lifter and lift for each trick, with three waves of AR so that every picture and finding is made.
csv() { # TEXT: as a quoted cell
    printf '"%s"' "$(printf '%s' "$1" | sed 's/"/""/g')"
}
log() { # TRICK FILE
    {
        echo 'Date,Athlete,Exercise,Weight,Chain,Reps,Set type,Velocity,Notes'
        for week in 05 12 19 26; do
            for weight in 60 62.5 65; do
                printf '2026-01-%s,%s,%s,%s kg,"2 x 7 kg chain/side",3,work,0.7,%s\n' "$week" "$(csv "$1")" "$(csv "$1")" "$weight" "$(csv "$1")"
            done
        done
        printf '2026-02-02,%s,%s,70 kg,"chain %s/side",3,work,0.7,%s\n' "$(csv "$1")" "$(csv "$1")" "$(printf '%s' "$1" | tr -d '"')" "$(csv "$1")"
    } >"$2"
}

clean() { # TEXT: nothing that a terminal obeys, or hides, in what was printed
    if LC_ALL=C grep -q "$(printf '[\001-\010\013-\037\177]')" "$work/out" "$work/err"; then
        fail "$1: a control character is printed"
    elif LC_ALL=C grep -qF -e "$bidi" -e "$csi" "$work/out" "$work/err"; then
        fail "$1: a hidden direction or C1 control is printed"
    else
        pass
    fi
}
markup() { # TEXT FILE: markup of a log's in a page, or what no page may hold
    if grep -qiE '<script>alert|<img src=x' "$2"; then fail "$1: markup of a log in the page"; else pass; fi
    if LC_ALL=C grep -q "$(printf '[\001-\010\013-\037\177]')" "$2"; then fail "$1: a control character in the page"; else pass; fi
}

n=0
mkdir "$work/pages"
echo '[gym]' >"$work/team.ini"
for trick in \
    "\`touch $canary\`" "\$(touch $canary)" "'; touch $canary; '" "\"; system('touch $canary'); \"" "@system('touch $canary')" \
    "%n%n%s%s" "<script>alert(1)</script>" "\"><img src=x onerror=alert(1)>" "=1+1" "+1" "-2+3" "@SUM(A1)" "../../../escape" "..\\..\\escape" \
    "/etc/escape" "${esc}[2J${esc}]0;title" "${csi}2J" "${bidi}gnp.exe" "{/Symbol a}_x^y" "two
lines" "EOD" "\$DATA << EOD" "a;b|c" "CON" "." ".." "-rf" "--help" "'" "\\" "&amp;" "]]>" "\${HOME}" "tab	tab"; do
    n=$((n + 1))
    file="$work/in/$n.csv"
    log "$trick" "$file"
    for command in check loads trend waves audit report; do
        run "$command" --today 2026-03-01 "$file"
        [ "$status" -le 1 ] && pass || fail "$command of $trick: status $status"
        clean "$command of $trick"
    done
    PATH=$work/none "$TAUTLINE" report --html "$work/pages/$n.html" --today 2026-03-01 "$file" >"$work/out" 2>"$work/err"
    status=$? # pages with pictures are below: drawing takes its time
    status_in "page of $trick" 0 1
    clean "page of $trick"
    markup "page of $trick" "$work/pages/$n.html"
    run plan "--lifter=$trick" "--lift=$trick" --today 2026-03-01 "$file"
    status_in "plan of $trick" 0 1
    clean "plan of $trick"
    run setup "--lifter=$trick" "--lift=$trick" "100 kg + band $trick @ $trick"
    status_in "setup of $trick" 0 1 2 3
    clean "setup of $trick"
    { echo 'band,length (m),pull (kg)'; for point in 1.04,0 1.2,12 1.6,27 2.0,38; do echo "$(csv "$trick"),$point"; done; } >"$work/pulls.csv"
    run fit "$work/pulls.csv"
    status_in "fit of $trick" 0 1 3
    clean "fit of $trick"
    case $trick in
    *'
'*) ;; # an INI file holds no such name
    *) printf '[lifter "%s"]\nlog = in/%s.csv\n' "$trick" "$n" >>"$work/team.ini" ;;
    esac
    run loads --format csv --spreadsheet-safe --today 2026-03-01 "$file"
    if LC_ALL=C grep -qE '(^|,)"?[=@+-][^0-9",]' "$work/out"; then fail "a formula is left: $trick"; else pass; fi
    run loads --format json "$file"
    if LC_ALL=C grep -q "$(printf '[\001-\010\013-\037]')" "$work/out"; then fail "raw control character in JSON: $trick"; else pass; fi
    run plot --render none --into "$work/plots/$n" --today 2026-03-01 "$file"
    status_in "plot of $trick" 0 1
done
ok "nothing ran while reading" test ! -e "$canary"
ok "nothing was written outside the folder" test -z "$(find "$work" -name '*escape*' ! -path "$work/plots/*/*")"
ok "no picture's name climbs or hides" test -z "$(find "$work/plots" -mindepth 2 \( -name '.*' -o -name '-*' \))"
ok "each folder is flat" test -z "$(find "$work/plots" -mindepth 2 -type d)"

# One run over all of them, as one log folder with all those file names, too.
mkdir "$work/names"
for name in "\`touch canary\`.csv" "\$(touch canary).csv" "a b.csv" "-rf.csv" "two
lines.csv" "${esc}[2J.csv" "<b>.csv" "=1+1.csv" "%n.csv" "'q\".csv"; do
    cp "$work/in/1.csv" "$work/names/$name"
    printf '2026-03-01,x,"squat",nonsense,,3,work,,\n' >>"$work/names/$name"
done
(cd "$work/names" && "$TAUTLINE" check . >"$work/out" 2>"$work/err" </dev/null)
status=$?
status_in "hostile file names" 0 1
clean "hostile file names"
ok "no file's name ran" test ! -e "$work/names/canary"

# The names of options' files, too, and words that nobody asked for.
for name in "${esc}[2J" "${bidi}x" "${csi}2J"; do
    for arguments in "loads --output $work/none/$name $work/in/1.csv" "loads --gym $work/$name.ini $work/in/1.csv" "loads $work/$name.csv" "--$name" "$name" \
        "loads --$name" "loads --format $name" "loads --today $name" "report --html $work/none/$name $work/in/1.csv" "plot --into $work/in/1.csv/$name $work/in/1.csv" \
        "team --gym $work/$name.ini --into $work/$name" "setup $name" "fit $work/$name" "waves --plan $work/$name $work/in/1.csv"; do
        # shellcheck disable=SC2086 # arguments are words
        run $arguments
        status_in "a name to be read with care: $(printf '%s' "$arguments" | tr -d '\033\302\233')" 2 3
        clean "a name to be read with care: $(printf '%s' "$arguments" | tr -d '\033\302\233')"
    done
done

# All of them as one team.
run team --gym "$work/team.ini" --into "$work/team" --render none --today 2026-03-01
status_in "a team of them" 3 # a gym file with errors may have lost a lifter
clean "a team of them"
[ "$(find "$work/team/lifters" -mindepth 1 -maxdepth 1 -type d | wc -l)" -gt 20 ] && pass || fail "a team of them: $(find "$work/team/lifters" -mindepth 1 -maxdepth 1 | wc -l) folders"
ok "the team stays in its folder" test -z "$(find "$work" -name '*escape*' ! -path "$work/plots/*/*" ! -path "$work/team/lifters/*")"
ok "no lifter's folder climbs, hides or is an option" test -z "$(find "$work/team/lifters" -mindepth 1 \( -name '.*' -o -name '-*' \))"
for page in "$work"/team/index.html "$work"/team/lifters/*/*.html; do
    [ -f "$page" ] && markup "${page#"$work"/}" "$page"
done
ok "nothing ran in the team's night" test ! -e "$canary"

# gnuplot itself runs the scripts of the worst: the canary must stay away. That it would sing is tried first.
if [ -x "${GNUPLOT:-none}" ]; then
    echo "system('touch $work/control')" >"$work/control.gp"
    (cd "$work" && "$GNUPLOT" control.gp >/dev/null 2>&1)
    ok "gnuplot runs commands where it is told to" test -e "$work/control"
    drawn=0
    for script in "$work"/plots/[1-8]/*.gp "$work"/plots/1[5-9]/*.gp "$work"/plots/2[0-2]/*.gp; do
        case $script in */*waves* | */*curves* | */*band*) ;; *) continue ;; esac
        [ -f "$script" ] || continue
        (cd "$work" && timeout 60 "$GNUPLOT" "$script" >/dev/null 2>"$work/err") && drawn=$((drawn + 1)) || { fail "gnuplot refuses $script"; head -3 "$work/err"; }
    done
    [ $drawn -ge 12 ] && pass || fail "gnuplot drew $drawn scripts only"
    for i in 1 2 3 5 7; do
        "$TAUTLINE" report --html "$work/pages/drawn.html" --today 2026-03-01 "$work/in/$i.csv" >"$work/out" 2>"$work/err"
        grep -q '<svg' "$work/pages/drawn.html" && pass || fail "page $i has no picture"
        markup "page $i with its pictures" "$work/pages/drawn.html"
    done
    ok "nothing ran in gnuplot" test ! -e "$canary"
fi

# One megabyte of one letter, a NUL, and a Unicode torture file.
{ echo 'Date,Exercise,Weight,Reps,Notes'; printf '2026-01-05,squat,100,5,'; head -c 1000000 /dev/zero | tr '\0' a; echo; } >"$work/long.csv"
run report --today 2026-03-01 "$work/long.csv"
status_in "a note of one megabyte" 0 1
{ echo 'Date,Exercise,Weight,Reps'; printf '2026-01-05,'; head -c 900000 /dev/zero | tr '\0' b; echo ',100,5'; } >"$work/long.csv"
run report --today 2026-03-01 "$work/long.csv"
status_in "a lift's name of one megabyte" 0 1
{ echo 'Date,Exercise,Weight,Reps'; printf '2026-01-05,sq\000uat,100,5\n2026-01-06,squat,100,5\n'; } >"$work/nul.csv"
run loads --format csv "$work/nul.csv"
status_in "a NUL byte" 1
said "a NUL byte" 'nul.csv:2.*NUL'
{
    echo 'Date,Exercise,Weight,Reps,Notes'
    printf '2026-01-05,e\314\201\314\201\314\201\314\201cart\303\251,100,5,\360\237\217\213\357\270\217\342\200\215\342\231\202\357\270\217\n'
    printf '2026-01-05,\357\274\263\357\274\261\357\274\265\357\274\241\357\274\264,100\302\240kg,5,\343\203\215\342\200\213\357\273\277x\n'
    printf '2026-01-05,\304\260stanbul \303\237 \317\202 \357\254\201,100,5,\355\240\200 \364\220\200\200 \300\257 \376\377\n'
    printf '2026-01-05,\331\205\330\261\330\255\330\250\330\247,\331\241\331\240\331\240,5,\n'
} >"$work/unicode.csv"
for format in text csv json; do
    run loads --format $format "$work/unicode.csv"
    status_in "the Unicode file as $format" 0 1
done
finish
