/* loads: one row a set. */
#include "commands/command.h"

#include "commands/tables.h"

#include <math.h>

struct turned /* a text that changes: the new one stands beside the old, for a cell's text is known by its address */
{
    char texts[2][192];
    unsigned turn;
};

struct loads_row
{
    const struct lifted *lifted;
    const struct log *log;
    struct turned assumed, from;
    bool for_people;
};

static char *next_text(struct turned *turned)
{
    turned->turn = !turned->turn;
    return turned->texts[turned->turn];
}

static const char *text_of(const struct turned *turned)
{
    return turned->texts[turned->turn];
}

#define COVERAGE 2 /* k of an expanded uncertainty U = k u: GUM, 6.3.3 */

/* Text says ± U, and only where chains or bands leave something uncertain; files hold u. */
static double uncertainty_shown(const struct loads_row *row, double u_kg)
{
    if (!row->for_people)
        return u_kg;
    return row->lifted->has_ar ? COVERAGE * u_kg : NAN;
}

/* With the decimals that the log carries. */
static void cell_load(struct cell *cell, const struct load *load, double kg)
{
    cell_number(cell, kg);
    if (load->decimals > 1)
        cell->decimals = load->decimals;
}

/* One list, of which the columns and their cells are made. */
#define COLUMNS(FIRST, NEXT)                                                                                 \
    FIRST("file", NULL, QUANTITY_PLAIN, 0, name, of->log->files.items[set->file].path)                       \
    NEXT("line", NULL, QUANTITY_PLAIN, 0, count, (long)set->line)                                            \
    NEXT("date", "date", QUANTITY_PLAIN, 0, day, set->day)                                                   \
    NEXT("week", NULL, QUANTITY_PLAIN, 0, week, lifted->week)                                                \
    NEXT("lifter", "lifter", QUANTITY_PLAIN, 0, name, lifted->lifter)                                        \
    NEXT("lift", "lift", QUANTITY_PLAIN, 0, name, lifted->lift)                                              \
    NEXT("focus", "focus", QUANTITY_PLAIN, 0, name, focus_name(lifted->focus))                               \
    NEXT("kind", "kind", QUANTITY_PLAIN, 0, name, set_kind_name((enum set_kind)set->kind))                   \
    NEXT("set", "set", QUANTITY_PLAIN, 0, count, (long)lifted->number)                                       \
    NEXT("reps", "reps", QUANTITY_PLAIN, 0, count, set->reps)                                                \
    NEXT("rpe", "RPE", QUANTITY_PLAIN, 1, number, set->rpe)                                                  \
    NEXT("rir", NULL, QUANTITY_PLAIN, 0, number, set->rir)                                                   \
    NEXT("velocity", NULL, QUANTITY_PLAIN, 2, number, set->velocity_ms)                                      \
    NEXT("straight_kg", "straight kg", QUANTITY_LOAD, 1, load, set->load, effect->straight_kg)               \
    NEXT("bottom_kg", "bottom kg", QUANTITY_LOAD, 1, load, set->load, effect->bottom_kg)                     \
    NEXT("top_kg", "top kg", QUANTITY_LOAD, 1, load, set->load, effect->top_kg)                              \
    NEXT("mean_kg", "mean kg", QUANTITY_LOAD, 1, load, set->load, effect->mean_kg)                           \
    NEXT("bottom_u_kg", "bottom ± kg", QUANTITY_LOAD, 1, number, uncertainty_shown(of, effect->bottom_u_kg)) \
    NEXT("top_u_kg", "top ± kg", QUANTITY_LOAD, 1, number, uncertainty_shown(of, effect->top_u_kg))          \
    NEXT("ar", "chain and band", QUANTITY_PLAIN, 0, name, set->load->ar)                                     \
    NEXT("one_rm_kg", "1RM kg", QUANTITY_LOAD, 1, number, lifted->one_rm.kg)                                 \
    NEXT("one_rm_from", NULL, QUANTITY_PLAIN, 0, name, text_of(&of->from))                                   \
    NEXT("share", "share", QUANTITY_SHARE, 1, number, ar_share(lifted))                                      \
    NEXT("intensity", "of 1RM", QUANTITY_SHARE, 1, number, intensity_of(lifted))                             \
    NEXT("e1rm_low_kg", NULL, QUANTITY_LOAD, 1, number, lifted->e1rm_low_kg)                                 \
    NEXT("e1rm_high_kg", NULL, QUANTITY_LOAD, 1, number, lifted->e1rm_high_kg)                               \
    NEXT("assumed", "assumed", QUANTITY_PLAIN, 0, name, text_of(&of->assumed))                               \
    NEXT("note", NULL, QUANTITY_PLAIN, 0, name, set->note)                                                   \
    NEXT("lowering_top_kg", NULL, QUANTITY_LOAD, 1, number, effect->lowering_top_kg)

static void get_set(const void *row, struct cell *cell)
{
    const struct loads_row *of = row;
    const struct lifted *lifted = of->lifted;
    const struct set *set = lifted->set;
    const struct effect *effect = lifted->effect;
#define CELL(name, title, quantity, decimals, kind, ...) cell_##kind(cell++, __VA_ARGS__);
    COLUMNS(CELL, CELL)
#undef CELL
}

static const struct column columns[] = {
#define FIRST(name, title, quantity, decimals, ...) {name, title, quantity, decimals, get_set},
#define NEXT(name, title, quantity, decimals, ...) {name, title, quantity, decimals, NULL},
    COLUMNS(FIRST, NEXT)
#undef FIRST
#undef NEXT
};

/* Most sets have what the set before them had: it is printed again only where it differs. */
static void fill_row(struct loads_row *row, const struct lifted *lifted)
{
    const struct lifted *before = row->lifted;
    if (!before || before->assumed != lifted->assumed)
        assumptions_print(next_text(&row->assumed), lifted->assumed);
    if (!before || before->one_rm.from != lifted->one_rm.from || before->one_rm.day != lifted->one_rm.day)
        one_rm_print(next_text(&row->from), &lifted->one_rm);
    row->lifted = lifted;
}

void loads_table(struct session *session, struct output *output)
{
    struct table_style style = session_style(session, output);
    struct table_writer *writer = table_open(session->arena, output, columns, sizeof columns / sizeof *columns, &style);
    struct loads_row row = {.log = session->log, .for_people = style.format == FORMAT_TEXT};
    for (size_t i = 0; i < session->training->count; i++) {
        fill_row(&row, &session->training->sets[i]);
        table_row(writer, &row);
    }
    table_close(writer);
}

enum exit_status run_loads(struct arena *arena, const struct options *options)
{
    struct session session;
    session_open(&session, arena, options, false);
    struct output *output = session_output(&session);
    if (!output)
        return session_close(&session);
    loads_table(&session, output);
    session_commit(&session, output);
    return session_close(&session);
}
