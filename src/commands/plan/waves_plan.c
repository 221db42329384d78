/* waves --plan: what was planned against what was done, week by week. */
#include "commands/plan/waves_plan.h"

#include "base/text.h"
#include "reading/lift_names.h"

#include <math.h>
#include <string.h>

#define GET(name, ...)                                                                                                 \
    static void get_##name(const void *item, struct cell *cell)                                                        \
    {                                                                                                                  \
        const struct planned_row *row = item;                                                                          \
        const struct planned_week *planned = row->planned;                                                             \
        const struct wave_week *done = row->done;                                                                      \
        (void)planned, (void)done;                                                                                     \
        __VA_ARGS__;                                                                                                   \
    }

GET(lifter, cell_text(cell, planned->lifter))
GET(lift, cell_text(cell, planned->lift))
GET(focus, cell_text(cell, focus_name(planned->focus)))
GET(step, if (planned->step) cell_count(cell, (long)planned->step))
GET(week, cell_week(cell, planned->week))
GET(state, cell_text(cell, row->state))
GET(planned_ar, cell_text(cell, planned->ar))
GET(done_ar, cell_text(cell, done ? done->ar : ""))

/* Three columns of one quantity: planned, done, done minus planned. */
#define BESIDE(name, plan_value, done_value)                                                                           \
    GET(planned_##name, cell_number(cell, plan_value))                                                                 \
    GET(done_##name, cell_number(cell, done ? (done_value) : NAN))                                                     \
    GET(off_##name, cell_number(cell, done ? (done_value) - (plan_value) : NAN))

BESIDE(straight, planned->straight_kg, done->load_kg[LOAD_STRAIGHT])
BESIDE(bottom, planned->bottom_kg, done->load_kg[LOAD_BOTTOM])
BESIDE(top, planned->top_kg, done->load_kg[LOAD_TOP])
BESIDE(volume, planned->volume_mean_kg, done->volume_kg[LOAD_MEAN])

static const struct column columns[] = {
    {"lifter", "lifter", QUANTITY_PLAIN, 0, get_lifter},
    {"lift", "lift", QUANTITY_PLAIN, 0, get_lift},
    {"focus", "focus", QUANTITY_PLAIN, 0, get_focus},
    {"step", NULL, QUANTITY_PLAIN, 0, get_step},
    {"week", "week", QUANTITY_PLAIN, 0, get_week},
    {"state", "state", QUANTITY_PLAIN, 0, get_state}, /* done, missed, to come */
    {"planned_straight_kg", "straight kg", QUANTITY_LOAD, 1, get_planned_straight},
    {"done_straight_kg", "done", QUANTITY_LOAD, 1, get_done_straight},
    {"off_straight_kg", "off", QUANTITY_LOAD, 1, get_off_straight},
    {"planned_bottom_kg", "bottom kg", QUANTITY_LOAD, 1, get_planned_bottom},
    {"done_bottom_kg", "done", QUANTITY_LOAD, 1, get_done_bottom},
    {"off_bottom_kg", "off", QUANTITY_LOAD, 1, get_off_bottom},
    {"planned_top_kg", "top kg", QUANTITY_LOAD, 1, get_planned_top},
    {"done_top_kg", "done", QUANTITY_LOAD, 1, get_done_top},
    {"off_top_kg", "off", QUANTITY_LOAD, 1, get_off_top},
    {"planned_volume_mean_kg", "volume kg", QUANTITY_LOAD, 0, get_planned_volume},
    {"done_volume_mean_kg", "done", QUANTITY_LOAD, 0, get_done_volume},
    {"off_volume_mean_kg", "off", QUANTITY_LOAD, 0, get_off_volume},
    {"planned_ar", NULL, QUANTITY_PLAIN, 0, get_planned_ar},
    {"done_ar", NULL, QUANTITY_PLAIN, 0, get_done_ar},
};

static bool same_lift(struct session *session, const char *a, const char *b)
{
    return text_same_name(lift_main_name(session->arena, session->gym, a),
                          lift_main_name(session->arena, session->gym, b));
}

/* A plan that does not name a lifter is for the only lifter of the log. */
static bool is_lifter(const struct session *session, const char *planned, const char *done)
{
    return text_same_name(planned, done) || (!*planned && names_count(session->log->lifters) == 1);
}

static const struct wave_week *week_done(struct session *session, const struct waves *waves,
                                         const struct planned_week *planned)
{
    for (size_t i = 0; i < waves->all_count; i++) {
        const struct wave_week *week = &waves->all[i];
        if (week->week == planned->week && week->focus == planned->focus &&
            is_lifter(session, planned->lifter, week->lifter) && same_lift(session, planned->lift, week->lift))
            return week;
    }
    return NULL;
}

/* --lifter, --lift, --from and --to select from the plan as they do from the log. */
static bool is_asked_for(struct session *session, const struct planned_week *planned)
{
    const struct options *options = session->options;
    bool lifter = !session->lifters.count, lift = !session->lifts.count;
    for (size_t i = 0; i < session->lifters.count; i++)
        lifter = lifter || text_same_name(session->lifters.names[i], planned->lifter);
    for (size_t i = 0; i < session->lifts.count; i++)
        lift = lift || same_lift(session, session->lifts.names[i], planned->lift);
    return lifter && lift && (options->from == NO_DAY || week_monday(planned->week) + 6 >= options->from) &&
           (options->to == NO_DAY || week_monday(planned->week) <= options->to);
}

const struct planned_row *planned_rows(struct session *session, const struct waves *waves, size_t *count)
{
    struct planned_weeks plan = {0};
    *count = 0;
    struct input *input = input_open(session->arena, session->options->plan, session->diags);
    bool read = input && plan_read(session->arena, input, session->diags, &plan);
    input_close(input);
    if (!read) {
        session->unreadable = true;
        return NULL;
    }
    struct planned_row *rows = ARENA_ARRAY(session->arena, struct planned_row, plan.list.count + 1);
    for (size_t i = 0; i < plan.list.count; i++) {
        const struct planned_week *planned = &plan.list.items[i];
        if (!is_asked_for(session, planned))
            continue;
        const struct wave_week *done = week_done(session, waves, planned);
        bool over = planned->week < week_of(session->training->options.today);
        rows[(*count)++] = (struct planned_row){planned, done, done ? "done" : over ? "missed" : "to come"};
    }
    return rows;
}

struct columns planned_columns(void)
{
    return COLUMNS_OF(columns);
}

void show_planned(struct session *session, const struct waves *waves)
{
    size_t count;
    const struct planned_row *rows = planned_rows(session, waves, &count);
    if (rows)
        session_table(session, columns, sizeof columns / sizeof *columns, rows, count, sizeof *rows);
}
