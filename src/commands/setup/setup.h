/* setup: the load of a set-up along the lift, and the search for a set-up; what its files share. */
#ifndef TAUTLINE_COMMANDS_SETUP_H
#define TAUTLINE_COMMANDS_SETUP_H

#include "analysis/one_rm.h"
#include "commands/command.h"
#include "commands/report/report_text.h"
#include "commands/session/session.h"
#include "model/effect.h"
#include "model/inertia.h"

struct setup_view /* one load for one lifter, lift and day */
{
    struct session *session;
    struct loading_context context; /* its 1RM is the one below */
    const char *lifter, *lift;      /* names for people; "" where not said */
    struct one_rm one_rm;           /* names for people; "" where not given */
    const struct load *load;
    const struct loading *loading;
    struct effect effect;      /* `assumed` with all there is to say */
    struct bar_motion motion;  /* of --speed; mean_ms is 0: not asked */
    const char *straight_from; /* what the straight weight is by default, in words; NULL: it was given */
};

double setup_share(const struct setup_view *view);     /* (L_t − L_b) / 1RM; NAN: unknown */
bool setup_curve_known(const struct setup_view *view); /* heights and all gear */

struct setup_push /* load and inertia together, where that is most; all NAN: no speed was given */
{
    double push_kg, inertia_kg, at_m;
};
struct setup_push setup_most_push(const struct setup_view *view);

enum exit_status run_setup(struct arena *arena, const struct options *options);

#endif
