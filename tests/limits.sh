#!/bin/sh
# Limits: garbage of any size is refused quickly in bounded memory, by an error that names the limit; numbers and dates that no
# training has are refused, never computed with.
. "${TOP:?the source folder}/tests/check.sh"
MEMORY_KB=65536 # address space is more than memory, so this is stricter than it says; sanitizers need far more
SECONDS_AT_MOST=20 # of the processor's time: on a busy machine the clock says nothing
sanitized=no
# A build with sanitizers reserves terabytes of address space: the time is held, the memory is not.
(ulimit -v 300000 && "$TAUTLINE" --version) >/dev/null 2>&1 || sanitized=yes

bounded() { # ARGUMENT...: in 64 MiB and a few seconds
    if [ $sanitized = yes ]; then
        (ulimit -t $SECONDS_AT_MOST && exec "$TAUTLINE" "$@") >"$work/out" 2>"$work/err" </dev/null
    else
        (ulimit -t $SECONDS_AT_MOST && ulimit -v $MEMORY_KB && exec "$TAUTLINE" "$@") >"$work/out" 2>"$work/err" </dev/null
    fi
    status=$?
}

# --- 1 GB of garbage, made on the fly and never wholly on disk: sparse files --------------------------------------------------
truncate -s 1G "$work/zeros.csv"
bounded check "$work/zeros.csv"
status_in "1 GB of NUL" 3
rm -f "$work/zeros.csv"
{ echo 'Date,Exercise,Weight,Reps'; echo '2026-01-05,squat,100,5'; } >"$work/tail.csv"
truncate -s 1G "$work/tail.csv"
bounded check "$work/tail.csv"
status_in "1 GB of NUL after a good line" 1 3
said "1 GB of NUL after a good line" '256 MiB'
rm -f "$work/tail.csv"

stream() { # NAME GENERATOR: a gigabyte through a pipe; the program must stop reading long before
    sh -c "$2" 2>/dev/null | head -c 1000000000 2>/dev/null | {
        if [ $sanitized = yes ]; then
            (ulimit -t $SECONDS_AT_MOST && exec "$TAUTLINE" check -)
        else
            (ulimit -t $SECONDS_AT_MOST && ulimit -v $MEMORY_KB && exec "$TAUTLINE" check -)
        fi >"$work/out" 2>"$work/err"
        echo $? >"$work/status"
    }
    status=$(cat "$work/status")
    status_in "$1" 1 3
}
stream "1 GB of random bytes" "cat /dev/urandom"
stream "1 GB of one letter" "tr '\\0' a </dev/zero"
said "1 GB of one letter" '256 MiB|neither'
stream "1 GB in one quoted cell" "printf 'Date,Exercise,Weight,Reps,Notes\\n2026-01-05,squat,100,5,\"'; tr '\\0' '\\n' </dev/zero"
said "1 GB in one quoted cell" '1 MiB|never closes|quote'
stream "1 GB of separators" "printf 'Date,Exercise,Weight,Reps\\n'; tr '\\0' , </dev/zero"
said "1 GB of separators" '256 MiB'
stream "1 GB of line ends" "tr '\\0' '\\n' </dev/zero"
said "1 GB of line ends" '16 MiB of empty lines'
header="printf 'Date,Exercise,Weight,Reps\\n2026-01-05,squat,100,5\\n'"
stream "1 GB of line ends after a good line" "$header; tr '\\0' '\\n' </dev/zero"
said "1 GB of line ends after a good line" '16 MiB of empty lines'
stream "1 GB of random bytes after a good line" "$header; cat /dev/urandom"
said "1 GB of random bytes after a good line" '20000 lines were refused|256 MiB'
stream "1 GB of lines that cannot be read" "$header; yes 2026-01-05,squat,x,5"
said "1 GB of lines that cannot be read" '20000 lines were refused'
stream "1 GB of lines that cannot be read in a text log" "printf '2026-01-05\\nsquat 100: 3x5\\n'; yes 'squat x: 3x5'"
said "1 GB of lines that cannot be read in a text log" '20000 lines were refused'
stream "1 GB of quotes" "$header; tr '\\0' '\"' </dev/zero"
said "1 GB of quotes" '256 MiB'
stream "1 GB of digits" "$header; printf 2026-01-05,squat,; tr '\\0' 9 </dev/zero"
said "1 GB of digits" '256 MiB'

