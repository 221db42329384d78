# Is each wave heavier, at a glance: the loads of the newest wave from bottom to top, each next to the same week of the wave
# before. No words and no axis: it is shown next to a sentence.
#
#   gnuplot glance.gp                                    a picture of made-up data, to look at the style
#   gnuplot -e "picture='svg'" plots/glance.gp
#
# Data, loads in any unit, NaN where unknown, at least one row:
#   $WEEKS  one row per week: load at the bottom and at the top, bottom and top of the same week of the wave before

if (!exists("$WEEKS")) {
    set print $WEEKS
    print "67.5 86.5 65 84"
    print "74 93 71.5 90.5"
    print "80 99 78 97"
    set print
}
if (!exists("width")) { width = 240; height = 80 }
set loadpath "." "plots"
if (!exists("style_is_set")) { load "style.gp" }
if (!exists("picture_name")) { picture_name = "glance.".ending }

low = 1e300; high = -1e300
seen(v) = v == v ? (low = v < low ? v : low, high = v > high ? v : high) : 0
do for [i = 1:|$WEEKS|] { do for [k = 1:4] { dummy = seen(real(word($WEEKS[i], k))) } }
if (low > high) { low = 0; high = 1 }
span = larger(high - low, 0.1 * high + 1)
places = larger(|$WEEKS|, 3)
begin = (places - |$WEEKS|) / 2.0
pixels_a_week = (width - 8.0) / places
half_bar = smaller(0.18, 14 / pixels_a_week)
thin = 2.5 / (height - 8.0) * span * 1.1

eval terminal_for(width, height)
set output picture_name
set lmargin at screen from_left(4)
set rmargin at screen from_right(4)
set tmargin at screen from_top(4)
set bmargin at screen from_bottom(4)
unset border
unset tics
unset grid
set xrange [0:places]
set yrange [low - 0.05 * span : low + 1.05 * span]
before(row) = begin + row + 0.5 - half_bar * 1.15
now(row) = begin + row + 0.5 + half_bar * 1.15
# Where bottom and top are one load, a bar is a dash.
low_end(b, t) = t - b < thin ? (b + t) / 2 - thin : b
high_end(b, t) = t - b < thin ? (b + t) / 2 + thin : t
plot $WEEKS using ($3 == $3 && $4 == $4 ? before($0) : NaN):3:(before($0) - half_bar):(before($0) + half_bar): \
         (low_end($3, $4)):(high_end($3, $4)) with boxxyerror fillcolor rgb "#c4c4c4" fillstyle solid noborder title "wave before", \
     $WEEKS using ($1 == $1 && $2 == $2 ? now($0) : NaN):1:(now($0) - half_bar):(now($0) + half_bar): \
         (low_end($1, $2)):(high_end($1, $2)) with boxxyerror fillcolor rgb blue fillstyle solid noborder title "newest wave"
set output
