# A picture for gnuplot 5.4 or newer. To draw it: gnuplot FILE
# Parameters and data first; then the style and the template year.gp, which say what may be set.

picture = "svg"
picture_name = "ylva\055id\055o\055ness\055year\056svg"
unit = "kg"
heading = "Ylva \140id\140 O\047Ness\072 the year\054 wave by wave"
sentence = "squat\054 speed\072 too early to tell\054 2\302\240waves\054 newest \053\062\056\065\302\240kg at the bottom\054 \053\065\056\062\302\240kg at the top\056"
width = 720
height = 322

$STRIPS << END_OF_STRIPS
"squat\054 speed"
END_OF_STRIPS
$WEEKS << END_OF_WEEKS
1 2026-01-05 65 65 93 1 0
1 2026-01-12 72.5 72.5 100.5 1 0
1 2026-01-19 80 80 108 1 0
1 2026-01-26 67.5 67.5 95.5 2 0
1 2026-02-02 75 75 107 2 0
1 2026-02-09 82.5 82.5 114.5 2 0
END_OF_WEEKS
$GAPS << END_OF_GAPS
END_OF_GAPS
$CHANGES << END_OF_CHANGES
1 2026-02-02 "\342\206\222 2 x 8 kg chain\057side"
END_OF_CHANGES
$TESTS << END_OF_TESTS
END_OF_TESTS

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

# One lifter's year on one sheet: a strip for each lift and focus, its waves from bottom to top load, where the set-up
# changed, where the 1RM was tested, light weeks and weeks without that lift.
#
#   gnuplot year.gp                                      a picture of made-up data, to look at the style
#   gnuplot -e "picture='svg'" plots/year.gp
#
# Data, loads in the unit of the picture, NaN where there is none; strips count from 1 at the top:
#   $STRIPS  one row per strip: name
#   $WEEKS   one row per trained week, at least one: strip, Monday (YYYY-MM-DD), straight, bottom, top load, wave (0: in
#            none), 1 if light
#   $GAPS    one row per span without that lift: strip, first and last Monday
#   $CHANGES one row per change of set-up: strip, Monday, what changed ("2 chains → 3")
#   $TESTS   one row per test of the 1RM: strip, day, what it was ("112 kg")
# `height` wants 132 pixels for each strip and 190 more.

if (!exists("$STRIPS")) {
    heading = "A year of Oda Brandvik"
    sentence = "Squat, speed rises by 2.4 kg a wave since February; bench press, speed is level."
    height = 454
    set print $STRIPS
    print "\"squat, speed\""
    print "\"bench press, speed\""
    set print $WEEKS
    do for [i = 0:43] {
        if (i % 11 != 10) {
            date = strftime("%Y-%m-%d", strptime("%Y-%m-%d", "2026-01-05") + 604800.0 * i)
            load = 60 + 1.4 * (i / 4) + 5 * (i % 4)
            print sprintf("1 %s %g %g %g %d %d", date, load, load + 2, load + 16 + (i > 20 ? 6 : 0), i / 4 + 1, i % 4 == 3)
            load = 40 + 3 * (i % 4)
            print sprintf("2 %s %g %g %g %d 0", date, load, load + 1, load + 10, i / 4 + 1)
        }
    }
    set print $GAPS
    print "1 2026-03-16 2026-03-16"
    print "2 2026-03-16 2026-03-16"
    set print $CHANGES
    print "1 2026-06-01 \"2 chains → 3\""
    set print $TESTS
    print "1 2026-08-15 \"112 kg\""
    set print
}
set loadpath "." "plots"
if (!exists("style_is_set")) { load "style.gp" }
if (!exists("picture_name")) { picture_name = "year.".ending }

day_of(s) = strptime("%Y-%m-%d", s)
strip_count = |$STRIPS|
array name_of[strip_count]
array low_of[strip_count]
array high_of[strip_count]
row = 0
stats $STRIPS using (row = row + 1, name_of[row] = strcol(1), 0) nooutput
do for [s = 1:strip_count] { low_of[s] = 1e300; high_of[s] = -1e300 }
first_day = 1e300; last_day = -1e300
seen(s, v) = v == v ? (low_of[s] = smaller(low_of[s], v), high_of[s] = larger(high_of[s], v)) : 0
do for [i = 1:|$WEEKS|] {
    t = day_of(word($WEEKS[i], 2))
    first_day = smaller(first_day, t)
    last_day = larger(last_day, t)
    do for [k = 3:5] { dummy = seen(int(word($WEEKS[i], 1)), real(word($WEEKS[i], k))) }
}
do for [s = 1:strip_count] {
    if (low_of[s] > high_of[s]) { low_of[s] = 0; high_of[s] = 1 }
    if (high_of[s] - low_of[s] < 1) { high_of[s] = low_of[s] + 1 }
}

