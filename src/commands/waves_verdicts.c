#include "commands/waves_verdicts.h"

#include "analysis/verdict.h"

#define GET(name, ...)                                                                                                 \
    static void get_##name(const void *row, struct cell *cell)                                                         \
    {                                                                                                                  \
        const struct verdict *verdict = row;                                                                           \
        __VA_ARGS__;                                                                                                   \
    }
#define FACT(name, ...) GET(name, if (verdict->fact.exists) __VA_ARGS__)

GET(lifter, cell_text(cell, verdict->lifter))
GET(lift, cell_text(cell, verdict->lift))
GET(focus, cell_text(cell, focus_name(verdict->focus)))
GET(as_of, cell_day(cell, verdict->as_of))
GET(verdict, cell_text(cell, verdict_word(verdict->kind)))
GET(waves, cell_count(cell, (long)verdict->waves))
GET(wave, if (verdict->waves) cell_count(cell, (long)verdict->waves))
FACT(against, cell_count(cell, (long)verdict->fact.against))
FACT(steps, cell_count(cell, (long)verdict->fact.steps))
FACT(same_setup, cell_text(cell, verdict->fact.same_setup ? "yes" : "no"))
FACT(over_straight, cell_number(cell, verdict->fact.over_kg[LOAD_STRAIGHT]))
FACT(over_bottom, cell_number(cell, verdict->fact.over_kg[LOAD_BOTTOM]))
FACT(over_top, cell_number(cell, verdict->fact.over_kg[LOAD_TOP]))
FACT(over_volume, cell_number(cell, verdict->fact.over_volume_kg))
GET(slope_straight, cell_number(cell, verdict->trend.slope_kg[LOAD_STRAIGHT]))
GET(slope_bottom, cell_number(cell, verdict->trend.slope_kg[LOAD_BOTTOM]))
GET(slope_top, cell_number(cell, verdict->trend.slope_kg[LOAD_TOP]))
GET(low, cell_number(cell, verdict->trend.low_kg))
GET(high, cell_number(cell, verdict->trend.high_kg))
GET(p, cell_number(cell, verdict->trend.p))
GET(since, cell_day(cell, verdict->trend.since))
GET(direction, cell_text(cell, verdict_direction(verdict)))
GET(per, cell_text(cell, verdict->trend.by_week ? "week" : "wave"))
GET(counted, cell_count(cell, (long)verdict->trend.waves))

static const struct column columns[] = {
    {"lifter", "lifter", QUANTITY_PLAIN, 0, get_lifter},
    {"lift", "lift", QUANTITY_PLAIN, 0, get_lift},
    {"focus", "focus", QUANTITY_PLAIN, 0, get_focus},
    {"as_of", "as of", QUANTITY_PLAIN, 0, get_as_of},
    {"verdict", "verdict", QUANTITY_PLAIN, 0, get_verdict},
    {"waves", "waves", QUANTITY_PLAIN, 0, get_waves},
    {"wave", NULL, QUANTITY_PLAIN, 0, get_wave},
    {"against", "against", QUANTITY_PLAIN, 0, get_against},
    {"steps", NULL, QUANTITY_PLAIN, 0, get_steps},
    {"same_setup", "same set-up", QUANTITY_PLAIN, 0, get_same_setup},
    {"over_straight_kg", NULL, QUANTITY_LOAD, 1, get_over_straight},
    {"over_bottom_kg", "Δ bottom kg", QUANTITY_LOAD, 1, get_over_bottom},
    {"over_top_kg", "Δ top kg", QUANTITY_LOAD, 1, get_over_top},
    {"over_volume_kg", NULL, QUANTITY_LOAD, 0, get_over_volume},
    {"slope_straight_kg", NULL, QUANTITY_LOAD, 2, get_slope_straight},
    {"slope_bottom_kg", NULL, QUANTITY_LOAD, 2, get_slope_bottom},
    {"slope_top_kg", "slope: top kg", QUANTITY_LOAD, 2, get_slope_top},
    {"low", "low", QUANTITY_LOAD, 2, get_low},
    {"high", "high", QUANTITY_LOAD, 2, get_high},
    {"p", "p", QUANTITY_PLAIN, 4, get_p},
    {"since", "since", QUANTITY_PLAIN, 0, get_since},
    {"direction", NULL, QUANTITY_PLAIN, 0, get_direction},
    {"per", "per", QUANTITY_PLAIN, 0, get_per},
    {"counted", NULL, QUANTITY_PLAIN, 0, get_counted},
};

struct columns verdict_columns(void)
{
    return COLUMNS_OF(columns);
}

void verdicts_table(struct session *session, struct output *output)
{
    size_t count;
    const struct verdict *verdicts = session_verdicts(session, &count);
    session_rows(session, output, columns, sizeof columns / sizeof *columns, verdicts, count, sizeof *verdicts);
}

void show_verdicts(struct session *session)
{
    size_t count;
    const struct verdict *verdicts = session_verdicts(session, &count);
    session_table(session, columns, sizeof columns / sizeof *columns, verdicts, count, sizeof *verdicts);
}
