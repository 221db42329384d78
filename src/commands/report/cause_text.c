#include "commands/report/cause_text.h"

#include "base/number.h"
#include "base/text.h"
#include "commands/session/summary.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* --- words about a finding ------------------------------------------------------------------------------------------ */

static const char *number_words(const struct report *report, const struct finding *finding, double number)
{
    struct arena *arena = report->session->arena;
    enum mass_unit unit = report->session->unit;
    char buffer[32];
    bool is_kg = finding->unit == FINDING_KG, is_share = finding->unit == FINDING_SHARE;
    bool is_jump = finding->id == FINDING_SHARE_JUMP; /* per cent to per cent */
    number_fixed(buffer, sizeof buffer,
                 is_kg      ? kg_to(number, unit)
                 : is_share ? 100 * number
                            : number,
                 is_kg || is_share ? 1 : 0);
    return arena_printf(arena, "%s %s", buffer,
                        is_kg      ? mass_unit_name(unit)
                        : is_jump  ? "points"
                        : is_share ? "%"
                                   : "days");
}

const char *finding_limit_words(const struct report *report, const struct finding *finding)
{
    bool is_known = finding->unit == FINDING_KG || finding->unit == FINDING_SHARE || finding->unit == FINDING_DAYS;
    bool is_question = finding->id == FINDING_SLIP;
    bool is_within = finding->id == FINDING_BAND_MISMATCH &&
                     finding->value <= finding->limit; /* no excess to show: the finding is about different labels */
    if (!is_known || is_question || is_within || isnan(finding->value) ||
        !(finding->limit > 0)) /* a limit of 0 adds no information */
        return "";
    return arena_printf(report->session->arena, "Found %s, limit %s.", number_words(report, finding, finding->value),
                        number_words(report, finding, finding->limit));
}

const char *finding_lines_words(const struct report *report, const struct finding *finding)
{
    struct arena *arena = report->session->arena;
    size_t shown = finding->runs < FINDING_LINES ? finding->runs : FINDING_LINES;
    const char *words = "";
    for (size_t i = 0; i < shown; i++) {
        const struct finding_lines *run = &finding->lines[i];
        const char *path = report->session->log->files.items[run->file].path;
        bool same_file = i && finding->lines[i - 1].file == run->file;
        words = arena_printf(arena, "%s%s%s%u", words, i ? ", " : "", same_file ? "" : arena_printf(arena, "%s:", path),
                             run->first);
        if (run->last > run->first)
            words = arena_printf(arena, "%s-%u", words, run->last);
    }
    if (finding->runs > shown)
        words = arena_printf(arena, "%s and %zu more %s", words, finding->runs - shown,
                             plural(finding->runs - shown, "place", "places"));
    return words;
}

/* --- words about a cause -------------------------------------------------------------------------------------------- */

static bool is_of_waves(enum finding_id id)
{
    return id >= FINDING_SETUP_CHANGED && id <= FINDING_SHARE_JUMP;
}

#define LIFTS_NAMED 3

static const char *lifts_words(struct arena *arena, const struct cause *cause)
{
    const char *words = "";
    if (cause->lift_count > LIFTS_NAMED)
        return arena_printf(arena, "%zu lifts", cause->lift_count);
    for (size_t i = 0; i < cause->lift_count; i++)
        words = arena_printf(arena, "%s%s%s", words, i ? ", " : "", cause->lifts[i]);
    return words;
}

const char *cause_of_what(const struct report *report, const struct cause *cause)
{
    const struct evaluated_set *first = cause->newest->first;
    bool one_focus = is_of_waves(cause->id) && cause->lift_count == 1;
    return series_name(report, first->lifter, lifts_words(report->session->arena, cause),
                       one_focus ? first->focus : FOCUS_UNSAID);
}

static const char *times_words(struct arena *arena, size_t times)
{
    return times == 1 ? "once" : times == 2 ? "twice" : arena_printf(arena, "%zu times", times);
}

static const char *day_words(struct arena *arena, day_number day)
{
    char words[16];
    date_print_words(words, day);
    return arena_copy(arena, words);
}

