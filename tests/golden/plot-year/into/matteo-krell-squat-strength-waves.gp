# A picture for gnuplot 5.4 or newer. To draw it: gnuplot FILE
# Parameters and data first; then the style and the template waves.gp, which say what may be set.

picture = "svg"
picture_name = "matteo\055krell\055squat\055strength\055waves\056svg"
unit = "kg"
heading = "Matteo Krell\072 squat\054 strength waves"
sentence = "Too early to tell\054 3\302\240waves\072 newest \055\062\302\240kg \050as of 2 Mar 2026\051\056"

$WEEKS << END_OF_WEEKS
1 2026-01-05 120 120 120 120 1800 NaN NaN
1 2026-01-12 125 125 125 125 1875 NaN NaN
1 2026-01-19 130 130 130 130 1950 NaN NaN
2 2026-01-26 118 118 118 118 1770 120 120
2 2026-02-02 123 123 123 123 1845 125 125
2 2026-02-09 128 128 128 128 1920 130 130
3 2026-02-16 116 116 116 116 1740 118 118
3 2026-02-23 121 121 121 121 1815 123 123
3 2026-03-02 126 126 126 126 1890 128 128
END_OF_WEEKS
$WAVES << END_OF_WAVES
1 "wave 1" "1" ""
2 "wave 2" "2" "\055\062\056\060"
3 "wave 3" "3" "\055\062\056\060"
END_OF_WAVES
$CHANGES << END_OF_CHANGES
END_OF_CHANGES

