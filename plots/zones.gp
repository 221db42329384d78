# How hard a lift was trained: the number of reps in each zone of intensity, week by week, stacked.
#
#   gnuplot zones.gp                                     a picture of made-up data, to look at the style
#   gnuplot -e "picture='svg'" plots/zones.gp
#
# Data, NaN where there is none, at least one row:
#   $WEEKS  one row per week from the first to the last, weeks without training too (0): Monday (YYYY-MM-DD), number of
#           reps below 55, 55 to 70, 70 to 80, 80 to 90 and at 90 % of 1RM and above

if (!exists("$WEEKS")) {
    heading = "Squat, reps by intensity"
    sentence = "Half of all reps are below 70 % of 1RM, one in eight at 80 % and above."
    set print $WEEKS
    do for [i = 0:51] {
        trained = i % 17 != 11 && i % 17 != 12
        monday = strptime("%Y-%m-%d", "2025-01-06") + i * 604800
        print strftime("%Y-%m-%d", monday).sprintf(" %d %d %d %d %d", trained * (24 - 8 * (i % 3)), trained * 16, \
            trained * (10 + i % 5), trained * (4 + 3 * (i % 3)), trained * (i % 9 == 8) * 3)
    }
    set print
}
set loadpath "." "plots"
if (!exists("style_is_set")) { load "style.gp" }
if (!exists("picture_name")) { picture_name = "zones.".ending }

# From pale to dark: the order is read without a key, and in grey too. One of the dark zones is hatched, so that it
# differs from its neighbours also where a printer's greys do not.
array shade[5] = [colours ? "#eaf5fb" : "#f4f4f4", colours ? "#b4d9ee" : "#cfcfcf", colours ? "#5fa8d3" : "#9c9c9c", \
    colours ? "#0b4a78" : "#404040", colours ? "#000d1a" : "#0a0a0a"]
hatched = 4
array zone[5] = ["below 55", "55 to 70", "70 to 80", "80 to 90", "90 and above"]

# The ranges. A picture of a few weeks is as wide as one of ten, so that a bar stays a bar.
week_count = |$WEEKS|
monday(s) = strptime("%Y-%m-%d", s)
begin = monday(word($WEEKS[1], 1))
end = monday(word($WEEKS[week_count], 1)) + week_seconds
spare = larger(0, 10 * week_seconds - (end - begin)) / 2
from = begin - spare - 0.3 * week_seconds
to = end + spare + 0.3 * week_seconds
number(i, k) = word($WEEKS[i], k) eq "NaN" ? 0 : real(word($WEEKS[i], k))
total(i) = number(i, 2) + number(i, 3) + number(i, 4) + number(i, 5) + number(i, 6)
most = 1.0
do for [i = 1:week_count] { most = larger(most, total(i)) }

left = 90
panel_width = width - left - 25.0
half_bar = week_seconds * (panel_width * week_seconds / (to - from) > 6 ? 0.42 : 0.5)

eval terminal_for(width, height)
set output picture_name
set lmargin at screen from_left(left)
set rmargin at screen from_right(25)
set xrange [from:to]
set yrange [0:most * 1.05]
reps_apart = step_for(most, 5)
set ytics larger(1, reps_apart == 2.5 ? 5 : reps_apart)

# The key, in as many rows as it needs.
key_y = head + 6 + size_text / 2
line = "% of 1RM:"
set label 1 line at screen from_left(20), from_top(key_y)
x = 20 + 10 * char_text + 20
do for [k = 1:5] {
    if (x + 16 + strlen(zone[k]) * char_text > width - 10) {
        x = 30
        key_y = key_y + line_text
    }
    tag = 10 + k
    set object tag rectangle center screen from_left(x), from_top(key_y) size screen from_left(18), from_bottom(18) \
        fillcolor rgb shade[k] fillstyle solid border linecolor rgb quiet
    if (k == hatched) {
        set object 10 rectangle center screen from_left(x), from_top(key_y) size screen from_left(18), \
            from_bottom(18) front fillcolor rgb "white" fillstyle transparent pattern hatching noborder
    }
    line = zone[k]
    set label tag line at screen from_left(x + 16), from_top(key_y)
    x = after_key(x, zone[k])
}
panel_top = key_y + size_text / 2 + line_text + 18
set tmargin at screen from_top(panel_top)
axis_height = 2 * line_text + 10
set bmargin at screen from_bottom(axis_height)
set label 2 "reps per week" at screen from_left(10), from_top(panel_top - size_text / 2 - 11)

# Dates; the year where it begins.
unset xtics
set xtics out scale 0.6 nomirror ()
step = date_step(from, to, floor(panel_width / (6.5 * char_text)))
year = 0; i = 0
while (date_tic(i, begin, step) < end) {
    date = date_tic(i, begin, step)
    place = date + (step > 0 ? week_seconds / 2 : 0)
    set xtics add ("" place)
    line = date_word(date, step)
    tag = 200 + 2 * i
    set label tag line at first place, screen from_bottom(axis_height - line_text / 2 - 8) center
    line = tm_year(date) != year && step > -12 ? sprintf("%d", tm_year(date)) : ""
    tag = tag + 1
    set label tag line at first place, screen from_bottom(axis_height - 1.5 * line_text - 8) center
    year = tm_year(date)
    i = i + 1
}

middle(s) = monday(s) + week_seconds / 2
known(v) = v == v ? v : 0
sum(k) = (k < 2 ? 0 : known(column(2))) + (k < 3 ? 0 : known(column(3))) + (k < 4 ? 0 : known(column(4))) + \
    (k < 5 ? 0 : known(column(5))) + (k < 6 ? 0 : known(column(6)))
plot for [k = 2:6] $WEEKS using (middle(strcol(1))):(0):(middle(strcol(1)) - half_bar):(middle(strcol(1)) + half_bar): \
    (sum(k - 1)):(sum(k)) with boxxyerror fillcolor rgb shade[k - 1] fillstyle solid border linecolor rgb "white" \
    title zone[k - 1]." % of 1RM", \
    $WEEKS using (middle(strcol(1))):(0):(middle(strcol(1)) - half_bar):(middle(strcol(1)) + half_bar): \
    (sum(hatched)):(sum(hatched + 1)) with boxxyerror fillcolor rgb "white" fillstyle transparent pattern hatching \
    noborder title zone[hatched]." % of 1RM"
set output
