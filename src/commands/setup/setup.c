/* setup: the load of a load expression along the lift, or which set-up adds a wanted share of the 1RM. */
#include "commands/setup/setup.h"

#include "analysis/setup/setup_facts.h"
#include "base/pounds.h"
#include "base/text.h"
#include "commands/command.h"
#include "commands/session/remarks.h"
#include "commands/setup/setup_curve.h"
#include "commands/setup/setup_find.h"
#include "commands/setup/setup_text.h"
#include "model/heights.h"
#include "model/loading.h"
#include "reading/lift_names.h"
#include "reading/load/load_reader.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define UNNAMED_LIFT "lift"
#define NAMES_SHOWN 10

/* --- whose lift --------------------------------------------------------------------------------------------------- */

/* The first lifter whose name contains the text, ignoring case; `count` is set to the number of such lifters. */
static const struct lifter *lifter_like(struct arena *arena, const struct gym *gym, const char *said, size_t *count)
{
    const struct lifter *found = NULL;
    *count = 0;
    for (size_t i = 0; i < gym->lifter_count; i++) {
        if (!strstr(text_fold(arena, gym->lifters[i].name), text_fold(arena, said)))
            continue;
        found = found ? found : &gym->lifters[i];
        ++*count;
    }
    return found;
}

/* The lifter of --lifter, else the only one of the gym file. NULL with *message NULL: no lifter. */
static const struct lifter *find_lifter(const struct session *session, const char **message)
{
    const struct gym *gym = session->gym;
    const char *name = session->options->lifter;
    const struct lifter *lifter = name ? gym_lifter(gym, name) : gym->lifter_count == 1 ? &gym->lifters[0] : NULL;
    *message = NULL;
    size_t like = 0;
    if (name && !lifter)
        lifter = lifter_like(session->arena, gym, name, &like);
    if (like > 1)
        lifter = NULL;
    if (!name || lifter || !gym->lifter_count)
        return lifter;
    const char *known = gym->lifters[0].name;
    for (size_t i = 1; i < gym->lifter_count && i < NAMES_SHOWN; i++)
        known = arena_printf(session->arena, "%s, %s", known, gym->lifters[i].name);
    *message = arena_printf(session->arena, "%s '%s' in the gym file, which has %s%s",
                            like > 1 ? "more than one lifter like" : "no lifter", name, known,
                            gym->lifter_count > NAMES_SHOWN ? ", ..." : "");
    return NULL;
}

/* The newest test on or before the day, under any name of the lift. */
static struct one_rm tested_max(const struct session *session, const struct lifter *lifter, const char *lift,
                                day_number day)
{
    struct one_rm tested = NO_ONE_RM;
    for (size_t i = 0; lifter && i < lifter->max_count; i++) {
        const struct tested_max *max = &lifter->maxes[i];
        if (max->day <= day && text_same_name(lift_main_name(session->arena, session->gym, max->lift), lift))
            one_rm_offer(&tested, max->day, max->kg);
    }
    return tested;
}

/* The lifter with the heights of the command line in place of the gym file's. */
static const struct lifter *with_heights(struct arena *arena, const struct lifter *lifter, const char *lift,
                                         const struct options *options)
{
    struct lifter *said = ARENA_NEW(arena, struct lifter);
    *said = lifter ? *lifter : (struct lifter){.name = "", .stature_m = NAN, .bodyweight_kg = NAN};
    said->heights = ARENA_NEW(arena, struct bar_heights);
    *said->heights = (struct bar_heights){lift, options->bottom_m, options->top_m};
    said->height_count = 1;
    return said;
}

/* NULL: success; else what is wrong with the command line. */
static const char *find_context(struct setup_view *view)
{
    struct session *session = view->session;
    const struct options *options = session->options;
    const char *message;
    const struct lifter *lifter = find_lifter(session, &message);
    if (message)
        return message;
    const char *lift = options->lift ? lift_main_name(session->arena, session->gym, options->lift) : UNNAMED_LIFT;
    day_number day = options->today == NO_DAY ? date_today() : options->today;
    view->lifter = lifter ? lifter->name : options->lifter ? options->lifter : "";
    view->lift = options->lift ? lift : "";
    view->one_rm = options->max_kg > 0 ? (struct one_rm){options->max_kg, NO_DAY, ONE_RM_TESTED}
                                       : tested_max(session, lifter, lift, day);
    view->context = (struct loading_context){
        .gym = session->gym,
        .lifter = options->top_m > 0 ? with_heights(session->arena, lifter, lift, options) : lifter,
        .lift = lift,
        .day = day,
        .one_rm_kg = view->one_rm.kg,
        .bodyweight_kg = lifter ? lifter->bodyweight_kg : NAN,
    };
    return NULL;
}

/* --- the load ----------------------------------------------------------------------------------------------------- */

