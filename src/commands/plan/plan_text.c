#include "commands/plan/plan_text.h"

#include "commands/plan/plan.h"
#include "commands/plan/plan_basis.h"

#include "base/number.h"
#include "base/pounds.h"
#include "base/text.h"
#include "commands/report/report_closing.h"
#include "commands/report/report_text.h"

#include <math.h>
#include <stdarg.h>
#include <string.h>

#define PAGE_WIDTH 80 /* unless the terminal has another width */

static const char *load_words(const struct session *session, double kg)
{
    char number[32];
    number_fixed(number, sizeof number, kg_to(kg, session->unit), 1);
    return arena_printf(session->arena, "%s %s", number, mass_unit_name(session->unit));
}

static const char *plate_words(const struct session *session, double kg)
{
    char number[32];
    number_print(number, round(kg_to(kg, session->unit) * 1000) / 1000);
    return arena_printf(session->arena, "%s %s", number, mass_unit_name(session->unit));
}

static const char *percent_words(struct arena *arena, double fraction)
{
    char number[32];
    number_fixed(number, sizeof number, fraction * 100, 1);
    return arena_printf(arena, "%s %%", number);
}

static const char *signed_number(struct arena *arena, double value)
{
    char text[32];
    number_fixed(text, sizeof text, value, 1);
    double shown;
    number_whole(text, '.', &shown);
    return arena_printf(arena, "%s%s", shown > 0 ? "+" : "", text);
}

static const char *week_words(struct arena *arena, week_number week)
{
    char text[16];
    week_print(text, week);
    return arena_copy(arena, text);
}

const char *plan_title(struct arena *arena, const struct plan *plan)
{
    return arena_printf(arena, "%s%s%s, %s", plan->lifter, *plan->lifter ? ": " : "", plan->lift,
                        focus_name(plan->focus));
}

const char *plan_plates(struct arena *arena, const struct plan *plan, const struct plan_week *week)
{
    char number[32];
    if (week->has_plates)
        return plates_print(arena, &plan->rack, &week->plates);
    number_print(number, round(kg_to(fabs(week->written_kg), plan->rack.unit) * 1000) / 1000);
    const char *unit = mass_unit_name(plan->rack.unit);
    if (week->set && week->set->set->weight->straight == STRAIGHT_BODYWEIGHT)
        return arena_printf(arena, "BW%s%s %s", week->written_kg < 0 ? "-" : "+", number, unit);
    return week->in_hand ? arena_printf(arena, "%s %s per hand", number, unit) : "";
}

const char *plan_reason(struct arena *arena, const struct plan *plan)
{
    switch (plan->state) {
    case PLAN_NO_ONE_RM:
        return "there is no 1RM to take percentages of; pass --max, or give the lifter a max = in the gym file";
    case PLAN_NO_SHARES:
        return arena_printf(arena, "there is no wave of %s work to continue; pass --percent", focus_name(plan->focus));
    case PLAN_NO_BODYWEIGHT:
        return "the lifter's bodyweight is not known; give the gym file a bodyweight =";
    case PLAN_NO_SETUP:
        return "no chain or band of the gym file can be worked out to make that share: this needs their lengths and "
               "pulls, "
               "and the lifter's heights";
    case PLAN_MADE:
        break;
    }
    return "";
}

const char *plan_alarm(const struct session *session, const struct plan *plan, const struct plan_week *week)
{
    struct arena *arena = session->arena;
    const char *straight = "", *top = "";
    if (week->above_one_rm)
        straight = arena_printf(arena, " puts %s on the bar, more than the 1RM of %s",
                                load_words(session, week->load_kg[LOAD_STRAIGHT]),
                                load_words(session, plan->one_rm.kg));
    if (week->top_too_heavy)
        top = arena_printf(arena, "%s weighs %s at the top, %s of the 1RM", *straight ? ", and" : "",
                           load_words(session, week->load_kg[LOAD_TOP]),
                           percent_words(arena, week->load_kg[LOAD_TOP] / plan->one_rm.kg));
    return *straight || *top ? arena_printf(arena, "%s%s%s.", week_words(arena, week->week), straight, top) : "";
}

