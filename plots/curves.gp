# What a load weighs at each height of the bar, for each set-up used: bottom and top marked, the straight weight too.
#
#   gnuplot curves.gp                                    a picture of made-up data, to look at the style
#   gnuplot -e "picture='svg'" plots/curves.gp
#
# Data, loads in the unit of the picture, at least one curve of two rows:
#   $CURVES  one block per set-up, two blank lines between blocks: height of the bar in m, load, low and high end of its
#            uncertainty (NaN: none)
#   $ENDS    one row per set-up, in the same order: name, bottom height and load, top height and load
# If set, straight_weight is drawn as a line; height_unit is what the axis says (m). `height` wants 60 pixels for each
# set-up above four.

if (!exists("$CURVES")) {
    heading = "Squat, 100 kg straight weight"
    sentence = "Chain adds evenly once it leaves its leader; a band adds most at the start."
    straight_weight = 100
    set print $CURVES
    do for [i = 0:20] {
        print sprintf("%g %g NaN NaN", 0.78 + i * 0.031, 100 + 28 * (0.25 + i * 0.031))
    }
    print ""
    print ""
    do for [i = 0:20] {
        pull = 38 * sqrt(0.15 + i * 0.0425)
        print sprintf("%g %g %g %g", 0.78 + i * 0.031, 100 + pull, 100 + pull * 0.94, 100 + pull * 1.06)
    }
    set print $ENDS
    print "\"2 x 7 kg chain/side\" 0.78 107 1.4 124.36"
    print "\"band b26 doubled @ pegs\" 0.78 114.717 1.4 138"
    set print
}
set loadpath "." "plots"
if (!exists("style_is_set")) { load "style.gp" }
if (!exists("picture_name")) { picture_name = "curves.".ending }
if (!exists("height_unit")) { height_unit = "m" }
has_straight = exists("straight_weight") && straight_weight == straight_weight

# The ranges, and which curves have a band of uncertainty.
curve_count = |$ENDS|
array name_of[curve_count]
array bottom_at[curve_count]
array bottom[curve_count]
array top_at[curve_count]
array top[curve_count]
array has_band[curve_count]
any_band = 0
do for [i = 1:curve_count] { has_band[i] = 0 }
row = 0
stats $ENDS using (row = row + 1, name_of[row] = strcol(1), bottom_at[row] = $2, bottom[row] = $3, \
    top_at[row] = $4, top[row] = $5, 0) nooutput
low = has_straight ? straight_weight : 1e300
high = has_straight ? straight_weight : -1e300
nearest = 1e300; farthest = -1e300
seen(v) = v == v ? (low = v < low ? v : low, high = v > high ? v : high) : 0
seen_height(v) = (nearest = v < nearest ? v : nearest, farthest = v > farthest ? v : farthest)
curve = 1
do for [i = 1:|$CURVES|] {
    if (words($CURVES[i]) >= 4) {
        dummy = seen_height(real(word($CURVES[i], 1)))
        do for [k = 2:4] { dummy = seen(real(word($CURVES[i], k))) }
        if (word($CURVES[i], 3) ne "NaN") { has_band[curve] = 1; any_band = 1 }
    } else {
        curve = curve + (i > 1 && words($CURVES[i - 1]) == 0)
    }
}
span = larger(high - low, 0.05 * high + 1)
reach = larger(farthest - nearest, 0.1)

# Colour, dash and letter tell the curves apart; those that the list has no room for are thin and without a name.
array colour_of[4] = [blue, orange, green, ink]
colour(i) = i > listed ? quiet : colour_of[(i - 1) % 4 + 1]
dash(i) = i > listed ? 1 : 1 + (i - 1) % 5
thick(i) = i > listed ? 1.5 : 3.5
letter(i) = i <= 26 ? substr("ABCDEFGHIJKLMNOPQRSTUVWXYZ", i, i) : sprintf("%d", i)
set dashtype 1 solid
set dashtype 2 (14, 6)
set dashtype 3 (14, 5, 3, 5)
set dashtype 4 (4, 4)
set dashtype 5 (24, 6)

# Under the panel, a line for each set-up, as many as leave the panel room enough to name as many ends.
axis_height = 2 * line_text + 38
panel_top = head + line_text + 14
rows_wanted = curve_count + has_straight
room = height - panel_top - axis_height
rows_there = floor(smaller((room - 150.0) / line_text, room / (2.0 * line_text)))
rows = rows_wanted <= rows_there ? rows_wanted : larger(rows_there, 1 + has_straight)
listed = rows - has_straight
list_height = rows * line_text + 10
left = 112
label_width = 8 * char_text + 26
panel_width = width - left - label_width
panel_height = height - panel_top - axis_height - list_height

