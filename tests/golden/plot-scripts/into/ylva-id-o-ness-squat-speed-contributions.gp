# A picture for gnuplot 5.4 or newer. To draw it: gnuplot FILE
# Parameters and data first; then the style and the template contributions.gp, which say what may be set.

picture = "svg"
picture_name = "ylva\055id\055o\055ness\055squat\055speed\055contributions\056svg"
unit = "kg"
heading = "Ylva \140id\140 O\047Ness\072 squat\054 speed load by part"
sentence = "Wave 1 to 2\072 straight weight rises from 72\056\065\302\240kg to 75\056\060\302\240kg\073 what chain and band add at the top rises from 28\056\060\302\240kg to 30\056\067\302\240kg\056"

$WAVES << END_OF_WAVES
"wave 1" "1" 2026-01-05 72.5 72.5 100.5
"wave 2" "2" 2026-01-26 75 75 105.666667
END_OF_WAVES

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

# What made the load at the top, wave by wave: straight weight, chain and band that hang at the bottom already, and what
# they add on the way up.
#
#   gnuplot contributions.gp                             a picture of made-up data, to look at the style
#   gnuplot -e "picture='svg'" plots/contributions.gp
#
# Data, loads in the unit of the picture, at least one row:
#   $WAVES  one row per wave, in order: label ("wave 3"), short label ("3"), first day (YYYY-MM-DD); then means over its
#           weeks: straight weight, load at the bottom, load at the top (NaN: unknown)

if (!exists("$WAVES")) {
    heading = "Squat, speed: what the load was made of"
    sentence = "Straight weight rises by 2 kg; chain and band by 7 kg at the top."
    set print $WAVES
    print "\"wave 1\" \"1\" 2026-01-05 71.5 73 86.5"
    print "\"wave 2\" \"2\" 2026-01-26 71.5 73 90.5"
    print "\"wave 3\" \"3\" 2026-02-16 74 76 93"
    print "\"wave 4\" \"4\" 2026-03-09 74 70 95"
    set print
}
set loadpath "." "plots"
if (!exists("style_is_set")) { load "style.gp" }
if (!exists("picture_name")) { picture_name = "contributions.".ending }

wave_count = |$WAVES|
array label_of[wave_count]
array short_of[wave_count]
array day_of[wave_count]
high = 0; longest_label = 1; longest_short = 1; has_relief = 0; row = 0
seen(v) = v == v ? (high = v > high ? v : high) : 0
stats $WAVES using (row = row + 1, label_of[row] = strcol(1), short_of[row] = strcol(2), day_of[row] = strcol(3), \
    seen($4), seen($5), seen($6), has_relief = has_relief || $5 < $4 - 1e-6, 0) nooutput
do for [i = 1:wave_count] {
    longest_label = larger(longest_label, strlen(label_of[i]))
    longest_short = larger(longest_short, strlen(short_of[i]))
}
high = high > 0 ? high : 1

left = 90
panel_width = width - left - 25.0
places = larger(wave_count, 4)
pixels_a_wave = panel_width / places
half_bar = smaller(0.36, 45 / pixels_a_wave)
shows_label = (longest_label + 1) * char_text < pixels_a_wave
shows_load = 6 * char_text < pixels_a_wave
label_every = ceil(((shows_label ? longest_label : longest_short) + 1) * char_text / pixels_a_wave)
dates_every = ceil(9.5 * char_text / pixels_a_wave)

eval terminal_for(width, height)
set output picture_name
set lmargin at screen from_left(left)
set rmargin at screen from_right(25)
begin = (places - wave_count) / 2.0
set xrange [0:places]
set yrange [0:high * (shows_load ? 1.16 : 1.06)]
set ytics step_for(high, 5)

