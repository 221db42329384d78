# A lift's volume and intensity, week by week, over a year or many.
#
#   gnuplot weeks.gp                                     a picture of made-up data, to look at the style
#   gnuplot -e "picture='svg'" plots/weeks.gp
#
# Data, loads in the unit of the picture, NaN where there is none, at least one row:
#   $WEEKS  one row per week from the first to the last, weeks without training too (volume 0) but for those of a
#           break of more than a year: Monday (YYYY-MM-DD), volume by the straight weight, volume by the mean load,
#           intensity by the straight weight and by the mean load (fractions of 1RM)
# If set, trend_first and trend_last are the volume by the mean load that a fitted line has in the first and in the last
# week.

if (!exists("$WEEKS")) {
    heading = "Squat, a year of training"
    sentence = "Volume rises by 2 % in four weeks; intensity holds."
    trend_first = 5600
    trend_last = 7100
    set print $WEEKS
    do for [i = 0:51] {
        trained = i % 17 != 11 && i % 17 != 12
        straight = trained * (4800 + 25 * i + 900 * sin(i * 2.1))
        share = trained ? 0.64 + 0.05 * (i % 3) : NaN
        monday = strptime("%Y-%m-%d", "2025-01-06") + i * 604800
        print strftime("%Y-%m-%d", monday).sprintf(" %g %g %g %g", straight, straight * 1.16, share, share * 1.12)
    }
    set print
}
set loadpath "." "plots"
if (!exists("style_is_set")) { load "style.gp" }
if (!exists("picture_name")) { picture_name = "weeks.".ending }
has_trend = exists("trend_first") && exists("trend_last") && |$WEEKS| > 1

# The ranges. A picture of a few weeks is as wide as one of ten, so that a bar stays a bar.
day = 86400.0
week = 7 * day
week_count = |$WEEKS|
monday(s) = strptime("%Y-%m-%d", s)
begin = monday(word($WEEKS[1], 1))
end = monday(word($WEEKS[week_count], 1)) + week
spare = larger(0, 10 * week - (end - begin)) / 2
from = begin - spare - 0.3 * week
to = end + spare + 0.3 * week
low = 1e300; high = -1e300; most = has_trend ? larger(trend_first, trend_last) : 0
seen(v) = v == v ? (low = v < low ? v : low, high = v > high ? v : high) : 0
seen_volume(v) = v > most ? (most = v) : 0
do for [i = 1:week_count] {
    do for [k = 2:3] { dummy = seen_volume(real(word($WEEKS[i], k))) }
    do for [k = 4:5] { dummy = seen(100 * real(word($WEEKS[i], k))) }
}
# A long break has no rows: it is shaded, and no line crosses it.
row_monday(i) = monday(word($WEEKS[i], 1))
follows_break(i) = i > 1 && row_monday(i) - row_monday(i - 1) > 1.5 * week
set print $LINES
do for [i = 1:week_count] {
    if (follows_break(i)) { print word($WEEKS[i], 1)." NaN NaN NaN NaN" }
    print $WEEKS[i]
}
set print
shade_breaks = "do for [i = 2:week_count] { if (follows_break(i)) { set object 1000 + i rectangle ".\
    "from first row_monday(i - 1) + week, graph 0 to first row_monday(i), graph 1 behind ".\
    "fillcolor rgb quiet fillstyle transparent pattern hatching noborder } }"
has_intensity = low <= high
most = most > 0 ? most : 1

eval terminal_for(width, height)
set output picture_name
set multiplot
left = 112
panel_width = width - left - 25.0
pixels_a_week = panel_width * week / (to - from)
half_bar = week * (pixels_a_week > 6 ? 0.42 : 0.5)
mark = point_scale * (pixels_a_week > 30 ? 1.4 : pixels_a_week > 11 ? 0.9 : 0.5)
is_dense = pixels_a_week < 4 # lines would run into each other: marks only
set lmargin at screen from_left(left)
set rmargin at screen from_right(25)
set xrange [from:to]
unset xtics

# The key of the volume, under the sentence.
key_y = head + 6 + size_text / 2
x = 28
set object 1 rectangle center screen from_left(x), from_top(key_y) size screen from_left(18), from_bottom(18) \
    fillcolor rgb sand fillstyle solid noborder
set label 1 "straight weight" at screen from_left(x + 17), from_top(key_y)
x = after_key(x, "straight weight")
set object 2 rectangle center screen from_left(x), from_top(key_y) size screen from_left(18), from_bottom(18) \
    fillcolor rgb blue fillstyle solid noborder
set label 2 "chain and band" at screen from_left(x + 17), from_top(key_y)
x = after_key(x, "chain and band")
set object 3 rectangle center screen from_left(x), from_top(key_y) size screen from_left(18), from_bottom(18) \
    fillcolor rgb quiet fillstyle transparent pattern hatching noborder
set label 3 "no training" at screen from_left(x + 17), from_top(key_y)
x = after_key(x, "no training")
if (has_trend) {
    if (x + 34 + 5 * char_text > width - 6) { x = 28; key_y = key_y + line_text; head = head + line_text }
    set arrow 4 from screen from_left(x - 8), from_top(key_y) to screen from_left(x + 26), from_top(key_y) \
        nohead linewidth 2.5 linecolor rgb ink dashtype (12, 8)
    set label 4 "trend" at screen from_left(x + 34), from_top(key_y)
}

