#include "commands/report/verdict_sentence.h"

#include "base/number.h"
#include "base/pounds.h"
#include "commands/session/summary.h"

#include <math.h>
#include <string.h>

struct said /* what all parts of the answer use */
{
    struct arena *arena;
    const struct verdict *verdict;
    enum mass_unit unit;
    bool verbose; /* the statistics, too */
};

static char *load_words(const struct said *said, double kg, int decimals, bool is_signed)
{
    char text[32];
    double value = kg_to(kg, said->unit), shown;
    number_fixed(text, sizeof text, fabs(value), decimals);
    bool zero = number_whole(text, '.', &shown) && shown == 0;
    return arena_printf(said->arena, "%s%s %s",
                        zero || (!is_signed && value > 0) ? ""
                        : value < 0                       ? "-"
                                                          : "+",
                        text, mass_unit_name(said->unit));
}

static char *signed_load(const struct said *said, double kg, int decimals)
{
    return load_words(said, kg, decimals, true);
}

static const char *day_words(const struct said *said, day_number day)
{
    char buffer[16];
    date_print_words(buffer, day);
    return arena_copy(said->arena, buffer);
}

const char *verdict_words(const struct verdict *verdict)
{
    static const char *const words[] = {
        [VERDICT_TOO_EARLY] = "too early to tell",
        [VERDICT_OPEN] = "open",
        [VERDICT_LEVEL] = "level",
        [VERDICT_RISING] = "rising",
        [VERDICT_FALLING] = "falling",
        [VERDICT_STALE] = "not trained lately",
        [VERDICT_NEW_SETUP] = "new set-up",
        [VERDICT_RESTARTED] = "restarted",
        [VERDICT_NO_WAVES] = "no waves",
    };
    static const char *const by_week[] = {
        [TENDENCY_TOO_EARLY] = "no waves",           [TENDENCY_OPEN] = "open, by the week",
        [TENDENCY_LEVEL] = "level, by the week",     [TENDENCY_RISING] = "rising, by the week",
        [TENDENCY_FALLING] = "falling, by the week",
    };
    return verdict->kind == VERDICT_NO_WAVES ? by_week[verdict->trend.tendency] : words[verdict->kind];
}

/* --- the verdict ----------------------------------------------------------------------------------------------------------------- */

static const char *per_words(const struct verdict_trend *trend)
{
    return trend->by_week ? "week" : "wave";
}

static char *count_words(const struct said *said, size_t count, const struct verdict_trend *trend)
{
    return arena_printf(said->arena, "%zu %s%s", count, per_words(trend), count == 1 ? "" : "s");
}

/* "+0.5 kg a wave at bottom and top", or each end by itself where they differ. */
static char *slope_words(const struct said *said, const struct verdict_trend *trend)
{
    double bottom = trend->slope_kg[LOAD_BOTTOM], top = trend->slope_kg[LOAD_TOP];
    const char *bottom_words = signed_load(said, bottom, 2), *top_words = signed_load(said, top, 2);
    if (!*trend->ar)
        return arena_printf(said->arena, "%s a %s", top_words, per_words(trend));
    if (!strcmp(bottom_words, top_words))
        return arena_printf(said->arena, "%s a %s at the bottom and at the top", top_words, per_words(trend));
    return arena_printf(said->arena, "%s a %s at the bottom, %s at the top", bottom_words, per_words(trend), top_words);
}

static const char *interval_words(const struct said *said, const struct verdict_trend *trend)
{
    if (!said->verbose)
        return "";
    return arena_printf(said->arena, " (95 %% interval %s to %s)", signed_load(said, trend->low_kg, 2),
                        signed_load(said, trend->high_kg, 2));
}

static char *direction_words(const struct said *said, const struct verdict_trend *trend)
{
    return arena_printf(said->arena, "%s %s%s, over %s since %s",
                        trend->tendency == TENDENCY_RISING ? "rising" : "falling", slope_words(said, trend),
                        interval_words(said, trend), count_words(said, trend->waves, trend),
                        day_words(said, trend->since));
}

static char *level_words(const struct said *said, const struct verdict_trend *trend)
{
    double most = fmax(fabs(trend->low_kg), fabs(trend->high_kg));
    const char *change = most > 0 ? arena_printf(said->arena, "any change is at most %s a %s",
                                                 load_words(said, most, 2, false), per_words(trend))
                                  : "the loads do not change";
    return arena_printf(said->arena, "level for %s, since %s: %s", count_words(said, trend->waves, trend),
                        day_words(said, trend->since), change);
}

/* "1 more wave" */
static char *more_words(const struct said *said, const struct verdict_trend *trend)
{
    return arena_printf(said->arena, "%u more %s%s", trend->more_waves, per_words(trend),
                        trend->more_waves == 1 ? "" : "s");
}

static char *open_words(const struct said *said, const struct verdict_trend *trend)
{
    const char *more = trend->by_week          ? ""
                       : trend->more_waves > 0 ? arena_printf(said->arena, "; %s will tell", more_words(said, trend))
                                               : "; the loads vary too much for eight waves to show it";
    return arena_printf(said->arena, "open: %s so far%s, over %s since %s%s", slope_words(said, trend),
                        interval_words(said, trend), count_words(said, trend->waves, trend),
                        day_words(said, trend->since), more);
}