# --- a line of more than 1 MiB is refused by its number, the rest of the file is read ----------------------------------------------
filler() { # BYTES
    head -c "$1" /dev/zero | tr '\0' a
}
header='Date,Exercise,Weight,Reps,Notes'
{ echo "$header"; echo '2026-01-05,squat,100,5,'; printf '2026-01-05,squat,105,5,'; filler 1048576; echo; echo '2026-01-06,squat,110,5,'; } >"$work/long.csv"
{ echo "$header"; echo '2026-01-05,squat,100,5,'; printf '2026-01-05,squat,105,5,"'; filler 200000000; echo; echo '2026-01-06,squat,110,5,'; } >"$work/quoted.csv"
{ echo "$header"; echo '2026-01-05,squat,100,5,'; printf '2026-01-05'; filler 9000000 | tr a ,; echo; echo '2026-01-06,squat,110,5,'; } >"$work/cells.csv"
{ echo "$header" | sed 's/Weight,Reps/Set 1,Set 2/'; echo '2026-01-05,squat,100x5,,'; filler 3000000; echo; echo '2026-01-06,squat,110x5,,'; } >"$work/wide.csv"
{ echo '2026-01-05'; echo 'squat 100: 1x5'; filler 30000000; echo; echo 'squat 110: 1x5'; } >"$work/long.txt"
for file in long.csv quoted.csv cells.csv wide.csv long.txt; do
    bounded check "$work/$file"
    status_in "a long line in $file" 1
    said "a long line in $file" "$file:3.*error: a line of more than 1 MiB"
    [ "$(cat "$work/out" "$work/err" | grep -c ": error:")" = 1 ] && pass || fail "a long line in $file is not all that was refused"
    bounded loads --format csv --columns straight_kg "$work/$file"
    [ "$(tr '\n' ' ' <"$work/out")" = 'straight_kg 100 110 ' ] && pass || fail "$file was not read but for its long line: $(cat "$work/out")"
done
{ echo "$header"; printf '2026-01-05,squat,105,5,'; filler 1048553; echo; } >"$work/long.csv"
bounded check "$work/long.csv"
status_in "a line of 1 MiB" 0
rm -f "$work/long.csv" "$work/quoted.csv" "$work/cells.csv" "$work/wide.csv" "$work/long.txt"

# --- documented limits, each named by its error ---------------------------------------------------------------------------------
{ echo 'Date,Exercise,Weight,Reps'; head -c 5000 /dev/zero | tr '\0' ,; echo; } >"$work/cells.csv"
bounded check "$work/cells.csv"
said "5,000 cells" '4096 cells'
{ echo '[gym]'; echo 'unit = kg'; printf 'formula = '; head -c 300 /dev/zero | tr '\0' x; echo; } >"$work/gym.ini"
echo 'Date,Exercise,Weight,Reps' >"$work/log.csv"
bounded check --gym "$work/gym.ini" "$work/log.csv"
said "a gym file's long line" '190 bytes'
head -c 5000000 /dev/zero | tr '\0' '\n' >"$work/gym.ini"
bounded check --gym "$work/gym.ini" "$work/log.csv"
said "a gym file of 5 MB" '4 MiB'
rm -f "$work/gym.ini"

# --- numbers ------------------------------------------------------------------------------------------------------------------------
one() { # WEIGHT REPS RPE VELOCITY
    printf 'Date,Exercise,Weight (kg),Reps,RPE,Velocity\n2026-01-05,bench press,"%s","%s","%s","%s"\n' "$1" "$2" "$3" "$4" >"$work/one.csv"
    run loads --format csv "$work/one.csv"
}
for weight in NaN nan inf -inf Infinity 0x64 1e400 1e5 -100 3000 99999999999999999999 1e-400x 100kgkg '1,000,00' '१००'; do
    one "$weight" 5 8 0.5
    status_in "a weight of $weight" 1 3
    said "a weight of $weight" 'one.csv:2'
    [ "$(wc -l <"$work/out")" -le 1 ] && pass || fail "a weight of $weight was computed with"
done
for reps in NaN inf -5 0x5 1e400 99999 4294967297 5.5 99999999999999999999; do
    one 100 "$reps" 8 0.5
    status_in "repetitions of $reps" 1 3
    [ "$(wc -l <"$work/out")" -le 1 ] && pass || fail "repetitions of $reps were computed with"
done
for effort in NaN inf 1e400 -8 0x8 80; do # the row is kept, the effort is not
    one 100 5 "$effort" 0.5
    status_in "an RPE of $effort" 0 1
    if cut -d, -f11 "$work/out" | grep -qiE 'nan|inf|80|-8'; then fail "an RPE of $effort was taken"; else pass; fi
