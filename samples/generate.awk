# A training year of three invented lifters, written as three very different people would keep it. Run by generate.sh.
# POSIX awk; random numbers of its own, so that every awk writes the same bytes. The tested maxes are read from gym.ini.
#
# A year is a string of 52 weeks: 1 2 3 the steps of a wave, d deload, l light, t test, - no training. Days count from
# Monday 2025-11-03. What hangs on the bar is a code until each lifter puts it into words of their own:
#   L3  three "long" chains on each side     S2  two "short"     W3  three "low", hung by the middle
#   anything else is a band as the log names it
# Lines that must be refused go through bad(), which lists them in refused.csv with their line and the reason.

BEGIN {
    read_maxes()
    open_refused()
    tobin()
    maren()
    corvin()
    plain()
    close(refused)
}

# --- numbers --------------------------------------------------------------------------------------------------------

# Park and Miller's minimal standard generator: every product stays below 2^53, so doubles hold it exactly.
function chance() { seed = (seed * 16807) % 2147483647; return seed / 2147483647 }
function pick(n) { return int(chance() * n) }
function choose(list,    words, n) { n = split(list, words, "|"); return words[pick(n) + 1] }
function about(x, spread) { return x + (chance() - 0.5) * 2 * spread }
function nearest(x, step) { return int(x / step + 0.5) * step }

function number(x,    text) { text = sprintf("%.2f", x); sub(/\.?0+$/, "", text); return text }
function comma(text) { sub(/\./, ",", text); return text }
function pounds(kg) { return comma(sprintf("%.1f", kg / 0.45359237)) }

# --- days -----------------------------------------------------------------------------------------------------------

function date_parts(day,    length_of, year, month) {
    split("31 28 31 30 31 30 31 31 30 31 30 31", length_of, " ") # no leap year near
    year = 2025; month = 11; day += 3
    while (day > length_of[month]) {
        day -= length_of[month]
        if (++month > 12) { month = 1; year++ }
    }
    Y = year; M = month; D = day
}
function iso(day) { date_parts(day); return sprintf("%04d-%02d-%02d", Y, M, D) }
function day_first(day, mark) { date_parts(day); return sprintf("%02d%s%02d%s%04d", D, mark, M, mark, Y) }

# --- maxes ----------------------------------------------------------------------------------------------------------

