# A picture for gnuplot 5.4 or newer. To draw it: gnuplot FILE
# Parameters and data first; then the style and the template waves.gp, which say what may be set.

picture = "svg"
picture_name = "isolde\055varn\055squat\055speed\055waves\056svg"
unit = "kg"
heading = "Isolde Varn\072 squat\054 speed waves"
sentence = "Yes\054 at the bottom and at the top\056 Wave 3 beside wave 2\054 3 weeks compared\072 \053\061\056\065 kg at the bottom\054 \053\061\056\065 kg at the top\073 volume \053\062\064 kg a week\056"

$WEEKS << END_OF_WEEKS
1 2026-01-05 65 72.1111111 76.9333333 81.7555556 1230.93333 NaN NaN
1 2026-01-12 71.5 78.6111111 83.4333333 88.2555556 1334.93333 NaN NaN
1 2026-01-19 78 85.1111111 89.9333333 94.7555556 1438.93333 NaN NaN
2 2026-01-26 65 75.6666667 82.9 90.1333333 1326.4 72.1111111 81.7555556
2 2026-02-02 71.5 82.1666667 89.4 96.6333333 1430.4 78.6111111 88.2555556
2 2026-02-09 78 88.6666667 95.9 103.133333 1534.4 85.1111111 94.7555556
3 2026-02-16 66.5 77.1666667 84.4 91.6333333 1350.4 75.6666667 90.1333333
3 2026-02-23 73 83.6666667 90.9 98.1333333 1454.4 82.1666667 96.6333333
3 2026-03-02 79.5 90.1666667 97.4 104.633333 1558.4 88.6666667 103.133333
END_OF_WEEKS
$WAVES << END_OF_WAVES
1 "wave 1" "1" ""
2 "wave 2" "2" "top \0538\056\064"
3 "wave 3" "3" "top \053\061\056\065"
END_OF_WAVES

