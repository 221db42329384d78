# A picture for gnuplot 5.4 or newer. To draw it: gnuplot FILE
# Parameters and data first; then the style and the template contributions.gp, which say what may be set.

picture = "svg"
picture_name = "isolde\055varn\055squat\055speed\055contributions\056svg"
unit = "kg"
heading = "Isolde Varn\072 squat\054 speed load by part"
sentence = "Chain and band add 25\056\061\302\240kg at the top to 73\056\060\302\240kg of straight weight\056"

$WAVES << END_OF_WAVES
"wave 3" "3" 2026-02-16 73 83.6666667 98.1333333
END_OF_WAVES

