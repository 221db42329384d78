/* A log and a gym made by hand, for tests of what comes after reading. Everything lives until made_free(). */
#ifndef TAUTLINE_TESTS_MADE_LOG_H
#define TAUTLINE_TESTS_MADE_LOG_H

#include "analysis/training.h"

#define ODA "Oda Brandvik"
#define IVO "Ivo Tarn"

struct made
{
    struct arena *arena;
    struct log *log;
    struct gym *gym;
    struct training_options options; /* by Epley, all days, no today */
};

struct made *made_new(void);
void made_free(struct made *made);

day_number day_of(const char *iso); /* fails the test where there is no such day */

const struct load *mass(struct made *made, double kg);
const struct load *percent(struct made *made, double percent);
const struct load *body_plus(struct made *made, double kg);
const struct load *no_load(struct made *made);
const struct load *banded(struct made *made, double kg, double bottom_kg, double top_kg); /* in all */
const struct load *chained(struct made *made, double kg, int per_side, double mass_kg);   /* mass of one chain */
const struct load *labelled(struct made *made, double kg, const char *band);              /* one on each side */

/* Adds alike sets; returns the last, good until the next. */
struct set *add_sets(struct made *made, const char *lifter, const char *lift, const char *iso, const struct load *load,
                     int sets, int reps);

/* One lifter in the gym file, with tested maxes of one lift. */
struct lifter *add_lifter(struct made *made, const char *name);
void add_max(struct made *made, struct lifter *lifter, const char *lift, const char *iso, double kg);

/* A pair of bands of one label with a calibration for each day; the pull is per_m kg for each metre beyond 1 m. */
void add_band(struct made *made, const char *label, size_t calibrations, const char *const *days, const double *per_m);
/* Floor to bar, bottom and top, for one lift. */
void add_heights(struct made *made, struct lifter *lifter, const char *lift, double bottom_m, double top_m);

const struct training *train(struct made *made);

#endif
