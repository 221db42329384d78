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

n=0
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
        if LC_ALL=C grep -q "$(printf '[\001-\010\013-\037\177]')" "$work/out" "$work/err"; then
            fail "$command of $trick: a control character is printed"
        elif LC_ALL=C grep -qF -e "$bidi" -e "$csi" "$work/out" "$work/err"; then
            fail "$command of $trick: a hidden direction or C1 control is printed"
        else
            pass
        fi
    done
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
if LC_ALL=C grep -q "$(printf '[\001-\010\013-\037\177]')" "$work/out" "$work/err"; then fail "a file's name reaches the terminal raw"; else pass; fi
ok "no file's name ran" test ! -e "$work/names/canary"

# gnuplot itself runs the scripts of the worst: the canary must stay away.
if [ -x "${GNUPLOT:-none}" ]; then
    for script in "$work"/plots/[1-8]/*.gp "$work"/plots/1[5-9]/*.gp "$work"/plots/2[0-2]/*.gp; do
        [ -f "$script" ] || continue
        case $script in */waves* | */curves* | */band*) ;; *) continue ;; esac
        (cd "$work" && timeout 60 "$GNUPLOT" "$script" >/dev/null 2>"$work/err") && pass || { fail "gnuplot refuses $script"; head -3 "$work/err"; }
    done
    ok "nothing ran in gnuplot" test ! -e "$canary"
fi

# The report as HTML: no markup of the log's in it.
for i in 7 8 32; do
    run report --format html --output "$work/report.html" --today 2026-03-01 "$work/in/$i.csv"
    [ "$status" = 2 ] && break # a build without it
    if grep -qiE '<script>alert|<img src=x' "$work/report.html"; then fail "markup of a log in the report"; else pass; fi
done

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
