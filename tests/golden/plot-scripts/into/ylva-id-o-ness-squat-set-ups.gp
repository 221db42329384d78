# A picture for gnuplot 5.4 or newer. To draw it: gnuplot FILE
# Parameters and data first; then the style and the template curves.gp, which say what may be set.

picture = "svg"
picture_name = "ylva\055id\055o\055ness\055squat\055set\055ups\056svg"
unit = "kg"
heading = "Ylva \140id\140 O\047Ness\072 squat\054 load by height of the bar"
sentence = "Each set\055up used\054 with 67\056\065\302\240kg straight weight\054 from the bottom to the top of the lift\056"
height_unit = "m"
straight_weight = 67.5

$CURVES << END_OF_CURVES
0.8 67.5 67.5 67.5
0.815 68.2 68.186 68.214
0.83 68.9 68.872 68.928
0.845 69.6 69.558 69.642
0.86 70.3 70.244 70.356
0.875 71 70.93 71.07
0.89 71.7 71.616 71.784
0.905 72.4 72.302 72.498
0.92 73.1 72.988 73.212
0.935 73.8 73.674 73.926
0.95 74.5 74.36 74.64
0.965 75.2 75.046 75.354
0.98 75.9 75.732 76.068
0.995 76.6 76.418 76.782
1.01 77.3 77.104 77.496
1.025 78 77.79 78.21
1.04 78.7 78.476 78.924
1.055 79.4 79.162 79.638
1.07 80.1 79.848 80.352
1.085 80.8 80.534 81.066
1.1 81.5 81.22 81.78
1.115 82.2 81.906 82.494
1.13 82.9 82.592 83.208
1.145 83.6 83.278 83.922
1.16 84.3 83.964 84.636
1.175 85 84.65 85.35
1.19 85.7 85.336 86.064
1.205 86.4 86.022 86.778
1.22 87.1 86.708 87.492
1.235 87.8 87.394 88.206
1.25 88.5 88.08 88.92
1.265 89.2 88.766 89.634
1.28 89.9 89.452 90.348
1.295 90.6 90.138 91.062
1.31 91.3 90.824 91.776
1.325 92 91.51 92.49
1.34 92.7 92.196 93.204
1.355 93.4 92.882 93.918
1.37 94.1 93.568 94.632
1.385 94.8 94.254 95.346
1.4 95.5 94.94 96.06


0.8 67.5 67.5 67.5
0.815 68.3 68.284 68.316
0.83 69.1 69.068 69.132
0.845 69.9 69.852 69.948
0.86 70.7 70.636 70.764
0.875 71.5 71.42 71.58
0.89 72.3 72.204 72.396
0.905 73.1 72.988 73.212
0.92 73.9 73.772 74.028
0.935 74.7 74.556 74.844
0.95 75.5 75.34 75.66
0.965 76.3 76.124 76.476
0.98 77.1 76.908 77.292
0.995 77.9 77.692 78.108
1.01 78.7 78.476 78.924
1.025 79.5 79.26 79.74
1.04 80.3 80.044 80.556
1.055 81.1 80.828 81.372
1.07 81.9 81.612 82.188
1.085 82.7 82.396 83.004
1.1 83.5 83.18 83.82
1.115 84.3 83.964 84.636
1.13 85.1 84.748 85.452
1.145 85.9 85.532 86.268
1.16 86.7 86.316 87.084
1.175 87.5 87.1 87.9
1.19 88.3 87.884 88.716
1.205 89.1 88.668 89.532
1.22 89.9 89.452 90.348
1.235 90.7 90.236 91.164
1.25 91.5 91.02 91.98
1.265 92.3 91.804 92.796
1.28 93.1 92.588 93.612
1.295 93.9 93.372 94.428
1.31 94.7 94.156 95.244
1.325 95.5 94.94 96.06
1.34 96.3 95.724 96.876
1.355 97.1 96.508 97.692
1.37 97.9 97.292 98.508
1.385 98.7 98.076 99.324
1.4 99.5 98.86 100.14
END_OF_CURVES
$ENDS << END_OF_ENDS
"2 x 7 kg chain\057side" 0.8 67.5 1.4 95.5
"2 x 8 kg chain\057side" 0.8 67.5 1.4 99.5
END_OF_ENDS

