/* fit: the pictures. For one measurement they show the three fits side by side; for several, the best fit of each. */
#ifndef TAUTLINE_COMMANDS_FIT_PLOT_H
#define TAUTLINE_COMMANDS_FIT_PLOT_H

#include "commands/fit/fit.h"

/* one script per label */
void fit_plots(struct fit *fit, const char *path);

#endif
