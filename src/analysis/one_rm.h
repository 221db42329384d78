/* One-repetition maximum: estimates from a set, and how the current 1RM on a day is chosen. Pure. */
#ifndef TAUTLINE_ANALYSIS_ONE_RM_H
#define TAUTLINE_ANALYSIS_ONE_RM_H

#include "base/arena.h"
#include "base/date.h"

#include <math.h>
#include <stdbool.h>
#include <stddef.h>

/* Seven published formulas; w load, r repetitions to failure. Sources next to the functions. */
#define E1RM_FORMULAS(X)                                                                                               \
    X(EPLEY, "epley")                                                                                                  \
    X(BRZYCKI, "brzycki")                                                                                              \
    X(LOMBARDI, "lombardi")                                                                                            \
    X(MAYHEW, "mayhew")                                                                                                \
    X(WATHAN, "wathan")                                                                                                \
    X(OCONNER, "oconner")                                                                                              \
    X(LANDER, "lander")

enum e1rm_formula
{
#define X(id, name) E1RM_##id,
    E1RM_FORMULAS(X)
#undef X
    E1RM_COUNT
};

bool e1rm_formula_read(const char *name, enum e1rm_formula *formula); /* ignoring case; false: no such formula */
const char *e1rm_formula_name(enum e1rm_formula formula);
double e1rm_raw(enum e1rm_formula formula, double load_kg, double repetitions); /* without a special case at r = 1 */

/* With effort: effective repetitions are reps + RIR (RIR = 10 − RPE from RPE 6 up; neither logged: 0; both logged:
 * the RIR). 1 effective repetition gives the load; more than 10, RIR over 4, no repetition or no load: NAN. rpe, rir:
 * NAN if not logged. */
double e1rm_of_set(enum e1rm_formula formula, double load_kg, int reps, double rpe, double rir);

enum one_rm_from
{
    ONE_RM_NONE,
    ONE_RM_TESTED,
    ONE_RM_ESTIMATED
};

struct one_rm
{
    double kg;      /* NAN: none */
    day_number day; /* of the test, or of the set that the estimate is based on; NO_DAY: none */
    enum one_rm_from from;
};

#define NO_ONE_RM ((struct one_rm){NAN, NO_DAY, ONE_RM_NONE})

/* "tested 2025-12-20", "estimated 2025-12-20", ""; into at least 32 bytes. Returns buffer. */
char *one_rm_print(char *buffer, const struct one_rm *one_rm);

/* Makes `tested` the newer of itself and a test on `day`; of two on the same day, the heavier. */
void one_rm_offer(struct one_rm *tested, day_number day, double kg);

#define ESTIMATE_DAYS 84 /* an estimate counts for twelve weeks */

/* The 1RM from estimates, made so that neither one mistyped weight nor one light day decides: the second best of the
 * 84 days before a day, counting each day's best once, or the best itself if a high effort was logged with it. The
 * day's own sets are left out: a percentage must not be based on its own set. Zero-initialised: empty. */
struct rated_day
{
    day_number day;
    double kg;      /* the best estimate */
    double sure_kg; /* the best with a logged effort of EFFORT_SURE or more; 0: none */
};

struct rated
{
    struct rated_day *items; /* by day */
    size_t count, capacity;
    size_t first;         /* items before this index are too old */
    struct one_rm newest; /* the last one, whether still current or not; kg 0: none yet */
};

#define EFFORT_SURE 8.0 /* RPE: at most two repetitions in reserve */
/* Below this share of the newest 1RM, a day's work is light and says nothing about the 1RM; common practice. */
#define RATED_LEAST_SHARE 0.70
#define RATED_NEWEST_DAYS 182 /* for this long, the newest 1RM is remembered for that comparison */

bool effort_is_sure(double rpe, double rir); /* NAN: not logged */
void rated_clear(struct rated *rated);
/* Days must not go backwards. NAN is ignored, and so is light work: load_kg is the load that was lifted. */
void rated_add(struct arena *arena, struct rated *rated, day_number day, double load_kg, double kg, bool sure);
struct one_rm one_rm_rated(struct rated *rated, day_number day); /* the later day if tied */

#endif
