/* plan: the next wave, as a card for people or as rows for scripts and for `waves --plan`. */
#include "commands/plan/plan.h"

#include "analysis/evaluated_set.h"
#include "analysis/setup/setup_search.h"
#include "base/text.h"
#include "commands/command.h"
#include "commands/plan/plan_basis.h"
#include "commands/plan/plan_text.h"
#include "commands/session/session_part.h"
#include "reading/lift_names.h"
#include "reading/load/load_reader.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* --- rows ----------------------------------------------------------------------------------------------------------- */

struct plan_row /* one week */
{
    const struct plan *plan;
    const struct plan_week *week;
    const char *plates, *findings;
};

#define GET(name, ...)                                                                                                 \
    static void get_##name(const void *item, struct cell *cell)                                                        \
    {                                                                                                                  \
        const struct plan_row *row = item;                                                                             \
        const struct plan *plan = row->plan;                                                                           \
        const struct plan_week *week = row->week;                                                                      \
        (void)plan, (void)week;                                                                                        \
        __VA_ARGS__;                                                                                                   \
    }

GET(lifter, cell_text(cell, plan->lifter))
GET(lift, cell_text(cell, plan->lift))
GET(focus, cell_text(cell, focus_name(plan->focus)))
GET(step, cell_count(cell, (long)week->step))
GET(week, cell_week(cell, week->week))
GET(date, cell_day(cell, week->day))
GET(target_share, cell_number(cell, week->target_share))
GET(target, cell_number(cell, week->target_kg))
GET(straight, cell_number(cell, week->load_kg[LOAD_STRAIGHT]))
GET(rounding, cell_number(cell, week->rounding_kg))
GET(straight_share, cell_number(cell, week->straight_share))
GET(plates, cell_text(cell, row->plates))
GET(ar, cell_text(cell, week->set ? week->set->set->ar->ar : ""))
GET(bottom, cell_number(cell, week->load_kg[LOAD_BOTTOM]))
GET(top, cell_number(cell, week->load_kg[LOAD_TOP]))
GET(mean, cell_number(cell, week->load_kg[LOAD_MEAN]))
GET(share, cell_number(cell, week->share))
GET(volume_straight, cell_number(cell, week->volume_kg[LOAD_STRAIGHT]))
GET(volume_mean, cell_number(cell, week->volume_kg[LOAD_MEAN]))
GET(one_rm, cell_number(cell, plan->one_rm.kg))
GET(last_week, if (week->before) cell_week(cell, week->before->week))
GET(over_straight, cell_number(cell, week->over_kg[LOAD_STRAIGHT]))
GET(over_bottom, cell_number(cell, week->over_kg[LOAD_BOTTOM]))
GET(over_top, cell_number(cell, week->over_kg[LOAD_TOP]))
GET(over_mean, cell_number(cell, week->over_kg[LOAD_MEAN]))
GET(over_straight_part, cell_number(cell, week->over_part[LOAD_STRAIGHT]))
GET(over_bottom_part, cell_number(cell, week->over_part[LOAD_BOTTOM]))
GET(over_top_part, cell_number(cell, week->over_part[LOAD_TOP]))
GET(over_mean_part, cell_number(cell, week->over_part[LOAD_MEAN]))
GET(findings, cell_text(cell, row->findings))

static void get_sets(const void *item, struct cell *cell)
{
    const struct plan_week *week = ((const struct plan_row *)item)->week;
    if (week->sets)
        cell_count(cell, week->sets);
}

static void get_reps(const void *item, struct cell *cell)
{
    const struct plan_week *week = ((const struct plan_row *)item)->week;
    if (week->reps)
        cell_count(cell, week->reps);
}

static void get_lifts(const void *item, struct cell *cell)
{
    const struct plan_week *week = ((const struct plan_row *)item)->week;
    if (week->sets && week->reps)
        cell_count(cell, (long)week->sets * week->reps);
}

static void get_one_rm_from(const void *item, struct cell *cell)
{
    static char from[32];
    const struct plan *plan = ((const struct plan_row *)item)->plan;
    cell_text(cell, plan->one_rm_said ? "said" : one_rm_print(from, &plan->one_rm));
}

