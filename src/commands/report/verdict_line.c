#include "commands/report/verdict_line.h"

#include "base/number.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* --- loads ---------------------------------------------------------------------------------------------------------- */

static double rounded(double kg, enum mass_unit unit)
{
    double value = round(10 * kg_to(kg, unit)) / 10;
    return value == 0 ? 0 : value; /* no -0 */
}

const char *load_number(struct arena *arena, double kg, enum mass_unit unit)
{
    char text[32];
    number_print(text, rounded(kg, unit));
    return arena_copy(arena, text);
}

const char *signed_load_words(struct arena *arena, double kg, enum mass_unit unit)
{
    return arena_printf(arena, "%s%s %s", rounded(kg, unit) > 0 ? "+" : "", load_number(arena, kg, unit),
                        mass_unit_name(unit));
}

static const char *date_words(struct arena *arena, day_number day)
{
    char text[16];
    date_print_words(text, day);
    return arena_copy(arena, text);
}

/* --- in a word or two ----------------------------------------------------------------------------------------------- */

enum verdict_rank verdict_rank(const struct verdict *verdict)
{
    switch (verdict->kind) {
    case VERDICT_FALLING:
        return RANK_FALLING;
    case VERDICT_LEVEL:
        return verdict->trend.waves >= STALLED_WAVES && !verdict->trend.by_week ? RANK_STALLED : RANK_REST;
    case VERDICT_NEW_SETUP:
        return RANK_NEW_SETUP;
    case VERDICT_STALE:
        return RANK_STALE;
    case VERDICT_RISING:
        return RANK_RISING;
    case VERDICT_TOO_EARLY:
    case VERDICT_OPEN:
    case VERDICT_RESTARTED:
    case VERDICT_NO_WAVES:
        break;
    }
    return RANK_REST;
}

const char *verdict_short(const struct verdict *verdict)
{
    static const char *const words[] = {
        [VERDICT_TOO_EARLY] = "too early to tell",
        [VERDICT_OPEN] = "open",
        [VERDICT_LEVEL] = "level",
        [VERDICT_RISING] = "rising",
        [VERDICT_FALLING] = "falling",
        [VERDICT_STALE] = "stale",
        [VERDICT_NEW_SETUP] = "new set-up",
        [VERDICT_RESTARTED] = "restarted",
        [VERDICT_NO_WAVES] = "without waves",
    };
    return verdict_rank(verdict) == RANK_STALLED ? "stalled" : words[verdict->kind];
}

/* --- in a line ------------------------------------------------------------------------------------------------------ */

static bool same_words(struct arena *arena, double a, double b, enum mass_unit unit)
{
    return !strcmp(load_number(arena, a, unit), load_number(arena, b, unit));
}

/* "+2.4 kg at both ends", "+1 kg at the bottom and +2.4 kg at the top"; each followed by `per`: " a wave". */
static const char *ends_words(struct arena *arena, const double kg[LOAD_MEASURES], bool has_ar, const char *per,
                              enum mass_unit unit)
{
    double bottom = kg[LOAD_BOTTOM], top = kg[LOAD_TOP], straight = kg[LOAD_STRAIGHT];
    if (!has_ar)
        return arena_printf(arena, "%s%s", signed_load_words(arena, straight, unit), per);
    if (isnan(bottom) && isnan(top))
        return arena_printf(arena, "%s%s of straight weight", signed_load_words(arena, straight, unit), per);
    if (isnan(bottom) || isnan(top))
        return arena_printf(arena, "%s%s at the %s", signed_load_words(arena, isnan(top) ? bottom : top, unit), per,
                            isnan(top) ? "bottom" : "top");
    if (same_words(arena, bottom, top, unit))
        return arena_printf(arena, "%s%s at both ends", signed_load_words(arena, top, unit), per);
    return arena_printf(arena, "%s%s at the bottom, %s at the top", signed_load_words(arena, bottom, unit), per,
                        signed_load_words(arena, top, unit));
}

static const char *slope_words(struct arena *arena, const struct verdict *verdict, enum mass_unit unit)
{
    const struct verdict_trend *trend = &verdict->trend;
    return ends_words(arena, trend->slope_kg, verdict->has_ar, trend->by_week ? " a week" : " a wave", unit);
}

static const char *counted(struct arena *arena, const struct verdict_trend *trend)
{
    const char *thing = trend->by_week ? "week" : "wave";
    return arena_printf(arena, "%zu %s%s", trend->waves, thing, trend->waves == 1 ? "" : "s");
}

