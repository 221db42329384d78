/* A lifter's year on one sheet: a strip for each lift and focus in waves. */
#include "commands/pictures/pictures_year.h"

#include "base/text.h"
#include "commands/report/verdict_line.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define STRIPS_SHOWN 6
#define STRIPS_ON_PAGE 4 /* one printed sheet holds no more */
#define WEEKS_SHOWN 53
#define YEAR_WIDTH 720
#define YEAR_HEIGHT 190 /* pixels, in addition to the strips */
#define STRIP_HEIGHT 132
#define TOLD 2 /* verdicts in the sentence */

struct strip /* the weeks of one lift and focus */
{
    const struct verdict *verdict;
    const struct wave_week *weeks;
    size_t count;
};

/* Lifts with chains and bands first, then by number of waves. */
static int by_interest(const void *left, const void *right)
{
    const struct strip *a = left, *b = right;
    if (a->verdict->has_ar != b->verdict->has_ar)
        return b->verdict->has_ar - a->verdict->has_ar;
    if (a->verdict->waves != b->verdict->waves)
        return a->verdict->waves < b->verdict->waves ? 1 : -1;
    return a->verdict < b->verdict ? -1 : a->verdict > b->verdict;
}

static bool is_of(const struct wave_week *week, const struct verdict *verdict)
{
    return week->focus == verdict->focus && !strcmp(week->lift, verdict->lift) &&
           !strcmp(week->lifter, verdict->lifter);
}

/* Its newest weeks up to a year before the lifter's newest. Both verdicts and weeks are by lifter, lift and focus: the
 * search goes on from where the last one ended. */
static struct strip strip_of(const struct waves *waves, const struct verdict *verdict, week_number newest, size_t *from)
{
    struct strip strip = {.verdict = verdict};
    size_t i = *from;
    while (i < waves->all_count && !is_of(&waves->all[i], verdict))
        i++;
    if (i < waves->all_count)
        *from = i;
    while (i < waves->all_count && is_of(&waves->all[i], verdict) && waves->all[i].week + WEEKS_SHOWN <= newest)
        i++;
    strip.weeks = &waves->all[i];
    while (i + strip.count < waves->all_count && is_of(&waves->all[i + strip.count], verdict))
        strip.count++;
    return strip;
}

/* *from: where the weeks of the lifter begin, or of one before. */
static week_number newest_week(const struct waves *waves, const char *lifter, size_t *from)
{
    week_number newest = INT32_MIN;
    while (*from < waves->all_count && strcmp(waves->all[*from].lifter, lifter) < 0)
        ++*from;
    for (size_t i = *from; i < waves->all_count && !strcmp(waves->all[i].lifter, lifter); i++)
        if (waves->all[i].week > newest)
            newest = waves->all[i].week;
    return newest;
}

/* --- what it draws -------------------------------------------------------------------------------------------------- */

static const char *strip_name(struct arena *arena, const struct strip *strip)
{
    return arena_printf(arena, "%s, %s", strip->verdict->lift, focus_name(strip->verdict->focus));
}

static void week_row(struct drawn *drawn, size_t number, const struct strip *strip, const struct wave_week *week)
{
    gp_cell_number(drawn->script, (double)number);
    only_text(drawn, strip_name(drawn->pictures->session->arena, strip));
    both_day(drawn, week_monday(week->week));
    both_load(drawn, week->load_kg[LOAD_STRAIGHT], 1);
    both_load(drawn, week->load_kg[LOAD_BOTTOM], 1);
    both_load(drawn, week->load_kg[LOAD_TOP], 1);
    gp_cell_number(drawn->script, week->wave);
    gp_cell_number(drawn->script, week->light);
    only_text(drawn, week->wave ? arena_printf(drawn->pictures->session->arena, "%u", week->wave) : "");
    only_text(drawn, picture_gear(drawn->pictures, week->ar));
    both_end(drawn);
}

static void gap_row(struct drawn *drawn, size_t number, week_number from, week_number to)
{
    if (from > to)
        return;
    gp_cell_number(drawn->script, (double)number);
    gp_cell_day(drawn->script, week_monday(from));
    gp_cell_day(drawn->script, week_monday(to));
    gp_row_end(drawn->script);
}

static void gap_rows(struct drawn *drawn, const struct strip *strips, size_t count, week_number newest)
{
    gp_block(drawn->script, "$GAPS");
    for (size_t s = 0; s < count; s++) {
        for (size_t i = 1; i < strips[s].count; i++)
            gap_row(drawn, s + 1, strips[s].weeks[i - 1].week + 1, strips[s].weeks[i].week - 1);
        gap_row(drawn, s + 1, strips[s].weeks[strips[s].count - 1].week + 1, newest);
    }
}

static void change_rows(struct drawn *drawn, const struct strip *strips, size_t count)
{
    gp_block(drawn->script, "$CHANGES");
    for (size_t s = 0; s < count; s++) {
        for (size_t i = 1; i < strips[s].count; i++) {
            const struct wave_week *from = &strips[s].weeks[i - 1], *to = &strips[s].weeks[i];
            if (same_ar(from->working, to->working))
                continue;
            gp_cell_number(drawn->script, (double)s + 1);
            gp_cell_day(drawn->script, week_monday(to->week));
            gp_cell_text(drawn->script, setup_change_words(drawn->pictures, from, to));
            gp_row_end(drawn->script);
        }
    }
}

