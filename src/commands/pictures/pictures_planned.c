#include "commands/pictures/pictures_planned.h"

#include "commands/pictures/pictures_parts.h"

#include "commands/pictures/pictures.h"
#include "commands/plan/waves_plan.h"

#include <math.h>
#include <string.h>

static size_t count_state(const struct planned_row *rows, size_t count, const char *state)
{
    size_t found = 0;
    for (size_t i = 0; i < count; i++)
        found += !strcmp(rows[i].state, state);
    return found;
}

static const char *planned_sentence(const struct pictures *pictures, const struct planned_row *rows, size_t count)
{
    double off = 0;
    size_t done = count_state(rows, count, "done");
    for (size_t i = 0; i < count; i++)
        if (rows[i].done)
            off += rows[i].done->load_kg[LOAD_STRAIGHT] - rows[i].planned->straight_kg;
    const char *words = arena_printf(pictures->session->arena,
                                     "Of %zu planned weeks %zu done, %zu missed, %zu to come.", count, done,
                                     count_state(rows, count, "missed"), count_state(rows, count, "to come"));
    if (!done || isnan(off))
        return words;
    off /= (double)done;
    if (round(10 * picture_load(pictures, off)) == 0)
        return arena_printf(pictures->session->arena, "%s Straight weight of those done: as planned on average.",
                            words);
    return arena_printf(pictures->session->arena, "%s Straight weight of those done: %s %s than planned on average.",
                        words, picture_load_words(pictures, fabs(off)), off < 0 ? "less" : "more");
}

static void planned_row(struct drawn *drawn, const struct planned_row *row)
{
    const struct planned_week *planned = row->planned;
    const struct wave_week *done = row->done;
    both_day(drawn, week_monday(planned->week));
    both_load(drawn, planned->straight_kg, 1);
    both_load(drawn, done ? done->load_kg[LOAD_STRAIGHT] : NAN, 1);
    both_load(drawn, planned->bottom_kg, 1);
    both_load(drawn, done ? done->load_kg[LOAD_BOTTOM] : NAN, 1);
    both_load(drawn, planned->top_kg, 1);
    both_load(drawn, done ? done->load_kg[LOAD_TOP] : NAN, 1);
    both_load(drawn, planned->volume_mean_kg, 0);
    both_load(drawn, done ? done->volume_kg[LOAD_MEAN] : NAN, 0);
    both_text(drawn, row->state);
    both_end(drawn);
}

static bool same_plan(const struct planned_week *a, const struct planned_week *b)
{
    return a->focus == b->focus && !strcmp(a->lifter, b->lifter) && !strcmp(a->lift, b->lift);
}

/* The names in the log, from the first planned week that was done, so that a page puts the picture with the lift. */
static const struct wave_week *any_done(const struct planned_row *rows, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (rows[i].done)
            return rows[i].done;
    return NULL;
}

void add_planned(struct pictures *pictures, const struct waves *waves)
{
    struct arena *arena = pictures->session->arena;
    size_t count = 0;
    const struct planned_row *rows = pictures->session->options->plan ? planned_rows(pictures->session, waves, &count)
                                                                      : NULL;
    for (size_t i = 0, end; i < count; i = end) {
        const struct planned_week *first = rows[i].planned;
        for (end = i; end < count && same_plan(first, rows[end].planned); end++)
            ;
        const struct wave_week *done = any_done(&rows[i], end - i);
        const char *what = arena_printf(arena, "%s: planned and done", focus_name(first->focus));
        struct drawn drawn = picture_begin(
            pictures,
            &(struct picture_of){PICTURE_PLANNED, done ? done->lifter : first->lifter, done ? done->lift : first->lift,
                                 first->focus, "planned", arena_printf(arena, "%s planned", focus_name(first->focus)),
                                 what, planned_sentence(pictures, &rows[i], end - i)});
        DATA_TITLES(&drawn, "week of", "planned straight kg", "done", "planned bottom kg", "done", "planned top kg",
                    "done", "planned volume kg", "done", "state");
        gp_block(drawn.script, "$WEEKS");
        for (size_t j = i; j < end; j++)
            planned_row(&drawn, &rows[j]);
    }
}
