# A picture for gnuplot 5.4 or newer. To draw it: gnuplot FILE
# Parameters and data first; then the style and the template waves.gp, which say what may be set.

picture = "svg"
picture_name = "ylva\055id\055o\055ness\055squat\055speed\055waves\056svg"
unit = "kg"
heading = "Ylva \140id\140 O\047Ness\072 squat\054 speed waves"
sentence = "Too early to tell\054 2\302\240waves\072 newest \053\062\056\065\302\240kg at the bottom\054 \053\065\056\062\302\240kg at the top \050as of 9 Feb 2026\051\056"

$WEEKS << END_OF_WEEKS
1 2026-01-05 65 65 79 93 1264 NaN NaN
1 2026-01-12 72.5 72.5 86.5 100.5 1384 NaN NaN
1 2026-01-19 80 80 94 108 1504 NaN NaN
2 2026-01-26 67.5 67.5 81.5 95.5 1304 65 93
2 2026-02-02 75 75 91 107 1456 72.5 100.5
2 2026-02-09 82.5 82.5 98.5 114.5 1576 80 108
END_OF_WEEKS
$WAVES << END_OF_WAVES
1 "wave 1" "1" ""
2 "wave 2" "2" "top \053\065\056\062"
END_OF_WAVES
$CHANGES << END_OF_CHANGES
5 "\342\206\222 2 x 8 kg chain\057side"
END_OF_CHANGES

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

# Waves of one lift side by side: the load from bottom to top, week by week, and the volume beneath.
#
#   gnuplot waves.gp                                     a picture of made-up data, to look at the style
#   gnuplot -e "picture='svg'" plots/waves.gp
#
# Data, loads in the unit of the picture, NaN where there is none, at least one row:
#   $WEEKS  one row per week, waves in order: wave (1, 2, 3 ... as drawn), Monday (YYYY-MM-DD), straight, bottom, mean,
#           top load, volume at the mean load, bottom and top of the same week of the wave before
#   $WAVES  one row per wave, in the same order: wave, label ("wave 3"), short label ("3"), remark ("" or "top +2.5")
#   $CHANGES  one row per change of set-up: the row of its week in $WEEKS (from 1), what changed ("2 → 3 chains/side");
#           may be absent or empty

if (!exists("$WEEKS")) {
    heading = "Squat, speed waves"
    sentence = "Each wave is heavier than the last at the top; at the bottom only the third is."
    set print $WEEKS
    print "1 2026-01-05 65 65 72 80 1728 NaN NaN"
    print "1 2026-01-12 71.5 71.5 78.5 86.5 1884 NaN NaN"
    print "1 2026-01-19 78 78 85 93 2040 NaN NaN"
    print "2 2026-01-26 65 65 74 84 1776 65 80"
    print "2 2026-02-02 71.5 71.5 80.5 90.5 1932 71.5 86.5"
    print "2 2026-02-09 78 78 87 97 2088 78 93"
    print "3 2026-02-16 67.5 67.5 76.5 86.5 1836 65 84"
    print "3 2026-02-23 74 74 83 93 1992 71.5 90.5"
    print "3 2026-03-02 80 80 89 99 2136 78 97"
    set print $WAVES
    print "1 \"wave 1\" \"1\" \"\""
    print "2 \"wave 2\" \"2\" \"top +4.0\""
    print "3 \"wave 3\" \"3\" \"top +2.2\""
    set print $CHANGES
    print "4 \"2 → 3 chains/side\""
    set print
}
set loadpath "." "plots"
if (!exists("style_is_set")) { load "style.gp" }
if (!exists("picture_name")) { picture_name = "waves.".ending }

# Where a week stands: one place per week, and one left free between waves.
week_count = |$WEEKS|
wave_count = |$WAVES|
wave_of(i) = int(word($WEEKS[i], 1))
place(row, wave) = row + 1 + (wave - 1) * 1.0
places = place(week_count - 1, wave_count) + 1
array first[wave_count]
array last[wave_count]
do for [i = week_count:1:-1] { first[wave_of(i)] = place(i - 1, wave_of(i)) }
do for [i = 1:week_count] { last[wave_of(i)] = place(i - 1, wave_of(i)) }