/* Stable: new columns are added at the end. Shares and parts are fractions; `findings` holds ids joined by ; */
static const struct column columns[] = {
    {"lifter", NULL, QUANTITY_PLAIN, 0, get_lifter},
    {"lift", NULL, QUANTITY_PLAIN, 0, get_lift},
    {"focus", NULL, QUANTITY_PLAIN, 0, get_focus},
    {"step", NULL, QUANTITY_PLAIN, 0, get_step},
    {"week", NULL, QUANTITY_PLAIN, 0, get_week},
    {"date", NULL, QUANTITY_PLAIN, 0, get_date},
    {"target_share", NULL, QUANTITY_SHARE, 1, get_target_share}, /* of the 1RM, as asked for */
    {"target_kg", NULL, QUANTITY_LOAD, 1, get_target},
    {"straight_kg", NULL, QUANTITY_LOAD, 1, get_straight}, /* what can be loaded with the plates */
    {"rounding_kg", NULL, QUANTITY_LOAD, 1, get_rounding}, /* straight_kg minus target_kg */
    {"straight_share", NULL, QUANTITY_SHARE, 1, get_straight_share},
    {"plates", NULL, QUANTITY_PLAIN, 0, get_plates}, /* on each side, in the gym's unit: 25 + 10 + 2.5 */
    {"ar", NULL, QUANTITY_GEAR, 0, get_ar},          /* reads back as what hangs on the bar */
    {"bottom_kg", NULL, QUANTITY_LOAD, 1, get_bottom},
    {"top_kg", NULL, QUANTITY_LOAD, 1, get_top},
    {"mean_kg", NULL, QUANTITY_LOAD, 1, get_mean},
    {"share", NULL, QUANTITY_SHARE, 1, get_share},
    {"sets", NULL, QUANTITY_PLAIN, 0, get_sets},
    {"reps", NULL, QUANTITY_PLAIN, 0, get_reps},
    {"lifts", NULL, QUANTITY_PLAIN, 0, get_lifts},
    {"volume_straight_kg", NULL, QUANTITY_LOAD, 0, get_volume_straight},
    {"volume_mean_kg", NULL, QUANTITY_LOAD, 0, get_volume_mean},
    {"one_rm_kg", NULL, QUANTITY_LOAD, 1, get_one_rm},
    {"one_rm_from", NULL, QUANTITY_PLAIN, 0, get_one_rm_from},       /* as in loads; said: from --max */
    {"last_week", NULL, QUANTITY_PLAIN, 0, get_last_week},           /* the same step of the last wave */
    {"over_straight_kg", NULL, QUANTITY_LOAD, 1, get_over_straight}, /* minus that step */
    {"over_bottom_kg", NULL, QUANTITY_LOAD, 1, get_over_bottom},
    {"over_top_kg", NULL, QUANTITY_LOAD, 1, get_over_top},
    {"over_mean_kg", NULL, QUANTITY_LOAD, 1, get_over_mean},
    {"over_straight", NULL, QUANTITY_SHARE, 1, get_over_straight_part},
    {"over_bottom", NULL, QUANTITY_SHARE, 1, get_over_bottom_part},
    {"over_top", NULL, QUANTITY_SHARE, 1, get_over_top_part},
    {"over_mean", NULL, QUANTITY_SHARE, 1, get_over_mean_part},
    {"findings", NULL, QUANTITY_PLAIN, 0, get_findings},
};

static const char *finding_words(struct arena *arena, const struct plan *plan, const struct plan_week *week)
{
    const char *words = week->above_one_rm ? "above-one-rep-max" : "";
    if (week->top_too_heavy)
        words = arena_printf(arena, "%s%stop-too-heavy", words, *words ? ";" : "");
    for (size_t i = 0; i < plan->finding_count; i++) {
        const char *id = finding_kinds[plan->findings[i]->id].id;
        bool said = false; /* an id that is listed already, for another cause */
        for (size_t j = 0; j < i; j++)
            said |= plan->findings[j]->id == plan->findings[i]->id;
        if (!said)
            words = arena_printf(arena, "%s%s%s", words, *words ? ";" : "", id);
    }
    return words;
}

static void put_rows(const struct session *session, struct table_writer *writer, const struct plan *plan)
{
    for (size_t i = 0; i < plan->week_count; i++) {
        const struct plan_week *week = &plan->weeks[i];
        struct plan_row row = {plan, week, plan_plates(session->arena, plan, week),
                               finding_words(session->arena, plan, week)};
        table_row(writer, &row);
    }
}

/* --- which waves to plan -------------------------------------------------------------------------------------------- */

struct series
{
    const char *lifter, *lift;
};

struct series_list
{
    LIST(struct series) list;
};

#define LEFT_OFF_WEEKS 12 /* a lift and focus not trained for so long is dropped, unless --lift asks for it */

static week_number last_logged_week(const struct training *training, const char *lifter)
{
    struct lifter_span own = lifter_span(training->sets, training->count, sizeof *training->sets, lifter_of_set,
                                         lifter);
    week_number last = INT32_MIN;
    for (size_t i = own.first; i < own.first + own.count; i++)
        if (training->sets[i].week > last)
            last = training->sets[i].week;
    return last;
}