done
for speed in NaN inf 1e400 -0.5 0x1p3 300000; do
    one 100 5 8 "$speed"
    if cut -d, -f13 "$work/out" | sed 1d | grep -q .; then fail "a velocity of $speed was taken"; else pass; fi
done
for load in 'nan kg' 'inf' '1e400 kg' '0x64 kg' '3000 kg' '100 kg + 2000 kg chain' '100 kg + nan kg chain' '100 kg + band inf kg' '-100 kg' \
    '500%' 'BW-1e400' '999999999999999999999999999999'; do
    run setup "$load"
    status_in "setup '$load'" 1 2 3
    if grep -qiE '\b(nan|inf)\b' "$work/out"; then fail "setup '$load' was computed with"; else pass; fi
done
for option in '--heights=nan m 1 m' '--heights=0.5 m inf m' '--max=1e400 kg' '--max=nan kg' '--share=nan%' '--share=1e9%' '--most=0x10' '--most=99999999999'; do
    run setup "$option" '100 kg'
    status_in "setup $option" 2
done
for flat in 'nan m' '0 m' '-1 m' '1e400 m' '0x1 m'; do
    run fit --flat "$flat" "$work/one.csv"
    status_in "fit --flat '$flat'" 2
done
printf '[gym]\nbar = nan kg\nu-mass = inf %%\n[chain "c"]\nmass = 1e400 kg\nlength = -1 m\n[band "b"]\nflat = nan m\ntension = inf m : 1 kg\n[lifter "x"]\nstature = 1e9 m\nmax = squat 0x50 kg 2026-01-01\n' >"$work/gym.ini"
one 100 5 8 0.5
[ "$(grep -c 'gym.ini:.*error' "$work/err")" -ge 7 ] && pass || fail "numbers that no gym has: $(cat "$work/err")"
if grep -qiE ',-?(nan|inf)' "$work/out"; then fail "the gym's numbers were computed with"; else pass; fi
rm -f "$work/gym.ini"

# --- dates: a mistyped year must not make a row for each week of centuries ------------------------------------------------------------
for date in 1000-01-01 1899-12-31 2200-01-01 9999-12-31 0000-00-00 99999-01-01 2026-02-30 '2026-01-05 2026-01-05x' 9999-W52-7; do
    printf 'Date,Exercise,Weight,Reps\n%s,squat,100,5\n2026-01-05,squat,100,5\n' "$date" >"$work/dates.csv"
    bounded trend --format csv "$work/dates.csv"
    [ "$(wc -l <"$work/out")" -le 4 ] && pass || fail "a date of $date makes $(wc -l <"$work/out") rows"
done
printf 'Date,Exercise,Weight,Reps\n9999-12-31,squat,100,5\n' >"$work/dates.csv"
bounded trend "$work/dates.csv"
status_in "the year 9999" 1 3
said "the year 9999" '1900 to 2199'
printf '9999-12-31\nsquat 100: 3x5\n\n2026-01-05\nsquat 100: 3x5\n' >"$work/dates.txt"
bounded trend --format csv "$work/dates.txt"
status_in "the year 9999 in a text log" 1
said "the year 9999 in a text log" '1900 to 2199'
printf 'Date,Exercise,Weight,Reps\n1900-01-01,squat,100,5\n2199-12-31,squat,100,5\n' >"$work/dates.csv"
for command in trend waves report audit; do
    run $command --format "$([ $command = report ] && echo text || echo csv)" "$work/dates.csv"
    status_in "$command over three centuries" 0
done

# --- files ------------------------------------------------------------------------------------------------------------------------------
mkdir -p "$work/deep/a" "$work/many"
ln -s .. "$work/deep/a/back"
mkfifo "$work/deep/pipe"
(cd "$work/deep" && p=.; i=0; while [ $i -lt 60 ]; do p=$p/d; mkdir $p; i=$((i + 1)); done)
run check "$work/deep"
status_in "a folder that leads back to itself, with a pipe" 0 3
run check "$work/many/none.csv"
status_in "a file that is not there" 3
printf 'Date,Exercise,Weight,Reps\n2026-01-05,squat,100,5\n' >"$work/small.csv"
i=0; while [ $i -lt 300 ]; do cp "$work/small.csv" "$work/many/$i.csv"; i=$((i + 1)); done
(ulimit -n 20 && exec "$TAUTLINE" check "$work/many") >"$work/out" 2>"$work/err"
status=$?
status_in "300 files with 20 descriptors" 0
finish
