# How strong a lifter was: the tested maxes, each current until the next, and each day's best estimate of the 1RM.
#
#   gnuplot e1rm.gp                                      a picture of made-up data, to look at the style
#   gnuplot -e "picture='svg'" plots/e1rm.gp
#
# Data, loads in the unit of the picture, at least one row in $DAYS or $TESTS; a block without rows may be absent:
#   $DAYS     one row per day: day (YYYY-MM-DD), best estimate of that day from straight weight (NaN: none), then that
#             from chain and band, which is an interval: by the load at the bottom and by that at the top (NaN: none)
#   $TESTS    one row per tested 1RM: day, load
#   $CURRENT  one row per tested 1RM: day, load from that day on; the last row ends the line

if (!exists("$DAYS") && !exists("$TESTS")) {
    heading = "Squat, estimated and tested 1RM"
    sentence = "The tested 1RM rose from 128 to 136 kg; the estimates follow it."
    set print $DAYS
    do for [i = 0:50] {
        day = strftime("%Y-%m-%d", strptime("%Y-%m-%d", "2025-01-08") + i * 604800)
        best = 121 + 0.22 * i + 4 * sin(i * 2.1)
        if (i % 2) {
            print day.sprintf(" %g NaN NaN", best)
        } else {
            print day.sprintf(" NaN %g %g", best - 14, best + 12)
        }
    }
    set print $TESTS
    print "2025-01-04 128"
    print "2025-06-14 132.5"
    print "2025-12-06 136"
    set print $CURRENT
    print "2025-01-04 128"
    print "2025-06-14 132.5"
    print "2025-12-06 136"
    print "2025-12-24 136"
    set print
}
set loadpath "." "plots"
if (!exists("style_is_set")) { load "style.gp" }
if (!exists("picture_name")) { picture_name = "e1rm.".ending }
has_days = exists("$DAYS")
has_tests = exists("$TESTS")
has_current = exists("$CURRENT")
if (!has_days) { set print $DAYS; print "1970-01-01 NaN NaN NaN"; set print }
if (!has_tests) { set print $TESTS; print "1970-01-01 NaN"; set print }
if (!has_current) { set print $CURRENT; print "1970-01-01 NaN"; set print }

# The ranges.
low = 1e300; high = -1e300; begin = 1e300; end = -1e300; has_straight = 0; has_interval = 0
seen(v) = v == v ? (low = v < low ? v : low, high = v > high ? v : high) : 0
time_of(s) = strptime("%Y-%m-%d", s)
seen_day(t) = (begin = smaller(begin, t), end = larger(end, t))
do for [i = 1:|$DAYS|] {
    if (has_days) {
        dummy = seen_day(time_of(word($DAYS[i], 1)))
        do for [k = 2:4] { dummy = seen(real(word($DAYS[i], k))) }
        has_straight = has_straight || word($DAYS[i], 2) ne "NaN"
        has_interval = has_interval || word($DAYS[i], 3) ne "NaN"
    }
}
do for [i = 1:|$TESTS|] {
    if (has_tests) {
        dummy = seen_day(time_of(word($TESTS[i], 1)))
        dummy = seen(real(word($TESTS[i], 2)))
    }
}
do for [i = 1:|$CURRENT|] { if (has_current) { dummy = seen(real(word($CURRENT[i], 2))) } }
span = larger(high - low, 0.05 * high + 1)
from = begin - larger(0.02 * (end - begin), week_seconds)
to = end + larger(0.02 * (end - begin), week_seconds)

left = 90
panel_width = width - left - 25.0
pixels_a_day = panel_width * 86400 / (to - from)
mark = point_scale * (pixels_a_day * 3.5 > 12 ? 1.2 : pixels_a_day * 3.5 > 5 ? 0.9 : 0.5)

eval terminal_for(width, height)
set output picture_name
set lmargin at screen from_left(left)
set rmargin at screen from_right(25)
set xrange [from:to]
set yrange [low - 0.08 * span : high + 0.14 * span]
set ytics step_for(span * 1.2, 5)

