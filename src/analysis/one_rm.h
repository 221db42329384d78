/* One-repetition maximum: estimates from a set, and the 1RM in force on a day. */
#ifndef TAUTLINE_ANALYSIS_ONE_RM_H
#define TAUTLINE_ANALYSIS_ONE_RM_H

#include "base/date.h"

#include <stdbool.h>
#include <stddef.h>

/* Seven published formulas; w load, r repetitions to failure. r = 1 gives w for all. Sources beside the functions. */
#define E1RM_FORMULAS(X)    \
    X(EPLEY, "epley")       \
    X(BRZYCKI, "brzycki")   \
    X(LOMBARDI, "lombardi") \
    X(MAYHEW, "mayhew")     \
    X(WATHAN, "wathan")     \
    X(OCONNER, "oconner")   \
    X(LANDER, "lander")

enum e1rm_formula
{
#define X(id, name) E1RM_##id,
    E1RM_FORMULAS(X)
#undef X
        E1RM_COUNT
};

bool e1rm_formula_read(const char *name, enum e1rm_formula *formula);
const char *e1rm_formula_name(enum e1rm_formula formula);
double e1rm_raw(enum e1rm_formula formula, double load_kg, double repetitions); /* no special case at r = 1 */

/* With effort: effective repetitions are reps + RIR (RIR = 10 − RPE from RPE 6 up; neither noted: 0). 1 effective repetition gives the
 * load; more than 10, or RIR over 4, or none made: NAN. rpe, rir: NAN where not noted. */
double e1rm_of_set(enum e1rm_formula formula, double load_kg, int reps, double rpe, double rir);

enum one_rm_from
{
    ONE_RM_NONE,
    ONE_RM_TESTED,
    ONE_RM_ESTIMATED
};

struct one_rm
{
    enum one_rm_from from;
    double kg;      /* NAN: none */
    day_number day; /* of the test, or of the set that the estimate rests on */
};

/* "tested 2025-12-20", "estimated 2025-12-20", ""; into at least 32 bytes. Returns buffer. */
char *one_rm_print(char *buffer, const struct one_rm *one_rm);

#endif