# The key, in as many rows as it needs, from the top of a bar downward.
key_y = head + 6 + size_text / 2
x = 30
array colour_of[3] = [blue, sky, sand]
array part[3] = ["added on the way up", "chain and band at the bottom", "straight weight"]
do for [k = 1:3] {
    if (x + 20 + strlen(part[k]) * char_text > width - 10) { x = 30; key_y = key_y + line_text }
    tag = 10 + k
    set object tag rectangle center screen from_left(x), from_top(key_y) size screen from_left(18), from_bottom(18) \
        fillcolor rgb colour_of[k] fillstyle solid noborder
    if (k == 2) { # hatched, since its grey is near that of the straight weight
        set object 10 rectangle center screen from_left(x), from_top(key_y) size screen from_left(18), \
            from_bottom(18) front fillcolor rgb blue fillstyle transparent pattern hatching noborder
    }
    line = part[k]
    set label tag line at screen from_left(x + 16), from_top(key_y)
    x = after_key(x, part[k])
}
if (has_relief) {
    line = "straight weight that reverse bands hold"
    if (x + 30 + strlen(line) * char_text > width - 10) { x = 30; key_y = key_y + line_text }
    set arrow 14 from screen from_left(x - 10), from_top(key_y) to screen from_left(x + 22), from_top(key_y) nohead \
        linewidth 3 linecolor rgb orange
    set label 14 line at screen from_left(x + 30), from_top(key_y)
}
panel_top = key_y + size_text / 2 + line_text + 18
axis_height = 2 * line_text + 14
set tmargin at screen from_top(panel_top)
set bmargin at screen from_bottom(axis_height)
set label 2 "load, ".unit.", mean of the wave's weeks" at screen from_left(10), from_top(panel_top - size_text / 2 - 11)

unset xtics
place(row) = begin + row + 0.5
spans_years = day_of[1][1:4] ne day_of[wave_count][1:4]
date_label(s) = spans_years ? strftime("%b %Y", strptime("%Y-%m-%d", s)) : \
    sprintf("%d %s", tm_mday(strptime("%Y-%m-%d", s)), strftime("%b", strptime("%Y-%m-%d", s)))
do for [i = 1:wave_count] {
    tag = 100 + 2 * i
    if ((i - 1) % label_every == 0) {
        line = shows_label ? label_of[i] : short_of[i]
        set label tag line at first place(i - 1), screen from_bottom(axis_height - line_text / 2 - 2) center
    }
    tag = tag + 1
    if ((i - 1) % dates_every == 0) {
        line = date_label(day_of[i])
        set label tag line at first place(i - 1), screen from_bottom(axis_height - 1.5 * line_text - 2) center \
            textcolor rgb quiet
    }
}
bottom_or(s, b) = b == b ? b : s
plot $WAVES using (place($0)):(0):(place($0) - half_bar):(place($0) + half_bar):(0):(smaller($4, bottom_or($4, $5))) \
         with boxxyerror fillcolor rgb sand fillstyle solid border linecolor rgb "white" title part[3], \
     $WAVES using ($5 > $4 ? place($0) : NaN):(0):(place($0) - half_bar):(place($0) + half_bar):4:5 \
         with boxxyerror fillcolor rgb sky fillstyle solid border linecolor rgb "white" title part[2], \
     $WAVES using ($5 > $4 ? place($0) : NaN):(0):(place($0) - half_bar):(place($0) + half_bar):4:5 \
         with boxxyerror fillcolor rgb blue fillstyle transparent pattern hatching noborder title part[2], \
     $WAVES using ($6 == $6 ? place($0) : NaN):(0):(place($0) - half_bar):(place($0) + half_bar): \
         (bottom_or($4, $5)):6 with boxxyerror fillcolor rgb blue fillstyle solid border linecolor rgb "white" title part[1], \
     $WAVES using ($5 < $4 - 1e-6 ? place($0) : NaN):4:(place($0) - half_bar * 1.2):(place($0) + half_bar * 1.2) \
         with xerrorbars pointtype 0 linewidth 3 linecolor rgb orange \
         title "straight weight that reverse bands hold", \
     $WAVES using (place($0)):($6 == $6 ? $6 : bottom_or($4, $5)):(shows_load ? sprintf("%.1f", \
         $6 == $6 ? $6 : bottom_or($4, $5)) : "") with labels offset 0, character 0.7 textcolor rgb ink \
         title "load at the top"
set output
