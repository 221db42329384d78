# A picture for gnuplot 5.4 or newer. To draw it: gnuplot FILE
# Parameters and data first; then the style and the template waves.gp, which say what may be set.

picture = "svg"
picture_name = "isolde\055varn\055squat\055speed\055waves\056svg"
unit = "kg"
heading = "Isolde Varn\072 squat\054 speed waves"
sentence = "Too early to tell\054 3\302\240waves\072 newest \053\061\056\065\302\240kg at bottom and top \050as of 2 Mar 2026\051\056"

$WEEKS << END_OF_WEEKS
3 2026-02-16 66.5 77.1666667 84.4 91.6333333 1350.4 75.6666667 90.1333333
3 2026-02-23 73 83.6666667 90.9 98.1333333 1454.4 82.1666667 96.6333333
3 2026-03-02 79.5 90.1666667 97.4 104.633333 1558.4 88.6666667 103.133333
END_OF_WEEKS
$WAVES << END_OF_WAVES
3 "wave 3" "3" "top \053\061\056\065"
END_OF_WAVES
$CHANGES << END_OF_CHANGES
END_OF_CHANGES

