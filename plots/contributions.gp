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
