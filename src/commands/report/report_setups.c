#include "commands/report/report_setups.h"

#include "commands/report/report_text.h"

#include "analysis/evaluated_set.h"
#include "base/names.h"

#include <string.h>

struct setup_use
{
    const struct evaluated_set *newest;
    size_t sets;
    const char *name;
};

static void get_use_lift(const void *row, struct cell *cell)
{
    cell_text(cell, ((const struct setup_use *)row)->name);
}

static void get_use_ar(const void *row, struct cell *cell)
{
    cell_text(cell, ((const struct setup_use *)row)->newest->set->ar->ar);
}

static void get_use_sets(const void *row, struct cell *cell)
{
    cell_count(cell, (long)((const struct setup_use *)row)->sets);
}

#define USE(name, member)                                                                                              \
    static void get_use_##name(const void *row, struct cell *cell)                                                     \
    {                                                                                                                  \
        cell_number(cell, ((const struct setup_use *)row)->newest->effect->member);                                    \
    }
USE(straight, straight_kg)
USE(bottom, bottom_kg)
USE(top, top_kg)
USE(mean, mean_kg)

#define WORTH_SAYING_KG 0.5 /* a smaller uncertainty is not shown in the table */

/* Expanded uncertainty, k = 2. */
static void expanded(struct cell *cell, double u_kg)
{
    if (2 * u_kg > WORTH_SAYING_KG)
        cell_number(cell, 2 * u_kg);
}

static void get_use_bottom_u(const void *row, struct cell *cell)
{
    expanded(cell, ((const struct setup_use *)row)->newest->effect->bottom_u_kg);
}

static void get_use_top_u(const void *row, struct cell *cell)
{
    expanded(cell, ((const struct setup_use *)row)->newest->effect->top_u_kg);
}

static void get_use_share(const void *row, struct cell *cell)
{
    cell_number(cell, ar_share(((const struct setup_use *)row)->newest));
}

static const struct column use_columns[] = {
    {"lift", "lift", QUANTITY_PLAIN, 0, get_use_lift},
    {"sets", "sets", QUANTITY_PLAIN, 0, get_use_sets},
    {"straight_kg", "straight", QUANTITY_LOAD, 1, get_use_straight},
    {"bottom_kg", "bottom", QUANTITY_LOAD, 1, get_use_bottom},
    {"bottom_u_kg", "\u00B1", QUANTITY_LOAD, 1, get_use_bottom_u},
    {"top_kg", "top", QUANTITY_LOAD, 1, get_use_top},
    {"top_u_kg", "\u00B1", QUANTITY_LOAD, 1, get_use_top_u},
    {"mean_kg", "mean", QUANTITY_LOAD, 1, get_use_mean},
    {"share", "share", QUANTITY_SHARE, 0, get_use_share},
    {"ar", "chain and band", QUANTITY_GEAR, 0, get_use_ar},
};

static bool is_asked(const char *lifter, const char *name)
{
    return !lifter || !strcmp(lifter, name);
}

struct setup_uses
{
    const struct report *report;
    struct map *by_words, *by_place; /* index in the list: by names and AR as text, and by their ids */
    LIST(struct setup_use) list;
};

static size_t *find_use(struct setup_uses *uses, const struct evaluated_set *evaluated)
{
    struct arena *arena = uses->report->session->arena;
    const char *key = arena_printf(arena, "%s\n%s\n%s", evaluated->lifter, evaluated->lift, evaluated->ar_key);
    size_t *place = map_get(uses->by_words, key, strlen(key));
    if (!place) {
        place = ARENA_NEW(arena, size_t);
        *place = uses->list.count;
        *LIST_ADD(arena, &uses->list) = (struct setup_use){
            .name = series_name(uses->report, evaluated->lifter, evaluated->lift, FOCUS_UNSAID)};
        map_put(uses->by_words, key, strlen(key), place);
    }
    return place;
}

/* Most sets have the same words as another set: a key is built only once for each combination of ids. */
static struct setup_use *use_of(struct setup_uses *uses, const struct evaluated_set *evaluated)
{
    const char *words[] = {evaluated->lifter, evaluated->lift, evaluated->ar_key};
    size_t *place = map_get(uses->by_place, (const char *)words, sizeof words);
    if (!place) {
        place = find_use(uses, evaluated);
        map_put(uses->by_place, (const char *)words, sizeof words, place);
    }
    return &uses->list.items[*place];
}

struct report_rows report_load_rows(const struct report *report, const char *lifter)
{
    struct arena *arena = report->session->arena;
    const struct training *training = report->session->training;
    struct setup_uses uses = {.report = report, .by_words = map_new(arena), .by_place = map_new(arena)};
    for (size_t i = 0; i < training->count; i++) {
        const struct evaluated_set *evaluated = &training->sets[i];
        if (!evaluated->has_ar || !is_work(evaluated) || !is_asked(lifter, evaluated->lifter))
            continue;
        struct setup_use *use = use_of(&uses, evaluated);
        use->sets++;
        use->newest = evaluated;
    }
    return (struct report_rows){use_columns, sizeof use_columns / sizeof *use_columns, uses.list.items, uses.list.count,
                                sizeof *uses.list.items};
}

void report_loads(const struct report *report)
{
    struct report_rows rows = report_load_rows(report, NULL);
    if (!rows.count)
        return;
    report_heading(report, "Chains and bands used");
    report_paragraph(report,
                     arena_printf(report->session->arena,
                                  "What the bar weighed in %s at the newest working set of each; \u00B1 is given "
                                  "where it is not small, and covers 19 cases in 20.",
                                  mass_unit_name(report->session->unit)),
                     2);
    output_text(report->output, "\n");
    report_table(report, &rows);
}