function read_maxes(    line, who, lift, part) {
    while ((getline line < gym) > 0) {
        sub(/[ \t]*;.*/, "", line)
        if (line ~ /^\[lifter /) {
            split(line, part, "\"")
            who = part[2]
        } else if (line ~ /^max = /) {
            match(line, / [0-9.]+ kg /)
            lift = substr(line, 7, RSTART - 7)
            split(substr(line, RSTART + 1), part, " ")
            test_count[who, lift]++
            test_kg[who, lift, test_count[who, lift]] = part[1]
            test_date[who, lift, test_count[who, lift]] = part[3]
        }
    }
    close(gym)
}

function max_on(lift, date,    i, kg) {
    for (i = 1; i <= test_count[who, lift]; i++)
        if (test_date[who, lift, i] <= date)
            kg = test_kg[who, lift, i]
    return kg + 0
}

# A share of the max in force, rounded to what the plates make.
function percent(lift, day, share, plate) { return nearest(max_on(lift, iso(day)) * share, plate) }

function tested_on(lift, date,    i) {
    for (i = 1; i <= test_count[who, lift]; i++)
        if (test_date[who, lift, i] == date)
            return test_kg[who, lift, i] + 0
    return 0
}

# The lifter's strength that day: on the way from the max in force to the next, by the weeks of a twelve-week cycle.
function strength_on(lift, day,    now, i) {
    now = max_on(lift, iso(day))
    for (i = 1; i <= test_count[who, lift]; i++)
        if (test_date[who, lift, i] > iso(day))
            return now + (test_kg[who, lift, i] - now) * (int(day / 7) % 12) / 12
    return now
}

# RPE of the set, from the repetitions that strength would allow (Epley); empty below 6, where nobody can tell.
function effort(lift, day, kg, reps,    most, rpe) {
    most = 30 * (strength_on(lift, day) / kg - 1)
    rpe = nearest(about(10 - (most - reps), 0.3), 0.5)
    return rpe < 6 ? "" : number(rpe > 9.5 ? 9.5 : rpe)
}

# --- files ----------------------------------------------------------------------------------------------------------

function begin_file(name) { file = name; path = into "/" name; line_no = 0; printf "" > path }

# One record; `eol` ends it. Line breaks inside count, as an editor counts them.
function put(text) { printf "%s%s", text, eol > path; line_no += 1 + gsub(/\n/, "", text) }

function open_refused() { refused = into "/refused.csv"; printf "file,line,why\n" > refused }
function bad(text, why) { printf "%s,%d,%s\n", file, line_no + 1, why > refused; put(text) }

function cell(text, separator) {
    if (index(text, separator) || index(text, "\"") || index(text, "\n")) {
        gsub(/"/, "\"\"", text)
        return "\"" text "\""
    }
    return text
}

# --- the programme, common to all -----------------------------------------------------------------------------------

# Before a lifter's year: `wave` counts the waves, `bonus` the waves since the last test (0, 1, 2).
function begin_year(name, start) { who = name; seed = start; wave = 0; bonus = -1 }
function begin_week(year, w,    c) {
    week = w; monday = 7 * w; step = substr(year, w + 1, 1)
    if (step == "1") { wave++; bonus++ }
    return step
}
function end_week() { if (step == "t") bonus = -1 }

# Straight weight of a day's speed work: 50, 55, 60 % of 1RM and `points` more in each wave since the last test.
function speed_kg(lift, day, points, plate) {
    return nearest(max_on(lift, iso(day)) * (45 + 5 * step + points * bonus) / 100, plate)
}
# Strength work builds inside a wave, repetitions falling, and from wave to wave.
function strength_reps() { return substr("543", step, 1) + 0 }
function strength_kg(lift, day, plate) {
    return nearest(max_on(lift, iso(day)) * (substr("778186", 2 * step - 1, 2) + bonus) / 100, plate)
}
# Volume work: from a start, a trifle more each week and each step.
function volume_kg(start, plate) { return nearest(start * (1 + 0.0018 * week + 0.02 * (step - 1)), plate) }

# --- Tobin: a CSV export in kg; a row a line of work; chains and bands in the notes, never twice in the same words --

function tobin(    year, w) {
    year = "123123d-123t" "123123d123lt" "123123d123lt" "1-23123d123t" "1231"
    begin_year("Tobin Rasker", 20251103)
    eol = "\n"
    begin_file("logs/tobin-1.csv")
    put("Date,Exercise,Weight (kg),Sets,Reps,RPE,Day Type,Notes")
    for (w = 0; w < 52; w++) {
        if (w == 26) {
            close(path)
            begin_file("logs/tobin-2.csv")
            put("Day Type,Date,Exercise,Sets,Reps,Weight (kg),RPE,Notes") # the app changed its columns
        }
        begin_week(year, w)
        if (step ~ /[123]/)
            tobin_wave_week()
        else if (step == "d" || step == "l")
            tobin_easy_week()
        else if (step == "t")
            tobin_test()
        tobin_bad_lines()
        end_week()
    }
    close(path)
}

function tobin_row(day, focus, lift, kg, sets, reps, rpe, note,    date) {
    date = iso(day)
    note = cell(note, ",")
    if (file ~ /-1/)
        put(date "," lift "," number(kg) "," sets "," reps "," rpe "," focus "," note)
    else
        put(focus "," date " " sprintf("%02d:%02d", 17 + day % 3,
            (day * 7) % 60) "," lift "," sets "," reps "," number(kg) "," rpe "," note)
}

# The gear in one of its many spellings. Inside a wave the spellings are of one family: by count, by label or by mass.
function tobin_words(gear,    n, word) {
    n = substr(gear, 2)
    word = n == 2 ? "two" : "three"
    if (gear ~ /^L/ && wave % 3 == 1)
        return choose(n " chains/side|" n " chains per side|" n " chains each side|with " n " chains a side|" word \
                      " chains/side|" n " pairs of chains|plus " n " chains ea side|" (n == 2 ? "four" : "six") \
                          " chains")
    if (gear ~ /^L/ && wave % 3 == 2)
        return choose(n " long chains/side|chain long x" n "/side|" n " x chain \"long\" per side|used " n \
            " long chains each side")
    if (gear ~ /^L/)
        return choose(n " x 7 kg chain/side|" n "x7kg chain/side|" n " chains of 7 kg per side|" n \
            " x 7 kg chains each side")
    if (gear ~ /^S/)
        return choose(n " short chains/side|chain short x" n "/side|" word " short chains per side")
    if (gear ~ /^W/)
        return choose(n " low chains/side looped|" n " low chains per side looped|chain low x" n "/side looped")
    if (gear == "b34")
        return choose("band b34|b34 bands|pair of b34|2 bands b34|with b34 bands|used b34 bands|straight b34 bands")
    return "band " gear
}
function remark(list) { return chance() < 0.45 ? choose("; |, |. ") choose(list) : "" }

function tobin_wave_week(    day, kg, gear) {
    day = monday
    kg = strength_kg("squat", day, 2.5)
    tobin_row(day, "strength", "Barbell squat", kg, 3, strength_reps(), effort("squat", day, kg, strength_reps()),
              week % 11 == 4 ? "no chains today, belt on" : choose("||belt on|good depth|sleepy start"))
    kg = strength_kg("deadlift", day, 2.5)
    tobin_row(day, "strength", "Barbell deadlift", kg, 1, 3, effort("deadlift", day, kg, 3), choose("||hook grip"))
    if (step != 2)
        tobin_row(day, "volume", "RDL", volume_kg(100, 2.5), 2, 8, "", "")

    day = monday + 2
    tobin_row(day, "speed", "Barbell bench press", speed_kg("bench press", day, 1, 1), 6, 3, choose("6.5|7|7.5|"),
              tobin_words(wave == 9 ? "b34 @ back-pegs" : "b34") \
                  remark("felt fast|elbows tucked|slow off the chest at the end"))
    tobin_row(day, "volume", "Barbell Row", volume_kg(70, 2.5), 2, 8, "", step == 3 ? "straps" : "")

    day = monday + 4
    gear = wave == 5 && step == 3 ? "L2" : "L3" # the drift: a chain fewer on each side, in mid-wave
    tobin_row(day, "speed", "Barbell squat", speed_kg("squat", day, 1, 1), 7, 2, choose("6.5|7|7|"),
              tobin_words(gear) (gear == "L2" ? "; rack was shared" : \
                  remark("felt fast|60 s rest|took the bands off|new shoes|moved well")))
    tobin_row(day, "speed", "Barbell deadlift", speed_kg("deadlift", day, 1, 2.5), 5, 1, choose("6.5|7|"),
              tobin_words("W3") remark("hips down|grip fine|quick off the floor"))

    day = monday + 5
    tobin_heavy_bench(day)
    if (step != 3)
        tobin_row(day, "volume", "CGBP", volume_kg(67.5, 2.5), 2, 8, "", "")
}

# Waves 6 and 7 put chains on the heavy bench; one day the left band was not the partner of the right one.
function tobin_heavy_bench(day,    kg, note) {
    kg = strength_kg("bench press", day, 1)
    note = choose("||paused|spotter at hand")
    if (wave == 6 || wave == 7) {
        kg = nearest(kg * 0.93, 1)
        note = tobin_words("S2")
    } else if (week == 33) {
        kg = nearest(kg * 0.8, 1)
        note = "band b24/b34, its partner was in use"
    }
    tobin_row(day, "strength", "Barbell bench press", kg, 3, strength_reps(), effort("bench press", day, kg,
        strength_reps()), note)
}

function tobin_easy_week(    day) {
    day = monday
    tobin_row(day, "skill", "Barbell squat", percent("squat", day, 0.6, 2.5), 5, 5, "",
        "easy week. Plan: 3 chains/side again next wave")
    tobin_row(day, "volume", "RDL", 80, 2, 8, "", "")
    tobin_row(day + 2, "skill", "Barbell bench press", percent("bench press", day, 0.65, 1), 5, 5, "",
        "without bands")
    tobin_row(day + 2, "volume", "Barbell Row", 60, 2, 8, "", "")
    tobin_row(day + 4, "skill", "Barbell deadlift", percent("deadlift", day, 0.5, 2.5), 4, 3, "",
        "band-aid on the shin")
}

function tobin_test(    i, lifts, names, kg, day) {
    day = monday
    tobin_row(day, "skill", "Barbell squat", percent("squat", day, 0.65, 2.5), 4, 4, "", "")
    tobin_row(day + 2, "skill", "Barbell bench press", percent("bench press", day, 0.7, 1), 4, 5, "", "")
    day = monday + 5
    split("squat|bench press|deadlift", lifts, "|")
    split("Barbell squat|Barbell bench press|Barbell deadlift", names, "|")
    for (i = 1; i <= 3; i++) {
        kg = tested_on(lifts[i], iso(day))
        tobin_row(day, "test", names[i], nearest(kg * 0.9, 2.5), 1, 1, "7.5", "opener")
        tobin_row(day, "test", names[i], nearest(kg * 0.96, i == 2 ? 1 : 2.5), 1, 1, "8.5", "")
        tobin_row(day, "test", names[i], kg, 1, 1, "9.5", "")
        if ((week + i) % 4 == 0)
            tobin_row(day, "test", names[i], kg + 2.5, 1, 0, "", "stuck half way")
    }
}

function tobin_bad_lines() {
    if (week == 2)
        bad("2025-11-31,Barbell squat,85,7,2,7,speed,3 chains/side", "a date that does not exist")
    else if (week == 4)
        bad("2025-12-05,Barbell squat,80,1,2,,speed,3 chains", "an odd number of chains and no side named")
    else if (week == 9)
        bad("2026-01-10,Barbell bench press,heavy,1,1,9,strength,", "no number in the load")
    else if (week == 13)
        bad("2026-02-06,Barbell squat,80 + 2 chains/side,1,2,7,speed,3 chains/side", "the note contradicts the load")
    else if (week == 16)
        bad("2026-02-27,Barbell Row,70,3,8-10,,volume,", "a range of repetitions")
    else if (week == 20)
        bad("2026-03-27,Barbell squat,75 + 20 kg sandbag,1,3,,volume,", "a word that names neither chain nor band")
    else if (week == 21)
        # Read all the same: an effort that no scale has is left out with a note, and a quoted note may break its line.
        put("2026-04-04,Barbell bench press,85,1,3,11,strength,\"last set rushed,\nthe timer had stopped\"")
    else if (week == 30)
        bad("speed,2026-06-05 18:20,Barbell squat,1,2,80,7,15 kg chain/side total", "on each side, or in all?")
    else if (week == 33)
        bad("strength,2026-06-27 18:05,Barbell bench press,1,3,60/side,8,",
            "a weight on each side: with the bar or without?")
    else if (week == 41)
        bad("speed,2026-08-21 17:40,Barbell squat,1,2,80 + 3 chains/side,7,no chains",
            "the note denies the chains of the load")
    else if (week == 45)
        bad("speed,2026-09-18 18:00,Barbell bench press,1,3,55,7,3 bands b34",
            "an odd number of bands and no side named")
}

# --- Maren: a plain-text log by hand --------------------------------------------------------------------------------

function maren(    year, w) {
    year = "123123dl123t" "123d123-123t" "123123d123lt" "123d-123123t" "1231"
    begin_year("Maren Holtvik", 612031)
    eol = "\n"
    begin_file("logs/maren.txt")
    put("# My log. One line: lift, load, what hangs on the bar, sets x reps, effort, bar speed. ~ is a warm-up.")
    put("lifter: Maren Holtvik")
    put("unit: kg")
    put("bodyweight: 61.5")
    for (w = 0; w < 52; w++) {
        begin_week(year, w)
        if (step ~ /[123]/)
            maren_wave_week()
        else if (step == "d" || step == "l")
            maren_easy_week()
        else if (step == "t")
            maren_test()
        else
            put("\n# week off: " choose("family visit|a week in the hills"))
        end_week()
    }
    close(path)
}

function session(day, focus) { put("\n" iso(day) (focus ? "  " focus : "")) }
function maren_effort(rpe) { return rpe == "" ? "" : choose(" @| @ | RPE ") rpe }

# Mean bar speed falls with the mean load's share of 1RM.
function bar_speed(still, slope, share) { return sprintf(" %.2f m/s", about(still - slope * share, 0.02)) }

function maren_chains(count, label) {
    if (label == "")
        return choose(" + " count " chains/side| w/ " count " chains a side| + double chain per side| + " count \
            " pairs of chains")
    return choose(" + " count " " label " chains/side| + chain " label " x" count "/side| and " count " " label \
        " chains per side")
}

function maren_wave_week() {
    if (week == 17) { # written with the wrong month: the heading is refused, and so is each line under it
        put("")
        bad("2026-02-30  strength", "a date that does not exist")
        bad("squat 88: 3x4 @8", "under a heading with a date that does not exist")
        bad("bench press 49: 3x4 @8", "under a heading with a date that does not exist")
    } else {
        maren_strength(monday)
    }
    maren_volume(monday + 2)
    maren_speed(monday + 4)
}

function maren_strength(day,    kg, reps, rpe) {
    session(day, "strength")
    reps = strength_reps()
    kg = strength_kg("squat", day, 1)
    rpe = effort("squat", day, kg, reps)
    put("~ squat " nearest(kg * 0.55, 1) ": 1x5")
    put("w-up squat " nearest(kg * 0.8, 1) "x3")
    if (week % 9 == 5 && step == 1)
        put("squat 77%: 3x5" maren_effort(rpe))
    else if (step == 2)
        put("back squat 3x" reps " @ " number(kg) " kg")
    else
        put("squat " number(kg) ": 3x" reps maren_effort(rpe))
    kg = strength_kg("bench press", day, 1)
    rpe = effort("bench press", day, kg, reps)
    put("bench press " number(kg) ": " (step == 1 ? "5,5,5" : step == 2 ? "4,4,4" : "3x3") maren_effort(rpe))
    kg = strength_kg("deadlift", day, 1)
    put("deadlift " nearest(kg * 0.88, 1) "x3, " number(kg) "x2" maren_effort(effort("deadlift", day, kg, 2)))
    if (week == 20)
        bad("squat 5x5x100", "which of the three numbers is the load?")
    if (chance() < 0.2)
        put("note: " choose("slept badly|good session|no chains on the warm-up|" \
                             "felt like a chain gang in here, crowded|short of time"))
}

function maren_volume(day) {
    session(day, "volume")
    if (week == 25)
        put("bodyweight: 62.3")
    put("front squat " volume_kg(60, 1) ": 2x6")
    if (step != 2)
        put("overhead press " volume_kg(32, 1) ": " (step == 3 ? "6,8+" : "2x6"))
    put("pull-up BW" (week < 10 ? "" : "+" 2.5 * int(week / 13 + 0.3)) ": " (step == 2 ? "AMRAP " 7 + pick(3) : "5,4"))
    if (week == 33)
        bad("overhead press 34: some sets", "neither sets nor repetitions")
}

# In wave 10 she takes bands for the first time; in wave 8 her bench steps are uneven.
function maren_speed(day,    squat, bench, pull, of) {
    session(day, "speed")
    of = (40 + 5 * step + bonus) / 100 + 0.15
    squat = speed_kg("squat", day, 1, 1)
    put("squat " number(squat) (wave == 10 ? choose(" + band b24| + b24 bands| + pair of b24") : maren_chains(2,
        "")) ": 7x2" \
        choose(" @6.5| @7| @7") bar_speed(1.20, 0.65, of))
    bench = speed_kg("bench press", day, 1, 1)
    if (wave == 8)
        bench = percent("bench press", day, (step == 1 ? 0.50 : step == 2 ? 0.525 : 0.61), 1)
    put("bench press " number(bench) maren_chains(2, "short") ": 6x3" choose(" @7| RIR 3| @7.5") bar_speed(1.25, 0.95,
        of))
    pull = speed_kg("deadlift", day, 1, 1)
    put("deadlift " number(pull) maren_chains(2, "low") " looped: 5x1" bar_speed(1.10, 0.60, of))
    if (week == 5)
        bad("squat 60 + 3 chains: 2x2", "an odd number of chains and no side named")
    if (week == 13)
        bad("bench press 33 + 2 short chains/side x3", "repetitions with no colon before them")
    if (week == 28)
        bad("squat 60: 1x2 RPE 12", "an effort that no scale has")
    if (week == 44)
        bad("bench press 33 + 5 kg necklace: 1x3", "a word that names neither chain nor band")
    if (week == 30)
        put("note: bands next month instead of chains, says the coach")
}

function maren_easy_week(    day) {
    day = monday + 1
    session(day, "skill")
    put("squat " percent("squat", day, 0.6, 1) ": 5x5 @6")
    put("bench press " percent("bench press", day, 0.65, 1) ": 5x5")
    session(day + 3, "skill")
    put("deadlift " percent("deadlift", day, 0.5, 1) ": 4x3")
    put("pull-up BW: 3x5")
}

function maren_test(    i, lifts, kg, day) {
    day = monday + 1
    session(day, "skill")
    put("squat " percent("squat", day, 0.65, 1) ": 4x4")
    put("bench press bar: 1x8")
    put("bench press " percent("bench press", day, 0.7, 1) ": 4x4")
    day = monday + 5
    session(day, "test")
    split("squat|bench press|deadlift", lifts, "|")
    for (i = 1; i <= 3; i++) {
        kg = tested_on(lifts[i], iso(day))
        if (!kg)
            continue
        put("~ " lifts[i] " " nearest(kg * 0.7, 1) ": 1x2")
        put(lifts[i] " " nearest(kg * 0.9, 1) "x1 @7.5")
        put(lifts[i] " " nearest(kg * 0.96, 1) ": 1x1 @ 8.5")
        put(lifts[i] " " number(kg) "x1 @9.5")
        if ((week + i) % 3 == 0)
            put(lifts[i] " " kg + 2 (i == 2 ? ": miss" : "x0"))
    }
    put("note: test day")
}

# --- Corvin: exports of two phones: pounds in Latin-1, then kilograms in UTF-8; a row a set -------------------------

function corvin(    year, w) {
    year = "123123d1-23t" "123123d123lt" "1231--12312t" "123123d123lt" "1231"
    begin_year("Corvin Ashdale", 8675)
    eol = "\r\n"
    begin_file("logs/corvin-old-phone.csv")
    in_pounds = 1
    put("Training export;;;;;;;;;;")
    put("Tr" "\344" "ningsdagbok;;;;;;;;;;") # a Latin-1 byte
    put("")
    put("Date;Exercise;Set;Set Type;Weight (lb);Reps;RPE;Chain;Band;Memo;")
    for (w = 0; w < 52; w++) {
        if (w == 14) {
            close(path)
            begin_file("logs/corvin-2026.csv")
            in_pounds = 0
            put("\357\273\277Training export")
            put("Date;Exercise;Set;Set Type;Weight (kg);Reps;RPE;Chain;Band;Duration (s);Distance (km);Memo")
        }
        begin_week(year, w)
        if (step ~ /[123]/)
            corvin_wave_week()
        else if (step == "d" || step == "l")
            corvin_easy_week()
        else if (step == "t")
            corvin_test()
        corvin_bad_lines()
        end_week()
    }
    close(path)
}

function corvin_row(day, lift, set, kind, kg, reps, rpe, chain, band, memo,    weight) {
    weight = kg == "" ? "" : in_pounds ? pounds(kg) : comma(number(kg))
    if (in_pounds)
        put(day_first(day, "/") ";" lift ";" set ";" kind ";" weight ";" reps ";" comma(rpe) ";" chain ";" band ";" \
            cell(memo, ";") ";")
    else
        put(day_first(day, "/") ";" lift ";" set ";" kind ";" weight ";" reps ";" comma(rpe) ";" chain ";" band ";;;" \
            cell(memo, ";"))
}

# `sets` rows; effort is noted on the last, the memo on the first.
function corvin_sets(day, lift, kg, sets, reps, rpe, chain, band, memo,    i) {
    for (i = 1; i <= sets; i++)
        corvin_row(day, lift, i, "Work", kg, reps, i == sets ? rpe : "", chain, band, i == 1 ? memo : "")
}

function corvin_wave_week(    day, kg, reps, chain, band) {
    reps = strength_reps()
    day = monday
    kg = strength_kg("squat", day, 2.5)
    corvin_row(day, "Back Squat", "warm", "Warm-up", nearest(kg * 0.75, 2.5), 3, "", "", "", "")
    chain = wave == 10 ? "28" : "" # a number alone is the mass in all
    corvin_sets(day, "Back Squat", chain ? nearest(kg * 0.93, 2.5) : kg, 3, reps, effort("squat", day, kg, reps),
        chain, "", choose("|belt on|"))
    if (step == 1)
        corvin_sets(day, "Good Morning", volume_kg(80, 2.5), 2, 8, "", "", "", "")

    day = monday + 2
    corvin_sets(day, "Bench", speed_kg("bench press", day, 0, 2.5), 6, 3, choose("6.5|7|"), "",
        week == 27 ? "b41 bands" : "band b34 + band b11",
                week == 27 ? "on the road" : choose("|fast|"))

    day = monday + 4
    corvin_speed_gear()
    corvin_sets(day, "Back Squat", speed_kg("squat", day, 0, 2.5), 7, 2, choose("7|7.5|"), speed_chain, speed_band,
        choose("|moved well|"))
    corvin_sets(day, "Deadlift", speed_kg("deadlift", day, 0, 2.5), 6, 1, choose("6.5|7|"), "", "band b11 doubled", "")

    day = monday + 5
    kg = strength_kg("bench press", day, 2.5)
    band = ""
    if (wave == 5 || wave == 6) { # heavier than he could press without: most of it comes off at the bottom
        kg += 12.5
        band = "reverse band b48 @ rack-top"
    }
    corvin_sets(day, "Bench", kg, 3, reps, band ? "8" : effort("bench press", day, kg, reps), "", band, "")
    kg = strength_kg("deadlift", day, 2.5)
    corvin_sets(day, "Deadlift", kg, 1, 3, effort("deadlift", day, kg, 3), "", "", "")
    if (wave == 10)
        corvin_sets(day, "Floor Press", volume_kg(95, 2.5), 2, 8, "", "", "bands 10-32 kg", "")
    if (!in_pounds)
        corvin_noise(day)
}

# His speed squats: few chains, then more, in wave 9 a band on top of all of them (the jump), then bands alone.
function corvin_speed_gear() {
    speed_chain = wave <= 3 ? choose("3 chains/side|3 chains per side|three chains/side") : \
        choose("4 chains/side|4 chains per side|four chains/side")
    speed_band = wave == 9 ? "band b34" : ""
    if (wave >= 11) {
        speed_chain = ""
        speed_band = "band b34 + band b11"
    }
}

# What else stands in an export: what is no barbell set must not stop the reading.
function corvin_noise(day,    kg) {
    if (step == 1) {
        corvin_row(day, "Pull Up", 1, "Work", "", 8, "", "", "", "")
        corvin_row(day, "Pull Up", 2, "Failure", "", 7, "", "", "", "")
        kg = nearest(volume_kg(36, 2), 2)
        corvin_row(day, "Dumbbell Row", 1, "Left", kg, 10, "", "", "", "")
        corvin_row(day, "Dumbbell Row", 1, "Right", kg, 10, "", "", "", "")
    } else if (step == 2) {
        put(day_first(day, "/") ";Plank;1;Work;;;;;;" 60 + 5 * pick(4) ";;")
        corvin_row(day, "Dumbbell Bench Press", 1, "Work", volume_kg(40, 2), 10, "", "", "", "")
        corvin_row(day, "Dumbbell Bench Press", 2, "Drop", volume_kg(28, 2), 9, "", "", "", "")
    } else {
        put(day_first(day + 1, "/") ";Running;1;Work;;;;;;" 1500 + 60 * pick(9) ";" comma(sprintf("%.1f", about(4.6,
            0.6))) ";easy")
        corvin_row(day, "Band Pull-Apart", 1, "Work", 0, 20, "", "", "", "")
    }
}

function corvin_easy_week(    day) {
    day = monday + 1
    corvin_sets(day, "Back Squat", percent("squat", day, 0.6, 2.5), 5, 5, "", "", "", "easy")
    corvin_sets(day, "Bench", percent("bench press", day, 0.65, 2.5), 5, 5, "", "", "", "")
    corvin_sets(day + 2, "Deadlift", percent("deadlift", day, 0.5, 2.5), 4, 3, "", "", "",
        in_pounds ? "\275 h late" : "no bands today")
}

function corvin_test(    i, lifts, names, kg, day) {
    day = monday + 1
    corvin_sets(day, "Back Squat", percent("squat", day, 0.65, 2.5), 4, 5, "", "", "", "")
    corvin_sets(day, "Bench", percent("bench press", day, 0.65, 2.5), 4, 5, "", "", "", "")
    day = monday + 5
    split("squat|bench press|deadlift", lifts, "|")
    split("Back Squat|Bench|Deadlift", names, "|")
    for (i = 1; i <= 3; i++) {
        kg = tested_on(lifts[i], iso(day))
        corvin_row(day, names[i], "warm", "Warm-up", nearest(kg * 0.7, 2.5), 2, "", "", "", "")
        corvin_row(day, names[i], 1, "Work", nearest(kg * 0.9, 2.5), 1, "7.5", "", "", "test day")
        corvin_row(day, names[i], 2, "Work", nearest(kg * 0.96, 2.5), 1, "8.5", "", "", "")
        corvin_row(day, names[i], 3, "Work", kg, 1, "9.5", "", "", "")
        if ((week + i) % 4 == 1)
            corvin_row(day, names[i], 4, "Missed", kg + 2.5, 0, "", "", "", "")
    }
}

function corvin_bad_lines() {
    if (week == 1)
        bad("14/11/2025;Back Squat;9;Work;231,5;2;;3 chains;;;", "an odd number of chains and no side named")
    else if (week == 4)
        bad("05/12/2025;Back Squat;9;Work;231,5", "the row ends before its repetitions")
    else if (week == 10)
        bad("31/11/2025;Bench;9;Work;165,3;3;;;band b34 + band b11;typed in later;", "a date that does not exist")
    else if (week == 13)
        bad("06/02/2026;Back Squat;9;Work;257,9;2;;4 chains/side;;with 3 chains/side;",
            "the memo contradicts the chain column")
    else if (week == 16)
        bad("31/02/2026;Back Squat;9;Work;107,5;2;;4 chains/side;;;;", "a date that does not exist")
    else if (week == 24)
        bad("24/04/2026;Back Squat;9;Work;105;2;;4 chains/side;;;;3 chains/side",
            "the memo contradicts the chain column")
    else if (week == 31)
        bad("12/06/2026;Back Squat;9;Work;107,5;2;;4;;;;", "in a chain column 4 may be pieces or kilograms")
    else if (week == 36)
        bad("15/07/2026;Bench;9;Work;77,5;3;;;band b34;;;;;extra", "more cells than the header has")
    else if (week == 44)
        bad("12/09/2026;Good Morning;9;Work;82,5 + anvil;8;;;;;;", "a word that names neither chain nor band")
}

# --- Somebody: ten weeks as most exports look, for a reading without any gym file -----------------------------------

function plain_sets(day, lift, kg, sets, reps, rpe, note,    i) {
    for (i = 1; i <= sets; i++)
        put(iso(day) "," lift "," i "," number(kg) "," reps "," (i == sets ? rpe : "") "," cell(note, ","))
}

function plain(    w, s, block) {
    seed = 4711
    eol = "\n"
    begin_file("plain/export.csv")
    put("Date,Exercise,Set,Weight (kg),Reps,RPE,Notes")
    for (w = 39; w < 49; w++) { # ten weeks from 2026-08-03
        block = int((w - 39) / 4)
        s = (w - 39) % 4 + 1
        if (s == 4) {
            plain_sets(7 * w + 1, "Squat", 90, 3, 5, "", "")
            plain_sets(7 * w + 1, "Bench Press", 65, 3, 5, "", "")
            continue
        }
        plain_sets(7 * w, "Squat", 132.5 + 5 * s + 2.5 * block, 3, 6 - s, 6.5 + 0.5 * s, "")
        plain_sets(7 * w, "Bench Press", 87.5 + 2.5 * s + 2.5 * block, 3, 6 - s, 6.5 + 0.5 * s, "")
        plain_sets(7 * w + 3, "Squat", 77.5 + 7.5 * s + 2.5 * block, 7, 2, "",
            choose("2 x 10 kg chain/side|2x10kg chain per side|2 x 10 kg chains each side"))
        plain_sets(7 * w + 3, "Bench Press", 47.5 + 5 * s + 2.5 * block, 6, 3, "",
            choose("10 kg chain/side|10 kg chain per side") choose("|, felt fast"))
        plain_sets(7 * w + 5, "Deadlift", 145 + 7.5 * s + 2.5 * block, 3, 6 - s, 6.5 + 0.5 * s, "")
        plain_sets(7 * w + 5, "Barbell Row", 70 + 2.5 * block, 3, 8, "", "")
    }
    close(path)
}
