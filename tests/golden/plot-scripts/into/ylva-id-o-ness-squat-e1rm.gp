# A picture for gnuplot 5.4 or newer. To draw it: gnuplot FILE
# Parameters and data first; then the style and the template e1rm.gp, which say what may be set.

picture = "svg"
picture_name = "ylva\055id\055o\055ness\055squat\055e1rm\056svg"
unit = "kg"
heading = "Ylva \140id\140 O\047Ness\072 squat\054 estimated and tested 1RM"
sentence = "Tested 130\056\060 kg on 2025\055\061\062\055\062\060\056"

$DAYS << END_OF_DAYS
2026-01-05 NaN 69.3333333 99.2
2026-01-12 NaN 77.3333333 107.2
2026-01-19 NaN 85.3333333 115.2
2026-01-26 NaN 72 101.866667
2026-02-02 NaN 80 114.133333
2026-02-09 NaN 88 122.133333
END_OF_DAYS
$TESTS << END_OF_TESTS
2025-12-20 130
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
sky = colours ? "#8ccbee" : "#bdbdbd"
orange = colours ? "#d55e00" : "#1a1a1a"
sand = colours ? "#eeb98c" : "#b4b4b4"
pale = "#ececec"
green = colours ? "#007a5a" : "#1a1a1a"

