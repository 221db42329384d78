/* loads: one row a set. */
#include "commands/command.h"

#include "commands/tables.h"

#include <math.h>

struct loads_row
{
    const struct lifted *lifted;
    const struct log *log;
    char assumed[192], from[32];
    bool for_people;
};

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

#define GET(name, ...)                                                                       \
    static void get_##name(const void *row, struct cell *cell)                               \
    {                                                                                        \
        const struct loads_row *r = row;                                                     \
        const struct lifted *lifted = r->lifted;                                             \
        const struct set *set = lifted->set;                                                 \
        (void)set;                                                                           \
        __VA_ARGS__;                                                                         \
    }

GET(file, cell_text(cell, r->log->files.items[set->file].path))
GET(line, cell_count(cell, (long)set->line))
GET(date, cell_day(cell, set->day))
GET(week, cell_week(cell, lifted->week))
GET(lifter, cell_text(cell, lifted->lifter))
GET(lift, cell_text(cell, lifted->lift))
GET(focus, cell_text(cell, focus_name(lifted->focus)))
GET(kind, cell_text(cell, set_kind_name((enum set_kind)set->kind)))
GET(set, cell_count(cell, (long)lifted->number))
GET(reps, cell_count(cell, set->reps))
GET(rpe, cell_number(cell, set->rpe))
GET(rir, cell_number(cell, set->rir))
GET(velocity, cell_number(cell, set->velocity_ms))
GET(straight, cell_load(cell, set->load, lifted->effect->straight_kg))
GET(bottom, cell_load(cell, set->load, lifted->effect->bottom_kg))
GET(top, cell_load(cell, set->load, lifted->effect->top_kg))
GET(mean, cell_load(cell, set->load, lifted->effect->mean_kg))
GET(bottom_u, cell_number(cell, uncertainty_shown(r, lifted->effect->bottom_u_kg)))
GET(top_u, cell_number(cell, uncertainty_shown(r, lifted->effect->top_u_kg)))
GET(ar, cell_text(cell, set->load->ar))
GET(one_rm, cell_number(cell, lifted->one_rm.kg))
GET(one_rm_from, cell_text(cell, r->from))
GET(share, cell_number(cell, ar_share(lifted)))
GET(intensity, cell_number(cell, intensity_of(lifted)))
GET(e1rm_low, cell_number(cell, lifted->e1rm_low_kg))
GET(e1rm_high, cell_number(cell, lifted->e1rm_high_kg))
GET(assumed, cell_text(cell, r->assumed))
GET(note, cell_text(cell, set->note))
GET(lowering_top, cell_number(cell, lifted->effect->lowering_top_kg))

static const struct column columns[] = {
    {"file", NULL, QUANTITY_PLAIN, 0, get_file},
    {"line", NULL, QUANTITY_PLAIN, 0, get_line},
    {"date", "date", QUANTITY_PLAIN, 0, get_date},
    {"week", NULL, QUANTITY_PLAIN, 0, get_week},
    {"lifter", "lifter", QUANTITY_PLAIN, 0, get_lifter},
    {"lift", "lift", QUANTITY_PLAIN, 0, get_lift},
    {"focus", "focus", QUANTITY_PLAIN, 0, get_focus},
    {"kind", "kind", QUANTITY_PLAIN, 0, get_kind},
    {"set", "set", QUANTITY_PLAIN, 0, get_set},
    {"reps", "reps", QUANTITY_PLAIN, 0, get_reps},
    {"rpe", "RPE", QUANTITY_PLAIN, 1, get_rpe},
    {"rir", NULL, QUANTITY_PLAIN, 0, get_rir},
    {"velocity", NULL, QUANTITY_PLAIN, 2, get_velocity},
    {"straight_kg", "straight kg", QUANTITY_LOAD, 1, get_straight},
    {"bottom_kg", "bottom kg", QUANTITY_LOAD, 1, get_bottom},
    {"top_kg", "top kg", QUANTITY_LOAD, 1, get_top},
    {"mean_kg", "mean kg", QUANTITY_LOAD, 1, get_mean},
    {"bottom_u_kg", "bottom ± kg", QUANTITY_LOAD, 1, get_bottom_u},
    {"top_u_kg", "top ± kg", QUANTITY_LOAD, 1, get_top_u},
    {"ar", "chain and band", QUANTITY_PLAIN, 0, get_ar},
    {"one_rm_kg", "1RM kg", QUANTITY_LOAD, 1, get_one_rm},
    {"one_rm_from", NULL, QUANTITY_PLAIN, 0, get_one_rm_from},
    {"share", "share", QUANTITY_SHARE, 1, get_share},
    {"intensity", "of 1RM", QUANTITY_SHARE, 1, get_intensity},
    {"e1rm_low_kg", NULL, QUANTITY_LOAD, 1, get_e1rm_low},
    {"e1rm_high_kg", NULL, QUANTITY_LOAD, 1, get_e1rm_high},
    {"assumed", "assumed", QUANTITY_PLAIN, 0, get_assumed},
    {"note", NULL, QUANTITY_PLAIN, 0, get_note},
    {"lowering_top_kg", NULL, QUANTITY_LOAD, 1, get_lowering_top},
};

/* Most sets have what the set before them had: it is printed again only where it differs. */
static void fill_row(struct loads_row *row, const struct lifted *lifted)
{
    const struct lifted *before = row->lifted;
    if (!before || before->assumed != lifted->assumed)
        assumptions_print(row->assumed, lifted->assumed);
    if (!before || before->one_rm.from != lifted->one_rm.from || before->one_rm.day != lifted->one_rm.day)
        one_rm_print(row->from, &lifted->one_rm);
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
