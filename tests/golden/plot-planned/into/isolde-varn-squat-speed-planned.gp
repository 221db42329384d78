# A picture for gnuplot 5.4 or newer. To draw it: gnuplot FILE
# Parameters and data first; then the style and the template planned.gp, which say what may be set.

picture = "svg"
picture_name = "isolde\055varn\055squat\055speed\055planned\056svg"
unit = "kg"
heading = "Isolde Varn\072 squat\054 speed\072 planned and done"
sentence = "Of 4 planned weeks 3 done\054 0 missed\054 1 to come\056 Straight weight of those done\072 0\056\065\302\240kg less than planned on average\056"

$WEEKS << END_OF_WEEKS
2026-02-16 67 66.5 69 77.1666667 87.4 91.6333333 1260 1350.4 "done"
2026-02-23 73.5 73 75.5 83.6666667 93.9 98.1333333 1364 1454.4 "done"
2026-03-02 80 79.5 82 90.1666667 100.4 104.633333 1468 1558.4 "done"
2026-03-09 86.5 NaN NaN NaN NaN NaN 1572 NaN "to come"
END_OF_WEEKS

