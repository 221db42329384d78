/* What a plan's straight weights are made from, and by what other ways the wave could be made heavier: words and a
 * table. */
#ifndef TAUTLINE_COMMANDS_PLAN_PLAN_BASIS_H
#define TAUTLINE_COMMANDS_PLAN_PLAN_BASIS_H

#include "analysis/plan/plan_ways.h"
#include "commands/report/report_text.h"

/* That it is lighter than the last wave, by how much and why; only where it is. */
const char *plan_lighter_words(const struct session *session, const struct plan *plan);
/* What the straight weights are made from, in a sentence or two. */
const char *plan_basis_words(const struct session *session, const struct plan *plan);
/* Nothing where there are no ways. */
void plan_ways_table(const struct report *report, const struct plan_ways *ways);

#endif
