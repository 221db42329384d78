# A picture for gnuplot 5.4 or newer. To draw it: gnuplot FILE
# Parameters and data first; then the style and the template year.gp, which say what may be set.

picture = "svg"
picture_name = "matteo\055krell\055year\056svg"
unit = "kg"
heading = "Matteo Krell\072 the year\054 wave by wave"
sentence = "squat\054 strength\072 too early to tell\054 3\302\240waves\054 newest \055\062\302\240kg\056"
width = 720
height = 322

$STRIPS << END_OF_STRIPS
"squat\054 strength"
END_OF_STRIPS
$WEEKS << END_OF_WEEKS
1 2026-01-05 120 120 120 1 0
1 2026-01-12 125 125 125 1 0
1 2026-01-19 130 130 130 1 0
1 2026-01-26 118 118 118 2 0
1 2026-02-02 123 123 123 2 0
1 2026-02-09 128 128 128 2 0
1 2026-02-16 116 116 116 3 0
1 2026-02-23 121 121 121 3 0
1 2026-03-02 126 126 126 3 0
END_OF_WEEKS
$GAPS << END_OF_GAPS
END_OF_GAPS
$CHANGES << END_OF_CHANGES
END_OF_CHANGES
$TESTS << END_OF_TESTS
END_OF_TESTS