# One style for all pictures. Each template takes it from here; a script written by the program carries it inside.
#
# What may be set before (by gnuplot -e "..." or by lines above):
#   picture       svg, png, pdf or dumb (characters); default png
#   picture_name  name of the file to make, where gnuplot runs; default: the template's name and the picture's ending
#   unit          kg or lb, as written in labels
#   heading       the title
#   sentence      one sentence under it; empty: none
#   colours       0: ink only, for a printer without colours; default 1
#
# The colours keep apart for colour-blind eyes and in grey (each has its own lightness), and nothing is shown by colour
# alone: marks, dashes and fills differ too. They are of the set that M. Okabe and K. Ito proposed (2008), the blue
# darkened.

set encoding utf8

style_is_set = 1

if (!exists("picture")) { picture = "png" }
if (!exists("unit")) { unit = "kg" }
if (!exists("heading")) { heading = "" }
if (!exists("sentence")) { sentence = "" }
if (!exists("colours")) { colours = 1 }

ink = "#1a1a1a"
quiet = "#767676"
faint = "#dcdcdc"
blue = colours ? "#00588f" : "#1a1a1a"
sky = colours ? "#8ccbee" : "#a6a6a6"
orange = colours ? "#d55e00" : "#1a1a1a"
sand = colours ? "#eec79e" : "#c6c6c6"
pale = "#ececec"
hatching = 4 # the fill pattern: thin lines that rise
green = colours ? "#007a5a" : "#1a1a1a"

# Sizes in pixels. A telephone shows a picture 360 wide: at half of its own width, text of 22 pixels still has 11.
# `char_...`: the width of a character on average, in DejaVu Sans; other sans-serif fonts are narrower.
if (!exists("width")) { width = 720 }
if (!exists("height")) { height = 620 }
size_heading = 27
size_text = 22
char_heading = 16.1
char_text = 11.7
char_label = 12.6 # of a label of its own, which must not run over an edge
line_text = 28
is_dumb = picture eq "dumb"
is_svg = picture eq "svg"
points_per_pixel = is_svg ? 1.0 : 0.75
point_scale = is_svg ? 0.36 : 1.0 # this terminal alone lets marks grow with the font
font_family = is_svg ? "sans-serif" : "DejaVu Sans"
font_of(pixels) = sprintf("%s,%g", font_family, pixels * points_per_pixel)
bold_font_of(pixels) = sprintf("%s%sBold,%g", font_family, is_svg ? " " : ":", pixels * points_per_pixel)

larger(a, b) = a > b ? a : b
smaller(a, b) = a < b ? a : b

# The command that opens a picture of w x h pixels. `noenhanced`: a user's text is no markup.
ending = is_dumb ? "txt" : picture
has(t) = strstrt(" ".GPVAL_TERMINALS." ", " ".t." ") > 0
font_text = sprintf("font '%s'", font_of(size_text))
terminal_png(w, h) = sprintf("set terminal %s size %d,%d noenhanced %s", \
    has("pngcairo") ? "pngcairo" : "png", w, h, font_text)
terminal_pdf(w, h) = sprintf("set terminal pdfcairo size %.2fin,%.2fin noenhanced fontscale 1 %s", \
    w / 96.0, h / 96.0, font_text)
terminal_svg(w, h) = sprintf("set terminal svg size %d,%d noenhanced %s background '#ffffff'", w, h, font_text)
terminal_dumb(w, h) = sprintf("set terminal dumb size %d,%d noenhanced", w / 8, h / 14)
terminal_for(w, h) = is_svg ? terminal_svg(w, h) : picture eq "pdf" ? terminal_pdf(w, h) : \
    is_dumb ? terminal_dumb(w, h) : terminal_png(w, h)

# Places from the top and the bottom edge, in pixels, as screen coordinates.
from_top(pixels) = 1 - pixels / (1.0 * height)
from_bottom(pixels) = pixels / (1.0 * height)
from_left(pixels) = pixels / (1.0 * width)
from_right(pixels) = 1 - pixels / (1.0 * width)