# Sizes in pixels: large enough to be read when a picture 900 pixels wide is shown 360 wide on a telephone. `char_...`:
# the width of a character on average, in DejaVu Sans; other sans-serif fonts are narrower.
if (!exists("width")) { width = 900 }
if (!exists("height")) { height = 600 }
size_heading = 29
size_text = 22
char_heading = 17.3
char_text = 11.7
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
heading_room = int((width - 40) / char_heading)
sentence_room = int((width - 40) / char_text)
head = 14
do for [k = 1:line_count(heading, heading_room, 2)] {
    tag = 1000 + k
    line = line_of(heading, heading_room, k, 2)
    set label tag line at screen from_left(20), from_top(head + line_heading / 2) \
        font bold_font_of(size_heading) textcolor rgb ink
    head = head + line_heading
}
do for [k = 1:line_count(sentence, sentence_room, 3)] {
    tag = 1010 + k
    line = line_of(sentence, sentence_room, k, 3)
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

# How strong a lifter was: each day's best estimate of the 1RM, the tested maxes, and the heaviest so far.
#
#   gnuplot e1rm.gp                                      a picture of made-up data, to look at the style
#   gnuplot -e "picture='svg'" plots/e1rm.gp
#
# Data, loads in the unit of the picture, at least one row in $DAYS or $TESTS; a block without rows may be absent:
#   $DAYS     one row per day: day (YYYY-MM-DD), best estimate of that day from straight weight (NaN: none), then that
#             from chain and band, which is an interval: by the load at the bottom and by that at the top (NaN: none)
#   $TESTS    one row per tested 1RM: day, load
#   $RECORDS  one row per record: day, heaviest straight weight lifted from that day on; the last row ends the line

if (!exists("$DAYS") && !exists("$TESTS")) {
    heading = "Squat, estimated and tested 1RM"
    sentence = "The tested 1RM rose from 128 to 136 kg; the estimates follow it."
    set print $DAYS
    do for [i = 0:50] {
        day = strftime("%Y-%m-%d", strptime("%Y-%m-%d", "2025-01-08") + i * 604800)
        best = 121 + 0.22 * i + 4 * sin(i * 2.1)
        if (i % 2) {
            print day.sprintf(" %g NaN NaN", best)
        } else {
            print day.sprintf(" NaN %g %g", best - 14, best + 12)
        }
    }
    set print $TESTS
    print "2025-01-04 128"
    print "2025-06-14 132.5"
    print "2025-12-06 136"
    set print $RECORDS
    print "2025-01-04 128"
    print "2025-06-14 132.5"
    print "2025-12-06 136"
    print "2025-12-24 136"
    set print
}
set loadpath "." "plots"
if (!exists("style_is_set")) { load "style.gp" }
if (!exists("picture_name")) { picture_name = "e1rm.".ending }
has_days = exists("$DAYS")
has_tests = exists("$TESTS")
has_records = exists("$RECORDS")
if (!has_days) { set print $DAYS; print "1970-01-01 NaN NaN NaN"; set print }
if (!has_tests) { set print $TESTS; print "1970-01-01 NaN"; set print }
if (!has_records) { set print $RECORDS; print "1970-01-01 NaN"; set print }

# The ranges.
low = 1e300; high = -1e300; begin = 1e300; end = -1e300; has_straight = 0; has_interval = 0
seen(v) = v == v ? (low = v < low ? v : low, high = v > high ? v : high) : 0
time_of(s) = strptime("%Y-%m-%d", s)
seen_day(t) = (begin = smaller(begin, t), end = larger(end, t))
do for [i = 1:|$DAYS|] {
    if (has_days) {
        dummy = seen_day(time_of(word($DAYS[i], 1)))
        do for [k = 2:4] { dummy = seen(real(word($DAYS[i], k))) }
        has_straight = has_straight || word($DAYS[i], 2) ne "NaN"
        has_interval = has_interval || word($DAYS[i], 3) ne "NaN"
    }
}
do for [i = 1:|$TESTS|] {
    if (has_tests) {
        dummy = seen_day(time_of(word($TESTS[i], 1)))
        dummy = seen(real(word($TESTS[i], 2)))
    }
}
do for [i = 1:|$RECORDS|] { if (has_records) { dummy = seen(real(word($RECORDS[i], 2))) } }
span = larger(high - low, 0.05 * high + 1)
from = begin - larger(0.02 * (end - begin), week_seconds)
to = end + larger(0.02 * (end - begin), week_seconds)

left = 90
panel_width = width - left - 25.0
pixels_a_day = panel_width * 86400 / (to - from)
mark = point_scale * (pixels_a_day * 3.5 > 12 ? 1.2 : pixels_a_day * 3.5 > 5 ? 0.9 : 0.5)

eval terminal_for(width, height)
set output picture_name
set lmargin at screen from_left(left)
set rmargin at screen from_right(25)
set xrange [from:to]
set yrange [low - 0.08 * span : high + 0.14 * span]
set ytics step_for(span * 1.2, 5)

# The key, in as many rows as it needs, of what there is.
key_y = head + 6 + size_text / 2
x = 30
breaks(t) = x + 20 + strlen(t) * char_text > width - 10
if (has_tests) {
    set label 1 "" at screen from_left(x), from_top(key_y) point pointtype 13 pointsize 2.2 * point_scale \
        linecolor rgb orange
    set label 2 "tested" at screen from_left(x + 18), from_top(key_y)
    x = after_key(x, "tested")
}
if (has_records) {
    set arrow 3 from screen from_left(x - 10), from_top(key_y) to screen from_left(x + 24), from_top(key_y) nohead \
        linewidth 2.5 linecolor rgb ink
    set label 3 "heaviest so far" at screen from_left(x + 32), from_top(key_y)
    x = after_key(x + 18, "heaviest so far")
}
if (has_straight) {
    line = "estimate, straight weight"
    if (breaks(line)) { x = 30; key_y = key_y + line_text }
    set label 5 "" at screen from_left(x), from_top(key_y) point pointtype 7 pointsize 1.2 * point_scale \
        linecolor rgb blue
    set label 6 line at screen from_left(x + 16), from_top(key_y)
    x = after_key(x, line)
}
if (has_interval) {
    line = "with chain and band: bottom to top"
    if (breaks(line)) { x = 30; key_y = key_y + line_text }
    set object 7 rectangle center screen from_left(x), from_top(key_y) size screen from_left(9), from_bottom(22) \
        fillcolor rgb sky fillstyle solid noborder
    set label 7 line at screen from_left(x + 16), from_top(key_y)
}
panel_top = key_y + size_text / 2 + line_text + 18
set tmargin at screen from_top(panel_top)
axis_height = 2 * line_text + 10
set bmargin at screen from_bottom(axis_height)
set label 8 "1RM, ".unit at screen from_left(10), from_top(panel_top - size_text / 2 - 11)

# Dates; the year where it begins.
unset xtics
set xtics out scale 0.6 nomirror ()
step = date_step(from, to, floor(panel_width / (6.5 * char_text)))
year = 0; i = 0
while (date_tic(i, begin, step) <= to) {
    date = date_tic(i, begin, step)
    place = date
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

# Loads of the tests, above their marks where there is room for each.
tests_shown = has_tests && |$TESTS| * 6 * char_text < panel_width
do for [i = 1:|$TESTS|] {
    if (tests_shown) {
        tag = 100 + i
        line = sprintf("%g", real(word($TESTS[i], 2)))
        set label tag line at first time_of(word($TESTS[i], 1)), first real(word($TESTS[i], 2)) \
            offset 0, character 1.0 center front
    }
}
half_bar = smaller(0.4 * 86400 * 7, 4.5 * 86400 / pixels_a_day)
plot $DAYS using ($3 == $3 ? time_of(strcol(1)) : NaN):3:(time_of(strcol(1)) - half_bar): \
         (time_of(strcol(1)) + half_bar):3:4 with boxxyerror fillcolor rgb sky fillstyle solid noborder, \
     $RECORDS using (time_of(strcol(1))):2 with steps linewidth 2.5 linecolor rgb ink, \
     $DAYS using (time_of(strcol(1))):2 with points pointtype 7 pointsize mark \
         linecolor rgb blue, \
     $TESTS using (time_of(strcol(1))):2 with points pointtype 13 pointsize 2.2 * point_scale \
         linecolor rgb orange
set output
