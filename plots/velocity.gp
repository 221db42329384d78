# A lifter's own load-velocity line, with the 95 % interval of the mean, and the sets with chain or band.
#
#   gnuplot velocity.gp                                  a picture of made-up data, to look at the style
#   gnuplot -e "picture='svg'" plots/velocity.gp
#
# Data, loads in the unit of the picture:
#   $SETS  one row per measured line of the log: mean velocity in m/s, load (the mean load with chain or band), 1 with
#          chain or band, else 0; at least one row
#   $LINE  the line where it was measured, slowest first: velocity, load, low and high end of the interval; may be
#          absent

if (!exists("$SETS")) {
    heading = "Squat, load and velocity"
    sentence = "Each 0.1 m/s slower is 13 kg more; chain and band lie 5 kg above the line."
    set print $SETS
    do for [i = 0:23] {
        load_there = 60 + 10 * (i % 8)
        print sprintf("%g %g 0", 1.32 - 0.0077 * load_there + 0.03 * sin(i * 2.3), load_there)
    }
    do for [i = 0:7] { print sprintf("%g %g 1", 0.62 + 0.03 * i, 99 - 4 * i + 2 * sin(i * 1.7)) }
    set print $LINE
    do for [i = 0:20] {
        v = 0.31 + i * 0.028
        print sprintf("%g %g %g %g", v, 171 - 130 * v, 170 - 130 * v - 6 * abs(v - 0.59), \
            172 - 130 * v + 6 * abs(v - 0.59))
    }
    set print
}
set loadpath "." "plots"
if (!exists("style_is_set")) { load "style.gp" }
if (!exists("picture_name")) { picture_name = "velocity.".ending }
has_line = exists("$LINE")
if (!has_line) { set print $LINE; print "NaN NaN NaN NaN"; set print }

# The ranges.
low = 1e300; high = -1e300; slowest = 1e300; fastest = -1e300; has_ar = 0
seen(v) = v == v ? (low = v < low ? v : low, high = v > high ? v : high) : 0
seen_velocity(v) = (slowest = smaller(slowest, v), fastest = larger(fastest, v))
do for [i = 1:|$SETS|] {
    dummy = seen_velocity(real(word($SETS[i], 1)))
    dummy = seen(real(word($SETS[i], 2)))
    has_ar = has_ar || int(word($SETS[i], 3))
}
do for [i = 1:|$LINE|] {
    if (has_line) { do for [k = 3:4] { dummy = seen(real(word($LINE[i], k))) } }
}
span = larger(high - low, 0.05 * high + 1)
reach = larger(fastest - slowest, 0.05)

left = 90
axis_height = 2 * line_text + 34
mark = point_scale * (|$SETS| > 300 ? 0.7 : |$SETS| > 80 ? 1.0 : 1.4)

eval terminal_for(width, height)
set output picture_name
set lmargin at screen from_left(left)
set rmargin at screen from_right(25)
set xrange [slowest - 0.05 * reach : fastest + 0.05 * reach]
set yrange [low - 0.08 * span : high + 0.08 * span]
set xtics step_for(reach, 5)
set format x "%.2f"
set ytics step_for(span, 5)

# The key, in as many rows as it needs, of what there is.
key_y = head + 6 + size_text / 2
x = 30
line = "straight weight"
set label 1 "" at screen from_left(x), from_top(key_y) point pointtype 7 pointsize 1.4 * point_scale linecolor rgb blue
set label 2 line at screen from_left(x + 16), from_top(key_y)
x = after_key(x, line)
if (has_ar) {
    line = "chain or band, mean load"
    set label 3 "" at screen from_left(x), from_top(key_y) point pointtype 8 pointsize 1.7 * point_scale \
        linecolor rgb orange
    set label 4 line at screen from_left(x + 16), from_top(key_y)
    x = after_key(x, line)
}
if (has_line) {
    line = "line, and where it may be"
    if (x + 40 + strlen(line) * char_text > width - 10) { x = 30; key_y = key_y + line_text }
    set object 5 rectangle center screen from_left(x + 7), from_top(key_y) size screen from_left(34), from_bottom(20) \
        fillcolor rgb pale fillstyle solid noborder
    set arrow 5 from screen from_left(x - 10), from_top(key_y) to screen from_left(x + 24), from_top(key_y) nohead \
        linewidth 2.5 linecolor rgb ink
    set label 5 line at screen from_left(x + 34), from_top(key_y)
}
panel_top = key_y + size_text / 2 + line_text + 18
set tmargin at screen from_top(panel_top)
set bmargin at screen from_bottom(axis_height)
set label 8 "load, ".unit at screen from_left(10), from_top(panel_top - size_text / 2 - 11)
set label 9 "mean velocity, m/s" at screen (from_left(left) + from_right(25)) / 2, \
    from_bottom(line_text / 2 + 2) center

plot $LINE using 1:3:4 with filledcurves fillcolor rgb pale fillstyle solid noborder title "where the line may be", \
     $LINE using 1:2 with lines linewidth 2.5 linecolor rgb ink title "load by velocity", \
     $SETS using ($3 == 0 ? $1 : NaN):2 with points pointtype 7 pointsize mark \
         linecolor rgb blue title "a set with straight weight", \
     $SETS using ($3 != 0 ? $1 : NaN):2 with points pointtype 8 pointsize mark * 1.2 linewidth 2 \
         linecolor rgb orange title "a set with chain or band, mean load"
set output
