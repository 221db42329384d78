#!/bin/sh
# No command's work may grow faster than its input: instructions at n and at 2n, counted, since times are not steady. What must not be worse
# than linear (times a logarithm) takes at most LIMIT % of twice as many. Also the memory. It takes minutes, so `make check-nightly` runs it.
. "${TOP:?the source folder}/tests/check.sh"
LIMIT=230
command -v valgrind >/dev/null || {
    echo "left out: valgrind is not here"
    exit 77
}
valgrind --tool=callgrind --callgrind-out-file=/dev/null -q "$TAUTLINE" --version >/dev/null 2>&1 || {
    echo "left out: this build does not run in valgrind"
    exit 77
}

write_log() { # KIND N
    awk -v kind="$1" -v n="$2" '
        function iso(day,    z, era, doe, yoe, doy, mp, d, m) { # days since 1970 by the proleptic calendar
            z = day + 719468; era = int(z / 146097); doe = z - era * 146097
            yoe = int((doe - int(doe / 1460) + int(doe / 36524) - int(doe / 146096)) / 365)
            doy = doe - (365 * yoe + int(yoe / 4) - int(yoe / 100)); mp = int((5 * doy + 2) / 153)
            d = doy - int((153 * mp + 2) / 5) + 1; m = mp < 10 ? mp + 3 : mp - 9
            return sprintf("%04d-%02d-%02d", yoe + era * 400 + (m <= 2), m, d)
        }
        function put(day, lifter, lift, set, kg, reps) { printf "%s,%s,lift %s,%d,%.2f,%d\n", iso(day), lifter, lift, set, kg, reps }
        BEGIN {
            print "date,lifter,lift,set,weight,reps"
            for (i = 0; i < n; i++) {
                day = 10957 + int(int(i / 15) * 7 / 4)
                week = int(day / 7)
                if (kind == "sets")
                    put(day, "Oda", int(i / 15) % 4, i % 5 + 1, 100 + 5 * (week % 3) + int(week / 6) / 2, 3)
                if (kind == "lifts")
                    for (k = 0; k < 6; k++)
                        put(10957 + 7 * k, "Oda", i, 1, 60 + i % 50 + 5 * (k % 3) + int(k / 3), 5)
                if (kind == "lifters")
                    for (k = 0; k < 6; k++)
                        put(10957 + 7 * k, sprintf("L%05d", i), 0, 1, 60 + 5 * (k % 3) + int(k / 3), 5)
                if (kind == "once")
                    put(10957, "Oda", i, 1, 60, 5)
                if (kind == "single")
                    put(10957, sprintf("L%05d", i), 0, 1, 60, 5)
                if (kind == "loads")
                    put(day, "Oda", 0, i % 15 + 1, 20 + i / 100, 3)
                if (kind == "day")
                    put(10957, "Oda", 0, i + 1, 20 + i * 7919 % n / 100, 3)
                if (kind == "apart") {
                    put(1000, "Oda", i, 1, 60 + i % 50, 5)
                    put(22900, "Oda", i, 1, 60 + i % 50, 5)
                }
            }
        }' >"$work/$1.csv"
}

write_gym() { # BANDS
    awk -v n="$1" 'BEGIN {
        for (i = 0; i < n; i++)
            printf "[band \"b%d\"]\nflat = 1.04 m\npair = yes\ntension = 1.60 m : %.1f kg\ntension = 2.00 m : %.1f kg\n", i, 10 + i % 20, 20 + i % 20
    }' >"$work/bands.ini"
}

write_lift_blocks() { # LIFTS
    awk -v n="$1" 'BEGIN { for (i = 0; i < n; i++) printf "[lift \"known lift number %d\"]\nbodyweight = no\n", i }' >"$work/blocks.ini"
}

write_chains() { # CHAINS
    awk -v n="$1" 'BEGIN {
        print "[lifter \"Oda\"]\nheights = squat 0.60 m 1.20 m\nmax = squat 150 kg 2026-01-01"
        for (i = 0; i < n; i++)
            printf "[chain \"c%d\"]\nmass = %.1f kg\nlength = 1.%d m\n", i, 3 + i % 97 / 10, i % 50 + 10
    }' >"$work/chains.ini"
}

