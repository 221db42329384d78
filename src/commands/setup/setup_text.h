/* setup, for people: the load by height, the totals, each piece, what was assumed. */
#ifndef TAUTLINE_COMMANDS_SETUP_TEXT_H
#define TAUTLINE_COMMANDS_SETUP_TEXT_H

#include "commands/setup/setup.h"

/* Writes all about one load. */
void setup_text(const struct setup_view *view, struct output *output);

/* For people: "107.2 kg", "0.79 m" (millimetres only where there are some) or "31.1 in", "20.1 %"; the arena's. */
const char *show_load(const struct session *session, double kg);
const char *show_metres(const struct session *session, double metres);
const char *show_percent(struct arena *arena, double fraction);
const char *setup_speed(const struct setup_view *view); /* "0.50 m/s on average" */
const char *setup_whose(const struct setup_view *view); /* "Maren Holtvik, squat" */
const char *setup_whose_max(
    const struct setup_view *view); /* "Maren Holtvik, squat, 1RM 112.0 kg (tested 2026-10-03)" */

/* A report without logs: its headings, paragraphs and cautions. */
struct report setup_report(const struct setup_view *view, struct output *output);

#endif
