# A picture for gnuplot 5.4 or newer. To draw it: gnuplot FILE
# Parameters and data first; then the style and the template e1rm.gp, which say what may be set.

picture = "svg"
picture_name = "isolde\055varn\055squat\055e1rm\056svg"
unit = "kg"
heading = "Isolde Varn\072 squat\054 estimated and tested 1RM"
sentence = "Tested 134\056\060 kg on 2026\055\060\062\055\060\067\056"

$DAYS << END_OF_DAYS
2026-02-16 NaN 82.3111111 97.7422222
2026-02-23 NaN 89.2444444 104.675556
2026-03-02 NaN 96.1777778 111.608889
END_OF_DAYS
$TESTS << END_OF_TESTS
2026-02-07 134
END_OF_TESTS