instructions() { # ARGUMENT...
    valgrind --tool=callgrind --callgrind-out-file=/dev/null "$TAUTLINE" "$@" --today 2035-01-01 2>&1 >/dev/null </dev/null |
        sed -n 's/.*refs: *//p' | tr -d ,
}

peak() { # ARGUMENT...: KiB
    python3 - "$TAUTLINE" "$@" <<'PY'
import resource, subprocess, sys
subprocess.run(sys.argv[1:], stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
print(resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss)
PY
}

base=$(instructions check --jobs 1 "$work/none")

is_left_out() { # KIND: ONLY="kind kind" runs those alone
    [ -n "${ONLY:-}" ] && case " $ONLY " in *" $1 "*) return 1 ;; esac
}

grows() { # KIND N COMMAND...: of a log, what stands for LOG
    is_left_out "$1" && return
    kind=$1 n=$2
    shift 2
    counts=
    for size in "$n" $((2 * n)); do
        case $kind in
        bands) write_gym "$size" && write_log sets 300 ;;
        blocks) write_lift_blocks "$size" && write_log lifts "$size" && cp "$work/lifts.csv" "$work/blocks.csv" ;;
        chains) write_chains "$size" ;;
        *) write_log "$kind" "$size" ;;
        esac
        [ "$kind" != bands ] || cp "$work/sets.csv" "$work/bands.csv"
        if [ "$kind" = chains ]; then
            count=$(instructions "$@")
        else
            count=$(instructions "$@" --jobs 1 "$work/$kind.csv")
        fi
        counts="$counts $((${count:-0} - base))"
    done
    set -- "$*" $counts
    ratio=$(($3 * 100 / ($2 > 0 ? $2 : 1)))
    [ "$2" -gt 0 ] && [ "$ratio" -le "$LIMIT" ] && pass ||
        fail "$1 of $kind: $2 instructions for $n, $3 for $((2 * n)): $ratio % instead of at most $LIMIT %"
    [ -z "${SHOW:-}" ] || printf '%-8s %-24s %12s %12s %s %%\n' "$kind" "$1" "$2" "$3" "$ratio"
}

for command in report audit waves plan "loads --format csv" "trend --format csv"; do
    grows sets 4000 $command
    grows once 1000 $command
    grows lifts 200 $command
    grows lifters 150 $command
    grows loads 4000 $command
done
for command in audit "loads --format csv" "trend --format csv"; do
    grows day 2000 $command
done
for command in audit plan report "loads --format csv" "trend --format csv"; do
    grows apart 100 $command
done
grows sets 1500 report --html "$work/page.html"
grows lifts 50 report --html "$work/page.html"
for command in check "loads --format csv"; do
    grows bands 1000 $command --gym "$work/bands.ini"
done

# 64 MiB and 16 times the input is all that a command may take.
takes() { # KIND N COMMAND...
    is_left_out "$1" && return
    kind=$1 n=$2
    shift 2
    write_log "$kind" "$n"
    most=$((65536 + 16 * $(wc -c <"$work/$kind.csv") / 1024))
    kib=$(peak "$@" --today 2035-01-01 "$work/$kind.csv")
    [ "${kib:-0}" -gt 0 ] && [ "$kib" -le "$most" ] && pass || fail "$* of $n $kind: $kib KiB instead of at most $most KiB"
    [ -z "${SHOW:-}" ] || printf '%-8s %-24s %12s KiB of %12s\n' "$kind" "$*" "$kib" "$most"
}

grows blocks 300 check --gym "$work/blocks.ini"
grows chains 200 setup --share 20% --lifter Oda --lift squat --gym "$work/chains.ini"
for command in report "report --page $work/page.html"; do
    grows single 500 $command
done

# A week of a lift is a row, and sixty years are three thousand of them, of which none is shown.
for command in audit report "trend --format csv" "waves --format csv"; do
    takes apart 2000 $command
done
# What such a page shows is written as it is made, and a picture is held while it is put into the page.
takes apart 2000 report --html "$work/page.html"
for command in report "trend --format csv" "report --page $work/page.html" "report --html $work/page.html"; do
    takes single 6000 $command
done
finish
