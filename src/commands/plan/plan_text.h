/* plan, for people: a card that a coach can print and take to the platform. */
#ifndef TAUTLINE_COMMANDS_PLAN_TEXT_H
#define TAUTLINE_COMMANDS_PLAN_TEXT_H

#include "commands/plan/plan.h"

/* A card for a coach to print, with all that the plan rests on and raises; of several ways the first, and what the
 * others do. */
void plan_card(struct session *session, struct output *output, const struct plan *plan, const struct plan_ways *ways);

/* Why there is no plan, and what to say to get one; the arena's. */
const char *plan_reason(struct arena *arena, const struct plan *plan);

/* "Oda Brandvik: squat, speed". */
const char *plan_title(struct arena *arena, const struct plan *plan);

/* What to load for a week: "25 + 10 + 2.5" on each side of a bar; "BW+10 kg" hung from the body, "30 kg a hand"; "":
 * any. */
const char *plan_plates(struct arena *arena, const struct plan *plan, const struct plan_week *week);

/* One sentence for each load of a week that nobody should meet unwarned; "" where there is none. */
const char *plan_alarm(const struct session *session, const struct plan *plan, const struct plan_week *week);

#endif
