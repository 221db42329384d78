/* How a plan's straight weights were worked out, and the other ways to make the wave heavier: words and a table. */
#ifndef TAUTLINE_COMMANDS_PLAN_PLAN_BASIS_H
#define TAUTLINE_COMMANDS_PLAN_PLAN_BASIS_H

#include "analysis/plan/plan_ways.h"
#include "commands/report/report_text.h"

/* That the plan is lighter than the last wave, by how much and why; "" where it is not. */
const char *plan_lighter_words(const struct session *session, const struct plan *plan);
/* How the straight weights were worked out, in a sentence or two. */
const char *plan_basis_words(const struct session *session, const struct plan *plan);
/* Writes nothing if there are no other ways. */
void plan_ways_table(const struct report *report, const struct plan_ways *ways);

#endif
