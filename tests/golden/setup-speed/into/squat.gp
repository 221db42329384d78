# A picture for gnuplot 5.4 or newer. To draw it: gnuplot FILE
# Parameters and data first; then the style and the template curves.gp, which say what may be set.

picture = "svg"
picture_name = "squat\056svg"
unit = "kg"
heading = "Maren Holtvik\054 squat\072 load by height of the bar"
sentence = "61\056\066 kg at the bottom\054 81\056\067 kg at the top\054 71\056\065 kg on average\056"
height_unit = "m"
straight_weight = 60

$CURVES << END_OF_CURVES
0.79 61.58 61.3734076 61.7865924
0.7957 61.5914 61.2622968 61.9205032
0.8 61.6 61.1680298 62.0319702
0.8014 61.6502564 61.185434 62.1150788
0.8071 61.8548718 61.2723881 62.4373554
0.8128 62.0594872 61.3986458 62.7203286
0.8185 62.2641026 61.5639107 62.9642945
0.8242 62.4687179 61.7538042 63.1836317
0.8299 62.6733333 61.9542368 63.3924299
0.8356 62.8779487 62.1576964 63.598201
0.8413 63.0825641 62.3619732 63.803155
0.847 63.2871795 62.5662269 64.008132
0.8527 63.4917949 62.7704576 64.2131321
0.8584 63.6964103 62.9746653 64.4181552
0.8641 63.9010256 63.1788501 64.6232012
0.8698 64.105641 63.3830119 64.8282702
0.8755 64.3102564 63.5871508 65.033362
0.8812 64.5148718 63.7912669 65.2384767
0.8869 64.7194872 63.9953603 65.4436141
0.8926 64.9241026 64.1994309 65.6487743
0.8983 65.1287179 64.4034788 65.8539571
0.904 65.3333333 64.6075041 66.0591626
0.9097 65.5379487 64.8115068 66.2643907
0.9154 65.7425641 65.015487 66.4696413
0.9211 65.9471795 65.2194447 66.6749143
0.9268 66.1517949 65.42338 66.8802097
0.9325 66.3564103 65.627293 67.0855275
0.9382 66.5610256 65.8311838 67.2908675
0.9439 66.765641 66.0350523 67.4962298
0.9496 66.9702564 66.2388987 67.7016142
0.9553 67.1748718 66.442723 67.9070206
0.961 67.3794872 66.6465253 68.112449
0.9667 67.5841026 66.8503057 68.3178994
0.9724 67.7887179 67.0540643 68.5233716
0.9781 67.9933333 67.2578011 68.7288656
0.9838 68.1979487 67.4615162 68.9343813
0.9895 68.4025641 67.6652096 69.1399186
0.9952 68.6071795 67.8688816 69.3454774
1.0009 68.8117949 68.0725321 69.5510576
1.0066 69.0164103 68.2761612 69.7566593
1.0123 69.2210256 68.4797691 69.9622822
1.018 69.425641 68.6833557 70.1679263
1.0237 69.6302564 68.8869213 70.3735915
1.0294 69.8348718 69.0904658 70.5792778
1.0351 70.0394872 69.2939894 70.7849849
1.0408 70.2441026 69.4974922 70.9907129
1.0465 70.4487179 69.7009742 71.1964617
1.0522 70.6533333 69.9044356 71.402231
1.0579 70.8579487 70.1078765 71.608021
1.0636 71.0625641 70.3112968 71.8138314
1.0693 71.2671795 70.5146969 72.0196621
1.075 71.4717949 70.7180766 72.2255131
1.0807 71.6764103 70.9214362 72.4313843
1.0864 71.8810256 71.1247758 72.6372755
1.0921 72.085641 71.3280954 72.8431867
1.0978 72.2902564 71.5313951 73.0491177
1.1035 72.4948718 71.7346751 73.2550685
1.1092 72.6994872 71.9379354 73.461039
1.1149 72.9041026 72.1411762 73.667029
1.1206 73.1087179 72.3443975 73.8730384
1.1263 73.3133333 72.5475995 74.0790672
1.132 73.5179487 72.7507823 74.2851152
1.1377 73.7225641 72.9539459 74.4911823
1.1434 73.9271795 73.1570906 74.6972684
1.1491 74.1317949 73.3602164 74.9033734
1.1548 74.3364103 73.5633233 75.1094972
1.1605 74.5410256 73.7664116 75.3156397
1.1662 74.745641 73.9694813 75.5218008
1.1719 74.9502564 74.1725325 75.7279803
1.1776 75.1548718 74.3755654 75.9341782
1.1833 75.3594872 74.5785801 76.1403943
1.189 75.5641026 74.7815766 76.3466285
1.1947 75.7687179 74.9845551 76.5528808
1.2004 75.9733333 75.1875157 76.7591509
1.2061 76.1779487 75.3904585 76.9654389
1.2118 76.3825641 75.5933837 77.1717445
1.2175 76.5871795 75.7962913 77.3780677
1.2232 76.7917949 75.9991814 77.5844083
1.2289 76.9964103 76.2020542 77.7907663
1.2346 77.2010256 76.4049098 77.9971415
1.2403 77.405641 76.6077482 78.2035338
1.246 77.6102564 76.8105697 78.4099431
1.2517 77.8148718 77.0133743 78.6163693
1.2574 78.0194872 77.2161621 78.8228122
1.2631 78.2241026 77.4189333 79.0292718
1.2688 78.4287179 77.6216879 79.2357479
1.2745 78.6333333 77.8244262 79.4422405
1.2802 78.8379487 78.0271481 79.6487494
1.2859 79.0425641 78.2298538 79.8552744
1.2916 79.2471795 78.4325434 80.0618156
1.2973 79.4517949 78.6352171 80.2683727
1.303 79.6564103 78.8378749 80.4749456
1.3087 79.8610256 79.040517 80.6815343
1.3144 80.065641 79.2431434 80.8881386
1.3201 80.2702564 79.4457543 81.0947585
1.3258 80.4748718 79.6483499 81.3013937
1.3315 80.6794872 79.8509301 81.5080443
1.3372 80.8841026 80.0534952 81.71471
1.3429 81.0887179 80.2560452 81.9213907
1.3486 81.2933333 80.4585802 82.1280865
1.3543 81.4979487 80.6611004 82.334797
1.36 81.7025641 80.8636059 82.5415223


