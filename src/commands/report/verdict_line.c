#include "commands/report/verdict_line.h"

#include "base/number.h"
#include "base/pounds.h"
#include "base/text.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* --- loads ---------------------------------------------------------------------------------------------------------- */

static double rounded(double kg, enum mass_unit unit)
{
    double value = round(10 * kg_to(kg, unit)) / 10;
    return value == 0 ? 0 : value; /* turns -0 into 0 */
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

/* A change that would be rounded to 0 gets two decimals: a rising lift must not rise by 0 kg. */
static const char *slope_load_words(struct arena *arena, double kg, enum mass_unit unit)
{
    char text[32];
    double value = round(100 * kg_to(kg, unit)) / 100;
    if (rounded(kg, unit) != 0 || value == 0 || isnan(value))
        return signed_load_words(arena, kg, unit);
    number_print(text, value);
    return arena_printf(arena, "%s%s %s", value > 0 ? "+" : "", text, mass_unit_name(unit));
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

/* "+2.4 kg at bottom and top", "+1 kg at the bottom and +2.4 kg at the top"; each followed by `per`: " a wave". */
static const char *ends_words(struct arena *arena, const double kg[LOAD_MEASURES], bool has_ar, const char *per,
                              enum mass_unit unit)
{
    double bottom = kg[LOAD_BOTTOM], top = kg[LOAD_TOP], straight = kg[LOAD_STRAIGHT];
    if (!has_ar)
        return arena_printf(arena, "%s%s", slope_load_words(arena, straight, unit), per);
    if (isnan(bottom) && isnan(top))
        return arena_printf(arena, "%s%s of straight weight", slope_load_words(arena, straight, unit), per);
    const char *bottom_words = slope_load_words(arena, bottom, unit), *top_words = slope_load_words(arena, top, unit);
    if (isnan(bottom) || isnan(top))
        return arena_printf(arena, "%s%s at the %s", isnan(top) ? bottom_words : top_words, per,
                            isnan(top) ? "bottom" : "top");
    if (!strcmp(bottom_words, top_words))
        return arena_printf(arena, "%s%s at bottom and top", top_words, per);
    return arena_printf(arena, "%s%s at the bottom, %s at the top", bottom_words, per, top_words);
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
    bool same = true; /* and known */
    for (int measure = 0; measure < LOAD_MEASURES; measure++)
        same &= verdict->fact.over_kg[measure] == 0;
    if (same)
        return "newest unchanged";
    return arena_printf(arena, "newest %s", ends_words(arena, verdict->fact.over_kg, verdict->has_ar, "", unit));
}

/* What is needed to settle an open trend; "" where that is not known. */
static const char *more_words(struct arena *arena, const struct verdict_trend *trend)
{
    const char *per = trend->by_week ? "week" : "wave";
    if (!trend->more_waves)
        return "";
    return trend->more_waves == 1 ? arena_printf(arena, "; 1 more %s will tell", per)
                                  : arena_printf(arena, "; %u more %ss will tell", trend->more_waves, per);
}

/* At every end that is known. */
static bool slope_is_nothing(const struct verdict *verdict, enum mass_unit unit)
{
    static const enum load_measure ends[] = {LOAD_STRAIGHT, LOAD_BOTTOM, LOAD_TOP};
    for (size_t i = 0; i < sizeof ends / sizeof *ends; i++) {
        double kg = verdict->trend.slope_kg[ends[i]];
        if (!isnan(kg) && round(100 * kg_to(kg, unit)) != 0)
            return false;
    }
    return true;
}

static const char *tendency_line(struct arena *arena, const struct verdict *verdict, enum mass_unit unit, bool brief)
{
    const struct verdict_trend *trend = &verdict->trend;
    double most = fmax(fabs(trend->low_kg), fabs(trend->high_kg));
    const char *per = trend->by_week ? "week" : "wave";
    switch (trend->tendency) {
    case TENDENCY_RISING:
    case TENDENCY_FALLING:
        if (slope_is_nothing(verdict, unit)) /* most weeks are alike, and the few that are not go one way */
            return arena_printf(arena, "%s, in rare steps%s%s", tendency_word(trend->tendency), brief ? "" : " since ",
                                brief ? "" : date_words(arena, trend->since));
        return arena_printf(arena, "%s: %s%s%s", tendency_word(trend->tendency), slope_words(arena, verdict, unit),
                            brief ? "" : " since ", brief ? "" : date_words(arena, trend->since));
    case TENDENCY_LEVEL:
        return arena_printf(
            arena, "%s for %s: %s", verdict_rank(verdict) == RANK_STALLED ? "stalled, level" : "level",
            counted(arena, trend),
            rounded(most, unit) > 0
                ? arena_printf(arena, "within %s %s a %s", load_number(arena, most, unit), mass_unit_name(unit), per)
                : "no change");
    case TENDENCY_OPEN:
        return arena_printf(arena, "open: %s in %s%s", slope_words(arena, verdict, unit), counted(arena, trend),
                            brief ? "" : more_words(arena, trend));
    case TENDENCY_TOO_EARLY:
        break;
    }
    const char *fact = brief && !verdict->fact.exists ? ""
                                                      : arena_printf(arena, ": %s", fact_words(arena, verdict, unit));
    return arena_printf(arena, "too early%s, %s%s", brief ? "" : " to tell", counted(arena, trend), fact);
}

/* " (was open)"; "" in the brief form. */
static const char *earlier_words(struct arena *arena, const struct verdict *verdict, bool brief)
{
    enum tendency tendency = verdict->trend.tendency;
    return brief
               ? ""
               : arena_printf(arena, " (%s)",
                              tendency == TENDENCY_TOO_EARLY ? "too few waves before"
                                                             : arena_printf(arena, "was %s", tendency_word(tendency)));
}

static const char *setup_line(struct arena *arena, const struct verdict *verdict, enum mass_unit unit, bool brief)
{
    const char *fact = fact_words(arena, verdict, unit);
    return brief ? arena_printf(arena, "new set-up, %s", fact)
                 : arena_printf(arena, "new set-up: %s, %s",
                                *verdict->fact.ar ? load_in_unit(arena, verdict->fact.ar, unit) : "straight weight",
                                fact);
}

static const char *line_of(struct arena *arena, const struct verdict *verdict, enum mass_unit unit, bool brief)
{
    switch (verdict->kind) {
    case VERDICT_STALE:
        return arena_printf(arena, "stale: last trained on %s%s", date_words(arena, verdict->as_of),
                            earlier_words(arena, verdict, brief));
    case VERDICT_NEW_SETUP:
        return setup_line(arena, verdict, unit, brief);
    case VERDICT_RESTARTED:
        return arena_printf(arena, "restarted after the test of %s%s", date_words(arena, verdict->tested.day),
                            earlier_words(arena, verdict, brief));
    case VERDICT_NO_WAVES:
        return arena_printf(arena, "no waves; by weeks %s", tendency_line(arena, verdict, unit, brief));
    case VERDICT_TOO_EARLY:
    case VERDICT_OPEN:
    case VERDICT_LEVEL:
    case VERDICT_RISING:
    case VERDICT_FALLING:
        break;
    }
    return tendency_line(arena, verdict, unit, brief);
}

const char *verdict_line(struct arena *arena, const struct verdict *verdict, enum mass_unit unit)
{
    return line_of(arena, verdict, unit, false);
}

const char *verdict_line_dated(struct arena *arena, const struct verdict *verdict, enum mass_unit unit)
{
    const char *line = line_of(arena, verdict, unit, false), *day = "";
    size_t length = strlen(line);
    bool in_brackets = length && line[length - 1] == ')'; /* one pair holds both */
    if (verdict->kind != VERDICT_STALE)
        day = arena_printf(arena, in_brackets ? "; as of %s)" : " (as of %s)", date_words(arena, verdict->as_of));
    char *words = arena_printf(arena, "%.*s%s.", (int)(length - (*day && in_brackets)), line, day);
    *words = (char)(*words >= 'a' && *words <= 'z' ? *words - 'a' + 'A' : *words);
    return words;
}

/* "since 27 Mar" is enough in the year of the heading's date. */
static const char *without_year(struct arena *arena, const char *words, day_number as_of)
{
    int year, month, day;
    date_split(as_of, &year, &month, &day);
    const char *written = arena_printf(arena, " %d", year), *found = strstr(words, written);
    return found ? arena_printf(arena, "%.*s%s", (int)(found - words), words, found + strlen(written)) : words;
}

const char *verdict_line_within(struct arena *arena, const struct verdict *verdict, enum mass_unit unit, size_t width)
{
    const char *whole = text_visible(arena, line_of(arena, verdict, unit, false));
    if (text_width(whole) <= width)
        return whole;
    const char *shorter = verdict->as_of == NO_DAY ? whole : without_year(arena, whole, verdict->as_of);
    if (text_width(shorter) <= width)
        return shorter;
    return text_cut(arena, text_visible(arena, line_of(arena, verdict, unit, true)), width);
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
    return a < b ? -1 : a > b; /* in the order of their array: by lift, then focus */
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