static void say_fault(struct session *session, const char *text, const struct load_fault *fault)
{
    struct place at = {.column = fault->length ? (uint32_t)fault->column + 1 : 0, .length = (uint32_t)fault->length};
    diag_add(session->diags, fault->id, at, text, fault->hint, "%s", fault->message);
}

/* Bare numbers are in the log's unit, else the gym's. If neither is given, they are in kg, and loads that have bare
 * numbers are marked. */
static const struct load *read_load(struct setup_view *view, const char *text)
{
    struct session *session = view->session;
    const struct options *options = session->options;
    struct load_reader *reader = load_reader_new(session->arena, session->log->loads, session->gym);
    struct load_style style = {options->log_unit_said ? options->log_unit : session->gym->unit, '.'},
                      other = {UNIT_LB, '.'};
    struct load_fault fault = {0};
    const struct load *load = load_read(reader, text, style, &fault);
    if (!load)
        say_fault(session, text, &fault);
    else if (!options->log_unit_said && !session->gym->unit_said && load_read(reader, text, other, &fault) != load)
        view->effect.assumed |= ASSUMED_UNIT;
    load_reader_free(reader);
    return load;
}

/* Why the straight weight is not known. */
static const char *no_weight_message(const struct setup_view *view)
{
    struct arena *arena = view->session->arena;
    const char *load = load_print(arena, view->load);
    if (view->load->straight == STRAIGHT_PERCENT)
        return arena_printf(
            arena, "%s needs the 1RM: --max '___ kg', or --lifter and --lift with a max = in the gym file", load);
    return arena_printf(arena, "%s needs the lifter's bodyweight: bodyweight = in [lifter]", load);
}

/* Treats the load as a log of one set, so that gear which the gym file does not define gets the same remarks as in
 * logs. */
static void remark(struct session *session, const struct load *load)
{
    *LIST_ADD(session->arena, &session->log->files) = (struct log_file){.path = NULL};
    struct loads *loads = session->log->loads;
    const struct load *whole = load_intern(loads, load);
    *LIST_ADD(session->arena, &session->log->sets) = (struct set){.weight = load_weight(loads, whole),
                                                                  .ar = load_ar(loads, whole)};
    struct training *training = ARENA_NEW(session->arena, struct training);
    training->log = session->log;
    session->training = training;
    remarks_add(session);
}

/* NULL: success; else what is wrong. */
static const char *weigh_load(struct setup_view *view)
{
    struct session *session = view->session;
    unsigned assumed = view->effect.assumed;
    view->loading = loading_make(session->arena, view->load, &view->context);
    view->effect = loading_effect(view->loading, session->gym);
    view->effect.assumed |= assumed;
    if (isnan(view->effect.straight_kg))
        return no_weight_message(view);
    remark(session, view->load);
    return NULL;
}

double setup_share(const struct setup_view *view)
{
    return (view->effect.top_kg - view->effect.bottom_kg) / view->one_rm.kg;
}

bool setup_curve_known(const struct setup_view *view)
{
    return !isnan(loading_at(view->loading, view->loading->top_m));
}

struct setup_push setup_most_push(const struct setup_view *view)
{
    struct setup_push most = {NAN, NAN, NAN};
    struct arena *scratch = arena_new();
    size_t count = 0;
    const double *heights = view->motion.mean_ms > 0 ? setup_heights(scratch, view->loading, &count) : NULL;
    for (size_t i = 0; i < count; i++) {
        double inertia = loading_inertia_kg(view->loading, &view->motion, heights[i]);
        double push = loading_at(view->loading, heights[i]) + inertia;
        if (!(push <= most.push_kg))
            most = (struct setup_push){push, inertia, heights[i]};
    }
    arena_free(scratch);
    return most;
}

static void take_speed(struct setup_view *view)
{
    const struct options *options = view->session->options;
    double bottom = view->loading->bottom_m, top = view->loading->top_m;
    if (options->speed_ms > 0)
        view->motion = options->speed_is_peak ? bar_motion_of_peak(bottom, top, options->speed_ms)
                                              : (struct bar_motion){bottom, top, options->speed_ms};
}

/* --- the command -------------------------------------------------------------------------------------------------- */

static const char *heights_message(const struct setup_view *view)
{
    return arena_printf(
        view->session->arena,
        "%s needs the bar's heights: --heights '___ m ___ m', or --lifter and --lift with heights = in the gym file",
        view->session->options->share > 0      ? "--share"
        : view->session->options->speed_ms > 0 ? "--speed"
                                               : "a curve");
}

static const char *weigh_and_show(struct setup_view *view)
{
    const struct options *options = view->session->options;
    const char *message = weigh_load(view);
    if (message)
        return message;
    if ((options->curve != FORMAT_TEXT || options->plot || options->speed_ms > 0) && !setup_curve_known(view))
        return view->loading->heights_known ? "the load of some of this gear is not known: there is no curve to draw"
                                            : heights_message(view);
    take_speed(view);
    if (options->curve != FORMAT_TEXT) {
        setup_curve(view);
    } else if (options->format != FORMAT_TEXT) {
        setup_row(view);
    } else {
        struct output *output = session_output(view->session);
        if (output)
            setup_text(view, output);
        session_commit(view->session, output);
    }
    if (options->plot)
        setup_plot(view);
    return NULL;
}