static const char *fact_words(struct arena *arena, const struct verdict *verdict, enum mass_unit unit)
{
    if (!verdict->fact.exists)
        return "nothing to compare it with";
    return arena_printf(arena, "newest %s", ends_words(arena, verdict->fact.over_kg, verdict->has_ar, "", unit));
}

static const char *tendency_line(struct arena *arena, const struct verdict *verdict, enum mass_unit unit)
{
    const struct verdict_trend *trend = &verdict->trend;
    double most = fmax(fabs(trend->low_kg), fabs(trend->high_kg));
    const char *per = trend->by_week ? "week" : "wave";
    switch (trend->tendency) {
    case TENDENCY_RISING:
    case TENDENCY_FALLING:
        return arena_printf(arena, "%s: %s since %s", tendency_word(trend->tendency), slope_words(arena, verdict, unit),
                            date_words(arena, trend->since));
    case TENDENCY_LEVEL:
        return arena_printf(
            arena, "%s for %s: %s", verdict_rank(verdict) == RANK_STALLED ? "stalled, level" : "level",
            counted(arena, trend),
            rounded(most, unit) > 0
                ? arena_printf(arena, "within %s %s a %s", load_number(arena, most, unit), mass_unit_name(unit), per)
                : "no change");
    case TENDENCY_OPEN:
        return arena_printf(arena, "open: %s in %s%s", slope_words(arena, verdict, unit), counted(arena, trend),
                            !trend->more_waves ? ""
                            : trend->more_waves == 1
                                ? arena_printf(arena, "; 1 more %s would tell", per)
                                : arena_printf(arena, "; %u more %ss would tell", trend->more_waves, per));
    case TENDENCY_TOO_EARLY:
        break;
    }
    return arena_printf(arena, "too early to tell, %s: %s", counted(arena, trend), fact_words(arena, verdict, unit));
}

const char *verdict_line(struct arena *arena, const struct verdict *verdict, enum mass_unit unit)
{
    switch (verdict->kind) {
    case VERDICT_STALE:
        return arena_printf(arena, "stale: last trained on %s; %s until then", date_words(arena, verdict->as_of),
                            verdict->trend.tendency == TENDENCY_TOO_EARLY ? "too few waves"
                                                                          : tendency_word(verdict->trend.tendency));
    case VERDICT_NEW_SETUP:
        return arena_printf(arena, "new set-up: %s, %s", *verdict->fact.ar ? verdict->fact.ar : "straight weight",
                            fact_words(arena, verdict, unit));
    case VERDICT_RESTARTED:
        return arena_printf(arena, "restarted after the test of %s; %s before", date_words(arena, verdict->tested.day),
                            verdict->trend.tendency == TENDENCY_TOO_EARLY ? "too few waves"
                                                                          : tendency_word(verdict->trend.tendency));
    case VERDICT_NO_WAVES:
        return arena_printf(arena, "no waves; by weeks %s", tendency_line(arena, verdict, unit));
    case VERDICT_TOO_EARLY:
    case VERDICT_OPEN:
    case VERDICT_LEVEL:
    case VERDICT_RISING:
    case VERDICT_FALLING:
        break;
    }
    return tendency_line(arena, verdict, unit);
}

/* --- which ---------------------------------------------------------------------------------------------------------- */

static int by_rank(const void *left, const void *right)
{
    const struct verdict *a = *(const struct verdict *const *)left, *b = *(const struct verdict *const *)right;
    if (verdict_rank(a) != verdict_rank(b))
        return (int)verdict_rank(a) - (int)verdict_rank(b);
    if (a->has_ar != b->has_ar)
        return b->has_ar - a->has_ar;
    if (a->waves != b->waves)
        return a->waves < b->waves ? 1 : -1;
    return a < b ? -1 : a > b; /* of one array: by lift, then focus */
}

const struct verdict *const *verdicts_ranked(struct arena *arena, const struct verdict *verdicts, size_t count,
                                             const char *lifter)
{
    const struct verdict **ranked = ARENA_ARRAY(arena, const struct verdict *, count + 1);
    size_t found = 0;
    for (size_t i = 0; i < count; i++)
        if (!strcmp(verdicts[i].lifter, lifter))
            ranked[found++] = &verdicts[i];
    if (found)
        qsort(ranked, found, sizeof *ranked, by_rank);
    return ranked;
}
