/* The next wave of each lift in one line: what tautline-plan(1) shows, in short. */
#ifndef TAUTLINE_COMMANDS_REPORT_REPORT_NEXT_H
#define TAUTLINE_COMMANDS_REPORT_REPORT_NEXT_H

#include "analysis/plan/plan.h"
#include "commands/report/report_text.h"

/* The plans for a lifter's lifts and focuses that are in waves and still trained: those with chains and bands first,
 * then by number of waves; at most `most`. `left` counts the others. Owned by the session's arena. */
struct next_plans
{
    const struct plan **plans;
    size_t count, left;
    unsigned left_focuses; /* focuses of the others, one bit each */
};
struct next_plans next_plans(const struct report *report, const char *lifter, size_t most);

/* "2-16 Nov", "23 Nov - 7 Dec" */
const char *next_days(struct arena *arena, const struct plan *plan);
/* "57, 62.5, 68 kg" */
const char *next_weights(struct arena *arena, const struct plan *plan, enum mass_unit unit);
/* "top +1 kg on wave 13"; "" where there is nothing to compare. */
const char *next_change(struct arena *arena, const struct plan *plan, enum mass_unit unit);

/* A section with at most `most` lines, and how many are left out. Nothing where no lift is in waves. */
void report_next(const struct report *report, const struct next_plans *next, size_t most);
/* The same in one line, for a team: "squat, speed 2-16 Nov 57, 62.5, 68 kg; ..." */
const char *report_next_words(const struct report *report, const char *lifter);

#endif