static const char *find_share(struct setup_view *view)
{
    double bottom, top;
    bool estimated;
    if (!(view->one_rm.kg > 0))
        return "--share needs the 1RM: --max '___ kg', or --lifter and --lift with a max = in the gym file";
    if (!heights_find(view->session->gym, view->context.lifter, view->context.lift, &bottom, &top, &estimated))
        return heights_message(view);
    if (view->load->piece_count)
        return "--straight takes only the straight weight, because --share looks for the chain and band";
    const char *message = weigh_load(view);
    if (message)
        return message;
    setup_find(view);
    return NULL;
}

/* The newest week of the lifter's newest wave of that lift, of speed work where there is some; NULL: there is none. */
static const struct wave_week *newest_week(struct setup_view *view)
{
    struct session *logs = ARENA_NEW(view->session->arena, struct session);
    struct options *options = ARENA_NEW(view->session->arena, struct options);
    const struct wave_week *newest = NULL;
    *options = *view->session->options;
    options->argument_count = 0;
    options->logs_of = view->lifter;
    if (!*view->lifter || !*view->lift || !session_open(logs, view->session->arena, options, false) || logs->misused)
        return NULL;
    const struct waves *waves = session_waves(logs);
    for (size_t i = 0; i < waves->count; i++) {
        const struct wave_week *week = &waves->weeks[i];
        bool speed = week->focus == FOCUS_SPEED, was_speed = newest && newest->focus == FOCUS_SPEED;
        if (week->wave && week->load_kg[LOAD_STRAIGHT] > 0 &&
            (!newest || (speed && !was_speed) || (speed == was_speed && week->week >= newest->week)))
            newest = week;
    }
    return newest;
}

/* Where none is given: that of the last wave, else the bar. */
static const char *usual_straight(struct setup_view *view)
{
    struct arena *arena = view->session->arena;
    const struct wave_week *week = newest_week(view);
    char day[16];
    view->straight_from = "the bar alone: --straight or --straight-share sets another";
    if (!week)
        return "bar";
    date_print_words(day, week->last_day);
    view->straight_from = arena_printf(arena, "that of %s wave %u on %s: --straight or --straight-share sets another",
                                       focus_name(week->focus), week->wave, day);
    return arena_printf(arena, "%.9g kg", week->load_kg[LOAD_STRAIGHT]);
}

/* The load to read; with --share the straight weight. */
static const char *load_text(struct setup_view *view)
{
    const struct options *options = view->session->options;
    if (!(options->share > 0))
        return options->arguments[0];
    if (options->straight_share > 0)
        return arena_printf(view->session->arena, "%.9g%%", options->straight_share * 100);
    return options->straight ? options->straight : usual_straight(view);
}

static const char *wrong_usage(const struct options *options)
{
    bool search = options->share > 0;
    if (options->bottom_m >= options->top_m && options->top_m > 0)
        return "--heights has the bottom at or above the top: write the lower height first, as in '0.78 m 1.42 m'";
    if (search && options->argument_count)
        return "--share finds the chain and band itself: give the straight weight with --straight";
    if (!search && options->argument_count != 1)
        return options->argument_count ? "setup takes one load: put it in quotes"
                                       : "which load? As in: tautline setup '100 kg + 2 chains/side'";
    if (search && (options->curve != FORMAT_TEXT || options->plot || options->speed_ms > 0))
        return "--curve, --plot and --speed are for one load: give it instead of --share";
    if (!search && (options->min_bottom_kg > 0 || options->gear || options->straight || options->straight_share > 0 ||
                    options->most))
        return "--min-bottom, --gear, --straight, --straight-share and --most go with --share";
    return options->straight && options->straight_share > 0 ? "--straight or --straight-share, not both" : NULL;
}

enum exit_status run_setup(struct arena *arena, const struct options *options)
{
    struct session session;
    struct setup_view view = {.session = &session};
    const char *message = wrong_usage(options);
    if (message)
        return usage_error("setup", advice_in_unit(arena, message, options->unit_said ? options->unit : UNIT_KG));
    if (!session_open_gym(&session, arena, options))
        return session_close(&session);
    message = find_context(&view);
    if (!message) {
        view.load = read_load(&view, load_text(&view));
        if (!view.load) {
            session_close(&session);
            return EXIT_USAGE;
        }
        message = options->share > 0 ? find_share(&view) : weigh_and_show(&view);
    }
    enum exit_status status = session_close(&session);
    return message ? usage_error("setup", text_visible(arena, advice_in_unit(arena, message, session.unit))) : status;
}
