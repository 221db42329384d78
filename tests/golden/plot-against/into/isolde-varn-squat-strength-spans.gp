# A picture for gnuplot 5.4 or newer. To draw it: gnuplot FILE
# Parameters and data first; then the style and the template spans.gp, which say what may be set.

picture = "svg"
picture_name = "isolde\055varn\055squat\055strength\055spans\056svg"
unit = "kg"
heading = "Isolde Varn\072 squat\054 strength\054 week by week"
sentence = "\053\061\065\056\060\302\240kg\054 on average of the 3 weeks that both have\056"
span_name = "16 Feb 2026 to 8 Mar 2026"
other_name = "5 Jan 2026 to 25 Jan 2026"
quantity = "load\054 kg"
axis_title = "week of the span"

$WEEKS << END_OF_WEEKS
1 115 115 115 100 100 100
2 117.5 117.5 117.5 102.5 102.5 102.5
3 120 120 120 105 105 105
END_OF_WEEKS

