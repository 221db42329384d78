# A picture for gnuplot 5.4 or newer. To draw it: gnuplot FILE
# Parameters and data first; then the style and the template weeks.gp, which say what may be set.

picture = "svg"
picture_name = "ylva\055id\055o\055ness\055squat\055weeks\056svg"
unit = "kg"
heading = "Ylva \140id\140 O\047Ness\072 squat\054 volume and intensity by week"
sentence = "A usual week has 1420\302\240kg\054 17\302\240\045 of it by chain and band\073 no trend in 6 weeks\056 Intensity\072 61 to 76\302\240\045 of 1RM\056"

$WEEKS << END_OF_WEEKS
2026-01-05 1040 1264 0.5 0.607692308
2026-01-12 1160 1384 0.557692308 0.665384615
2026-01-19 1280 1504 0.615384615 0.723076923
2026-01-26 1080 1304 0.519230769 0.626923077
2026-02-02 1200 1456 0.576923077 0.7
2026-02-09 1320 1576 0.634615385 0.757692308
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

# A lift's volume and intensity, week by week, over a year or many.
#
#   gnuplot weeks.gp                                     a picture of made-up data, to look at the style
#   gnuplot -e "picture='svg'" plots/weeks.gp
#
# Data, loads in the unit of the picture, NaN where there is none, at least one row:
#   $WEEKS  one row per week from the first to the last, weeks without training too (volume 0) but for those of a
#           break of more than a year: Monday (YYYY-MM-DD), volume by the straight weight, volume by the mean load,
#           intensity by the straight weight and by the mean load (fractions of 1RM)
# If set, trend_first and trend_last are the volume by the mean load that a fitted line has in the first and in the last
# week.

if (!exists("$WEEKS")) {
    heading = "Squat, a year of training"
    sentence = "Volume rises by 2 % in four weeks; intensity holds."
    trend_first = 5600
    trend_last = 7100
    set print $WEEKS
    do for [i = 0:51] {
        trained = i % 17 != 11 && i % 17 != 12
        straight = trained * (4800 + 25 * i + 900 * sin(i * 2.1))
        share = trained ? 0.64 + 0.05 * (i % 3) : NaN
        monday = strptime("%Y-%m-%d", "2025-01-06") + i * 604800
        print strftime("%Y-%m-%d", monday).sprintf(" %g %g %g %g", straight, straight * 1.16, share, share * 1.12)
    }
    set print
}
set loadpath "." "plots"
if (!exists("style_is_set")) { load "style.gp" }
if (!exists("picture_name")) { picture_name = "weeks.".ending }
has_trend = exists("trend_first") && exists("trend_last") && |$WEEKS| > 1

# The ranges. A picture of a few weeks is as wide as one of ten, so that a bar stays a bar.
day = 86400.0
week = 7 * day
week_count = |$WEEKS|
monday(s) = strptime("%Y-%m-%d", s)
begin = monday(word($WEEKS[1], 1))
end = monday(word($WEEKS[week_count], 1)) + week
spare = larger(0, 10 * week - (end - begin)) / 2
from = begin - spare - 0.3 * week
to = end + spare + 0.3 * week
low = 1e300; high = -1e300; most = has_trend ? larger(trend_first, trend_last) : 0
seen(v) = v == v ? (low = v < low ? v : low, high = v > high ? v : high) : 0
seen_volume(v) = v > most ? (most = v) : 0
do for [i = 1:week_count] {
    do for [k = 2:3] { dummy = seen_volume(real(word($WEEKS[i], k))) }
    do for [k = 4:5] { dummy = seen(100 * real(word($WEEKS[i], k))) }
}
# A long break has no rows: it is shaded, and no line crosses it.
row_monday(i) = monday(word($WEEKS[i], 1))
follows_break(i) = i > 1 && row_monday(i) - row_monday(i - 1) > 1.5 * week
set print $LINES
do for [i = 1:week_count] {
    if (follows_break(i)) { print word($WEEKS[i], 1)." NaN NaN NaN NaN" }
    print $WEEKS[i]
}
set print
shade_breaks = "do for [i = 2:week_count] { if (follows_break(i)) { set object 1000 + i rectangle ".\
    "from first row_monday(i - 1) + week, graph 0 to first row_monday(i), graph 1 behind ".\
    "fillcolor rgb quiet fillstyle transparent pattern hatching noborder } }"