static char *early_words(const struct said *said, const struct verdict_trend *trend)
{
    const char *out = trend->stands_out_kg > 0
                          ? arena_printf(said->arena,
                                         "; between two waves, a change of %s would stand clear of the scatter so far",
                                         load_words(said, trend->stands_out_kg, 1, false))
                          : "";
    return arena_printf(said->arena, "too early: %s so far, and it takes %d%s", count_words(said, trend->waves, trend),
                        VERDICT_LEAST_WAVES, out);
}

static char *tendency_words(const struct said *said, const struct verdict_trend *trend)
{
    switch (trend->tendency) {
    case TENDENCY_RISING:
    case TENDENCY_FALLING:
        return direction_words(said, trend);
    case TENDENCY_LEVEL:
        return level_words(said, trend);
    case TENDENCY_OPEN:
        return open_words(said, trend);
    case TENDENCY_TOO_EARLY:
        break;
    }
    return early_words(said, trend);
}

static const char *ar_words(const struct said *said, const char *ar)
{
    return *ar ? load_in_unit(said->arena, ar, said->unit) : "straight weight alone";
}

static char *setup_words(const struct said *said)
{
    const struct verdict_fact *fact = &said->verdict->fact;
    const char *what = fact->exists ? arena_printf(said->arena, ": %s, before %s", ar_words(said, fact->ar),
                                                   ar_words(said, fact->against_ar))
                                    : "";
    return arena_printf(said->arena, "new set-up since %s%s", day_words(said, said->verdict->trend.since), what);
}

static char *answer(const struct said *said)
{
    const struct verdict *verdict = said->verdict;
    char *tendency = tendency_words(said, &verdict->trend);
    switch (verdict->kind) {
    case VERDICT_STALE:
        return arena_printf(said->arena, "not trained since %s, while the log goes on to %s; until then %s",
                            day_words(said, verdict->as_of), day_words(said, verdict->log_last), tendency);
    case VERDICT_NEW_SETUP:
        return setup_words(said);
    case VERDICT_RESTARTED:
        return arena_printf(said->arena, "restarted after the test of %s (%s); before it %s",
                            day_words(said, verdict->tested.day), load_words(said, verdict->tested.kg, 1, false),
                            tendency);
    case VERDICT_NO_WAVES:
        return arena_printf(said->arena, "no waves; by the week %s", tendency);
    case VERDICT_TOO_EARLY:
    case VERDICT_OPEN:
    case VERDICT_LEVEL:
    case VERDICT_RISING:
    case VERDICT_FALLING:
        break;
    }
    return tendency;
}

char *verdict_sentence(struct arena *arena, const struct verdict *verdict, enum mass_unit unit, bool verbose)
{
    struct said said = {arena, verdict, unit, verbose};
    char *words = answer(&said);
    *words = (char)(*words >= 'a' && *words <= 'z' ? *words - 'a' + 'A' : *words);
    return verdict->kind == VERDICT_STALE
               ? arena_printf(arena, "%s.", words)
               : arena_printf(arena, "%s (as of %s).", words, day_words(&said, verdict->as_of));
}

/* --- the fact -------------------------------------------------------------------------------------------------------------------- */

static char *ends_words(const struct said *said)
{
    const struct verdict_fact *fact = &said->verdict->fact;
    double bottom = fact->over_kg[LOAD_BOTTOM], top = fact->over_kg[LOAD_TOP];
    if (!*fact->ar && !*fact->against_ar)
        return signed_load(said, fact->over_kg[LOAD_STRAIGHT], 1);
    return arena_printf(said->arena, "%s at the bottom, %s at the top",
                        isnan(bottom) ? "unknown" : signed_load(said, bottom, 1),
                        isnan(top) ? "unknown" : signed_load(said, top, 1));
}

/* What changed the mean load: the straight weight, the chains and bands, or both. */
static const char *split_words(const struct said *said)
{
    const struct verdict_fact *fact = &said->verdict->fact;
    if (fact->same_setup)
        return *fact->ar ? "; the same chains and bands" : "";
    if (isnan(fact->over_ar_kg))
        return "; the set-up changed";
    return arena_printf(said->arena,
                        "; the set-up changed: straight weight accounts for %s of the %s by which the mean load "
                        "changed, chains and bands for %s",
                        signed_load(said, fact->over_weight_kg, 1), signed_load(said, fact->over_kg[LOAD_MEAN], 1),
                        signed_load(said, fact->over_ar_kg, 1));
}

static char *span_words(const struct said *said, day_number first, day_number last)
{
    return arena_printf(said->arena, "%s to %s", day_words(said, first), day_words(said, last));
}

char *fact_sentence(struct arena *arena, const struct verdict *verdict, enum mass_unit unit)
{
    struct said said = {arena, verdict, unit, false};
    const struct verdict_fact *fact = &verdict->fact;
    if (!fact->exists)
        return arena_copy(arena, "");
    return arena_printf(arena, "Wave %u (%s) against wave %u (%s), %zu week%s: %s; volume %s a week%s.", fact->wave,
                        span_words(&said, fact->wave_first, fact->wave_last), fact->against,
                        span_words(&said, fact->against_first, fact->against_last), fact->steps,
                        fact->steps == 1 ? "" : "s", ends_words(&said), signed_load(&said, fact->over_volume_kg, 0),
                        split_words(&said));
}