# Words of s in lines of at most n characters; a word that is longer is broken. Each line is a label of its own, since
# terminals differ in how far apart they set the lines of one. line_of: the k-th line of at most `most`; the last one
# ends in … if text is left.
last_space(s, k) = k <= 1 ? 0 : s[k:k] eq " " ? k : last_space(s, k - 1)
cut_at(s, n) = last_space(s[1:n + 1], n + 1) > n / 2 ? last_space(s[1:n + 1], n + 1) : n
rest_of(s, n) = strlen(s) <= n ? "" : s[cut_at(s, n) + 1:strlen(s)]
line_count(s, n, most) = strlen(s) == 0 || most == 0 ? 0 : 1 + line_count(rest_of(s, n), n, most - 1)
shortened(s, n) = strlen(s) <= n ? s : s[1:n - 1]."…"
# The same for names, which are cut in the middle: often their ends tell them apart.
shortened_name(s, n) = strlen(s) <= n ? s : s[1:n - 1 - (n - 1) / 2]."…".s[strlen(s) - (n - 1) / 2 + 1:strlen(s)]
# Where the last line would be a lone word or two: the least room in which s takes no more lines than in n characters,
# which makes its lines of like length.
last_line(s, n) = strlen(s) <= n ? strlen(s) : last_line(rest_of(s, n), n)
evened(s, n, m) = m >= n || line_count(s, m, 9) <= line_count(s, n, 9) ? smaller(m, n) : evened(s, n, m + 1)
even_room(s, n) = strlen(s) <= n || last_line(s, n) > n / 3 ? n : evened(s, n, strlen(s) / line_count(s, n, 9))
line_of(s, n, k, most) = k > 1 ? line_of(rest_of(s, n), n, k - 1, most - 1) : strlen(s) <= n ? s : \
    most <= 1 ? shortened(s, n) : s[1:cut_at(s, n)]

# The frame of a panel: what helps reading, and no more.
set border 3 linewidth 1.5 linecolor rgb ink
set tics nomirror out scale 0.6 textcolor rgb ink
set grid ytics linetype 1 linewidth 1 linecolor rgb faint
set style fill solid 1.0 noborder
set bars small
unset key

# Heading and sentence at the top left. `head` is the height that they take.
line_heading = size_heading + 8
heading_room = even_room(heading, int((width - 40) / char_heading))
sentence_room = even_room(sentence, int((width - 40) / char_text))
head = 14
do for [k = 1:line_count(heading, heading_room, 2)] {
    tag = 1000 + k
    line = line_of(heading, heading_room, k, 2)
    set label tag line at screen from_left(20), from_top(head + line_heading / 2) \
        font bold_font_of(size_heading) textcolor rgb ink
    head = head + line_heading
}
do for [k = 1:line_count(sentence, sentence_room, 4)] {
    tag = 1010 + k
    line = line_of(sentence, sentence_room, k, 4)
    set label tag line at screen from_left(20), from_top(head + line_text / 2) textcolor rgb ink
    head = head + line_text
}

# The round step that parts a range of v into n pieces or fewer.
power_of_ten(v) = 10 ** floor(log10(v))
rounded_up(v, p) = v <= p ? p : v <= 2 * p ? 2 * p : v <= 2.5 * p ? 2.5 * p : v <= 5 * p ? 5 * p : 10 * p
step_for(v, n) = v > 0 ? rounded_up(v / n, power_of_ten(v / n)) : 1

# Where the next entry of a key begins, in pixels, after one with this text whose mark stands at x.
after_key(x, text) = x + 16 + strlen(text) * char_text + 36

# Dates along an axis of time from t0 to t1 (seconds), at most `room` of them: date_step says how far apart, weeks where
# it is above 0, else months. date_tic is the i-th date, from 0; date_word what it is called.
week_seconds = 604800.0
month_seconds = 2629800.0
month_number(t) = 12 * tm_year(t) + tm_mon(t)
month_begin(m) = strptime("%Y-%m-%d", sprintf("%d-%02d-01", m / 12, m % 12 + 1))
months_apart(months, room) = months <= room ? 1 : months <= 2 * room ? 2 : months <= 3 * room ? 3 : \
    months <= 6 * room ? 6 : 12 * ceil(months / 12.0 / room)
date_step(t0, t1, room) = (t1 - t0) / week_seconds <= 2 * room ? larger(1, ceil((t1 - t0) / week_seconds / room)) : \
    -months_apart((t1 - t0) / month_seconds, room)
first_month(t, step) = step * ceil(1.0 * (month_number(t) + (tm_mday(t) > 1)) / step)
date_tic(i, t0, step) = step > 0 ? t0 + i * step * week_seconds : month_begin(int(first_month(t0, -step) - i * step))
date_word(t, step) = step > 0 ? sprintf("%d %s", tm_mday(t), strftime("%b", t)) : \
    step > -12 ? strftime("%b", t) : strftime("%Y", t)

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