has_intensity = low <= high
most = most > 0 ? most : 1

eval terminal_for(width, height)
set output picture_name
set multiplot
left = 112
panel_width = width - left - 25.0
pixels_a_week = panel_width * week / (to - from)
half_bar = week * (pixels_a_week > 6 ? 0.42 : 0.5)
mark = point_scale * (pixels_a_week > 30 ? 1.4 : pixels_a_week > 11 ? 0.9 : 0.5)
is_dense = pixels_a_week < 4 # lines would run into each other: marks only
set lmargin at screen from_left(left)
set rmargin at screen from_right(25)
set xrange [from:to]
unset xtics

# The key of the volume, under the sentence.
key_y = head + 6 + size_text / 2
x = 28
set object 1 rectangle center screen from_left(x), from_top(key_y) size screen from_left(18), from_bottom(18) \
    fillcolor rgb sand fillstyle solid noborder
set label 1 "straight weight" at screen from_left(x + 17), from_top(key_y)
x = after_key(x, "straight weight")
set object 2 rectangle center screen from_left(x), from_top(key_y) size screen from_left(18), from_bottom(18) \
    fillcolor rgb blue fillstyle solid noborder
set label 2 "chain and band" at screen from_left(x + 17), from_top(key_y)
x = after_key(x, "chain and band")
set object 3 rectangle center screen from_left(x), from_top(key_y) size screen from_left(18), from_bottom(18) \
    fillcolor rgb quiet fillstyle transparent pattern hatching noborder
set label 3 "no training" at screen from_left(x + 17), from_top(key_y)
x = after_key(x, "no training")
if (has_trend) {
    if (x + 34 + 5 * char_text > width - 6) { x = 28; key_y = key_y + line_text; head = head + line_text }
    set arrow 4 from screen from_left(x - 8), from_top(key_y) to screen from_left(x + 26), from_top(key_y) \
        nohead linewidth 2.5 linecolor rgb ink dashtype (12, 8)
    set label 4 "trend" at screen from_left(x + 34), from_top(key_y)
}

# Dates under the lower panel: weeks where a few are shown, else months, else years; the year where it begins.
axis_height = 2 * line_text + 8
across(t) = from_left(left + panel_width * (t - from) / (to - from))
room = floor(panel_width / (6.5 * char_text))
weeks_apart = ceil((to - from) / week / room)
dates_room = floor(panel_width / (4.5 * char_text))
by_weeks = weeks_apart <= 2
first_date = by_weeks ? 0 : month_number(begin) + (tm_mday(begin) > 1)
last_date = by_weeks ? week_count - 1 : month_number(end - 1)
dates_apart = by_weeks ? weeks_apart : months_apart((to - from) / month_seconds, dates_room)
first_date = by_weeks ? 0 : dates_apart * ceil(1.0 * first_date / dates_apart)
year = 0
tag = 100
do for [i = first_date:last_date:dates_apart] {
    date = by_weeks ? begin + i * week : month_begin(i)
    place = across(by_weeks ? date + week / 2 : date)
    line = by_weeks ? sprintf("%d %s", tm_mday(date), strftime("%b", date)) : \
        dates_apart < 12 ? strftime("%b", date) : strftime("%Y", date)
    set label tag line at screen place, screen from_bottom(axis_height - line_text / 2 - 8) center
    set arrow tag from screen place, screen from_bottom(axis_height) to screen place, \
        screen from_bottom(axis_height - 7) nohead \
        linewidth 1.5 linecolor rgb ink
    if (tm_year(date) != year && dates_apart < 12) {
        line = strftime("%Y", date)
        tag = tag + 1
        set label tag line at screen place, screen from_bottom(axis_height - 1.5 * line_text - 8) center
    }
    tag = tag + 1
    year = tm_year(date)
}