# The range of loads and of volume.
low = 1e300; high = -1e300; most_volume = 0
seen(v) = v == v ? (low = v < low ? v : low, high = v > high ? v : high) : 0
seen_volume(v) = v > most_volume ? (most_volume = v) : 0
do for [i = 1:week_count] {
    do for [k = 3:6] { dummy = seen(real(word($WEEKS[i], k))) }
    do for [k = 8:9] { dummy = seen(real(word($WEEKS[i], k))) }
    dummy = seen_volume(real(word($WEEKS[i], 7)))
}
if (low > high) { low = 0; high = 1 }
span = high - low > 0.08 * high ? high - low : 0.08 * high + 1
middle = (low + high) / 2.0
low = middle - span / 2
high = middle + span / 2

# Without chain and band bottom, mean and top are the straight weight: one mark says it all.
is_straight = 1
do for [i = 1:week_count] {
    is_straight = is_straight && abs(real(word($WEEKS[i], 6)) - real(word($WEEKS[i], 3))) < 1e-6 && \
        abs(real(word($WEEKS[i], 4)) - real(word($WEEKS[i], 3))) < 1e-6
}

# What changed in the set-up, and the place before its week.
change_count = 0
if (exists("$CHANGES")) { change_count = |$CHANGES| }
array change_of[larger(1, change_count)]
array changed_at[larger(1, change_count)]
row = 0
if (change_count) {
    stats $CHANGES using (row = row + 1, changed_at[row] = place(int($1) - 1, wave_of(int($1))) - 0.5, \
        change_of[row] = strcol(2), 0) nooutput
}

# What there is room for.
left = 112
panel_width = width - left - 25.0
pixels_a_place = panel_width / places
pixels_a_wave = panel_width / wave_count
is_dense = pixels_a_place < 14
mark = point_scale * (is_dense ? (pixels_a_place < 4 ? 0.25 : pixels_a_place < 8 ? 0.5 : 0.7) : \
    pixels_a_place < 30 ? 1.0 : 1.7)
half_bar = is_dense ? 0.3 : smaller(0.17, 14 / pixels_a_place)
half_dash = smaller(0.4, 34 / pixels_a_place)
to_before = half_bar * 2.1
longest_label = 0; longest_remark = 0; longest_short = 0
array label_of[wave_count]
array short_of[wave_count]
array remark_of[wave_count]
stats $WAVES using (label_of[int($1)] = strcol(2), short_of[int($1)] = strcol(3), remark_of[int($1)] = strcol(4), \
    0) nooutput
do for [w = 1:wave_count] {
    longest_label = larger(longest_label, strlen(label_of[w]))
    longest_short = larger(longest_short, strlen(short_of[w]))
    longest_remark = larger(longest_remark, strlen(remark_of[w]))
}
# From one wave's middle to the next, where they are closest: waves differ in length.
pixels_between = pixels_a_wave
do for [w = 2:wave_count] {
    pixels_between = smaller(pixels_between, pixels_a_place * (first[w] + last[w] - first[w - 1] - last[w - 1]) / 2.0)
}
shows_label = (longest_label + 1) * char_text < pixels_between
shows_remark = longest_remark > 0 && (longest_remark + 1) * char_text < pixels_between
label_every = ceil(((shows_label ? longest_label : longest_short) + 1) * char_text / pixels_between)
wave_head = line_text * (shows_remark ? 2 : 1) + 8

# The words of changes stand over the loads, each where its line is, in at most two rows; where neither has room, the
# line alone says that something changed. Bare numbers of waves are called "wave" at the left, and the unit of the loads
# moves down into the row of changes.
array change_row[larger(1, change_count)]
array change_x[larger(1, change_count)]
array row_taken[2]
row_taken[1] = shows_label ? 0 : 10 + 10 * char_text; row_taken[2] = 0
change_rows = shows_label ? 0 : 1
screen_x(v) = left + panel_width * v / places
do for [i = 1:change_count] {
    taken = strlen(change_of[i]) * char_label
    change_x[i] = larger(10, smaller(screen_x(changed_at[i]) - 4, width - 10 - taken))
    change_row[i] = change_x[i] >= row_taken[1] ? 1 : change_x[i] >= row_taken[2] ? 2 : 0
    if (change_row[i] > 0) {
        row_taken[change_row[i]] = change_x[i] + taken + 1.5 * char_text
        change_rows = larger(change_rows, change_row[i])
    }
}
wave_head = wave_head + change_rows * line_text

