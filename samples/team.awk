# An invented team, for trying the nightly job at any size. Run by team.sh. POSIX awk; random numbers of its own.
#
# Lifters train squat, bench press and deadlift in three-week waves. Of ten, seven keep a CSV of their own, one a text log,
# and two stand in an export that the whole team shares, which each of the two names as their log. A line in about 400 is
# spoilt on purpose. Days count from Monday 2026-01-05.

BEGIN {
    seed = seed % 2147483646 + 1
    for (i = 0; i < 10; i++) chance()
    gym = into "/gym.ini"
    shared = into "/logs/team-export.csv"
    print "date,lifter,lift,weight,sets,reps,rpe,note" > shared
    gear()
    for (n = 1; n <= lifters; n++) lifter(n)
}

# Park and Miller's minimal standard generator: every product stays below 2^53, so doubles hold it exactly.
function chance() { seed = (seed * 16807) % 2147483647; return seed / 2147483647 }
function pick(n) { return int(chance() * n) }
function nearest(x, step) { return int(x / step + 0.5) * step }
function number(x,    text) { text = sprintf("%.2f", x); sub(/\.?0+$/, "", text); return text }

function iso(day,    length_of, year, month) {
    split("31 28 31 30 31 30 31 31 30 31 30 31", length_of, " ")
    year = 2026; month = 1; day += 5
    length_of[2] = year % 4 == 0 ? 29 : 28
    while (day > length_of[month]) {
        day -= length_of[month]
        if (++month > 12) { month = 1; year++; length_of[2] = year % 4 == 0 ? 29 : 28 }
    }
    return sprintf("%04d-%02d-%02d", year, month, day)
}

# Two made-up words and, from the second time round, a number: unique for any n.
function name_of(n,    first, last, count) {
    split("Ba Do Fe Gu Hi Jo Ka Lu Mi Ne Pa Ro Si Tu Va", first, " ")
    split("brin dalv fenk garst holm jurn kest lomb morv nilt", last, " ")
    count = int((n - 1) / 2250)
    return first[(n - 1) % 15 + 1] last[int((n - 1) / 15) % 10 + 1] " O" last[int((n - 1) / 150) % 10 + 1] \
        (int((n - 1) / 1500) % 2 ? "a" : "") (count ? " " count + 1 : "")
}

function gear() {
    print "; An invented team, made by samples/team.sh\n[gym]\nunit = kg\nbar = 20 kg\nplates = 25 20 15 10 5 2.5 1.25 0.5\n" > gym
    print "[chain \"long\"]\ndefault = yes\nmass = 7.0 kg\nlength = 0.78 m\nlink = 55 mm\nleader = 0.80 m, 0.4 kg\n" > gym
    print "[band \"b24\"]\nflat = 0.70 m\npair = yes\ntension = 0.95 m : 7.6 kg\ntension = 1.40 m : 14.6 kg\ntension = 1.65 m : 18.2 kg\nmeasured = 2026-01-02\n" > gym
    print "[setup \"pegs\"]\nheight = 0.05 m\nspread = 0.10 m\n" > gym
    print "[lift \"squat\"]\nsetup = pegs\n\n[lift \"bench press\"]\nsetup = pegs\n" > gym
}

function lifter(n,    name, kind, file) {
    name = name_of(n)
    kind = n % 10 == 3 ? "text" : n % 10 == 5 || n % 10 == 6 ? "shared" : "csv"
    file = kind == "shared" ? "team-export.csv" : sprintf("%05d.%s", n, kind == "text" ? "txt" : "csv")
    squat = 100 + pick(100); bench = 60 + pick(80); pull = 120 + pick(100)
    printf "[lifter \"%s\"]\nlog = logs/%s\nmax = squat %d kg 2026-01-02\nmax = bench press %d kg 2026-01-02\nmax = deadlift %d kg 2026-01-02\n", \
        name, file, squat, bench, pull > gym
    printf "heights = squat %s m %s m\nheights = bench press 0.85 m 1.25 m\nheights = deadlift 0.23 m 0.80 m\n\n", \
        number(0.75 + pick(20) / 100), number(1.35 + pick(20) / 100) > gym
    file = into "/logs/" file
    if (kind == "csv") print "date,lift,weight,sets,reps,rpe,note" > file
    if (kind == "text") print "lifter: " name "\nunit: kg" > file
    for (week = 0; week < weeks; week++) train(name, kind, file)
    if (kind != "shared") close(file)
}

function train(name, kind, file,    step, gain) {
    step = week % 4
    gain = 1 + int(week / 4) * 0.005
    if (step == 3 && pick(2)) return # a week off after a wave, now and then
    day(0); row(name, kind, file, "squat", squat * gain * (0.50 + 0.05 * step), 7, 2, n % 2 ? " + 3 chains/side" : " + band b24")
    row(name, kind, file, "deadlift", pull * gain * (0.75 + 0.03 * step), 3, 3, "")
    day(2); row(name, kind, file, "bench press", bench * gain * (0.50 + 0.05 * step), 6, 3, " + band b24")
    day(4); row(name, kind, file, "squat", squat * gain * (0.77 + 0.03 * step), 4, 3, "")
    row(name, kind, file, "bench press", bench * gain * (0.77 + 0.03 * step), 5, 3, "")
}

function day(offset) { date = iso(week * 7 + offset); begun = 0 }

function row(name, kind, file, lift, kg, sets, reps, ar,    load) {
    load = number(nearest(kg, 0.5)) " kg" ar
    if (pick(400) == 0) load = number(nearest(kg, 0.5)) " kg + 1 chain"
    if (kind == "csv") print date "," lift "," load "," sets "," reps ",," > file
    else if (kind == "shared") print date "," name "," lift "," load "," sets "," reps ",," > file
    else {
        if (!begun++) print "\n" date > file
        print lift " " load ": " sets "x" reps > file
    }
}
