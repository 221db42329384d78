/* Turns readings into points: which ones belong together, where each band begins to pull, and what is contradictory. */
#ifndef TAUTLINE_READING_MEASURED_BANDS_H
#define TAUTLINE_READING_MEASURED_BANDS_H

#include "reading/measurements/measurements.h"

/* Finds the flat length and averages repeats. What does not fit is reported and left out: lengths not above flat,
 * pulls at one length that differ beyond repeatability, the fewest points without which the pull never falls; bands
 * without flat length or without a point. */
struct measured_bands measured_bands_make(struct arena *arena, const struct pull_readings *readings,
                                          const struct measurement_options *options, struct diags *diags);

#endif
