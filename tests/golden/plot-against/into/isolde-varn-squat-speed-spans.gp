# A picture for gnuplot 5.4 or newer. To draw it: gnuplot FILE
# Parameters and data first; then the style and the template spans.gp, which say what may be set.

picture = "svg"
picture_name = "isolde\055varn\055squat\055speed\055spans\056svg"
unit = "kg"
heading = "Isolde Varn\072 squat\054 speed\054 week by week"
sentence = "\0539\0569\302\240kg at the top and \053\065\056\061\302\240kg at the bottom\054 on average of the 3 weeks that both have\056"
span_name = "16 Feb 2026 to 8 Mar 2026"
other_name = "5 Jan 2026 to 25 Jan 2026"
quantity = "load\054 kg"
axis_title = "week of the span"

$WEEKS << END_OF_WEEKS
1 66.5 77.1666667 91.6333333 65 72.1111111 81.7555556
2 73 83.6666667 98.1333333 71.5 78.6111111 88.2555556
3 79.5 90.1666667 104.633333 78 85.1111111 94.7555556
END_OF_WEEKS

