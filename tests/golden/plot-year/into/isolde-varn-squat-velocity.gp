# A picture for gnuplot 5.4 or newer. To draw it: gnuplot FILE
# Parameters and data first; then the style and the template velocity.gp, which say what may be set.

picture = "svg"
picture_name = "isolde\055varn\055squat\055velocity\056svg"
unit = "kg"
heading = "Isolde Varn\072 squat\054 load and velocity"
sentence = "Each 0\056\061 m\057s slower is 16\056\067\302\240kg more \050from 9 measurements\051\056"

$SETS << END_OF_SETS
0.86 76.9333333 1
0.62 100 0
0.82 83.4333333 1
0.605 102.5 0
0.78 89.9333333 1
0.59 105 0
0.86 82.9 1
0.575 107.5 0
0.82 89.4 1
0.56 110 0
0.78 95.9 1
0.545 112.5 0
0.86 84.4 1
0.53 115 0
0.82 90.9 1
0.515 117.5 0
0.78 97.4 1
0.5 120 0
END_OF_SETS
$LINE << END_OF_LINE
0.5 120 120 120
0.506 119 119 119
0.512 118 118 118
0.518 117 117 117
0.524 116 116 116
0.53 115 115 115
0.536 114 114 114
0.542 113 113 113
0.548 112 112 112
0.554 111 111 111
0.56 110 110 110
0.566 109 109 109
0.572 108 108 108
0.578 107 107 107
0.584 106 106 106
0.59 105 105 105
0.596 104 104 104
0.602 103 103 103
0.608 102 102 102
0.614 101 101 101
0.62 100 100 100
END_OF_LINE

