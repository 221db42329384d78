# A picture for gnuplot 5.4 or newer. To draw it: gnuplot FILE
# Parameters and data first; then the style and the template zones.gp, which say what may be set.

picture = "svg"
picture_name = "isolde\055varn\055squat\055zones\056svg"
unit = "kg"
heading = "Isolde Varn\072 squat\054 reps by intensity"
sentence = "Of 225\302\240reps with a known 1RM\054 50\302\240\045 were below 70\302\240\045 of it\054 22\302\240\045 from 70 to 80\302\240\045\054 28\302\240\045 at 80\302\240\045 and above\056"

$WEEKS << END_OF_WEEKS
2026-01-05 0 16 9 0 0
2026-01-12 0 16 9 0 0
2026-01-19 0 16 0 9 0
2026-01-26 0 16 0 9 0
2026-02-02 0 16 0 9 0
2026-02-09 0 0 16 9 0
2026-02-16 0 16 0 9 0
2026-02-23 0 16 0 9 0
2026-03-02 0 0 16 9 0
END_OF_WEEKS

