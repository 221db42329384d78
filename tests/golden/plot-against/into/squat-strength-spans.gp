# A picture for gnuplot 5.4 or newer. To draw it: gnuplot FILE
# Parameters and data first; then the style and the template spans.gp, which say what may be set.

picture = "svg"
picture_name = "squat\055strength\055spans\056svg"
unit = "kg"
heading = "squat\054 strength\054 week by week"
sentence = "Isolde Varn\072 \053\064\056\062 points of 1RM\054 on average of the 4 weeks that both have\056"
span_name = "Isolde Varn"
other_name = "Matteo Krell"
quantity = "\045 of 1RM"
axis_title = "week\054 the first from 12 Jan 2026"

$WEEKS << END_OF_WEEKS
1 78.8461538 78.8461538 78.8461538 78.125 78.125 78.125
2 80.7692308 80.7692308 80.7692308 81.25 81.25 81.25
3 82.6923077 82.6923077 82.6923077 73.75 73.75 73.75
4 84.6153846 84.6153846 84.6153846 76.875 76.875 76.875
END_OF_WEEKS

