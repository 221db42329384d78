#include "commands/report/overload_sentence.h"

#include "commands/report/report_text.h"

#include "base/number.h"

#include <math.h>

static char *signed_load(struct arena *arena, double kg, enum mass_unit unit, int decimals)
{
    char text[32];
    double value = kg_to(kg, unit);
    number_fixed(text, sizeof text, fabs(value), decimals);
    double shown;
    bool zero = number_whole(text, '.', &shown) && shown == 0;
    return arena_printf(arena, "%s%s %s", zero ? "" : value < 0 ? "-" : "+", text, mass_unit_name(unit));
}

static const char *verdict_words(enum overload_verdict verdict)
{
    static const char *const words[] = {
        [OVERLOAD_NO_WAVE] = "No wave yet: no two weeks in a row hold or raise the working load.",
        [OVERLOAD_ONE_WAVE] = "One wave so far, with nothing to compare it with.",
        [OVERLOAD_UNKNOWN] = "Cannot be told: the load is unknown at both ends.",
        [OVERLOAD_BOTH] = "Yes, at the bottom and at the top.",
        [OVERLOAD_TOP] = "At the top only.",
        [OVERLOAD_BOTTOM] = "At the bottom only.",
        [OVERLOAD_NONE] = "No: the loads are the same.",
        [OVERLOAD_LIGHTER] = "No: it is lighter.",
    };
    return words[verdict];
}

/* Without chains and bands bottom and top are the same load. */
static const char *straight_words(enum overload_verdict verdict)
{
    return verdict == OVERLOAD_BOTH ? "Yes." : verdict_words(verdict);
}

const char *overload_verdict_words(const struct overload *overload)
{
    static const char *const words[] = {
        [OVERLOAD_NO_WAVE] = "no wave yet",
        [OVERLOAD_ONE_WAVE] = "one wave so far",
        [OVERLOAD_UNKNOWN] = "cannot be told",
        [OVERLOAD_BOTH] = "yes",
        [OVERLOAD_TOP] = "at the top only",
        [OVERLOAD_BOTTOM] = "at the bottom only",
        [OVERLOAD_NONE] = "no, the same",
        [OVERLOAD_LIGHTER] = "no, lighter",
    };
    return words[overload->verdict];
}

/* What moved the mean load: the straight weight, the chains and bands, or both. */
static char *split(struct arena *arena, const struct overload *overload, enum mass_unit unit)
{
    if (isnan(overload->over_ar_kg) || overload->same_ar)
        return arena_copy(arena, "");
    return arena_printf(arena, "; the set-up changed: of the mean load's %s the straight weight did %s, chains and bands %s",
                        signed_load(arena, overload->over_kg[LOAD_MEAN], unit, 1), signed_load(arena, overload->over_weight_kg, unit, 1),
                        signed_load(arena, overload->over_ar_kg, unit, 1));
}

static char *ends(struct arena *arena, const struct overload *overload, enum mass_unit unit)
{
    double bottom = overload->over_kg[LOAD_BOTTOM], top = overload->over_kg[LOAD_TOP];
    if (!overload->has_ar)
        return signed_load(arena, overload->over_kg[LOAD_STRAIGHT], unit, 1);
    return arena_printf(arena, "%s at the bottom, %s at the top", isnan(bottom) ? "unknown" : signed_load(arena, bottom, unit, 1),
                        isnan(top) ? "unknown" : signed_load(arena, top, unit, 1));
}

/* The long run, where it has a direction. */
static char *long_run(struct arena *arena, const struct overload *overload, enum mass_unit unit)
{
    if (!*slope_direction(&overload->top))
        return arena_copy(arena, "");
    return arena_printf(arena, " Over all %u waves it goes %s: %s a wave%s.", overload->waves, slope_direction(&overload->top),
                        signed_load(arena, overload->top.slope, unit, 1), overload->has_ar ? " at the top" : "");
}

char *overload_sentence(struct arena *arena, const struct overload *overload, enum mass_unit unit)
{
    const char *words = overload->has_ar ? verdict_words(overload->verdict) : straight_words(overload->verdict);
    if (!overload->steps)
        return arena_copy(arena, words);
    return arena_printf(arena, "%s Wave %u beside wave %u, %zu week%s compared: %s; volume %s a week%s.%s", words, overload->newest, overload->before,
                        overload->steps, overload->steps == 1 ? "" : "s", ends(arena, overload, unit),
                        signed_load(arena, overload->over_volume_kg, unit, 0), split(arena, overload, unit), long_run(arena, overload, unit));
}
