/* plan, for people: a card that a coach can print and take to the platform. */
#ifndef TAUTLINE_COMMANDS_PLAN_TEXT_H
#define TAUTLINE_COMMANDS_PLAN_TEXT_H

#include "commands/plan/plan.h"

/* A card for a coach to print, with everything that the plan is based on and its warnings; of several ways it shows
 * the first, and the effect of the others. */
void plan_card(struct session *session, struct output *output, const struct plan *plan, const struct plan_ways *ways);

/* Why there is no plan, and which options would give one; owned by the arena. */
const char *plan_reason(struct arena *arena, const struct plan *plan);

/* "Oda Brandvik: squat, speed". */
const char *plan_title(struct arena *arena, const struct plan *plan);

/* What to load in a week: "25 + 10 + 2.5" on each side of a bar; "BW+10 kg" for a weight hung from the body, "30 kg a
 * hand"; "": no advice. */
const char *plan_plates(struct arena *arena, const struct plan *plan, const struct plan_week *week);

/* One sentence for each load of a week that needs a warning; "" where there is none. */
const char *plan_alarm(const struct session *session, const struct plan *plan, const struct plan_week *week);

#endif