# Volume. A week without training is shaded over all panels.
panel_top = head + 36 + line_text + 10
intensity_height = has_intensity ? 0.38 * (height - panel_top - axis_height) : 0
between = has_intensity ? 52 : 0
set tmargin at screen from_top(panel_top)
set bmargin at screen from_bottom(axis_height + intensity_height + between)
set yrange [0 : most * 1.08]
set ytics step_for(most, has_intensity ? 4 : 8)
set label 5 "volume, ".unit at screen from_left(10), from_top(panel_top - size_text / 2 - 11)
middle(s) = monday(s) + week / 2
known(s, v) = v == v ? middle(s) : NaN
untrained(s, v) = v == 0 ? middle(s) : NaN
if (has_trend) {
    set arrow 6 from first begin + week / 2, first trend_first to first end - week / 2, first trend_last \
        nohead front linewidth 6 linecolor rgb "white"
    set arrow 7 from first begin + week / 2, first trend_first to first end - week / 2, first trend_last \
        nohead front linewidth 3 linecolor rgb ink dashtype (12, 8)
}
eval shade_breaks
plot $WEEKS using (untrained(strcol(1), $2)):(0):(monday(strcol(1))):(monday(strcol(1)) + week):(0):(most * 1.08) \
         with boxxyerror fillcolor rgb quiet fillstyle transparent pattern hatching noborder title "no training", \
     $WEEKS using (middle(strcol(1))):(0):(middle(strcol(1)) - half_bar):(middle(strcol(1)) + half_bar):(0):2 \
         with boxxyerror fillcolor rgb sand fillstyle solid noborder title "volume by straight weight", \
     $WEEKS using (known(strcol(1), $3)):(0):(middle(strcol(1)) - half_bar):(middle(strcol(1)) + half_bar):2:3 \
         with boxxyerror fillcolor rgb blue fillstyle solid noborder title "volume by chain and band"

# Intensity.
unset label
unset arrow
unset object
if (has_intensity) {
    low = 5 * floor(low / 5 - 0.3)
    high = 5 * ceil(high / 5 + 0.3)
    set tmargin at screen from_bottom(axis_height + intensity_height)
    set bmargin at screen from_bottom(axis_height)
    set yrange [low:high]
    set ytics step_for(high - low, 3)
    key_y = height - axis_height - intensity_height - size_text / 2 - 12
    set label 1 "intensity, % of 1RM" at screen from_left(10), from_top(key_y)
    x = 10 + 20 * char_text + 30
    set arrow 2 from screen from_left(x - 8), from_top(key_y) to screen from_left(x + 36), from_top(key_y) \
        nohead linewidth 2.5 linecolor rgb orange dashtype (8, 5)
    set label 2 "straight weight" at screen from_left(x + 44), from_top(key_y)
    x = after_key(x + 28, "straight weight")
    set arrow 3 from screen from_left(x - 8), from_top(key_y) to screen from_left(x + 36), from_top(key_y) \
        nohead linewidth 3 linecolor rgb blue
    set label 3 "" at screen from_left(x + 14), from_top(key_y) \
        point pointtype 7 pointsize 1.2 * point_scale linecolor rgb blue
    set label 4 "mean load" at screen from_left(x + 44), from_top(key_y)
    eval shade_breaks
    plot $WEEKS using (untrained(strcol(1), $2)):(low):(monday(strcol(1))):(monday(strcol(1)) + week):(low):(high) \
             with boxxyerror fillcolor rgb quiet fillstyle transparent pattern hatching noborder title "no training", \
         $LINES using (middle(strcol(1))):(is_dense ? NaN : 100 * $4) with lines linewidth 2.5 \
             linecolor rgb orange dashtype (8, 5) title "intensity of straight weight", \
         $WEEKS using (middle(strcol(1))):(100 * $4) with points pointtype 5 pointsize mark * 0.7 \
             linecolor rgb orange title "intensity of straight weight", \
         $LINES using (middle(strcol(1))):(is_dense ? NaN : 100 * $5) with lines linewidth 3 linecolor rgb blue \
             title "intensity of mean load", \
         $WEEKS using (middle(strcol(1))):(100 * $5) with points pointtype 7 pointsize mark linecolor rgb blue \
             title "intensity of mean load"
}

unset multiplot
set output