const char *cause_when(struct arena *arena, const struct cause *cause)
{
    if (cause->first == cause->last)
        return arena_printf(arena, "once, on %s", day_words(arena, cause->first));
    if (cause->episodes == 1)
        return arena_printf(arena, "%s to %s", day_words(arena, cause->first), day_words(arena, cause->last));
    const char *often = is_of_waves(cause->id) ? arena_printf(arena, "in %zu waves, ", cause->episodes)
                        : cause->episodes > cause->lift_count
                            ? arena_printf(arena, "%s, ", times_words(arena, cause->episodes))
                            : ""; /* once for each lift that is named */
    return arena_printf(arena, "%s%s to %s", often, day_words(arena, cause->first), day_words(arena, cause->last));
}

const char *cause_effects(struct arena *arena, const struct cause *cause)
{
    const char *words = "";
    size_t counts[FINDING_COUNT] = {0}, kinds = 0, told = 0;
    for (size_t i = 0; i < cause->count; i++)
        counts[cause->findings[i]->id]++;
    for (size_t id = 0; id < FINDING_COUNT; id++)
        kinds += counts[id] && id != cause->id;
    for (size_t id = 0; id < FINDING_COUNT; id++) {
        if (!counts[id] || id == cause->id)
            continue;
        words = arena_printf(arena, "%s%s%s %s", words,
                             !told               ? ""
                             : told + 1 == kinds ? " and "
                                                 : ", ",
                             finding_kinds[id].id, times_words(arena, counts[id]));
        told++;
    }
    return words;
}

const char *cause_place(const struct report *report, const struct cause *cause)
{
    const struct set *set = cause->newest->first->set;
    const char *path = report->session->log->files.items[set->file].path;
    const char *slash = strrchr(path, '/');
    return arena_printf(report->session->arena, "%s:%u", slash && slash[1] ? slash + 1 : path, set->line);
}

#define DAY_CHARS 10 /* 2026-01-12 */
#define WEEK_CHARS 8 /* 2026-W03 */

/* "2026-W03": its Monday. */
static bool read_week(const char *at, day_number *monday)
{
    static const char form[WEEK_CHARS + 1] = "0000-W00";
    for (size_t i = 0; i < WEEK_CHARS; i++)
        if (form[i] == '0' ? at[i] < '0' || at[i] > '9' : at[i] != form[i])
            return false;
    day_number fourth; /* of January, which is in the first week */
    char text[DAY_CHARS + 1];
    snprintf(text, sizeof text, "%.4s-01-04", at);
    if (!date_read_iso(text, &fourth))
        return false;
    *monday = week_monday(week_of(fourth) + (week_number)(10 * (at[6] - '0') + at[7] - '0') - 1);
    return true;
}

/* After "in" a week is called one; in a span, its Monday is enough. */
const char *with_day_words(struct arena *arena, const char *text)
{
    const char *words = "", *told = text;
    for (const char *at = text; strlen(at) >= WEEK_CHARS;) {
        day_number day;
        bool is_day = strlen(at) >= DAY_CHARS && at[4] == '-' && at[7] == '-' &&
                      date_read_iso(arena_text(arena, at, DAY_CHARS), &day);
        if (!is_day && !read_week(at, &day)) {
            at++;
            continue;
        }
        bool in_week = !is_day && at - text >= 3 && !memcmp(at - 3, "in ", 3);
        words = arena_printf(arena, "%s%.*s%s%s", words, (int)(at - told), told, in_week ? "the week of " : "",
                             day_words(arena, day));
        told = at += is_day ? DAY_CHARS : WEEK_CHARS;
    }
    return arena_printf(arena, "%s%s", words, told);
}

const char *cause_sentence(const struct report *report, const struct cause *cause)
{
    struct arena *arena = report->session->arena;
    const char *effects = cause_effects(arena, cause);
    return text_visible(arena, arena_printf(arena, "%s: %s (%s)%s%s. %s. %s", cause_of_what(report, cause),
                                            with_day_words(arena, cause->newest->what), cause_when(arena, cause),
                                            *effects ? "; it also led to " : "", effects, cause_remedy(cause),
                                            cause_place(report, cause)));
}
