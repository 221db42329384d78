/* One-repetition maximum: estimates from a set, and what the current 1RM on a day is chosen from. Pure. */
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

bool e1rm_formula_read(const char *name, enum e1rm_formula *formula); /* case folded; false: no such formula */
const char *e1rm_formula_name(enum e1rm_formula formula);
double e1rm_raw(enum e1rm_formula formula, double load_kg, double repetitions); /* no special case at r = 1 */

/* With effort: effective repetitions are reps + RIR (RIR = 10 − RPE from RPE 6 up; neither noted: 0; both noted: the
 * RIR). 1 effective repetition gives the load; more than 10, RIR over 4, no repetition or no load: NAN. rpe, rir: NAN
 * where not noted. */
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
    day_number day; /* of the test, or of the set that the estimate rests on; NO_DAY: none */
    enum one_rm_from from;
};

#define NO_ONE_RM ((struct one_rm){NAN, NO_DAY, ONE_RM_NONE})

/* "tested 2025-12-20", "estimated 2025-12-20", ""; into at least 32 bytes. Returns buffer. */
char *one_rm_print(char *buffer, const struct one_rm *one_rm);

/* Makes `tested` the newer of itself and a test on `day`; of two on one day the heavier. */
void one_rm_offer(struct one_rm *tested, day_number day, double kg);

#define ESTIMATE_DAYS 84 /* an estimate counts for twelve weeks */

/* The best estimate of the 84 days that end with a day, as the days go by: a queue in which each entry is better than
 * all after it, so that n estimates cost O(n) together. Zeroed: empty. Days never go back. It tells light work from
 * heavy where the log does not; what a 1RM is said to be is one_rm_rated()'s. */
struct estimates
{
    struct one_rm *items;
    size_t count, capacity;
    size_t first; /* items before it are too old */
};

void estimates_clear(struct estimates *estimates);
void estimates_add(struct arena *arena, struct estimates *estimates, day_number day, double kg); /* NAN is ignored */
struct one_rm estimates_best(struct estimates *estimates, day_number day); /* of equal ones the later day */

/* The 1RM that estimates make, so that neither one mistyped weight nor one light day decides: the second best of the 84
 * days before a day, each day's best counted once, or the best itself where a high effort was written next to it. The
 * day's own sets are not among them: nobody's percentage rests on itself. Zeroed: empty. */
struct rated_day
{
    day_number day;
    double kg;      /* the best estimate */
    double sure_kg; /* the best next to which an effort of EFFORT_SURE or more was written; 0: none */
};

struct rated
{
    struct rated_day *items; /* by day */
    size_t count, capacity;
    size_t first;         /* items before it are too old */
    struct one_rm newest; /* the last that there was, whether still in force or not; kg 0: none yet */
};

#define EFFORT_SURE 8.0 /* RPE: two repetitions in reserve at most */
/* Below that share of the newest 1RM a day's work is light and says nothing; common practice. */
#define RATED_LEAST_SHARE 0.70
#define RATED_NEWEST_DAYS 182 /* as long the newest 1RM is remembered for it */

bool effort_is_sure(double rpe, double rir); /* NAN: not written */
void rated_clear(struct rated *rated);
/* Days never go back. NAN is ignored, and so is light work: load_kg is what was lifted. */
void rated_add(struct arena *arena, struct rated *rated, day_number day, double load_kg, double kg, bool sure);
struct one_rm one_rm_rated(struct rated *rated, day_number day); /* of equal ones the later day */

#endif
