# A picture for gnuplot 5.4 or newer. To draw it: gnuplot FILE
# Parameters and data first; then the style and the template year.gp, which say what may be set.

picture = "svg"
picture_name = "isolde\055varn\055year\056svg"
unit = "kg"
heading = "Isolde Varn\072 the year\054 wave by wave"
sentence = "squat\054 speed\072 too early to tell\054 3\302\240waves\054 newest \053\061\056\065\302\240kg at bottom and top\056"
width = 720
height = 322

$STRIPS << END_OF_STRIPS
"squat\054 speed"
END_OF_STRIPS
$WEEKS << END_OF_WEEKS
1 2026-02-16 66.5 77.1666667 91.6333333 3 0
1 2026-02-23 73 83.6666667 98.1333333 3 0
1 2026-03-02 79.5 90.1666667 104.633333 3 0
END_OF_WEEKS
$GAPS << END_OF_GAPS
END_OF_GAPS
$CHANGES << END_OF_CHANGES
END_OF_CHANGES
$TESTS << END_OF_TESTS
END_OF_TESTS

