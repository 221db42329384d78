# A plan and what was done, week by week: loads from bottom to top, and the volume beneath.
#
#   gnuplot planned.gp                                   a picture of made-up data, to look at the style
#   gnuplot -e "picture='svg'" plots/planned.gp
#
# Data, loads in the unit of the picture, NaN where there is none, at least one row:
#   $WEEKS  one row per planned week: Monday (YYYY-MM-DD), then planned and done straight weight, planned and done load
#           at the bottom, at the top, and volume; last what became of it (done, missed, to come)

if (!exists("$WEEKS")) {
    heading = "Squat, speed: planned and done"
    sentence = "The third week was lighter than planned; the fourth was missed."
    set print $WEEKS
    print "2026-01-05 65 65 67 67 85 85 1800 1790 \"done\""
    print "2026-01-12 71.5 71.5 73.5 73.5 91.5 91.5 1950 1950 \"done\""
    print "2026-01-19 78 75 80 77 98 92.5 2100 1700 \"done\""
    print "2026-01-26 66.5 NaN 68.5 NaN 86.5 NaN 1830 NaN \"missed\""
    print "2026-02-02 73 NaN 75 NaN 93 NaN 1980 NaN \"to come\""
    set print
}
set loadpath "." "plots"
if (!exists("style_is_set")) { load "style.gp" }
if (!exists("picture_name")) { picture_name = "planned.".ending }

week_count = |$WEEKS|
array day_of[week_count]
array state_of[week_count]
low = 1e300; high = -1e300; most = 0; row = 0
seen(v) = v == v ? (low = v < low ? v : low, high = v > high ? v : high) : 0
seen_volume(v) = v > most ? (most = v) : 0
stats $WEEKS using (row = row + 1, day_of[row] = strcol(1), state_of[row] = strcol(10), seen($2), seen($3), seen($4), \
    seen($5), seen($6), seen($7), seen_volume($8), seen_volume($9), 0) nooutput
if (low > high) { low = 0; high = 1 }
span = larger(high - low, 0.08 * high + 1)

left = 112
panel_width = width - left - 25.0
places = larger(week_count, 4)
begin = (places - week_count) / 2.0
pixels_a_week = panel_width / places
half_bar = smaller(0.15, 15 / pixels_a_week)
half_dash = half_bar * 1.7
apart = smaller(0.2, 26 / pixels_a_week)
mark = point_scale * (pixels_a_week < 30 ? 0.8 : 1.5)
date_label(s) = sprintf("%d %s", tm_mday(strptime("%Y-%m-%d", s)), strftime("%b", strptime("%Y-%m-%d", s)))
dates_every = ceil(7 * char_text / pixels_a_week)
states_shown = 8 * char_text < pixels_a_week

eval terminal_for(width, height)
set output picture_name
set multiplot
set lmargin at screen from_left(left)
set rmargin at screen from_right(25)
set xrange [0:places]
unset xtics
planned_at(row) = begin + row + 0.5 - apart
done_at(row) = begin + row + 0.5 + apart

# The key.
key_y = head + 6 + size_text / 2
x = 30
set object 1 rectangle center screen from_left(x), from_top(key_y) size screen from_left(14), from_bottom(22) \
    fillcolor rgb faint fillstyle solid border linecolor rgb quiet
set label 1 "planned" at screen from_left(x + 16), from_top(key_y)
x = after_key(x, "planned")
set object 2 rectangle center screen from_left(x), from_top(key_y) size screen from_left(14), from_bottom(22) \
    fillcolor rgb sky fillstyle solid noborder
set label 2 "done, bottom to top" at screen from_left(x + 16), from_top(key_y)
x = after_key(x, "done, bottom to top")
set arrow 3 from screen from_left(x - 12), from_top(key_y) to screen from_left(x + 20), from_top(key_y) \
    nohead linewidth 3 linecolor rgb orange
set label 3 "straight weight" at screen from_left(x + 28), from_top(key_y)

# Loads.
axis_height = 2 * line_text + 8
volume_height = most > 0 ? (is_dumb ? 0.2 * height : 100) : 0
between = most > 0 ? 46 : 0
panel_top = head + 36 + line_text + 10
set tmargin at screen from_top(panel_top)
set bmargin at screen from_bottom(axis_height + volume_height + between)
set yrange [low - 0.1 * span : high + (states_shown ? 0.25 : 0.1) * span]
set ytics step_for(span * 1.2, 5)
set label 4 "load, ".unit at screen from_left(10), from_top(panel_top - size_text / 2 - 11)
if (most > 0) {
    set label 5 "volume, ".unit at screen from_left(10), from_bottom(axis_height + volume_height + size_text / 2 + 12)
}
do for [i = 1:week_count] {
    tag = 100 + i
    line = state_of[i]
    if (states_shown && line ne "done") {
        set label tag line at first begin + i - 0.5, screen from_top(panel_top + size_text / 2) center \
            textcolor rgb quiet
    }
}
plot $WEEKS using ($6 == $6 ? planned_at($0) : NaN):4:(planned_at($0) - half_bar):(planned_at($0) + half_bar): \
         4:6 with boxxyerror fillcolor rgb faint fillstyle solid border linecolor rgb quiet title "planned, bottom to top", \
     $WEEKS using ($7 == $7 ? done_at($0) : NaN):5:(done_at($0) - half_bar):(done_at($0) + half_bar): \
         5:7 with boxxyerror fillcolor rgb sky fillstyle solid noborder title "done, bottom to top", \
     $WEEKS using (planned_at($0)):2:(planned_at($0) - half_dash):(planned_at($0) + half_dash) \
         with xerrorbars pointtype 0 linewidth 3 linecolor rgb quiet title "planned straight weight", \
     $WEEKS using ($3 == $3 ? done_at($0) : NaN):3:(done_at($0) - half_dash):(done_at($0) + half_dash) \
         with xerrorbars pointtype 0 linewidth 3 linecolor rgb orange title "straight weight", \
     $WEEKS using (done_at($0)):7 with points pointtype 9 pointsize mark linecolor rgb blue title "done, top", \
     $WEEKS using (done_at($0)):5 with points pointtype 11 pointsize mark linecolor rgb ink title "done, bottom"

# Volume and dates.
unset label
unset arrow
unset object
year = ""
do for [i = 1:week_count:dates_every] {
    line = date_label(day_of[i])
    set label at first begin + i - 0.5, screen from_bottom(axis_height - line_text / 2 - 4) line center
    line = day_of[i][1:4]
    if (line ne year) {
        set label at first begin + i - 0.5, screen from_bottom(axis_height - 1.5 * line_text - 4) line center
    }
    year = line
}
set tmargin at screen from_bottom(axis_height + larger(volume_height, 1))
set bmargin at screen from_bottom(axis_height)
set yrange [0 : most > 0 ? most * 1.1 : 1]
if (most > 0) { set ytics step_for(most, 3) } else { unset ytics; unset border; unset grid }
plot $WEEKS using ($8 == $8 ? planned_at($0) : NaN):(0):(planned_at($0) - half_bar):(planned_at($0) + half_bar): \
         (0):8 with boxxyerror fillcolor rgb faint fillstyle solid border linecolor rgb quiet title "planned volume", \
     $WEEKS using ($9 == $9 ? done_at($0) : NaN):(0):(done_at($0) - half_bar):(done_at($0) + half_bar): \
         (0):9 with boxxyerror fillcolor rgb blue fillstyle solid noborder title "volume done"
unset multiplot
set output
