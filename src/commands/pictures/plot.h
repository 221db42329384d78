/* plot: gnuplot scripts, each self-contained, and also drawn where gnuplot is installed. */
#ifndef TAUTLINE_COMMANDS_PLOT_H
#define TAUTLINE_COMMANDS_PLOT_H

#include "commands/command.h"

enum exit_status run_plot(struct arena *arena, const struct options *options);

#endif