# Dates under the lower panel: weeks where a few are shown, else months, else years; the year where it begins.
axis_height = 2 * line_text + 8
across(t) = from_left(left + panel_width * (t - from) / (to - from))
room = floor(panel_width / (6.5 * char_text))
weeks_apart = ceil((to - from) / week / room)
dates_room = floor(panel_width / (4.5 * char_text))
by_weeks = weeks_apart <= 2
first_date = by_weeks ? 0 : month_number(begin) + (tm_mday(begin) > 1)
last_date = by_weeks ? week_count - 1 : month_number(end - 1)
dates_apart = by_weeks ? weeks_apart : months_apart((to - from) / month_seconds, dates_room)
first_date = by_weeks ? 0 : dates_apart * ceil(1.0 * first_date / dates_apart)
year = 0
tag = 100
do for [i = first_date:last_date:dates_apart] {
    date = by_weeks ? begin + i * week : month_begin(i)
    place = across(by_weeks ? date + week / 2 : date)
    line = by_weeks ? sprintf("%d %s", tm_mday(date), strftime("%b", date)) : \
        dates_apart < 12 ? strftime("%b", date) : strftime("%Y", date)
    set label tag line at screen place, screen from_bottom(axis_height - line_text / 2 - 8) center
    set arrow tag from screen place, screen from_bottom(axis_height) to screen place, \
        screen from_bottom(axis_height - 7) nohead \
        linewidth 1.5 linecolor rgb ink
    if (tm_year(date) != year && dates_apart < 12) {
        line = strftime("%Y", date)
        tag = tag + 1
        set label tag line at screen place, screen from_bottom(axis_height - 1.5 * line_text - 8) center
    }
    tag = tag + 1
    year = tm_year(date)
}

# Volume. A week without training is shaded over all panels.
panel_top = head + 36 + line_text + 10
intensity_height = has_intensity ? 0.38 * (height - panel_top - axis_height) : 0
between = has_intensity ? 52 : 0
set tmargin at screen from_top(panel_top)
set bmargin at screen from_bottom(axis_height + intensity_height + between)
set yrange [0 : most * 1.08]
set ytics step_for(most, has_intensity ? 4 : 8)
set label 5 "volume, ".unit at screen from_left(10), from_top(panel_top - size_text / 2 - 11)
middle(s) = monday(s) + week / 2
known(s, v) = v == v ? middle(s) : NaN
untrained(s, v) = v == 0 ? middle(s) : NaN
if (has_trend) {
    set arrow 6 from first begin + week / 2, first trend_first to first end - week / 2, first trend_last \
        nohead front linewidth 6 linecolor rgb "white"
    set arrow 7 from first begin + week / 2, first trend_first to first end - week / 2, first trend_last \
        nohead front linewidth 3 linecolor rgb ink dashtype (12, 8)
}
eval shade_breaks
plot $WEEKS using (untrained(strcol(1), $2)):(0):(monday(strcol(1))):(monday(strcol(1)) + week):(0):(most * 1.08) \
         with boxxyerror fillcolor rgb quiet fillstyle transparent pattern hatching noborder title "no training", \
     $WEEKS using (middle(strcol(1))):(0):(middle(strcol(1)) - half_bar):(middle(strcol(1)) + half_bar):(0):2 \
         with boxxyerror fillcolor rgb sand fillstyle solid noborder title "volume by straight weight", \
     $WEEKS using (known(strcol(1), $3)):(0):(middle(strcol(1)) - half_bar):(middle(strcol(1)) + half_bar):2:3 \
         with boxxyerror fillcolor rgb blue fillstyle solid noborder title "volume by chain and band"

# Intensity.
unset label
unset arrow
unset object
if (has_intensity) {
    low = 5 * floor(low / 5 - 0.3)
    high = 5 * ceil(high / 5 + 0.3)
    set tmargin at screen from_bottom(axis_height + intensity_height)
    set bmargin at screen from_bottom(axis_height)
    set yrange [low:high]
    set ytics step_for(high - low, 3)
    key_y = height - axis_height - intensity_height - size_text / 2 - 12
    set label 1 "intensity, % of 1RM" at screen from_left(10), from_top(key_y)
    x = 10 + 20 * char_text + 30
    set arrow 2 from screen from_left(x - 8), from_top(key_y) to screen from_left(x + 36), from_top(key_y) \
        nohead linewidth 2.5 linecolor rgb orange dashtype (8, 5)
    set label 2 "straight weight" at screen from_left(x + 44), from_top(key_y)
    x = after_key(x + 28, "straight weight")
    set arrow 3 from screen from_left(x - 8), from_top(key_y) to screen from_left(x + 36), from_top(key_y) \
        nohead linewidth 3 linecolor rgb blue
    set label 3 "" at screen from_left(x + 14), from_top(key_y) \
        point pointtype 7 pointsize 1.2 * point_scale linecolor rgb blue
    set label 4 "mean load" at screen from_left(x + 44), from_top(key_y)
    eval shade_breaks
    plot $WEEKS using (untrained(strcol(1), $2)):(low):(monday(strcol(1))):(monday(strcol(1)) + week):(low):(high) \
             with boxxyerror fillcolor rgb quiet fillstyle transparent pattern hatching noborder title "no training", \
         $LINES using (middle(strcol(1))):(is_dense ? NaN : 100 * $4) with lines linewidth 2.5 \
             linecolor rgb orange dashtype (8, 5) title "intensity of straight weight", \
         $WEEKS using (middle(strcol(1))):(100 * $4) with points pointtype 5 pointsize mark * 0.7 \
             linecolor rgb orange title "intensity of straight weight", \
         $LINES using (middle(strcol(1))):(is_dense ? NaN : 100 * $5) with lines linewidth 3 linecolor rgb blue \
             title "intensity of mean load", \
         $WEEKS using (middle(strcol(1))):(100 * $5) with points pointtype 7 pointsize mark linecolor rgb blue \
             title "intensity of mean load"
}

unset multiplot
set output
