# A picture for gnuplot 5.4 or newer. To draw it: gnuplot FILE
# Parameters and data first; then the style and the template weeks.gp, which say what may be set.

picture = "svg"
picture_name = "matteo\055krell\055squat\055weeks\056svg"
unit = "kg"
heading = "Matteo Krell\072 squat\054 volume and intensity by week"
sentence = "A usual week has 1845\302\240kg\073 no trend in 9 weeks\056 Intensity\072 72 to 81\302\240\045 of 1RM\056"

$WEEKS << END_OF_WEEKS
2026-01-05 1800 1800 0.75 0.75
2026-01-12 1875 1875 0.78125 0.78125
2026-01-19 1950 1950 0.8125 0.8125
2026-01-26 1770 1770 0.7375 0.7375
2026-02-02 1845 1845 0.76875 0.76875
2026-02-09 1920 1920 0.8 0.8
2026-02-16 1740 1740 0.725 0.725
2026-02-23 1815 1815 0.75625 0.75625
2026-03-02 1890 1890 0.7875 0.7875
END_OF_WEEKS

