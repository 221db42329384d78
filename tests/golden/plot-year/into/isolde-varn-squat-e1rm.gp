# A picture for gnuplot 5.4 or newer. To draw it: gnuplot FILE
# Parameters and data first; then the style and the template e1rm.gp, which say what may be set.

picture = "svg"
picture_name = "isolde\055varn\055squat\055e1rm\056svg"
unit = "kg"
heading = "Isolde Varn\072 squat\054 estimated and tested 1RM"
sentence = "Tested 134\056\060\302\240kg on 7 Feb 2026 \050\061\063\060\056\060\302\240kg on 20 Dec 2025\051\056 Best estimate from straight weight\072 132\056\060\302\240kg on 5 Mar 2026\056"

$DAYS << END_OF_DAYS
2026-01-08 110 NaN NaN
2026-01-15 112.75 NaN NaN
2026-01-22 115.5 NaN NaN
2026-01-29 118.25 NaN NaN
2026-02-05 121 NaN NaN
2026-02-12 123.75 NaN NaN
2026-02-19 126.5 NaN NaN
2026-02-26 129.25 NaN NaN
2026-03-05 132 NaN NaN
END_OF_DAYS
$TESTS << END_OF_TESTS
2025-12-20 130
2026-02-07 134
END_OF_TESTS
$CURRENT << END_OF_CURRENT
2025-12-20 130
2026-02-07 134
2026-03-05 134
END_OF_CURRENT

