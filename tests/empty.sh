#!/bin/sh
# Next to nothing: every command over logs of none, one and two sets, lifters, lifts and weeks. None may crash, hang, or take a log
# without a set for a broken one. In a build with sanitizers they look on.
. "${TOP:?the source folder}/tests/check.sh"
TIME_LIMIT=20 # seconds of the processor's time
cd "$work" || exit 99
mkdir logs

csv() { # NAME ROW...
    name=$1
    shift
    printf '%s\n' 'Date,Athlete,Exercise,Weight,Reps,RPE,Velocity,Notes' "$@" >"logs/$name.csv"
}
: >logs/nothing.txt
printf '# a log to come\n' >logs/comment.txt
printf '2026-01-05\n' >logs/day.txt
printf '2026-01-05\nsquat 100 + 2 chains/side: 2x3\n' >logs/line.txt
csv header
csv refused '2026-01-05,Oda,Squat,x,5,,,'
csv aside '2026-01-05,Oda,Run,,,,,'
csv weightless '2026-01-05,Oda,Pull-up,,8,,,'
csv set '2026-01-05,Oda,Squat,100,5,8,0.5,'
csv nobody '2026-01-05,,Squat,100,1,,,2 chains/side'
csv sets '2026-01-05,Oda,Squat,100,5,8,0.5,' '2026-01-05,Oda,Squat,110,5,9,0.4,'
csv lifts '2026-01-05,Oda,Squat,100,5,,,' '2026-01-05,Oda,Bench press,70,5,,,1 chain/side'
csv lifters '2026-01-05,Oda,Squat,100,5,,,' '2026-01-05,Ilmar,Squat,140,5,,,'
csv weeks '2026-01-05,Oda,Squat,100,2,,,2 chains/side' '2026-01-12,Oda,Squat,105,2,,,2 chains/side'
csv percent '2026-01-05,Oda,Squat,60%,3,,,' '2026-01-12,Oda,Squat,100,1,,,'
printf 'date,lifter,lift,week,set,reps,straight\n' >none.plan
printf 'length_m,pull_kg\n' >none.pulls
printf 'length_m,pull_kg\n0.5,0\n' >one.pulls
printf 'length_m,pull_kg\n0.5,0\n1,10\n' >two.pulls
printf '[gym]\n' >empty.ini
printf '[lifter "Oda"]\n' >one.ini

bounded() { # ARGUMENT...
    (ulimit -t $TIME_LIMIT && exec "$TAUTLINE" "$@") >"$work/out" 2>"$work/err" </dev/null
    status=$?
}

calm() { # TEXT STATUS...: the status is one of these, and no sanitizer spoke
    calm_text=$1
    status_in "$@"
    if grep -q 'Sanitizer\|runtime error' "$work/err"; then fail "$calm_text"; head -5 "$work/err"; fi
}

for log in logs/*; do
    while read -r command; do
        # shellcheck disable=SC2086 # words of the command
        bounded $command --today 2026-02-01 "$log"
        case $command in
        *--lifter*) calm "$command $log" 0 1 2 ;; # a log without lifters has none of that name
        *) calm "$command $log" 0 1 ;;
        esac
    done <<'END'
check
check --format csv
loads
loads --format json
loads --lifter Oda --unit lb
trend
trend --format csv --jobs 2
trend --slopes
trend --velocity
trend --speed-loss
waves
waves --slopes --format json
audit
audit --format csv --strict
report
report --html page.html
plot --render none --into pictures
END
    bounded plan --today 2026-02-01 "$log"
    calm "plan $log" 0 1 2
    bounded start "new-$(basename "$log")" "$log"
    calm "start $log" 0 1
done
bounded plot logs/header.csv --into drawn
calm "plot of nothing" 0
if [ "$(cat "$work/out")" = 'drawn: 0 scripts, 0 pictures' ]; then pass; else fail "plot of nothing: $(cat "$work/out")"; fi

mkdir none
for command in check loads trend waves audit report 'plot --into pictures'; do
    # shellcheck disable=SC2086
    bounded $command none
    calm "$command of an empty folder" 0 1
    # shellcheck disable=SC2086
    bounded $command --gym empty.ini
    calm "$command of a gym without lifters" 0 1 2
done
for pulls in ./*.pulls; do
    bounded fit "$pulls"
    calm "fit $pulls" 0 1 3
    bounded fit --compare --format csv "$pulls"
    calm "fit --compare $pulls" 0 1 3
done
bounded waves --plan none.plan logs/set.csv
calm "waves --plan of no day" 0 1 3
for gym in empty one; do
    for night in first second; do
        bounded team --gym $gym.ini --into team-$gym --render none --today 2026-02-01
        calm "team of $gym.ini, $night night" 0 1 2 3
    done
done
bounded setup 100
calm "setup of a plain bar" 0
finish