# The key, in as many rows as it needs, of what there is.
key_y = head + 6 + size_text / 2
x = 30
breaks(t) = x + 20 + strlen(t) * char_text > width - 10
if (has_tests) {
    set label 1 "" at screen from_left(x), from_top(key_y) point pointtype 13 pointsize 2.2 * point_scale \
        linecolor rgb orange
    set label 2 "tested" at screen from_left(x + 18), from_top(key_y)
    x = after_key(x, "tested")
}
if (has_current) {
    set arrow 3 from screen from_left(x - 10), from_top(key_y) to screen from_left(x + 24), from_top(key_y) nohead \
        linewidth 2.5 linecolor rgb ink
    set label 3 "current 1RM" at screen from_left(x + 32), from_top(key_y)
    x = after_key(x + 18, "current 1RM")
}
if (has_straight) {
    line = "estimate, straight weight"
    if (breaks(line)) { x = 30; key_y = key_y + line_text }
    set label 5 "" at screen from_left(x), from_top(key_y) point pointtype 7 pointsize 1.2 * point_scale \
        linecolor rgb blue
    set label 6 line at screen from_left(x + 16), from_top(key_y)
    x = after_key(x, line)
}
if (has_interval) {
    line = "with chain and band: bottom to top"
    if (breaks(line)) { x = 30; key_y = key_y + line_text }
    set object 7 rectangle center screen from_left(x), from_top(key_y) size screen from_left(9), from_bottom(22) \
        fillcolor rgb sky fillstyle solid noborder
    set label 7 line at screen from_left(x + 16), from_top(key_y)
}
panel_top = key_y + size_text / 2 + line_text + 18
set tmargin at screen from_top(panel_top)
axis_height = 2 * line_text + 10
set bmargin at screen from_bottom(axis_height)
set label 8 "1RM, ".unit at screen from_left(10), from_top(panel_top - size_text / 2 - 11)

# Dates; the year where it begins.
unset xtics
set xtics out scale 0.6 nomirror ()
step = date_step(from, to, floor(panel_width / (6.5 * char_text)))
year = 0; i = 0
while (date_tic(i, begin, step) <= to) {
    date = date_tic(i, begin, step)
    place = date
    set xtics add ("" place)
    line = date_word(date, step)
    at_pixel = left + panel_width * (place - from) / (to - from)
    if (at_pixel + strlen(line) * char_text / 2 > width) { line = "" } # the edge would cut it
    tag = 200 + 2 * i
    set label tag line at first place, screen from_bottom(axis_height - line_text / 2 - 8) center
    line = tm_year(date) != year && step > -12 ? sprintf("%d", tm_year(date)) : ""
    tag = tag + 1
    set label tag line at first place, screen from_bottom(axis_height - 1.5 * line_text - 8) center
    year = tm_year(date)
    i = i + 1
}

# Loads of the tests, above their marks where there is room for each.
tests_shown = has_tests && |$TESTS| * 6 * char_text < panel_width
do for [i = 1:|$TESTS|] {
    if (tests_shown) {
        tag = 100 + i
        line = sprintf("%g", real(word($TESTS[i], 2)))
        set label tag line at first time_of(word($TESTS[i], 1)), first real(word($TESTS[i], 2)) \
            offset 0, character 1.0 center front
    }
}
half_bar = smaller(0.4 * 86400 * 7, 4.5 * 86400 / pixels_a_day)
plot $DAYS using ($3 == $3 ? time_of(strcol(1)) : NaN):3:(time_of(strcol(1)) - half_bar): \
         (time_of(strcol(1)) + half_bar):3:4 with boxxyerror fillcolor rgb sky fillstyle solid noborder \
         title "estimate with chain and band, bottom to top", \
     $CURRENT using (time_of(strcol(1))):2 with steps linewidth 2.5 linecolor rgb ink title "current 1RM", \
     $DAYS using (time_of(strcol(1))):2 with points pointtype 7 pointsize mark \
         linecolor rgb blue title "estimate from straight weight", \
     $TESTS using (time_of(strcol(1))):2 with points pointtype 13 pointsize 2.2 * point_scale \
         linecolor rgb orange title "tested 1RM"
set output