# A strip is one unit high: its name and the words of changes stand in the upper part, the loads in the lower.
left = 74
axis_height = line_text + 26
key_y = head + 6 + size_text / 2
has_lines = (exists("$CHANGES") && |$CHANGES| > 0) || (exists("$TESTS") && |$TESTS| > 0)
panel_top = key_y + size_text / 2 + 10 + (has_lines ? line_text : 0)
panel_width = width - left - 16.0
strip_height = (height - panel_top - axis_height) / (1.0 * strip_count)
words_part = smaller(0.55, 2 * line_text / strip_height)
place(s, v) = strip_count - s + 0.07 + (0.93 - words_part - 0.07) * (v - low_of[s]) / (high_of[s] - low_of[s])
top_of(s) = strip_count - s + 1
week = week_seconds
tenths(v) = sprintf("%g", int(10 * v + 0.5) / 10.0)
from_time = first_day - 0.7 * week
to_time = last_day + 1.7 * week
pixels_a_week = panel_width * week / (to_time - from_time)

eval terminal_for(width, height)
set output picture_name
set lmargin at screen from_left(left)
set rmargin at screen from_right(16)
set tmargin at screen from_top(panel_top)
set bmargin at screen from_bottom(axis_height)
set xrange [from_time:to_time]
set yrange [0:strip_count]
unset ytics
unset grid
set border 0

# The key.
x = 30
set label 1 "" at screen from_left(x), from_top(key_y) point pointtype 9 pointsize 1.5 * point_scale linecolor rgb blue
set label 2 "top" at screen from_left(x + 14), from_top(key_y)
x = after_key(x, "top") - 12
set label 3 "" at screen from_left(x), from_top(key_y) point pointtype 11 pointsize 1.5 * point_scale linecolor rgb ink
set label 4 "bottom" at screen from_left(x + 14), from_top(key_y)
x = after_key(x, "bottom") - 12
set arrow 1 from screen from_left(x - 10), from_top(key_y) to screen from_left(x + 16), from_top(key_y) \
    nohead linewidth 3 linecolor rgb orange
set label 5 "straight" at screen from_left(x + 24), from_top(key_y)
x = after_key(x + 10, "straight") - 8
set object 1 rectangle center screen from_left(x), from_top(key_y) size screen from_left(14), from_bottom(22) \
    fillcolor rgb pale fillstyle solid border linecolor rgb quiet
line = "light, or not trained"
set label 6 line at screen from_left(x + 16), from_top(key_y)
if (has_lines) {
    x = 30
    key_y = key_y + line_text
    set arrow 7 from screen from_left(x), from_top(key_y - 11) to screen from_left(x), from_top(key_y + 11) nohead \
        linewidth 2.5 dashtype (5, 4) linecolor rgb ink
    set label 7 "set-up changes" at screen from_left(x + 14), from_top(key_y)
    x = after_key(x, "set-up changes") - 12
    set arrow 8 from screen from_left(x), from_top(key_y - 11) to screen from_left(x), from_top(key_y + 11) nohead \
        linewidth 2.5 linecolor rgb green
    set label 8 "1RM tested" at screen from_left(x + 14), from_top(key_y)
}

# Strips: a line beneath each, its name, the least and the greatest load at its left.
do for [s = 1:strip_count] {
    tag = 100 + 4 * s
    set arrow tag from graph 0, first strip_count - s to graph 1, first strip_count - s nohead linewidth 1.5 \
        linecolor rgb quiet
    set label tag shortened_name(name_of[s], int(panel_width / char_text)) at graph 0, first top_of(s) - \
        0.5 * line_text / strip_height left offset 0, 0 font bold_font_of(size_text)
    tag = tag + 1
    set label tag tenths(high_of[s]) at graph 0, first place(s, high_of[s]) right offset -0.6, 0 textcolor rgb ink
    tag = tag + 1
    set label tag tenths(low_of[s]) at graph 0, first place(s, low_of[s]) right offset -0.6, 0 textcolor rgb ink
}
set label 9 unit at screen from_left(20), from_bottom(line_text / 2 + 12) textcolor rgb ink

# What was not trained, and light weeks.
if (exists("$GAPS") && |$GAPS| > 0) {
    do for [i = 1:|$GAPS|] {
        s = int(word($GAPS[i], 1))
        set object 10 + i rectangle from day_of(word($GAPS[i], 2)) - 0.5 * week, strip_count - s + 0.02 to \
            day_of(word($GAPS[i], 3)) + 0.5 * week, top_of(s) - words_part behind fillcolor rgb pale fillstyle solid \
            border linecolor rgb faint
    }
}

