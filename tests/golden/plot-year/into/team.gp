# A picture for gnuplot 5.4 or newer. To draw it: gnuplot FILE
# Parameters and data first; then the style and the template team.gp, which say what may be set.

picture = "svg"
picture_name = "team\056svg"
unit = "kg"
heading = "Newest waves against the waves before"
sentence = "At the top\054 the newest waves of 1 of 2 lifters are heavier than the waves before\054 those of 1 lighter \050median over the lifts\051\056"
width = 900
height = 330

$LIFTERS << END_OF_LIFTERS
"Isolde Varn" 0.0182555781 0.015522594
"Matteo Krell" -0.0162601626 -0.0162601626
END_OF_LIFTERS
$LIFTS << END_OF_LIFTS
1 0.0182555781 0.015522594
2 -0.0162601626 -0.0162601626
END_OF_LIFTS

