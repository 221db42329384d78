/* fit: the pictures. Of one measurement the three fits side by side; of several, the one to use of each. */
#ifndef TAUTLINE_COMMANDS_FIT_PLOT_H
#define TAUTLINE_COMMANDS_FIT_PLOT_H

#include "commands/fit/fit.h"

/* one script a label */
void fit_plots(struct fit *fit, const char *path);

#endif
