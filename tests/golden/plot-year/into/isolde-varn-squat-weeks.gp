# A picture for gnuplot 5.4 or newer. To draw it: gnuplot FILE
# Parameters and data first; then the style and the template weeks.gp, which say what may be set.

picture = "svg"
picture_name = "isolde\055varn\055squat\055weeks\056svg"
unit = "kg"
heading = "Isolde Varn\072 squat\054 volume and intensity by week"
sentence = "A usual week has 2385\302\240kg\054 11\302\240\045 of it by chain and band\073 it goes up by 9\056\061\302\240\045 in four weeks\056 Intensity\072 66 to 79\302\240\045 of 1RM\056"
trend_first = 2167.90794
trend_last = 2602.89206

$WEEKS << END_OF_WEEKS
2026-01-05 1940 2130.93333 0.596923077 0.655671795
2026-01-12 2066.5 2257.43333 0.635846154 0.694594872
2026-01-19 2193 2383.93333 0.674769231 0.733517949
2026-01-26 2007.5 2293.9 0.617692308 0.705815385
2026-02-02 2134 2420.4 0.656615385 0.744738462
2026-02-09 2260.5 2546.9 0.674776119 0.760268657
2026-02-16 2099 2385.4 0.626567164 0.712059701
2026-02-23 2225.5 2511.9 0.664328358 0.749820896
2026-03-02 2352 2638.4 0.702089552 0.78758209
END_OF_WEEKS

