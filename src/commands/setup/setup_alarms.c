#include "commands/setup/setup_alarms.h"

#include "analysis/plan/plan.h"
#include "commands/setup/setup_text.h"

const char *setup_alarm(const struct setup_view *view, const struct effect *effect)
{
    struct arena *arena = view->session->arena;
    double one_rm_kg = view->one_rm.kg;
    bool above = effect->straight_kg > one_rm_kg, heavy = effect->top_kg > PLAN_MOST_TOP * one_rm_kg; /* false if NAN */
    const char *straight = "", *top = "";
    if (above)
        straight = arena_printf(arena, "puts %s on the bar, more than the 1RM of %s",
                                show_load(view->session, effect->straight_kg), show_load(view->session, one_rm_kg));
    if (heavy)
        top = arena_printf(arena, "%sweighs %s at the top, %s of the 1RM", above ? ", and " : "",
                           show_load(view->session, effect->top_kg), show_percent(arena, effect->top_kg / one_rm_kg));
    return arena_printf(arena, "%s%s", straight, top);
}

bool setup_bands_too_early(const struct setup_view *view, const struct load *load)
{
    const struct lifter *lifter = view->context.lifter;
    return lifter && lifter->experience == EXPERIENCE_NEW && load_has(load, PIECE_BAND);
}