# Changes of the set-up and tests, with their words where there is room before the next of the strip.
change_count = 0
if (exists("$CHANGES")) { change_count = |$CHANGES| }
test_count = 0
if (exists("$TESTS")) { test_count = |$TESTS| }
array change_of[larger(1, change_count)]
array test_of[larger(1, test_count)]
row = 0
if (change_count) { stats $CHANGES using (row = row + 1, change_of[row] = strcol(3), 0) nooutput }
row = 0
if (test_count) { stats $TESTS using (row = row + 1, test_of[row] = strcol(3), 0) nooutput }
word_y(s) = top_of(s) - 1.5 * line_text / strip_height
array room_from[strip_count]
do for [s = 1:strip_count] { room_from[s] = 0 }
tag = 3000
screen_x(t) = left + panel_width * (t - from_time) / (to_time - from_time)
if (change_count) {
    do for [i = 1:change_count] {
        s = int(word($CHANGES[i], 1))
        t = day_of(word($CHANGES[i], 2)) - 0.5 * week
        line = change_of[i]
        x = screen_x(t)
        taken = strlen(line) * char_label
        x = smaller(x, width - 14 - taken)
        set arrow tag from first t, first strip_count - s + 0.02 to first t, first top_of(s) - words_part + 0.02 nohead \
            linewidth 2.5 dashtype (5, 4) linecolor rgb ink
        if (x > room_from[s]) {
            set label tag line at screen from_left(x), first word_y(s) left
            room_from[s] = x + taken + char_text
        }
        tag = tag + 1
    }
}
# Of tests the newest says most: where there is no room for all, older ones go without words.
array room_to[strip_count]
do for [s = 1:strip_count] { room_to[s] = width }
if (test_count) {
    do for [back = 1:test_count] {
        i = test_count + 1 - back
        s = int(word($TESTS[i], 1))
        t = day_of(word($TESTS[i], 2))
        line = "test ".test_of[i]
        x = screen_x(t)
        taken = strlen(line) * char_label
        start = smaller(x, width - 14 - taken)
        set arrow tag from first t, first strip_count - s + 0.02 to first t, first top_of(s) - words_part + 0.02 nohead \
            linewidth 2.5 linecolor rgb green
        if (start > room_from[s] && start + taken < room_to[s]) {
            set label tag line at screen from_left(start), first word_y(s) left textcolor rgb green
            room_to[s] = start - char_text
        }
        tag = tag + 1
    }
}

set border 1
set xtics ()
step = date_step(first_day, last_day, int(panel_width / (6.5 * char_text)))
do for [i = 0:60] {
    t = date_tic(i, first_day, step)
    if (t >= from_time && t <= to_time) { set xtics add (date_word(t, step) t) }
}
mark = point_scale * (pixels_a_week < 8 ? 0.45 : pixels_a_week < 14 ? 0.7 : 1.1)
strip_of(s) = int(s)
bar = 0.28 * week
plot $WEEKS using (int($7) == 1 ? day_of(strcol(2)) : NaN):(strip_count - $1 + (1 - words_part) / 2): \
         (0.5 * week):((1 - words_part) / 2 - 0.01) with boxxyerror fillcolor rgb pale fillstyle solid noborder \
         title "light week", \
     $WEEKS using (day_of(strcol(2))):(place(strip_of($1), $4)):(day_of(strcol(2)) - bar):(day_of(strcol(2)) + bar): \
         (place(strip_of($1), $4)):(place(strip_of($1), $5)) with boxxyerror fillcolor rgb sky fillstyle solid noborder \
         title "from bottom to top", \
     $WEEKS using (day_of(strcol(2))):(place(strip_of($1), $3)):(day_of(strcol(2)) - 0.45 * week): \
         (day_of(strcol(2)) + 0.45 * week) with xerrorbars pointtype 0 linewidth 2.5 linecolor rgb orange title "straight weight", \
     $WEEKS using (day_of(strcol(2))):(abs($5 - $4) > 1e-6 ? place(strip_of($1), $5) : NaN) with points pointtype 9 \
         pointsize mark linecolor rgb blue title "top", \
     $WEEKS using (day_of(strcol(2))):(abs($5 - $4) > 1e-6 ? place(strip_of($1), $4) : NaN) with points pointtype 11 \
         pointsize mark linecolor rgb ink title "bottom"
set output
