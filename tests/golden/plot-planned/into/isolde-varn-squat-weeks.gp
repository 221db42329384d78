# A picture for gnuplot 5.4 or newer. To draw it: gnuplot FILE
# Parameters and data first; then the style and the template weeks.gp, which say what may be set.

picture = "svg"
picture_name = "isolde\055varn\055squat\055weeks\056svg"
unit = "kg"
heading = "Isolde Varn\072 squat\054 volume and intensity by week"
sentence = "A usual week has 1454\302\240kg\054 20\302\240\045 of it by chain and band\073 too few weeks to show a trend\056 Intensity\072 63 to 73\302\240\045 of 1RM\056"

$WEEKS << END_OF_WEEKS
2026-02-16 1064 1350.4 0.496268657 0.629850746
2026-02-23 1168 1454.4 0.544776119 0.678358209
2026-03-02 1272 1558.4 0.593283582 0.726865672
END_OF_WEEKS