# Dates: the first week of each wave, or of every second wave, and so on; between them as many weeks as there is room
# for.
date_width = 7.0 * char_text
weeks_apart = ceil(date_width / pixels_a_place)
waves_apart = ceil(date_width / pixels_a_wave)
week_in_wave(i) = int(place(i - 1, wave_of(i)) - first[wave_of(i)])
room_before_next_wave(i) = last[wave_of(i)] + 2 - place(i - 1, wave_of(i))
dated(i) = week_in_wave(i) == 0 ? (wave_of(i) - 1) % waves_apart == 0 : \
           waves_apart == 1 && week_in_wave(i) % weeks_apart == 0 && room_before_next_wave(i) >= weeks_apart
day_of(i) = strptime("%Y-%m-%d", word($WEEKS[i], 2))
day_label(i) = sprintf("%d %s", tm_mday(day_of(i)), strftime("%b", day_of(i)))

eval terminal_for(width, height)
set output picture_name
set multiplot
set lmargin at screen from_left(left)
set rmargin at screen from_right(25)
set xrange [0:places]

# The key, in as many rows as it needs, under the sentence.
key_y = head + 6 + size_text / 2
x = 30
if (!is_straight) {
    set label 1 "" at screen from_left(x), from_top(key_y) point pointtype 9 pointsize 1.7 * point_scale \
        linecolor rgb blue
    set label 2 "top" at screen from_left(x + 16), from_top(key_y)
    x = after_key(x, "top")
    set label 3 "" at screen from_left(x), from_top(key_y) point pointtype 7 pointsize 1.53 * point_scale \
        linecolor rgb blue
    set label 9 "" at screen from_left(x), from_top(key_y) point pointtype 7 pointsize 0.85 * point_scale \
        linecolor rgb "white"
    set label 4 "mean" at screen from_left(x + 16), from_top(key_y)
    x = after_key(x, "mean")
    set label 5 "" at screen from_left(x), from_top(key_y) point pointtype 11 pointsize 1.7 * point_scale \
        linecolor rgb ink
    set label 6 "bottom" at screen from_left(x + 16), from_top(key_y)
    x = after_key(x, "bottom")
}
set arrow 1 from screen from_left(x - 12), from_top(key_y) to screen from_left(x + 20), from_top(key_y) \
    nohead linewidth 3 linecolor rgb orange
set label 7 "straight weight" at screen from_left(x + 28), from_top(key_y)
x = after_key(x + 12, "straight weight")
shows_before = wave_count > 1 && (is_straight || !is_dense)
if (shows_before) {
    line = "same week, wave before"
    if (x + 16 + strlen(line) * char_text > width - 6) { x = 30; key_y = key_y + line_text; head = head + line_text }
    if (is_straight) {
        set arrow 2 from screen from_left(x - 12), from_top(key_y) to screen from_left(x + 20), from_top(key_y) \
            nohead linewidth 3 linecolor rgb "#b0b0b0"
        x = x + 12
    } else {
        set object 1 rectangle center screen from_left(x), from_top(key_y) size screen from_left(14), \
            from_bottom(22) fillcolor rgb faint fillstyle solid border linecolor rgb quiet
    }
    set label 8 line at screen from_left(x + 16), from_top(key_y)
    x = after_key(x, line)
}
if (change_count) {
    line = "set-up changes"
    if (x + 16 + strlen(line) * char_text > width - 6) { x = 30; key_y = key_y + line_text; head = head + line_text }
    set arrow 12 from screen from_left(x), from_top(key_y - 11) to screen from_left(x), from_top(key_y + 11) nohead \
        linewidth 2.5 dashtype (6, 4) linecolor rgb ink
    set label 12 line at screen from_left(x + 12), from_top(key_y)
}

