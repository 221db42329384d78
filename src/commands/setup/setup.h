/* setup: what a set-up weighs along the lift, and the search for one; what its files share. */
#ifndef TAUTLINE_COMMANDS_SETUP_H
#define TAUTLINE_COMMANDS_SETUP_H

#include "analysis/one_rm.h"
#include "commands/report/report_text.h"
#include "commands/session/session.h"
#include "model/effect.h"

struct setup_view /* one load for one lifter, lift and day */
{
    struct session *session;
    struct loading_context context; /* its 1RM is that below */
    const char *lifter, *lift;      /* names for people; "" where not said */
    struct one_rm one_rm;           /* of --max: no day */
    const struct load *load;
    const struct loading *loading;
    struct effect effect; /* `assumed` with all there is to say */
};

double setup_share(const struct setup_view *view);     /* (L_t − L_b) / 1RM; NAN: unknown */
bool setup_curve_known(const struct setup_view *view); /* heights and all gear */

/* Forms of one load. */
void setup_text(const struct setup_view *view, struct output *output);
void setup_row(const struct setup_view *view);   /* --format csv or json */
void setup_curve(const struct setup_view *view); /* --curve */
void setup_plot(const struct setup_view *view);  /* --plot */

/* --share. The view's load is the straight weight. */
void setup_find(const struct setup_view *view);

/* For people: "107.2 kg", "0.79 m" (millimetres only where there are some), "20.1 %"; the arena's. */
const char *show_load(const struct session *session, double kg);
const char *show_metres(struct arena *arena, double metres);
const char *show_percent(struct arena *arena, double fraction);
const char *setup_whose(const struct setup_view *view); /* "Maren Holtvik, squat" */
const char *
setup_whose_max(const struct setup_view *view); /* "Maren Holtvik, squat, 1RM 112.0 kg (tested 2026-10-03)" */
/* A report that has no logs behind it: its headings, paragraphs and cautions. */
struct report setup_report(const struct setup_view *view, struct output *output);

#endif