static bool is_last_of_series(const struct waves *waves, size_t i)
{
    return i + 1 == waves->wave_count || !same_series(waves->waves[i].weeks, waves->waves[i + 1].weeks);
}

static void list_waves(struct session *session, enum focus focus, struct series_list *series)
{
    const struct waves *waves = session_waves(session);
    const char *lifter = NULL; /* whose waves come one after the other: the last week is looked for once */
    week_number last_week = INT32_MIN;
    for (size_t i = 0; i < waves->wave_count; i++) {
        const struct wave *wave = &waves->waves[i];
        if (wave->weeks->focus != focus || !is_last_of_series(waves, i))
            continue;
        if (!lifter || strcmp(lifter, wave->weeks->lifter) != 0) {
            lifter = wave->weeks->lifter;
            last_week = last_logged_week(session->training, lifter);
        }
        if (session->lifts.count || wave->weeks[wave->count - 1].week > last_week - LEFT_OFF_WEEKS)
            *LIST_ADD(session->arena, &series->list) = (struct series){wave->weeks->lifter, wave->weeks->lift};
    }
}

/* The focuses that plan could use instead; "" for none. */
static const char *other_focuses(struct session *session, enum focus asked)
{
    const char *words = "";
    for (enum focus focus = FOCUS_SPEED; focus <= FOCUS_TEST; focus++) {
        struct series_list series = {0};
        if (focus != asked)
            list_waves(session, focus, &series);
        if (series.list.count)
            words = arena_printf(session->arena, "%s%s%s", words, *words ? " or " : "", focus_name(focus));
    }
    return words;
}

static const char *no_wave_message(struct session *session, enum focus focus)
{
    const char *others = other_focuses(session, focus);
    return arena_printf(session->arena,
                        "these logs hold no wave of %s work: give %s%s%s--lifter and --lift to plan from the 1RM",
                        focus_name(focus), *others ? "--focus " : "", others, *others ? ", or " : "");
}

/* The lifter of a plan that has no wave to go by; NULL: cannot be determined. */
static const char *lifter_asked(const struct session *session)
{
    const struct names *lifters = session->log->lifters;
    if (session->lifters.count)
        return session->lifters.names[0];
    if (names_count(lifters) == 1)
        return names_text(lifters, 0);
    return session->gym->lifter_count == 1 ? session->gym->lifters[0].name : NULL;
}

/* A lift without a wave is planned only if it is asked for. */
static void add_asked(struct session *session, struct series_list *series)
{
    const char *lifter = lifter_asked(session);
    for (size_t i = 0; lifter && i < session->lifts.count; i++)
        *LIST_ADD(session->arena, &series->list) = (struct series){lifter, session->lifts.names[i]};
}

/* --- the command ----------------------------------------------------------------------------------------------------- */

/* NULL: success; else what is wrong with --ar. */
static const char *read_ar(struct session *session, struct plan_wish *wish)
{
    const struct options *options = session->options;
    if (!options->ar)
        return NULL;
    struct load_reader *reader = load_reader_new(session->arena, session->log->loads, session->gym);
    struct load_style style = {options->log_unit_said ? options->log_unit : session->gym->unit, '.'};
    struct load_fault fault = {0};
    wish->ar = ar_cell_read(reader, options->ar, AR_COLUMN_ANY, false, style, &fault);
    load_reader_free(reader);
    const char *hint = fault.hint ? fault.hint : wish->ar ? NULL : diag_hint(fault.id);
    if (!wish->ar)
        return arena_printf(session->arena, "--ar '%s': %s%s%s", options->ar, fault.message, hint ? "; " : "",
                            hint ? hint : "");
    return NULL;
}

static struct plan_wish make_wish(const struct session *session)
{
    const struct options *options = session->options;
    struct plan_wish wish = {.focus = options->focus ? options->focus : FOCUS_SPEED,
                             .step = NAN,
                             .weeks = options->weeks,
                             .sets = (int)options->sets,
                             .reps = (int)options->reps,
                             .ar_share = NAN,
                             .max_kg = NAN,
                             .start = options->start,
                             .unit = session->unit,
                             .tape = options->unit_said ? options->unit : session->gym->unit};
    if (options->percent_count) {
        wish.shares = options->percents;
        wish.share_count = options->percent_count;
    }
    if (options->step_said)
        wish.step = options->step;
    wish.keep_steps = options->keep_steps;
    if (options->share > 0)
        wish.ar_share = options->share;
    if (options->max_kg > 0)
        wish.max_kg = options->max_kg;
    return wish;
}

