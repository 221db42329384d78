# A picture for gnuplot 5.4 or newer. To draw it: gnuplot FILE
# Parameters and data first; then the style and the template zones.gp, which say what may be set.

picture = "svg"
picture_name = "ylva\055id\055o\055ness\055squat\055zones\056svg"
unit = "kg"
heading = "Ylva \140id\140 O\047Ness\072 squat\054 reps by intensity"
sentence = "Of 96\302\240reps with a known 1RM\054 50\302\240\045 were below 70\302\240\045 of it\054 50\302\240\045 from 70 to 80\302\240\045\054 0\302\240\045 at 80\302\240\045 and above\056"

$WEEKS << END_OF_WEEKS
2026-01-05 0 16 0 0 0
2026-01-12 0 16 0 0 0
2026-01-19 0 0 16 0 0
2026-01-26 0 16 0 0 0
2026-02-02 0 0 16 0 0
2026-02-09 0 0 16 0 0
END_OF_WEEKS

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
