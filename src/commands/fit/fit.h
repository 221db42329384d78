/* What the files of the command `fit` share. */
#ifndef TAUTLINE_COMMANDS_FIT_H
#define TAUTLINE_COMMANDS_FIT_H

#include "analysis/bands/band_fitting.h"
#include "commands/session/session.h"

struct fit
{
    struct session session;
    struct band_fittings fittings;
    struct band_fittings gym_fittings; /* the gym file's older calibrations of the same labels */
    struct band_comparisons comparisons;
};

/* fit.c */
void fit_law_table(const struct fit *fit, struct output *output, const struct band_fitting *fitting);

/* fit_text.c: for people */
void fit_text(const struct fit *fit, struct output *output);
const char *band_law_title(enum band_law law); /* Mooney-Rivlin */
const char *band_side_name(enum band_side side);

/* fit_block.c: [band] blocks for the gym file, one a band and day */
void fit_blocks(const struct fit *fit, struct output *output);

/* fit_plot.c: one script a label */
void fit_plots(struct fit *fit, const char *path);

#endif