static void say(const struct report *report, size_t indent, const char *format, ...)
    __attribute__((format(printf, 3, 4)));

static void say(const struct report *report, size_t indent, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    report_paragraph(report, arena_vprintf(report->session->arena, format, arguments), indent);
    va_end(arguments);
}

/* --- what the plan is based on ------------------------------------------------------------------------------------ */

static void say_one_rm(const struct report *report, const struct plan *plan)
{
    struct arena *arena = report->session->arena;
    const char *load = load_words(report->session, plan->one_rm.kg), *more = "";
    char from[32];
    one_rm_print(from, &plan->one_rm);
    if (plan->one_rm.from == ONE_RM_ESTIMATED)
        more = ": an estimate; the loads below are only as good as it is. Test it, or pass --max";
    else if (plan->one_rm_days > PLAN_STALE_DAYS)
        more = arena_printf(
            arena,
            ", %d weeks before the plan begins: percentages of an old 1RM are unreliable. Test it, or pass --max",
            plan->one_rm_days / 7);
    say(report, 2, "1RM %s, %s%s.", load, plan->one_rm_said ? "from --max" : from, more);
}

static const char *ar_source(const struct report *report, const struct plan *plan)
{
    struct arena *arena = report->session->arena;
    if (plan->ar_by_practice)
        return "by common practice: a pair of chains for each pair of large plates, at most 20 % of 1RM; light is "
               "enough at first";
    if (plan->ar_chosen)
        return arena_printf(arena, "chosen from the gym file; it differs from the share you asked for by %s points",
                            signed_number(arena, plan->ar_miss * 100));
    return plan->same_ar ? "as in the last wave" : plan->last ? "not as in the last wave" : "from --ar";
}

static void say_ar(const struct report *report, const struct plan *plan)
{
    struct arena *arena = report->session->arena;
    enum mass_unit unit = report->session->unit;
    if (!plan->ar) {
        say(report, 2, "No chains or bands%s.", plan->last && !plan->same_ar ? ", unlike the last wave" : "");
        return;
    }
    say(report, 2, "On the bar: %s, %s.",
        text_visible(arena, load_in_unit(arena, plan->weeks->set ? plan->weeks->set->set->ar->ar : "", unit)),
        ar_source(report, plan));
    if (plan->anchor)
        say(report, 2,
            "The anchor is new: %s above the floor, %s to the side, %s in front of or behind the bar's path. "
            "Write it into the gym file as [setup \"%s\"].",
            length_in_unit(arena, plan->anchor->height_m, unit), length_in_unit(arena, plan->anchor->spread_m, unit),
            length_in_unit(arena, plan->anchor->offset_m, unit), text_visible(arena, plan->anchor->name));
    if (plan->weeks->set && (plan->weeks->set->assumed & ~(unsigned)ASSUMED_ONE_REP_MAX)) {
        char words[160];
        assumptions_print(words, plan->weeks->set->assumed & ~(unsigned)ASSUMED_ONE_REP_MAX);
        say(report, 2, "Assumed: %s.", words);
    }
}

static void say_plates(const struct report *report, const struct plan *plan)
{
    if (!plan->weeks->has_plates && *plan_plates(report->session->arena, plan, plan->weeks)) {
        say(report, 2, "Rounded to single plates of %s.", plate_words(report->session, rack_step_kg(&plan->rack) / 2));
        return;
    }
    if (plan->rack.assumed)
        say(report, 2,
            "The gym file names no plates: the plates that most gyms have are assumed, down to %s, and a bar of %s.",
            plate_words(report->session, rack_step_kg(&plan->rack) / 2),
            plate_words(report->session, plan->rack.bar_kg));
}

/* --- the weeks -------------------------------------------------------------------------------------------------------- */

struct card_row
{
    const struct plan_week *week;
    const char *plates, *sets;
    const char *over[LOAD_MEASURES];
};