/* Each tested 1RM that became current within the strip. */
static void test_rows(struct drawn *drawn, const struct strip *strips, size_t count)
{
    gp_block(drawn->script, "$TESTS");
    for (size_t s = 0; s < count; s++) {
        day_number first = week_monday(strips[s].weeks->week), told = NO_DAY;
        for (size_t i = 0; i < strips[s].count; i++) {
            const struct one_rm *one_rm = &strips[s].weeks[i].working->one_rm;
            if (one_rm->from != ONE_RM_TESTED || one_rm->day == told || one_rm->day < first)
                continue;
            told = one_rm->day;
            gp_cell_number(drawn->script, (double)s + 1);
            gp_cell_day(drawn->script, told);
            gp_cell_text(drawn->script, arena_printf(drawn->pictures->session->arena, "%s %s",
                                                     load_number(drawn->pictures->session->arena, one_rm->kg,
                                                                 drawn->pictures->session->unit),
                                                     mass_unit_name(drawn->pictures->session->unit)));
            gp_row_end(drawn->script);
        }
    }
}

/* "not clear yet, +0.2 kg a wave in 7 waves": one part of a sentence, without the report's short words. */
static const char *told_line(struct arena *arena, const struct verdict *verdict, enum mass_unit unit)
{
    static const char open[] = "open";
    const char *line = verdict_line(arena, verdict, unit), *colon = strstr(line, ": ");
    const char *first = text_starts(line, open) ? "not clear yet" : "", *rest = line + (*first ? sizeof open - 1 : 0);
    return colon ? arena_printf(arena, "%s%.*s, %s", first, (int)(colon - rest), rest, colon + 2)
                 : arena_printf(arena, "%s%s", first, rest);
}

static const char *year_sentence(const struct pictures *pictures, const struct strip *strips, size_t count)
{
    struct arena *arena = pictures->session->arena;
    const char *words = "";
    for (size_t i = 0; i < count && i < TOLD; i++)
        words = arena_printf(arena, "%s%s%s: %s.", words, i ? " " : "", strip_name(arena, &strips[i]),
                             told_line(arena, strips[i].verdict, pictures->session->unit));
    return words;
}

static void draw_year(struct pictures *pictures, const char *lifter, const struct strip *strips, size_t count,
                      week_number newest)
{
    struct arena *arena = pictures->session->arena;
    struct drawn drawn = picture_begin(pictures, &(struct picture_of){PICTURE_YEAR, lifter, "", FOCUS_UNSAID, "year",
                                                                      "year", "the year, wave by wave",
                                                                      year_sentence(pictures, strips, count)});
    if (!pictures->style.width || pictures->style.for_page) {
        gp_set_number(drawn.script, "width", YEAR_WIDTH);
        gp_set_number(drawn.script, "height",
                      YEAR_HEIGHT + STRIP_HEIGHT * (double)count - (pictures->style.for_page ? 90 : 0));
    }
    DATA_TITLES(&drawn, "lift", "week of", "straight kg", "bottom kg", "top kg", "wave", "chain and band");
    gp_block(drawn.script, "$STRIPS");
    for (size_t s = 0; s < count; s++) {
        gp_cell_text(drawn.script, strip_name(arena, &strips[s]));
        gp_row_end(drawn.script);
    }
    gp_block(drawn.script, "$WEEKS");
    for (size_t s = 0; s < count; s++)
        for (size_t i = 0; i < strips[s].count; i++)
            week_row(&drawn, s + 1, &strips[s], &strips[s].weeks[i]);
    gap_rows(&drawn, strips, count, newest);
    change_rows(&drawn, strips, count);
    test_rows(&drawn, strips, count);
}

static void add_year_of(struct pictures *pictures, const struct waves *waves, const struct verdict *verdicts,
                        size_t count, size_t *from)
{
    struct strip *strips = ARENA_ARRAY(pictures->session->arena, struct strip, count);
    week_number newest = newest_week(waves, verdicts->lifter, from);
    size_t found = 0, most = pictures->style.for_page ? STRIPS_ON_PAGE : STRIPS_SHOWN;
    for (size_t i = 0; i < count; i++) {
        if (!verdicts[i].waves || verdicts[i].focus == FOCUS_TEST)
            continue;
        strips[found] = strip_of(waves, &verdicts[i], newest, from);
        found += strips[found].count > 0;
    }
    if (!found)
        return;
    qsort(strips, found, sizeof *strips, by_interest);
    draw_year(pictures, verdicts->lifter, strips, found < most ? found : most, newest);
}

void add_years(struct pictures *pictures, const struct waves *waves)
{
    size_t count;
    const struct verdict *verdicts = session_verdicts(pictures->session, &count);
    for (size_t i = 0, end, from = 0; i < count; i = end) {
        for (end = i; end < count && !strcmp(verdicts[end].lifter, verdicts[i].lifter); end++)
            ;
        add_year_of(pictures, waves, &verdicts[i], end - i, &from);
    }
}
