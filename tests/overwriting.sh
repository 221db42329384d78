#!/bin/sh
# What a run read is not written over by what it writes: not by its name, not by another, not through a link.
. "${TOP:?the source folder}/tests/check.sh"
cd "$work" || exit 99
mkdir logs kept pictures
printf 'Date,Exercise,Weight,Reps,Notes\n2026-01-05,Squat,100,3,2 chains/side\n2026-01-12,Squat,102.5,3,2 chains/side\n' >logs/log.csv
printf 'date,lifter,lift,week,set,reps,straight\n' >logs/plan.txt
printf 'length_m,pull_kg\n0.5,0\n1,10\n1.2,15\n' >pulls.csv
printf '[gym]\nunit = kg\n' >logs/gym.ini
ln -s logs/log.csv link.csv
ln logs/log.csv second.csv
ln -s logs linked
ln -s ../logs/log.csv pictures/squat-waves-speed.gp
cp -r logs pulls.csv kept

kept() { # TEXT STATUS ARGUMENT...: refused, and all that was read is as it was
    kept_text=$1 wanted=$2
    shift 2
    run "$@"
    status_in "$kept_text" "$wanted"
    if cmp -s logs/log.csv kept/logs/log.csv && cmp -s logs/gym.ini kept/logs/gym.ini && cmp -s logs/plan.txt kept/logs/plan.txt &&
        cmp -s pulls.csv kept/pulls.csv && [ -L link.csv ]; then
        pass
    else
        fail "$kept_text: an input was changed"
        rm -rf logs pulls.csv && cp -r kept/logs kept/pulls.csv . && ln -f logs/log.csv second.csv
    fi
}

for command in loads trend waves audit report check 'plan --lift squat'; do
    # shellcheck disable=SC2086 # words of the command
    kept "$command over its log" 2 $command --output logs/log.csv logs/log.csv
    # shellcheck disable=SC2086
    kept "$command over its gym file" 2 $command --output logs/gym.ini logs/log.csv
done
kept "over a log in a folder" 2 loads --output logs/log.csv logs
kept "over a link to the log" 2 loads --output link.csv logs/log.csv
kept "over a log that a link names" 2 loads --output logs/log.csv link.csv
kept "over another name of the log" 2 loads --output second.csv logs/log.csv
kept "over another spelling" 2 loads --output ./linked/../logs/log.csv logs/log.csv
kept "over a gym file named" 2 trend --gym logs/gym.ini --output logs/gym.ini pulls.csv
kept "a page over the log" 2 report --html logs/log.csv logs/log.csv
kept "a page over the gym file" 2 report --html logs/gym.ini logs/log.csv
kept "a page over the plan" 2 report --html logs/plan.txt --plan logs/plan.txt logs/log.csv
kept "pictures beside the log" 2 plot --into logs --render none logs/log.csv
kept "pictures beside the log, by a link" 2 plot --into linked --render none logs/log.csv
kept "pictures in a folder of logs" 2 plot --into logs --render none logs
kept "fit over its measurements" 2 fit --output pulls.csv pulls.csv
kept "fit's plot over its measurements" 2 fit --render none --plot pulls.csv pulls.csv
kept "setup over the gym file" 2 setup --gym logs/gym.ini --output logs/gym.ini 100
if [ "$(ls logs | wc -l)" = 3 ]; then pass; else fail "something was written beside the logs"; fi

# A link among the pictures that leads to the log: whatever the pictures are called.
"$TAUTLINE" plot --into probe --render none logs/log.csv >/dev/null 2>&1
for script in probe/*.gp; do
    rm -rf pictures && mkdir pictures
    ln -s ../logs/log.csv "pictures/$(basename "$script")"
    kept "a picture's script through a link" 2 plot --into pictures --render none logs/log.csv
    rm -rf pictures && mkdir pictures
    ln -s ../logs/log.csv "pictures/$(basename "$script" .gp).svg"
    kept "a picture through a link" 2 plot --into pictures logs/log.csv
done

# What was read before and is no log is no input: a second run replaces the first one's page.
run report --html logs/page.html logs
status_in "a page beside the logs" 0
run report --html logs/page.html logs
status_in "the same page once more" 0

# The name of a file was forgotten: the next option is none.
run report --html --output x logs/log.csv
status_in "--html --output x" 2
said "--html --output x" 'html needs FILE'
run loads --output --unit lb logs/log.csv
status_in "--output --unit lb" 2
if [ ! -e ./--output ] && [ ! -e ./--unit ] && [ ! -e x ]; then pass; else fail "a file is called as an option"; fi
run loads --output=--unit logs/log.csv
status_in "a name that is said to be one" 0
for name in page.pdf page.PDF sheet.xlsx; do
    run report --html $name logs/log.csv
    status_in "--html $name" 2
    said "--html $name" 'FILE.html'
done
run loads --from 5.1.2026 logs/log.csv
status_in "a day in another form" 2
said "a day in another form" 'YYYY-MM-DD'
finish