static void say_on_error(const struct session *session, const struct plan *plan)
{
    struct arena *arena = session->arena;
    const char *title = text_visible(arena, plan_title(arena, plan));
    if (plan->state != PLAN_MADE)
        fprintf(stderr, "tautline: no plan for %s: %s\n", title, plan_reason(arena, plan));
    if (plan->state == PLAN_MADE && plan->lighter_kg > 0)
        fprintf(stderr, "tautline: WARNING: %s: %s\n", title, plan_lighter_words(session, plan));
    for (size_t i = 0; i < plan->week_count && plan->state == PLAN_MADE; i++) {
        const char *alarm = plan_alarm(session, plan, &plan->weeks[i]);
        if (*alarm)
            fprintf(stderr, "tautline: WARNING: %s: %s\n", title, alarm);
    }
}

/* With --over, the first of the ranked ways. */
static const struct plan *plan_wanted(const struct session *session, const struct plan_past *past,
                                      const struct plan_wish *wish, struct plan_ways *ways)
{
    if (session->options->over_said)
        *ways = plan_ways_make(session->arena, past, wish, &session->options->over);
    return ways->count ? ways->items->plan : plan_make_after(session->arena, past, wish);
}

static void write_plans(struct session *session, const struct plan *const *plans, const struct plan_ways *ways,
                        size_t count)
{
    struct output *output = session_output(session);
    if (!output)
        return;
    if (session->options->format == FORMAT_TEXT) {
        for (size_t i = 0; i < count; i++)
            plan_card(session, output, plans[i], &ways[i]);
    } else {
        struct table_style style = session_style(session, output);
        struct table_writer *writer = table_open(session->arena, output, columns, sizeof columns / sizeof *columns,
                                                 &style);
        for (size_t i = 0; i < count; i++)
            if (plans[i]->state == PLAN_MADE)
                put_rows(session, writer, plans[i]);
        table_close(writer);
    }
    session_commit(session, output);
}

#define FARTHEST_START 3653 /* days: ten years */

static bool starts_too_far(const struct session *session)
{
    day_number last = NO_DAY;
    for (size_t i = 0; i < session->training->count; i++)
        if (last == NO_DAY || session->training->sets[i].set->day > last)
            last = session->training->sets[i].set->day;
    return last != NO_DAY && session->options->start != NO_DAY && session->options->start - last > FARTHEST_START;
}

static const char *wrong_together(const struct options *options)
{
    if (options->over_said && (options->percent_count || options->step_said || options->share > 0))
        return "--over continues the last wave; --percent, --steps and --share set the loads themselves: use one or "
               "the other";
    if (options->at_said && !options->over_said)
        return "--at says where --over applies: give both";
    if (options->step_said && options->percent_count > 1)
        return "--steps starts from one percentage, but --percent gives several";
    return options->ar && options->share > 0
               ? "--ar says what hangs on the bar, --share lets tautline choose it: use one"
               : NULL;
}

enum exit_status run_plan(struct arena *arena, const struct options *options)
{
    struct session session;
    struct series_list series = {0};
    size_t made = 0;
    const char *message = wrong_together(options);
    if (message)
        return usage_error("plan", message);
    session_open(&session, arena, options, false);
    if (session.misused)
        return session_close(&session);
    struct plan_wish wish = make_wish(&session);
    message = starts_too_far(&session) ? "--start is more than ten years after the log" : read_ar(&session, &wish);
    if (message)
        return usage_error("plan", text_visible(arena, message));
    list_waves(&session, wish.focus, &series);
    if (!series.list.count)
        add_asked(&session, &series);
    const struct plan **plans = ARENA_ARRAY(arena, const struct plan *, series.list.count);
    struct plan_ways *ways = ARENA_ARRAY(arena, struct plan_ways, series.list.count);
    const struct plan_past *past = NULL; /* of the current lifter: series are sorted by lifter */
    for (size_t i = 0; i < series.list.count; i++) {
        if (!past || strcmp(series.list.items[i].lifter, wish.lifter) != 0)
            past = plan_past_make(arena, session.training, series.list.items[i].lifter, wish.start);
        wish.lifter = series.list.items[i].lifter;
        wish.lift = series.list.items[i].lift;
        plans[i] = plan_wanted(&session, past, &wish, &ways[i]);
        made += plans[i]->state == PLAN_MADE;
        if (options->format != FORMAT_TEXT || plans[i]->state != PLAN_MADE)
            say_on_error(&session, plans[i]);
    }
    if (made)
        write_plans(&session, plans, ways, series.list.count);
    message = series.list.count ? "there is nothing to plan" : no_wave_message(&session, wish.focus);
    enum exit_status status = session_close(&session);
    if (made || status == EXIT_UNREADABLE)
        return status;
    return usage_error("plan", message);
}