#define CARD(name, ...)                                                                                                \
    static void get_card_##name(const void *item, struct cell *cell)                                                   \
    {                                                                                                                  \
        const struct card_row *row = item;                                                                             \
        __VA_ARGS__;                                                                                                   \
    }

CARD(date, cell_day(cell, row->week->day))
CARD(target, cell_number(cell, row->week->target_share))
CARD(straight, cell_number(cell, row->week->load_kg[LOAD_STRAIGHT]))
CARD(rounding, cell_number(cell, row->week->rounding_kg))
CARD(plates, cell_text(cell, row->plates))
CARD(bottom, cell_number(cell, row->week->load_kg[LOAD_BOTTOM]))
CARD(top, cell_number(cell, row->week->load_kg[LOAD_TOP]))
CARD(mean, cell_number(cell, row->week->load_kg[LOAD_MEAN]))
CARD(share, cell_number(cell, row->week->share))
CARD(sets, cell_text(cell, row->sets))
CARD(week, cell_week(cell, row->week->week))
CARD(last_week, cell_week(cell, row->week->before->week))
CARD(over_straight, cell_text(cell, row->over[LOAD_STRAIGHT]))
CARD(over_bottom, cell_text(cell, row->over[LOAD_BOTTOM]))
CARD(over_top, cell_text(cell, row->over[LOAD_TOP]))
CARD(over_mean, cell_text(cell, row->over[LOAD_MEAN]))

static const struct column load_columns[] = {
    {"week", "week", QUANTITY_PLAIN, 0, get_card_week},
    {"date", "date", QUANTITY_PLAIN, 0, get_card_date},
    {"target_share", "of 1RM", QUANTITY_SHARE, 1, get_card_target},
    {"straight_kg", "straight kg", QUANTITY_LOAD, 1, get_card_straight},
    {"rounding_kg", "rounding", QUANTITY_LOAD, 2, get_card_rounding},
    {"plates", "plates per side", QUANTITY_PLAIN, 0, get_card_plates},
    {"sets", "sets", QUANTITY_PLAIN, 0, get_card_sets},
};

static const struct column weight_columns[] = {
    {"week", "week", QUANTITY_PLAIN, 0, get_card_week},
    {"bottom_kg", "bottom kg", QUANTITY_LOAD, 1, get_card_bottom},
    {"top_kg", "top kg", QUANTITY_LOAD, 1, get_card_top},
    {"mean_kg", "mean kg", QUANTITY_LOAD, 1, get_card_mean},
    {"share", "share", QUANTITY_SHARE, 1, get_card_share},
};

static const struct column over_columns[] = {
    {"week", "week", QUANTITY_PLAIN, 0, get_card_week},
    {"last_week", "against", QUANTITY_PLAIN, 0, get_card_last_week},
    {"over_straight_kg", "straight kg", QUANTITY_LOAD, 1, get_card_over_straight},
    {"over_bottom_kg", "bottom kg", QUANTITY_LOAD, 1, get_card_over_bottom},
    {"over_top_kg", "top kg", QUANTITY_LOAD, 1, get_card_over_top},
    {"over_mean_kg", "mean kg", QUANTITY_LOAD, 1, get_card_over_mean},
};
#define STRAIGHT_OVER_COLUMNS 3 /* without chains and bands, the straight weight is the whole load */
#define COUNT(columns) (sizeof(columns) / sizeof *(columns))

/* "+2.5 (+3.1 %)". The column's title gives the unit; the column's name must not change with it. */
static const char *change_words(const struct session *session, double kg, double part)
{
    struct arena *arena = session->arena;
    if (isnan(kg))
        return "";
    const char *load = signed_number(arena, kg_to(kg, session->unit));
    return isfinite(part) ? arena_printf(arena, "%s (%s %%)", load, signed_number(arena, part * 100)) : load;
}

