# A picture for gnuplot 5.4 or newer. To draw it: gnuplot FILE
# Parameters and data first; then the style and the template year.gp, which say what may be set.

picture = "svg"
picture_name = "isolde\055varn\055year\056svg"
unit = "kg"
heading = "Isolde Varn\072 the year\054 wave by wave"
sentence = "squat\054 speed\072 too early to tell\054 3\302\240waves\054 newest \053\061\056\065\302\240kg at bottom and top\056 squat\054 strength\072 no waves\073 by weeks rising\054 \053\062\056\065\302\240kg a week since 8 Jan 2026\056"
width = 720
height = 454

$STRIPS << END_OF_STRIPS
"squat\054 speed"
"squat\054 strength"
END_OF_STRIPS
$WEEKS << END_OF_WEEKS
1 2026-01-05 65 72.1111111 81.7555556 1 0
1 2026-01-12 71.5 78.6111111 88.2555556 1 0
1 2026-01-19 78 85.1111111 94.7555556 1 0
1 2026-01-26 65 75.6666667 90.1333333 2 0
1 2026-02-02 71.5 82.1666667 96.6333333 2 0
1 2026-02-09 78 88.6666667 103.133333 2 0
1 2026-02-16 66.5 77.1666667 91.6333333 3 0
1 2026-02-23 73 83.6666667 98.1333333 3 0
1 2026-03-02 79.5 90.1666667 104.633333 3 0
2 2026-01-05 100 100 100 1 0
2 2026-01-12 102.5 102.5 102.5 1 0
2 2026-01-19 105 105 105 1 0
2 2026-01-26 107.5 107.5 107.5 1 0
2 2026-02-02 110 110 110 1 0
2 2026-02-09 112.5 112.5 112.5 1 0
2 2026-02-16 115 115 115 1 0
2 2026-02-23 117.5 117.5 117.5 1 0
2 2026-03-02 120 120 120 1 0
END_OF_WEEKS
$GAPS << END_OF_GAPS
END_OF_GAPS
$CHANGES << END_OF_CHANGES
1 2026-01-26 "2 \342\206\222 3 chains\057side"
END_OF_CHANGES
$TESTS << END_OF_TESTS
1 2026-02-07 "134 kg"
2 2026-02-07 "134 kg"
END_OF_TESTS

