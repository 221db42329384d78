# The same weeks of two spans of time, or of two lifters, side by side: the loads of one lift and focus.
#
#   gnuplot spans.gp                                     a picture of made-up data, to look at the style
#   gnuplot -e "picture='svg'" plots/spans.gp
#
# Data, loads in the unit of the picture, or shares in per cent, NaN where there is none, at least one row:
#   $WEEKS  one row per week: its number in the span, from 1; straight weight, load at the bottom and at the top; the same
#           three of the other span
# `span_name` and `other_name` are in the key, `axis_title` is below the weeks, `quantity` says what is drawn ("load, kg").

if (!exists("$WEEKS")) {
    heading = "Squat, speed: this autumn and the last"
    sentence = "In 8 weeks trained in both: +5.4 kg at the top, +2.9 kg at the bottom on average."
    span_name = "from 7 Sep 2026"
    other_name = "from 8 Sep 2025"
    quantity = "load, kg"
    axis_title = "week"
    set print $WEEKS
    do for [i = 1:9] {
        s = 65 + 6 * ((i - 1) % 3) + (i - 1) / 3
        print sprintf("%d %g %g %g %s", i, s + 3, s + 5, s + 25, i == 6 ? "NaN NaN NaN" : \
            sprintf("%g %g %g", s, s + 2, s + 20))
    }
    set print
}
set loadpath "." "plots"
if (!exists("style_is_set")) { load "style.gp" }
if (!exists("picture_name")) { picture_name = "spans.".ending }
if (!exists("span_name")) { span_name = "this span" }
if (!exists("other_name")) { other_name = "the other span" }
if (!exists("quantity")) { quantity = "load, ".unit }
if (!exists("axis_title")) { axis_title = "week" }

week_count = |$WEEKS|
low = 1e300; high = -1e300; has_ar = 0
seen(v) = v == v ? (low = v < low ? v : low, high = v > high ? v : high) : 0
apart_from(a, b) = a == a && b == b && abs(a - b) > 1e-6
load_of(i, k) = real(word($WEEKS[i], k)) # stats would warn where each week has a NaN
do for [i = 1:week_count] {
    do for [k = 2:7] { dummy = seen(load_of(i, k)) }
    do for [k = 2:5:3] {
        has_ar = has_ar || apart_from(load_of(i, k + 1), load_of(i, k)) || apart_from(load_of(i, k + 2), load_of(i, k))
    }
}
if (low > high) { low = 0; high = 1 }
range = larger(high - low, 0.08 * high + 1)
middle = (low + high) / 2.0

left = 92
panel_width = width - left - 25.0
places = larger(week_count, 4)
begin = (places - week_count) / 2.0
pixels_a_week = panel_width / places
half_bar = smaller(0.19, 15 / pixels_a_week)
half_dash = half_bar * 1.1
apart = smaller(0.22, 20 / pixels_a_week)
mark = point_scale * (pixels_a_week < 14 ? 0.4 : pixels_a_week < 30 ? 0.8 : 1.4)
weeks_every = ceil(3.2 * char_text / pixels_a_week)

eval terminal_for(width, height)
set output picture_name
set lmargin at screen from_left(left)
set rmargin at screen from_right(25)
set xrange [0:places]
unset xtics

# The key: the two spans, then the marks; each span is where it is in a week's pair.
room_for(n) = int((n - 60) / char_text)
key_y = head + 6 + size_text / 2
x = 30
line = shortened_name(other_name, room_for(width))
set object 1 rectangle center screen from_left(x), from_top(key_y) size screen from_left(14), from_bottom(22) \
    fillcolor rgb faint fillstyle solid border linecolor rgb quiet
set label 1 line at screen from_left(x + 16), from_top(key_y)
x = after_key(x, line)
line = shortened_name(span_name, room_for(width))
if (x + 16 + strlen(line) * char_text > width - 6) { x = 30; key_y = key_y + line_text }
set object 2 rectangle center screen from_left(x), from_top(key_y) size screen from_left(14), from_bottom(22) \
    fillcolor rgb (has_ar ? sky : orange) fillstyle solid border linecolor rgb ink