static struct card_row *card_rows(const struct report *report, const struct plan *plan)
{
    struct arena *arena = report->session->arena;
    struct card_row *rows = ARENA_ARRAY(arena, struct card_row, plan->week_count);
    for (size_t i = 0; i < plan->week_count; i++) {
        const struct plan_week *week = &plan->weeks[i];
        rows[i].week = week;
        rows[i].plates = plan_plates(arena, plan, week);
        if (week->sets && week->reps)
            rows[i].sets = arena_printf(arena, "%d x %d", week->sets, week->reps);
        for (int measure = 0; measure < LOAD_MEASURES; measure++)
            rows[i].over[measure] = change_words(report->session, week->over_kg[measure], week->over_part[measure]);
    }
    return rows;
}

static void card_table(const struct report *report, const struct column *columns, size_t column_count,
                       const struct card_row *rows, size_t count)
{
    struct table_style style = report->style;
    style.width = 0; /* do not cut: whoever loads the bar needs every plate */
    struct table_writer *writer = table_open(report->session->arena, report->output, columns, column_count, &style);
    for (size_t i = 0; i < count; i++)
        table_row(writer, &rows[i]);
    table_close(writer);
    output_text(report->output, "\n");
}

static void weeks_tables(const struct report *report, const struct plan *plan)
{
    const struct card_row *rows = card_rows(report, plan);
    size_t beside = 0;
    card_table(report, load_columns, COUNT(load_columns), rows, plan->week_count);
    if (!plan->weeks->sets || !plan->weeks->reps)
        say(report, 2, "Sets and reps were not given: --sets, --reps.");
    if (plan->ar) {
        say(report, 2, "What that weighs:");
        card_table(report, weight_columns, COUNT(weight_columns), rows, plan->week_count);
    }
    while (beside < plan->week_count && plan->weeks[beside].before)
        beside++;
    if (!beside)
        return;
    say(report, 2, "Against the same week of the last wave:");
    card_table(report, over_columns, plan->ar || !plan->same_ar ? COUNT(over_columns) : STRAIGHT_OVER_COLUMNS, rows,
               beside);
}

/* --- warnings before the lift ------------------------------------------------------------------------------------- */

static void say_alarms(const struct report *report, const struct plan *plan)
{
    bool any = false;
    for (size_t i = 0; i < plan->week_count; i++) {
        const char *alarm = plan_alarm(report->session, plan, &plan->weeks[i]);
        if (!*alarm)
            continue;
        say(report, 2, "WARNING: %s", alarm);
        any = true;
    }
    if (any)
        output_text(report->output, "\n");
}

static void say_findings(const struct report *report, const struct plan *plan)
{
    struct arena *arena = report->session->arena;
    if (!plan->finding_count)
        return;
    say(report, 2, "What an audit would find in it:");
    for (size_t i = 0; i < plan->finding_count; i++) {
        const struct finding *finding = plan->findings[i];
        const struct finding_kind *kind = &finding_kinds[finding->id];
        say(report, 4, "%s, %s: %s; %s.", finding_severity_name(kind->severity), kind->id,
            text_visible(arena, finding->fact), kind->why);
    }
    output_text(report->output, "\n");
}

void plan_card(struct session *session, struct output *output, const struct plan *plan, const struct plan_ways *ways)
{
    struct report report = {.session = session, .output = output, .style = session_style(session, output)};
    report.style.format = FORMAT_TEXT;
    if (!report.style.width)
        report.style.width = PAGE_WIDTH;
    report_heading(&report, text_visible(session->arena, plan_title(session->arena, plan)));
    if (plan->state != PLAN_MADE) {
        say(&report, 2, "No plan: %s.", plan_reason(session->arena, plan));
        output_text(output, "\n");
        return;
    }
    if (plan->lighter_kg > 0)
        say(&report, 2, "%s", plan_lighter_words(session, plan));
    say(&report, 2, "%s", plan_basis_words(session, plan));
    if (plan->one_rm.kg > 0)
        say_one_rm(&report, plan);
    say_ar(&report, plan);
    say_plates(&report, plan);
    output_text(output, "\n");
    say_alarms(&report, plan);
    weeks_tables(&report, plan);
    say_findings(&report, plan);
    plan_ways_table(&report, ways);
    report_cautions(&report);
    output_text(output, "\n");
}
