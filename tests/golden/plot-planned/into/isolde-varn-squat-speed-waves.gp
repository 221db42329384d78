# A picture for gnuplot 5.4 or newer. To draw it: gnuplot FILE
# Parameters and data first; then the style and the template waves.gp, which say what may be set.

picture = "svg"
picture_name = "isolde\055varn\055squat\055speed\055waves\056svg"
unit = "kg"
heading = "Isolde Varn\072 squat\054 speed waves"
sentence = "One wave so far\054 with nothing to compare it with\056"

$WEEKS << END_OF_WEEKS
1 2026-02-16 66.5 77.1666667 84.4 91.6333333 1350.4 NaN NaN
1 2026-02-23 73 83.6666667 90.9 98.1333333 1454.4 NaN NaN
1 2026-03-02 79.5 90.1666667 97.4 104.633333 1558.4 NaN NaN
END_OF_WEEKS
$WAVES << END_OF_WAVES
1 "wave 1" "1" ""
END_OF_WAVES