set label 2 line at screen from_left(x + 16), from_top(key_y)
x = 30
if (has_ar) {
    key_y = key_y + line_text
    set label 3 "" at screen from_left(x), from_top(key_y) point pointtype 9 pointsize 1.5 * point_scale \
        linecolor rgb blue
    set label 4 "top" at screen from_left(x + 16), from_top(key_y)
    x = after_key(x, "top")
    set label 5 "" at screen from_left(x), from_top(key_y) point pointtype 11 pointsize 1.5 * point_scale \
        linecolor rgb ink
    set label 6 "bottom" at screen from_left(x + 16), from_top(key_y)
    x = after_key(x, "bottom")
    set arrow 7 from screen from_left(x - 12), from_top(key_y) to screen from_left(x + 20), from_top(key_y) \
        nohead linewidth 3 linecolor rgb orange
    set label 7 "straight weight" at screen from_left(x + 28), from_top(key_y)
}
panel_top = key_y + size_text / 2 + line_text + 18
axis_height = 2 * line_text + 16
set tmargin at screen from_top(panel_top)
set bmargin at screen from_bottom(axis_height)
set yrange [middle - 0.6 * range : middle + 0.6 * range]
set ytics step_for(range * 1.2, 6)
set label 8 quantity at screen from_left(10), from_top(panel_top - size_text / 2 - 11)
set label 9 axis_title at screen from_left(left + panel_width / 2), from_bottom(line_text / 2 + 2) center
do for [i = 1:week_count:weeks_every] {
    tag = 100 + i
    line = word($WEEKS[i], 1)
    set label tag line at first begin + i - 0.5, screen from_bottom(axis_height - line_text / 2 - 4) center
}
other_at(row) = begin + row + 0.5 - apart
own_at(row) = begin + row + 0.5 + apart
thin = larger(0.004 * range, 0.05) # a load without chain and band is a bar of little height
bar_low(b, t) = t - b > 1e-6 ? b : b - thin
bar_high(b, t) = t - b > 1e-6 ? t : t + thin
with_ar(s, b, t) = apart_from(b, s) || apart_from(t, s)
plot $WEEKS using ($7 == $7 && $6 == $6 ? other_at($0) : NaN):6:(other_at($0) - half_bar):(other_at($0) + half_bar): \
         (bar_low($6, $7)):(bar_high($6, $7)) with boxxyerror fillcolor rgb faint fillstyle solid \
         border linecolor rgb quiet title other_name, \
     $WEEKS using ($4 == $4 && $3 == $3 ? own_at($0) : NaN):3:(own_at($0) - half_bar):(own_at($0) + half_bar): \
         (bar_low($3, $4)):(bar_high($3, $4)) with boxxyerror fillcolor rgb (has_ar ? sky : orange) fillstyle solid \
         noborder title span_name, \
     $WEEKS using ($5 == $5 && with_ar($5, $6, $7) ? other_at($0) : NaN):5:(other_at($0) - half_dash): \
         (other_at($0) + half_dash) with xerrorbars pointtype 0 linewidth 3 linecolor rgb quiet \
         title "straight weight of the other", \
     $WEEKS using ($2 == $2 && has_ar ? own_at($0) : NaN):2:(own_at($0) - half_dash):(own_at($0) + half_dash) \
         with xerrorbars pointtype 0 linewidth 3 linecolor rgb orange title "straight weight", \
     $WEEKS using (with_ar($2, $3, $4) ? own_at($0) : NaN):4 with points pointtype 9 pointsize mark \
         linecolor rgb blue title "top", \
     $WEEKS using (with_ar($2, $3, $4) ? own_at($0) : NaN):3 with points pointtype 11 pointsize mark \
         linecolor rgb ink title "bottom"
set output
