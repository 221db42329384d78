# The pull of a band by its length: what was measured, and the laws fitted to it, with the interval of the one in use.
#
#   gnuplot band.gp                                      a picture of made-up data, to look at the style
#   gnuplot -e "picture='svg'" plots/band.gp
#
# Data, pulls in the unit of the picture, at least one measurement of one point:
#   $POINTS  one block per measurement, two blank lines between blocks: length in m, mean pull, spread of its repeats
#   $FLATS   one row per measurement, in the same order: flat length in m
#   $CURVES  one block per curve, two blank lines between blocks: length in m, pull, low and high end of the interval
#            (NaN: none); the first is drawn strongest
#   $NAMES   one row per curve, in the same order: the measurement it belongs to (1, 2, 3 ...), name
# If set, length_unit is what the axis says (m). `height` wants 60 pixels for each curve above four.

if (!exists("$POINTS")) {
    heading = "Band b26, 2026-01-03"
    sentence = "Tested on a length that it had not seen, the curve is wrong by 0.40 kg, root mean square."
    law(s, c1, c2) = (s - 1 / s ** 2) * (c1 + c2 / s)
    set print $POINTS
    do for [i = 0:5] {
        length = 1.15 + i * 0.17
        print sprintf("%g %g %g", length, law(length / 1.04, 11, 12) + 0.6 * sin(5 * i), 0.3 + 0.1 * i)
    }
    set print $FLATS
    print "1.04"
    set print $CURVES
    do for [i = 0:40] {
        length = 1.04 + i * 0.024
        print sprintf("%g %g NaN NaN", length, law(length / 1.04, 11.3, 11.6))
    }
    print ""
    print ""
    do for [i = 0:40] {
        length = 1.04 + i * 0.024
        pull = law(length / 1.04, 11, 12)
        print sprintf("%g %g %g %g", length, pull, 0.96 * pull, 1.04 * pull)
    }
    print ""
    print ""
    do for [i = 0:40] {
        length = 1.04 + i * 0.024
        print sprintf("%g %g NaN NaN", length, law(length / 1.04, 18, 0))
    }
    set print $NAMES
    print "1 \"measured curve, to be used\""
    print "1 \"Mooney-Rivlin\""
    print "1 \"neo-Hookean\""
    set print
}
set loadpath "." "plots"
if (!exists("style_is_set")) { load "style.gp" }
if (!exists("picture_name")) { picture_name = "band.".ending }
if (!exists("length_unit")) { length_unit = "m" }

# The ranges, and which curves have an interval.
measured_count = |$FLATS|
curve_count = |$NAMES|
array flat_of[measured_count]
array series_of[larger(curve_count, 1)]
array name_of[larger(curve_count, 1)]
row = 0
stats $FLATS using (row = row + 1, flat_of[row] = $1, 0) nooutput
row = 0
if (curve_count > 0) { stats $NAMES using (row = row + 1, series_of[row] = $1, name_of[row] = strcol(2), 0) nooutput }
nearest = 1e300; farthest = -1e300; high = 0; band_high = 0; any_band = 0; any_spread = 0
seen(v) = v == v ? (high = v > high ? v : high) : 0
seen_length(v) = (nearest = v < nearest ? v : nearest, farthest = v > farthest ? v : farthest)
do for [i = 1:measured_count] { dummy = seen_length(flat_of[i]) }
do for [i = 1:|$POINTS|] {
    if (words($POINTS[i]) >= 3) {
        spread = real(word($POINTS[i], 3))
        dummy = seen_length(real(word($POINTS[i], 1)))
        dummy = seen(real(word($POINTS[i], 2)) + spread / 2)
        any_spread = any_spread || spread > 0
    }
}
if (exists("$CURVES")) {
    do for [i = 1:|$CURVES|] {
        if (words($CURVES[i]) >= 4) {
            dummy = seen(real(word($CURVES[i], 2)))
            if (word($CURVES[i], 4) ne "NaN") {
                any_band = 1
                band_high = larger(band_high, real(word($CURVES[i], 4)))
            }
        }
    }
}
span = larger(larger(high, smaller(band_high, 1.3 * high)), 0.1) # a wide interval must not flatten the curves
reach = larger(farthest - nearest, 0.02)

# One measurement: colours and dashes tell its laws apart. Several: they tell the measurements apart, marks too. Those
# that the list has no room for are thin and without a name.
several = measured_count > 1
array colour_of[4] = [blue, orange, green, ink]
array mark_of[6] = [7, 5, 9, 11, 13, 15]
array hollow_of[6] = [6, 4, 8, 10, 12, 14]
colour(i) = i > listed ? quiet : colour_of[(i - 1) % 4 + 1]
series_colour(s) = several ? colour(s) : ink
mark(s) = mark_of[(s - 1) % 6 + 1]
hollow(s) = hollow_of[(s - 1) % 6 + 1]
dash(i) = i > listed ? 1 : 1 + (i - 1) % 5
thick(i) = i > listed ? 1.5 : i == 1 || several ? 3.5 : 2.5
set dashtype 1 solid
set dashtype 2 (14, 6)
set dashtype 3 (4, 4)
set dashtype 4 (14, 5, 3, 5)
set dashtype 5 (24, 6)

