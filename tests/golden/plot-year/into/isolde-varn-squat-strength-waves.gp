# A picture for gnuplot 5.4 or newer. To draw it: gnuplot FILE
# Parameters and data first; then the style and the template waves.gp, which say what may be set.

picture = "svg"
picture_name = "isolde\055varn\055squat\055strength\055waves\056svg"
unit = "kg"
heading = "Isolde Varn\072 squat\054 strength waves"
sentence = "No waves\073 by weeks rising\072 \053\062\056\065\302\240kg a week since 8 Jan 2026 \050as of 5 Mar 2026\051\056"

$WEEKS << END_OF_WEEKS
1 2026-01-05 100 100 100 100 900 NaN NaN
1 2026-01-12 102.5 102.5 102.5 102.5 922.5 NaN NaN
1 2026-01-19 105 105 105 105 945 NaN NaN
1 2026-01-26 107.5 107.5 107.5 107.5 967.5 NaN NaN
1 2026-02-02 110 110 110 110 990 NaN NaN
1 2026-02-09 112.5 112.5 112.5 112.5 1012.5 NaN NaN
1 2026-02-16 115 115 115 115 1035 NaN NaN
1 2026-02-23 117.5 117.5 117.5 117.5 1057.5 NaN NaN
1 2026-03-02 120 120 120 120 1080 NaN NaN
END_OF_WEEKS
$WAVES << END_OF_WAVES
1 "wave 1" "1" ""
END_OF_WAVES
$CHANGES << END_OF_CHANGES
END_OF_CHANGES