eval terminal_for(width, height)
set output picture_name
set lmargin at screen from_left(left)
set rmargin at screen from_left(left + panel_width)
set tmargin at screen from_top(panel_top)
set bmargin at screen from_top(panel_top + panel_height)
set xrange [nearest - 0.04 * reach : farthest + 0.04 * reach]
set yrange [low - 0.1 * span : high + 0.1 * span]
set xtics step_for(reach, 6)
set format x (step_for(reach, 6) < 0.1 ? "%.2f" : "%.1f")
set ytics step_for(span, 5)
line = "load, ".unit.(any_band ? "; shaded: where it may be" : "")
set label 1 line at screen from_left(10), from_top(panel_top - size_text / 2 - 11)
axis_title = "height of the bar above the floor, ".height_unit
set label 2 axis_title at screen from_left(left + panel_width / 2), \
    from_top(panel_top + panel_height + 1.5 * line_text + 30) center

# The list.
list_y(k) = height - list_height + (k - 0.5) * line_text
list_room = int((width - 100) / char_text)
sample(k) = from_top(list_y(k))
shown(v) = sprintf("%.1f", v)
if (has_straight) {
    set arrow 10 from screen from_left(20), sample(1) to screen from_left(74), sample(1) nohead \
        linewidth 2 linecolor rgb quiet dashtype (3, 5)
    line = "straight weight ".shown(straight_weight)." ".unit
    set label 10 line at screen from_left(88), sample(1)
    set arrow 11 from graph 0, first straight_weight to graph 1, first straight_weight nohead back \
        linewidth 2 linecolor rgb quiet dashtype (3, 5)
}
do for [i = 1:listed] {
    tag = 20 + 2 * i
    set arrow tag from screen from_left(20), sample(i + has_straight) to screen from_left(74), \
        sample(i + has_straight) nohead linewidth 3.5 \
        linecolor rgb colour(i) dashtype dash(i)
    ends = ": ".shown(bottom[i])." to ".shown(top[i])." ".unit
    line = letter(i)."  ".shortened(name_of[i], list_room - strlen(ends) - 3).ends
    if (rows < rows_wanted && i == listed) {
        line = line.sprintf(" … and %d more", curve_count - listed)
    }
    set label tag line at screen from_left(88), sample(i + has_straight)
}

# Letter and load at the upper end of each curve, moved apart where they would meet.
array order[listed]
array label_at[listed]
pixel_of(load) = panel_top + panel_height * (high + 0.1 * span - load) / (1.2 * span)
do for [i = 1:listed] {
    order[i] = i
    do for [k = i:2:-1] {
        if (top[order[k]] > top[order[k - 1]]) {
            swap = order[k]
            order[k] = order[k - 1]
            order[k - 1] = swap
        }
    }
}
step = smaller(line_text - 2, panel_height / listed)
do for [k = 1:listed] {
    label_at[k] = pixel_of(top[order[k]])
    if (k > 1) { label_at[k] = larger(label_at[k], label_at[k - 1] + step) }
}
label_at[listed] = smaller(label_at[listed], panel_top + panel_height - 4)
do for [k = listed - 1:1:-1] { label_at[k] = smaller(label_at[k], label_at[k + 1] - step) }
do for [k = 1:listed] {
    i = order[k]
    tag = 1100 + k
    set arrow tag from first top_at[i], first top[i] to screen from_left(left + panel_width + 12), \
        from_top(label_at[k]) nohead \
        linewidth 1 linecolor rgb quiet
    line = letter(i)." ".shown(top[i])
    set label tag line at screen from_left(left + panel_width + 18), from_top(label_at[k])
}

plot for [i = curve_count:1:-1] $CURVES index (i - 1) using 1:(has_band[i] ? $3 : $2):(has_band[i] ? $4 : $2) \
    with filledcurves fillcolor rgb colour(i) \
         fillstyle transparent solid 0.18 noborder title name_of[i].", uncertainty", \
     for [i = curve_count:1:-1] $CURVES index (i - 1) using 1:2 with lines linewidth thick(i) \
         linecolor rgb colour(i) dashtype dash(i) title name_of[i], \
     for [i = curve_count:1:-1] $ENDS every ::i - 1::i - 1 using 2:3 \
         with points pointtype 11 pointsize (i > listed ? 1 : 2) * point_scale linecolor rgb colour(i) \
         title name_of[i].", bottom", \
     for [i = curve_count:1:-1] $ENDS every ::i - 1::i - 1 using 4:5 \
         with points pointtype 9 pointsize (i > listed ? 1 : 2) * point_scale linecolor rgb colour(i) \
         title name_of[i].", top"
set output