# The list: a line for each curve, in the empty corner under the rising curves, else below the panel, as many as leave
# the panel room.
axis_height = 2 * line_text + 28
panel_top = head + line_text + 14
left = 92
right = 30
panel_width = width - left - right
rows_wanted = curve_count + !several
longest = several ? 0 : strlen("measured; hollow: flat")
do for [i = 1:curve_count] { longest = larger(longest, strlen(name_of[i])) }
list_width = 86 + longest * char_text
panel_height = height - panel_top - axis_height
x_low = nearest - 0.04 * reach
x_high = farthest + 0.04 * reach
y_high = 1.06 * span
corner_left = x_low + (x_high - x_low) * (1 - list_width / panel_width)
corner_top = y_high * ((rows_wanted + 1) * line_text + 16) / panel_height
is_inside = list_width < 0.66 * panel_width && corner_top < 0.6 * y_high
blocked(x, y) = x >= corner_left && y < corner_top
do for [i = 1:|$POINTS|] {
    if (words($POINTS[i]) >= 3) {
        is_inside = is_inside && !blocked(real(word($POINTS[i], 1)), real(word($POINTS[i], 2)))
    }
}
do for [i = 1:measured_count] { is_inside = is_inside && flat_of[i] < corner_left }
rows_there = is_inside ? rows_wanted : \
    floor(smaller((height - panel_top - axis_height - 150.0) / line_text, rows_wanted))
listed = larger(smaller(rows_there - !several, curve_count), smaller(1, curve_count))
list_height = (listed + !several) * line_text + 10
panel_height = panel_height - (is_inside ? 0 : list_height)

eval terminal_for(width, height)
set output picture_name
set lmargin at screen from_left(left)
set rmargin at screen from_right(right)
set tmargin at screen from_top(panel_top)
set bmargin at screen from_top(panel_top + panel_height)
set xrange [x_low:x_high]
set yrange [0:y_high]
set xtics step_for(reach, 6)
set format x (step_for(reach, 6) < 0.1 ? "%.2f" : "%.1f")
set ytics step_for(span, 5)
line = "pull, ".unit.(any_band ? "; shaded: where the curve may be" : ""). \
    (any_spread ? "; bars: spread of repeats" : "")
if (strlen(line) * char_text > width - 20) { line = "pull, ".unit }
set label 1 line at screen from_left(10), from_top(panel_top - size_text / 2 - 11)
axis_title = "length from end to end, ".length_unit
set label 2 axis_title at screen from_left(left + panel_width / 2), \
    from_top(panel_top + panel_height + 1.5 * line_text + 22) center

# The measured points of a single measurement come first in the list.
list_left = is_inside ? left + panel_width - list_width : 20
list_y(k) = (is_inside ? panel_top + panel_height - list_height - 6 : height - list_height) + (k - 0.5) * line_text
list_room = int((width - list_left - 110) / char_text)
if (is_inside) {
    set object 1 rectangle from screen from_left(list_left - 8), from_top(list_y(1) - line_text / 2) \
        to screen from_left(left + panel_width), from_top(panel_top + panel_height - 4) back \
        fillcolor rgb "#ffffff" fillstyle solid noborder
}
if (!several) {
    set label 10 "" at screen from_left(list_left + 27), from_top(list_y(1)) point pointtype mark(1) \
        pointsize 1.5 * point_scale linecolor rgb ink
    set label 11 "measured; hollow: flat" at screen from_left(list_left + 68), from_top(list_y(1))
}
do for [i = 1:listed] {
    tag = 20 + 2 * i
    y = list_y(i + !several)
    set arrow tag from screen from_left(list_left), from_top(y) to screen from_left(list_left + 54), from_top(y) \
        nohead linewidth thick(i) linecolor rgb colour(i) dashtype dash(i)
    more = listed < curve_count && i == listed ? sprintf(" … and %d more", curve_count - listed) : ""
    line = (is_inside ? name_of[i] : shortened(name_of[i], list_room - strlen(more))).more
    set label tag line at screen from_left(list_left + 68), from_top(y)
    if (several) {
        tag = tag + 1
        set label tag "" at screen from_left(list_left + 27), from_top(y) point pointtype mark(int(series_of[i])) \
            pointsize 1.5 * point_scale linecolor rgb colour(i)
    }
}

plot for [i = curve_count:1:-1] $CURVES index (i - 1) using 1:3:4 \
         with filledcurves fillcolor rgb colour(i) fillstyle transparent solid 0.18 noborder \
         title name_of[i].", where it may be", \
     for [i = curve_count:1:-1] $CURVES index (i - 1) using 1:2 with lines linewidth thick(i) \
         linecolor rgb colour(i) dashtype dash(i) title name_of[i], \
     for [s = measured_count:1:-1] $POINTS index (s - 1) using 1:($3 > 0 ? $2 : NaN):($3 / 2) \
         with yerrorbars pointtype 0 linewidth 2 linecolor rgb series_colour(s) title "spread of repeats", \
     for [s = measured_count:1:-1] $POINTS index (s - 1) using 1:2 \
         with points pointtype mark(s) pointsize 1.5 * point_scale linecolor rgb series_colour(s) title "measured", \
     for [s = measured_count:1:-1] $FLATS every ::s - 1::s - 1 using 1:(0) \
         with points pointtype hollow(s) pointsize 1.7 * point_scale linewidth 2 linecolor rgb series_colour(s) title "flat"
set output
