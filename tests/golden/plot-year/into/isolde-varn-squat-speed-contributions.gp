# A picture for gnuplot 5.4 or newer. To draw it: gnuplot FILE
# Parameters and data first; then the style and the template contributions.gp, which say what may be set.

picture = "svg"
picture_name = "isolde\055varn\055squat\055speed\055contributions\056svg"
unit = "kg"
heading = "Isolde Varn\072 squat\054 speed load by part"
sentence = "Wave 1 to 3\072 straight weight rises from 71\056\065\302\240kg to 73\056\060\302\240kg\073 what chain and band add at the top rises from 16\0568\302\240kg to 25\056\061\302\240kg\056"

$WAVES << END_OF_WAVES
"wave 1" "1" 2026-01-05 71.5 78.6111111 88.2555556
"wave 2" "2" 2026-01-26 71.5 82.1666667 96.6333333
"wave 3" "3" 2026-02-16 73 83.6666667 98.1333333
END_OF_WAVES

