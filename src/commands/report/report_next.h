/* The next wave of each lift in a line: what plan(1) would say, in short. */
#ifndef TAUTLINE_COMMANDS_REPORT_REPORT_NEXT_H
#define TAUTLINE_COMMANDS_REPORT_REPORT_NEXT_H

#include "analysis/plan/plan.h"
#include "commands/report/report_text.h"

/* The plans of a lifter's lifts and focuses that are in waves and still trained: chains and bands first, then those
 * with most waves; at most so many. `left` counts the others. The session's arena owns them. */
struct next_plans
{
    const struct plan **plans;
    size_t count, left;
    unsigned left_focuses; /* of the others: a bit for each */
};
struct next_plans next_plans(const struct report *report, const char *lifter, size_t most);

/* "2-16 Nov", "23 Nov - 7 Dec" */
const char *next_days(struct arena *arena, const struct plan *plan);
/* "57, 62.5, 68 kg" */
const char *next_weights(struct arena *arena, const struct plan *plan, enum mass_unit unit);
/* "top +1 kg on wave 13"; "" where there is nothing to compare. */
const char *next_change(struct arena *arena, const struct plan *plan, enum mass_unit unit);

/* A section with at most so many lines, and how many are left out. Nothing where no lift is in waves. */
void report_next(const struct report *report, const struct next_plans *next, size_t most);
/* The same in one line, for a team: "squat, speed 2-16 Nov 57, 62.5, 68 kg; ..." */
const char *report_next_words(const struct report *report, const char *lifter);

#endif
