# A picture for gnuplot 5.4 or newer. To draw it: gnuplot FILE
# Parameters and data first; then the style and the template e1rm.gp, which say what may be set.

picture = "svg"
picture_name = "matteo\055krell\055squat\055e1rm\056svg"
unit = "kg"
heading = "Matteo Krell\072 squat\054 estimated and tested 1RM"
sentence = "Tested 160\056\060\302\240kg on 20 Dec 2025\056 Best estimate from straight weight\072 143\056\060\302\240kg on 19 Jan 2026\056"

$DAYS << END_OF_DAYS
2026-01-05 132 NaN NaN
2026-01-12 137.5 NaN NaN
2026-01-19 143 NaN NaN
2026-01-26 129.8 NaN NaN
2026-02-02 135.3 NaN NaN
2026-02-09 140.8 NaN NaN
2026-02-16 127.6 NaN NaN
2026-02-23 133.1 NaN NaN
2026-03-02 138.6 NaN NaN
END_OF_DAYS
$TESTS << END_OF_TESTS
2025-12-20 160
END_OF_TESTS
$CURRENT << END_OF_CURRENT
2025-12-20 160
2026-03-02 160
END_OF_CURRENT