0.79 75.1710782 NaN NaN
0.7957 74.9181042 NaN NaN
0.8 74.8741332 NaN NaN
0.8014 74.8896039 NaN NaN
0.8071 74.9503416 NaN NaN
0.8128 75.0074665 NaN NaN
0.8185 75.0609786 NaN NaN
0.8242 75.1108779 NaN NaN
0.8299 75.1571644 NaN NaN
0.8356 75.1998381 NaN NaN
0.8413 75.2388991 NaN NaN
0.847 75.2743473 NaN NaN
0.8527 75.3061826 NaN NaN
0.8584 75.3344052 NaN NaN
0.8641 75.359015 NaN NaN
0.8698 75.380012 NaN NaN
0.8755 75.3973963 NaN NaN
0.8812 75.4111677 NaN NaN
0.8869 75.4213263 NaN NaN
0.8926 75.4278722 NaN NaN
0.8983 75.4308053 NaN NaN
0.904 75.4301255 NaN NaN
0.9097 75.425833 NaN NaN
0.9154 75.4179277 NaN NaN
0.9211 75.4064097 NaN NaN
0.9268 75.3912788 NaN NaN
0.9325 75.3725351 NaN NaN
0.9382 75.3501787 NaN NaN
0.9439 75.3242094 NaN NaN
0.9496 75.2946274 NaN NaN
0.9553 75.2614326 NaN NaN
0.961 75.224625 NaN NaN
0.9667 75.1842046 NaN NaN
0.9724 75.1401714 NaN NaN
0.9781 75.0925255 NaN NaN
0.9838 75.0412667 NaN NaN
0.9895 74.9863952 NaN NaN
0.9952 74.9279109 NaN NaN
1.0009 74.8658137 NaN NaN
1.0066 74.8001038 NaN NaN
1.0123 74.7307811 NaN NaN
1.018 74.6578457 NaN NaN
1.0237 74.5812974 NaN NaN
1.0294 74.5011363 NaN NaN
1.0351 74.4173625 NaN NaN
1.0408 74.3299758 NaN NaN
1.0465 74.2389764 NaN NaN
1.0522 74.1443642 NaN NaN
1.0579 74.0461392 NaN NaN
1.0636 73.9443014 NaN NaN
1.0693 73.8388508 NaN NaN
1.075 73.7297875 NaN NaN
1.0807 73.6171113 NaN NaN
1.0864 73.5008224 NaN NaN
1.0921 73.3809207 NaN NaN
1.0978 73.2574061 NaN NaN
1.1035 73.1302788 NaN NaN
1.1092 72.9995387 NaN NaN
1.1149 72.8651859 NaN NaN
1.1206 72.7272202 NaN NaN
1.1263 72.5856417 NaN NaN
1.132 72.4404505 NaN NaN
1.1377 72.2916465 NaN NaN
1.1434 72.1392296 NaN NaN
1.1491 71.9832 NaN NaN
1.1548 71.8235576 NaN NaN
1.1605 71.6603024 NaN NaN
1.1662 71.4934345 NaN NaN
1.1719 71.3229537 NaN NaN
1.1776 71.1488602 NaN NaN
1.1833 70.9711538 NaN NaN
1.189 70.7898347 NaN NaN
1.1947 70.6049028 NaN NaN
1.2004 70.4163581 NaN NaN
1.2061 70.2242006 NaN NaN
1.2118 70.0284303 NaN NaN
1.2175 69.8290472 NaN NaN
1.2232 69.6260514 NaN NaN
1.2289 69.4194427 NaN NaN
1.2346 69.2092213 NaN NaN
1.2403 68.9953871 NaN NaN
1.246 68.7779401 NaN NaN
1.2517 68.5568803 NaN NaN
1.2574 68.3322077 NaN NaN
1.2631 68.1039223 NaN NaN
1.2688 67.8720241 NaN NaN
1.2745 67.6365132 NaN NaN
1.2802 67.3973895 NaN NaN
1.2859 67.1546529 NaN NaN
1.2916 66.9083036 NaN NaN
1.2973 66.6583415 NaN NaN
1.303 66.4047666 NaN NaN
1.3087 66.1475789 NaN NaN
1.3144 65.8867785 NaN NaN
1.3201 65.6223652 NaN NaN
1.3258 65.3543392 NaN NaN
1.3315 65.0827003 NaN NaN
1.3372 64.8074487 NaN NaN
1.3429 64.5285843 NaN NaN
1.3486 64.2461071 NaN NaN
1.3543 63.9600171 NaN NaN
1.36 63.6703144 NaN NaN
END_OF_CURVES
$ENDS << END_OF_ENDS
"2 chains\057side" 0.79 61.58 1.36 81.7025641
"with its inertia at 0\056\065\060 m\057s on average\054 a model" 0.79 75.1710782 1.36 63.6703144
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