# Loads.
panel_top = head + 36 + wave_head
volume_height = is_dumb ? 0.2 * height : smaller(100, 0.14 * height)
axis_height = 2 * line_text + 8
panel_bottom = axis_height + volume_height + 46
set tmargin at screen from_top(panel_top)
set bmargin at screen from_bottom(panel_bottom)
set yrange [low - 0.1 * span : high + 0.1 * span]
set ytics step_for(span * 1.2, 5)
unset xtics
label_y = panel_top - change_rows * line_text - line_text / 2 - 4
wave_y = label_y - (shows_remark ? line_text : 0)
set label 10 "load, ".unit at screen from_left(10), from_top(shows_label ? wave_y : panel_top - line_text / 2 - 4) left
if (!shows_label) { set label 13 "wave" at screen from_left(10), from_top(wave_y) left }
set label 11 "volume, ".unit at screen from_left(10), from_bottom(axis_height + volume_height + size_text / 2 + 12) left
centre(wave) = (first[wave] + last[wave]) / 2.0
do for [i = 1:change_count] {
    tag = 500 + i
    set arrow tag from first changed_at[i], graph 0 to first changed_at[i], graph 1 nohead linewidth 2.5 \
        dashtype (6, 4) linecolor rgb ink
    line = change_of[i]
    if (change_row[i] > 0) {
        set label tag line at screen from_left(change_x[i]), \
            from_top(panel_top - line_text / 2 - 4 - (change_row[i] - 1) * line_text)
    }
}
do for [w = 1:wave_count:label_every] {
    tag = 20 + 2 * w
    line = shows_label ? label_of[w] : short_of[w]
    set label tag line at first centre(w), screen from_top(wave_y) center
    tag = tag + 1
    line = remark_of[w]
    if (shows_remark) {
        set label tag line at first centre(w), screen from_top(label_y) center textcolor rgb quiet
    }
}
before(row, wave) = shows_before && !is_dense ? place(row, wave) - to_before : NaN
half_thin = larger(half_dash * 0.7, 3 / pixels_a_place)
beside(row, wave) = place(row, wave) - smaller(0.3, half_thin)
many(v) = is_straight ? NaN : v
half_before = half_bar * 0.7
known(row, wave, v) = v == v ? before(row, wave) : NaN
plot $WEEKS using (many(known($0, $1, $9))):8:(before($0, $1) - half_before):(before($0, $1) + half_before):8:9 \
         with boxxyerror fillcolor rgb faint fillstyle solid border linecolor rgb quiet \
         title "same week, wave before", \
     $WEEKS using ($6 == $6 ? many(place($0, $1)) : NaN):4:(place($0, $1) - half_bar):(place($0, $1) + half_bar):4:6 \
         with boxxyerror fillcolor rgb sky fillstyle solid noborder title "from bottom to top", \
     $WEEKS using (is_straight && $8 == $8 ? beside($0, $1) : NaN):8:(beside($0, $1) - half_thin): \
         (beside($0, $1) + half_thin) with xerrorbars pointtype 0 linewidth (is_dense ? 1.5 : 3) \
         linecolor rgb "#b0b0b0" title "same week, wave before", \
     $WEEKS using (place($0, $1)):3:(place($0, $1) - half_dash):(place($0, $1) + half_dash) \
         with xerrorbars pointtype 0 linewidth (is_dense ? 1.5 : 3) \
         linecolor rgb orange title "straight weight", \
     $WEEKS using (many(place($0, $1))):6 with points pointtype 9 pointsize mark linecolor rgb blue title "top", \
     $WEEKS using (many(place($0, $1))):5 with points pointtype 7 pointsize mark * 0.9 linecolor rgb blue title "mean", \
     $WEEKS using (many(place($0, $1))):5 with points pointtype 7 pointsize mark * 0.5 linecolor rgb "white" \
         title "mean", \
     $WEEKS using (many(place($0, $1))):4 with points pointtype 11 pointsize mark linecolor rgb ink title "bottom"

# Volume.
unset label
unset arrow
unset object
set tmargin at screen from_bottom(axis_height + volume_height)
set bmargin at screen from_bottom(axis_height)
set yrange [0 : most_volume > 0 ? most_volume * 1.1 : 1]
set ytics step_for(most_volume, volume_height > 90 ? 3 : 2)
year = ""
do for [i = 1:week_count] {
    if (dated(i)) {
        set label at first place(i - 1, wave_of(i)), \
            screen from_bottom(axis_height - line_text / 2 - 4) day_label(i) center
        this_year = word($WEEKS[i], 2)[1:4]
        if (this_year ne year) {
            set label at first place(i - 1, wave_of(i)), \
                screen from_bottom(axis_height - 1.5 * line_text - 4) this_year center
        }
        year = this_year
    }
}
set boxwidth 2 * smaller(0.31, 35 / pixels_a_place)
plot $WEEKS using (place($0, $1)):7 with boxes fillcolor rgb quiet title "volume"
unset multiplot
set output
