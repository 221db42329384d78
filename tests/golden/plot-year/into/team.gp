# A picture for gnuplot 5.4 or newer. To draw it: gnuplot FILE
# Parameters and data first; then the style and the template team.gp, which say what may be set.

picture = "svg"
picture_name = "team\056svg"
unit = "kg"
heading = "Newest waves against the waves before"
sentence = "At the top\054 by the median of the lifts\072 heavier than the wave before for 1 of 2 lifters\054 lighter for 1\054 the same for 0\056"
width = 720
height = 432

$LIFTERS << END_OF_LIFTERS
"Isolde Varn" 0.0182555781 0.015522594
"Matteo Krell" -0.0162601626 -0.0162601626
END_OF_LIFTERS
$LIFTS << END_OF_LIFTS
1 0.0182555781 0.015522594
2 -0.0162601626 -0.0162601626
END_OF_LIFTS

