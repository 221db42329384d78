# A team at a glance, one row per lifter: how much heavier each one's newest waves are than the waves before, at the
# bottom and at the top.
#
#   gnuplot team.gp                                      a picture of made-up data, to look at the style
#   gnuplot -e "picture='svg'" plots/team.gp
#
# Data, changes as fractions, NaN where unknown, at least one row in $LIFTERS:
#   $LIFTERS  one row per lifter, top row first: name, change at the bottom and at the top (median over the lifts)
#   $LIFTS    one row per lift: row of its lifter (from 1), change at the bottom and at the top; may be absent
# `height` wants 56 pixels for each lifter and 320 more.

if (!exists("$LIFTERS")) {
    heading = "Newest waves against the waves before"
    sentence = "Two of five are heavier at the top; one is lighter."
    set print $LIFTERS
    print "\"Oda Brandvik\" 0.012 0.031"
    print "\"Tamsin Orlo\" 0.008 0.012"
    print "\"Ilmar Teder\" 0 0.001"
    print "\"Wenna Castellaine-Ossory\" 0.004 -0.002"
    print "\"Joss Varela\" -0.021 -0.034"
    set print $LIFTS
    do for [i = 0:14] {
        print sprintf("%d %g %g", i / 3 + 1, 0.012 - 0.008 * (i / 3) + 0.01 * (i % 3 - 1), \
            0.028 - 0.014 * (i / 3) + 0.012 * (i % 3 - 1))
    }
    set print
}
set loadpath "." "plots"
if (!exists("style_is_set")) { load "style.gp" }
if (!exists("picture_name")) { picture_name = "team.".ending }
has_lifts = exists("$LIFTS")
if (!has_lifts) { set print $LIFTS; print "NaN NaN NaN"; set print }

lifter_count = |$LIFTERS|
array name_of[lifter_count]
low = 0; high = 0; row = 0; longest = 1
seen(v) = v == v ? (low = v < low ? v : low, high = v > high ? v : high) : 0
stats $LIFTERS using (row = row + 1, name_of[row] = strcol(1), seen($2), seen($3), 0) nooutput
do for [i = 1:|$LIFTS|] { if (has_lifts) { do for [k = 2:3] { dummy = seen(real(word($LIFTS[i], k))) } } }
do for [i = 1:lifter_count] { longest = larger(longest, strlen(name_of[i])) }
span = larger(high - low, 0.02)

name_room = int(smaller(longest, 0.4 * width / char_text))
left = 20 + name_room * char_text + 14
panel_width = width - left - 25.0

eval terminal_for(width, height)
set output picture_name
set lmargin at screen from_left(left)
set rmargin at screen from_right(25)
set xrange [100 * (low - 0.08 * span) : 100 * (high + 0.08 * span)]
set yrange [lifter_count + 0.5 : 0.5]
unset ytics
set border 1
set grid noytics xtics linetype 1 linewidth 1 linecolor rgb faint
set xtics step_for(100 * span * 1.2, smaller(6, panel_width / (5 * char_text)))
set format x "%+g"
set xtics add ("0" 0)

# The key, of two rows.
key_y = head + 6 + size_text / 2
x = 30
set label 1 "" at screen from_left(x), from_top(key_y) point pointtype 9 pointsize 2 * point_scale linecolor rgb blue
set label 2 "median at the top" at screen from_left(x + 16), from_top(key_y)
x = after_key(x, "median at the top")
set label 3 "" at screen from_left(x), from_top(key_y) point pointtype 11 pointsize 2 * point_scale linecolor rgb orange
set label 4 "at the bottom" at screen from_left(x + 16), from_top(key_y)
x = after_key(x, "at the bottom")
if (has_lifts) {
    line = "each lift, top and bottom"
    if (x + 20 + strlen(line) * char_text > width - 10) { x = 30; key_y = key_y + line_text }
    set label 5 "" at screen from_left(x), from_top(key_y) point pointtype 8 pointsize 1.1 * point_scale \
        linecolor rgb blue
    set label 6 "" at screen from_left(x + 18), from_top(key_y) point pointtype 10 pointsize 1.1 * point_scale \
        linecolor rgb orange
    set label 7 line at screen from_left(x + 34), from_top(key_y)
}
panel_top = key_y + size_text / 2 + 22
axis_height = 2 * line_text + 34
row_height = (height - panel_top - axis_height) / (1.0 * lifter_count)
set tmargin at screen from_top(panel_top)
set bmargin at screen from_bottom(axis_height)
set label 9 "change from the wave before, %" at screen from_left(left + panel_width / 2), from_bottom(line_text / 2 + 4) \
    center
set arrow 9 from first 0, graph 0 to first 0, graph 1 nohead linewidth 2 linecolor rgb quiet
names_every = ceil((size_text + 2.0) / row_height)
do for [i = 1:lifter_count:names_every] {
    tag = 100 + i
    line = shortened_name(name_of[i], name_room)
    set label tag line at screen from_left(left - 14), first i right
}
# Each kind of mark has a height of its own within the row, so that none hides another where changes are alike.
scale = point_scale * (row_height < 16 ? 0.35 : row_height < 30 ? 0.6 : 1)
plot $LIFTERS using (100 * smaller($2, $3)):($0 + 1):(100 * ($3 > $2 ? $3 - $2 : $2 - $3)):(0) with vectors nohead \
         linewidth 3 linecolor rgb faint title "from bottom to top", \
     $LIFTS using (100 * $2):($1 + 0.38) with points pointtype 10 pointsize 1.1 * scale \
         linecolor rgb orange title "a lift, at the bottom", \
     $LIFTS using (100 * $3):($1 - 0.36) with points pointtype 8 pointsize 1.1 * scale \
         linecolor rgb blue title "a lift, at the top", \
     $LIFTERS using (100 * $2):($0 + 1.13) with points pointtype 11 pointsize 1.8 * scale linecolor rgb orange \
         title "median at the bottom", \
     $LIFTERS using (100 * $3):($0 + 0.87) with points pointtype 9 pointsize 1.8 * scale linecolor rgb blue \
         title "median at the top"
set output
