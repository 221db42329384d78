/* Weights that were probably mistyped: a set alone among at least three equal ones, or a session's heaviest load far
 * from those of the sessions around it. Invariant: a slip is a question and never changes the log. The set keeps its
 * weight, counts in volume, and is marked so that bests, records, verdicts and estimates of the 1RM leave it out
 * until [gym] confirmed names its line. Pure.
 *
 * The neighbours of a set: sets of the same lift and logged focus, with or without chains or bands as it is, of the
 * same day or of the sessions around it. Sources: the running median of Hampel 1974, J. Am. Stat. Assoc.
 * 69(346):383–393, with three robust deviations; one slip of the finger as defined by Damerau 1964, Commun. ACM
 * 7(3):171–176. The limits are common practice. */
#ifndef TAUTLINE_ANALYSIS_SLIPS_H
#define TAUTLINE_ANALYSIS_SLIPS_H

#include "analysis/training.h"

enum slip_kind
{
    SLIP_AMONG_SETS, /* of its session */
    SLIP_AMONG_WEEKS /* around it */
};

struct slip
{
    const struct set *set;
    enum slip_kind kind;
    double around_kg; /* the median of the sets or sessions around it */
    double likely_kg; /* one of those weights that a single slip of the finger turns into the logged one; NAN: none */
};

struct slips
{
    struct arena *arena; /* of the list */
    LIST(struct slip) list;
};

/* Marks DOUBT_SLIP in the sets of one lifter and lift, which must be sorted by day and place, and adds what it found
 * to `slips`. */
void slips_find(struct evaluated_set **sets, size_t count, const struct training *training, struct slips *slips);

/* Is the line of that set in [gym] confirmed? */
bool slip_is_confirmed(const struct training *training, const struct set *set);

/* Does a single slip of the finger turn one text into the other: a character omitted, inserted, changed, or two
 * swapped? */
bool is_one_slip(const char *a, const char *b);

#endif
