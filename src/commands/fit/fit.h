/* What the files of the command `fit` share. */
#ifndef TAUTLINE_COMMANDS_FIT_H
#define TAUTLINE_COMMANDS_FIT_H

#include "analysis/bands/band_fitting.h"
#include "commands/command.h"
#include "commands/session/session.h"

struct fit
{
    struct session session;
    struct band_fittings fittings;
    struct band_fittings gym_fittings; /* the gym file's older calibrations of the same labels */
    struct band_comparisons comparisons;
};

void fit_law_table(const struct fit *fit, struct output *output, const struct band_fitting *fitting);

enum exit_status run_fit(struct arena *arena, const struct options *options);

#endif
