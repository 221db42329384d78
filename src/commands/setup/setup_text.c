#include "commands/setup/setup_text.h"

#include "commands/setup/setup_alarms.h"

#include "commands/setup/setup.h"

#include "analysis/setup/setup_facts.h"
#include "base/number.h"
#include "base/pounds.h"
#include "base/text.h"
#include "commands/report/report_closing.h"
#include "commands/session/summary.h"
#include "model/curve.h"

#include <ctype.h>
#include <math.h>
#include <stdarg.h>
#include <string.h>

#define PAGE_WIDTH 80 /* unless the terminal has another width */

const char *show_load(const struct session *session, double kg)
{
    char number[32];
    number_fixed(number, sizeof number, kg_to(kg, session->unit), 1);
    return arena_printf(session->arena, "%s %s", number, mass_unit_name(session->unit));
}

const char *show_metres(const struct session *session, double metres)
{
    return length_in_unit(session->arena, metres, session->unit);
}

const char *show_percent(struct arena *arena, double fraction)
{
    char number[32];
    number_fixed(number, sizeof number, fraction * 100, 1);
    return arena_printf(arena, "%s %%", number);
}

static const char *show_speed(struct arena *arena, double speed_ms)
{
    char number[32];
    number_fixed(number, sizeof number, speed_ms, 2);
    return arena_printf(arena, "%s m/s", number);
}

const char *setup_speed(const struct setup_view *view)
{
    return arena_printf(view->session->arena, "%s on average", show_speed(view->session->arena, view->motion.mean_ms));
}

const char *setup_whose(const struct setup_view *view)
{
    const char *lift = *view->lift ? view->lift : "no lift named";
    return *view->lifter ? arena_printf(view->session->arena, "%s, %s", view->lifter, lift) : lift;
}

const char *setup_whose_max(const struct setup_view *view)
{
    struct arena *arena = view->session->arena;
    char from[32];
    if (!(view->one_rm.kg > 0))
        return arena_printf(arena, "%s, no tested 1RM", setup_whose(view));
    one_rm_print(from, &view->one_rm);
    return arena_printf(arena, "%s, 1RM %s (%s)", setup_whose(view), show_load(view->session, view->one_rm.kg),
                        view->one_rm.day == NO_DAY ? "from --max" : from);
}

struct report setup_report(const struct setup_view *view, struct output *output)
{
    struct report report = {.session = view->session, .output = output, .style = session_style(view->session, output)};
    report.style.format = FORMAT_TEXT;
    if (!report.style.width)
        report.style.width = PAGE_WIDTH;
    return report;
}

/* --- by height ---------------------------------------------------------------------------------------------------- */

struct height_row
{
    const char *place;
    double height_m, load_kg, u_kg, of_max, added_kg, inertia_kg;
};

#define GET(name, call)                                                                                                \
    static void get_##name(const void *row, struct cell *cell)                                                         \
    {                                                                                                                  \
        const struct height_row *r = row;                                                                              \
        call;                                                                                                          \
    }
GET(place, cell_text(cell, r->place))
GET(height, cell_number(cell, r->height_m))
GET(height_in, cell_number(cell, r->height_m / M_PER_IN))
GET(load, cell_number(cell, r->load_kg))
GET(expanded, cell_number(cell, 2 * r->u_kg)) /* k = 2 */
GET(of_max, cell_number(cell, r->of_max))
GET(added, cell_number(cell, r->added_kg))
GET(inertia, cell_number(cell, r->inertia_kg))
GET(push, cell_number(cell, r->load_kg + r->inertia_kg))

static const struct column height_columns[] = {
    {"place", "bar at", QUANTITY_PLAIN, 0, get_place},
    {"height_m", "height m", QUANTITY_PLAIN, 3, get_height},
    {"load_kg", "load kg", QUANTITY_LOAD, 1, get_load},
    {"expanded_u_kg", "\xC2\xB1 kg", QUANTITY_LOAD, 1, get_expanded},
    {"of_max", "of 1RM", QUANTITY_SHARE, 1, get_of_max},
    {"added_kg", "added kg", QUANTITY_LOAD, 1, get_added},
    {"inertia_kg", "inertia kg", QUANTITY_LOAD, 1, get_inertia}, /* these two where a speed is given */
    {"push_kg", "push kg", QUANTITY_LOAD, 1, get_push},
};
#define HEIGHT_COLUMNS (sizeof height_columns / sizeof *height_columns)

static struct height_row row_at(const struct setup_view *view, const char *place, double height_m, double load_kg,
                                double u_kg)
{
    return (struct height_row){place,
                               height_m,
                               load_kg,
                               u_kg,
                               load_kg / view->one_rm.kg,
                               load_kg - view->effect.straight_kg,
                               view->motion.mean_ms > 0 ? loading_inertia_kg(view->loading, &view->motion, height_m)
                                                        : NAN};
}

static void height_table(const struct setup_view *view, const struct report *report)
{
    static const char *const places[] = {"bottom", "a quarter", "half way", "three quarters", "top"};
    const struct loading *loading = view->loading;
    const struct effect *effect = &view->effect;
    struct column shown[HEIGHT_COLUMNS];
    memcpy(shown, height_columns, sizeof shown);
    if (view->session->unit == UNIT_LB)
        shown[1] = (struct column){"height_in", "height in", QUANTITY_PLAIN, 1, get_height_in};
    struct table_writer *writer = table_open(view->session->arena, report->output, shown,
                                             view->motion.mean_ms > 0 ? HEIGHT_COLUMNS : HEIGHT_COLUMNS - 2,
                                             &report->style);
    for (int i = 0; i <= 4; i++) {
        double height = i == 4 ? loading->top_m : loading->bottom_m + (loading->top_m - loading->bottom_m) * i / 4;
        struct height_row row = row_at(view, places[i], height, loading_at(loading, height),
                                       loading_u_kg(loading, height, view->session->gym));
        if (i == 0 || i == 4) /* the ends may be known where the heights between are not */
            row = row_at(view, places[i], height, i ? effect->top_kg : effect->bottom_kg,
                         i ? effect->top_u_kg : effect->bottom_u_kg);
        else if (!setup_curve_known(view))
            continue;
        table_row(writer, &row);
    }
    table_close(writer);
    output_text(report->output, "\n");
}

/* --- totals ------------------------------------------------------------------------------------------------------- */

static void fact(const struct report *report, const char *name, const char *format, ...)
    __attribute__((format(printf, 3, 4)));

static void fact(const struct report *report, const char *name, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    output_printf(report->output, "  %-26s %s\n", name, arena_vprintf(report->session->arena, format, arguments));
    va_end(arguments);
}

#define OFF_CENTRE 0.05 /* of the vertical pull: anchor-off-centre's usual limit; common practice */

static void fore_aft_fact(const struct setup_view *view, const struct report *report)
{
    struct arena *arena = view->session->arena;
    struct fore_aft worst = fore_aft_worst(view->loading);
    if (!(worst.pull_kg > 0))
        return;
    fact(report, "pull forward or back", "up to %s, with the bar at %s", show_load(view->session, worst.pull_kg),
         show_metres(view->session, worst.pull_at_m));
    fact(report, "", "up to %s of the vertical pull, at %s%s", show_percent(arena, worst.ratio),
         show_metres(view->session, worst.ratio_at_m),
         worst.ratio > OFF_CENTRE ? ": it drags the bar forward or back" : "");
}

/* For pairs with two labels: the difference between left and right tilts the bar. */
static void askew_fact(const struct setup_view *view, const struct report *report)
{
    const struct loading *loading = view->loading;
    double bottom = 0, top = 0;
    bool pairs = false;
    for (size_t i = 0; i < loading->hung_count; i++) {
        const struct hung *hung = &loading->hung[i];
        if (!hung->piece->label_right)
            continue;
        bottom += (hung->right ? 1 : -1) * hung_load_kg(loading, hung, loading->bottom_m);
        top += (hung->right ? 1 : -1) * hung_load_kg(loading, hung, loading->top_m);
        pairs = true;
    }
    if (pairs)
        fact(report, "right minus left", "%s at the bottom, %s at the top: the difference tilts the bar",
             show_load(view->session, bottom), show_load(view->session, top));
}

static bool has_releasers(const struct loading *loading)
{
    for (size_t i = 0; i < loading->hung_count; i++)
        if (loading->hung[i].kind == HUNG_RELEASER)
            return true;
    return false;
}

/* Bands give back less than they take. */
static void lowering_facts(const struct setup_view *view, const struct report *report)
{
    struct session *session = view->session;
    const struct effect *effect = &view->effect;
    fact(report, "while lowered", "%s at the bottom, %s at the top%s, %s on average",
         show_load(session, effect->lowering_bottom_kg), show_load(session, effect->lowering_top_kg),
         has_releasers(view->loading) ? " with the releasers" : "", show_load(session, effect->lowering_mean_kg));
    fact(report, "work lost per rep", "%.0f J: the bands give back less than they take", loading_lost_j(view->loading));
}

static void facts(const struct setup_view *view, const struct report *report)
{
    struct session *session = view->session;
    struct arena *arena = session->arena;
    const struct effect *effect = &view->effect;
    double share = setup_share(view), work = loading_work_j(view->loading);
    fact(report, "straight weight", "%s", show_load(session, effect->straight_kg));
    if (!isnan(effect->bottom_kg))
        fact(report, "effective straight weight", "%s, the load at the bottom", show_load(session, effect->bottom_kg));
    if (!isnan(effect->mean_kg))
        fact(report, "mean load", "%s", show_load(session, effect->mean_kg));
    if (!isnan(work))
        fact(report, "work per rep", "%.0f J", work);
    if (!isnan(effect->top_kg) && !isnan(effect->bottom_kg)) {
        double gain = effect->top_kg - effect->bottom_kg;
        const char *of_top = effect->top_kg > 0 ? show_percent(arena, gain / effect->top_kg) : "0 %";
        fact(report, "top minus bottom", "%s: %s%s of the top load", show_load(session, gain),
             isnan(share) ? "" : arena_printf(arena, "%s of 1RM, ", show_percent(arena, share)), of_top);
    }
    if (setup_curve_known(view)) {
        fore_aft_fact(view, report);
        askew_fact(view, report);
    }
    if (!isnan(effect->lowering_mean_kg))
        lowering_facts(view, report);
    else if (has_releasers(view->loading) && !isnan(effect->lowering_top_kg))
        fact(report, "while lowered, at the top", "%s: the releasers drop off at the bottom",
             show_load(session, effect->lowering_top_kg));
    output_text(report->output, "\n");
}

/* Marked as a model, with what it takes for granted. */
static void speed_paragraphs(const struct setup_view *view, const struct report *report)
{
    struct session *session = view->session;
    struct arena *arena = session->arena;
    if (!(view->motion.mean_ms > 0))
        return;
    struct setup_push most = setup_most_push(view);
    report_heading(report, "Moving it, a model");
    report_paragraph(
        report,
        arena_printf(arena,
                     "At %s the lifter pushes hardest with the bar at %s: %s, of which %s are the load and "
                     "%s the inertia of what moves.",
                     setup_speed(view), show_metres(session, most.at_m), show_load(session, most.push_kg),
                     show_load(session, most.push_kg - most.inertia_kg), show_load(session, most.inertia_kg)),
        2);
    report_paragraph(report,
                     arena_printf(arena,
                                  "It takes the bar to go from rest to rest, its speed rising and falling as half a "
                                  "sine to a peak of %s half way. Straight weight and hanging chain have inertia, a "
                                  "band has none. Real lifts speed up harder at the start and slow down where they "
                                  "stick: the true peak is rather higher.",
                                  show_speed(arena, bar_motion_peak_ms(&view->motion))),
                     2);
    output_text(report->output, "\n");
}

static void alarms(const struct setup_view *view, const struct report *report)
{
    const char *alarm = setup_alarm(view, &view->effect);
    bool too_early = setup_bands_too_early(view, view->load);
    if (*alarm)
        report_paragraph(report, arena_printf(view->session->arena, "Careful: it %s.", alarm), 2);
    if (too_early)
        report_paragraph(report, SETUP_BANDS_TOO_EARLY, 2);
    if (*alarm || too_early)
        output_text(report->output, "\n");
}

/* --- each piece --------------------------------------------------------------------------------------------------- */

#define MOSTLY_STRAIGHT 0.7 /* of a chain's mass, the same as in chain-mostly-straight */

static const char *chain_words(const struct setup_view *view, const struct hung *hung)
{
    struct arena *arena = view->session->arena;
    struct chain_facts facts = chain_facts_of(view->loading, hung);
    if (hung->chain.pinned)
        return arena_printf(arena,
                            "%.0f %% of each chain comes to rest on its pin or the floor on the way down; %s the bar "
                            "to the side with %s at the bottom and %s at the top",
                            facts.resting_share * 100,
                            hung->chain.strands == 2 ? "each of its two ends pulls" : "it pulls its end of",
                            show_load(view->session, chain_level_pull_kg(&hung->chain, view->loading->bottom_m)),
                            show_load(view->session, chain_level_pull_kg(&hung->chain, view->loading->top_m)));
    const char *rest = arena_printf(arena, "%.0f %% of each chain comes to rest on the way down%s",
                                    facts.resting_share * 100,
                                    facts.resting_share < MOSTLY_STRAIGHT ? "; the rest is straight weight" : "");
    double strand = chain_shortest_strand_m(&hung->chain);
    if (facts.clearance_m < 0)
        return arena_printf(arena,
                            "%s; at the top it swings, %s short of leaving one link on the floor: lengthen the leader "
                            "to %s, or take a longer chain",
                            rest, show_metres(view->session, -facts.clearance_m),
                            show_metres(view->session, view->loading->top_m - strand + hung->chain.link_m));
    return arena_printf(arena, "%s; at the top %s and one link of it still lie on the floor", rest,
                        show_metres(view->session, facts.clearance_m));
}

static const char *calibration_words(const struct setup_view *view, const struct hung *hung,
                                     const struct band_facts *facts)
{
    struct arena *arena = view->session->arena;
    char day[16] = "undated";
    if (isinf(facts->end_m))
        return "the gym file gives its law no range";
    if (hung->calibration->measured != NO_DAY)
        date_print(day, hung->calibration->measured);
    const char *end = arena_printf(arena, "measured (%s) up to %s", day, show_metres(view->session, facts->end_m));
    if (facts->left_m >= 0)
        return arena_printf(arena, "%s, which is %s longer", end, show_metres(view->session, facts->left_m));
    return arena_printf(
        arena, "%s, exceeded by %s%s", end, show_metres(view->session, -facts->left_m),
        facts->over_range
            ? ": a guess there. Use a longer or lighter band; measure further only from the side, with eye protection"
            : ", which is within 5 % of its extension");
}

static const char *slack_words(const struct setup_view *view, const struct band_facts *facts)
{
    struct arena *arena = view->session->arena;
    if (isnan(facts->slack_from_m))
        return "";
    if (facts->slack_at_bottom && facts->slack_at_top)
        return "; slack all the way: it adds nothing";
    if (facts->slack_at_bottom)
        return arena_printf(arena, "; slack at the bottom, up to %s", show_metres(view->session, facts->slack_to_m));
    return arena_printf(arena, "; slack from %s to %s", show_metres(view->session, facts->slack_from_m),
                        show_metres(view->session, facts->slack_to_m));
}

static const char *band_words(const struct setup_view *view, const struct hung *hung)
{
    struct arena *arena = view->session->arena;
    struct band_facts facts = band_facts_of(view->loading, hung);
    return arena_printf(arena, "stretched to %s at the bottom and %s at the top, end to end; %s%s",
                        show_metres(view->session, facts.bottom_stretch_m),
                        show_metres(view->session, facts.top_stretch_m), calibration_words(view, hung, &facts),
                        slack_words(view, &facts));
}

static const char *ends_words(const struct setup_view *view, const struct hung *hung)
{
    const struct loading *loading = view->loading;
    bool ramp = hung->kind == HUNG_RAMP;
    double bottom = ramp ? hung->bottom_kg : hung_load_kg(loading, hung, loading->bottom_m);
    double top = ramp ? hung->top_kg : hung_load_kg(loading, hung, loading->top_m);
    const char *verb = hung->reverse ? "takes off" : "adds";
    return arena_printf(view->session->arena, "%s %s at the bottom and %s at the top, in all", verb,
                        show_load(view->session, fabs(bottom)), show_load(view->session, fabs(top)));
}

static const char *hung_words(const struct setup_view *view, const struct hung *hung)
{
    struct arena *arena = view->session->arena;
    switch (hung->kind) {
    case HUNG_CHAIN:
        return arena_printf(arena, "%s; %s", ends_words(view, hung), chain_words(view, hung));
    case HUNG_BAND:
        return arena_printf(arena, "%s; %s", ends_words(view, hung), band_words(view, hung));
    case HUNG_RAMP:
        return arena_printf(arena, "%s; a straight line is assumed between them", ends_words(view, hung));
    case HUNG_RELEASER:
        return isnan(hung->top_kg) ? "of unknown mass"
                                   : arena_printf(arena, "%s while lowered, dropped at the bottom",
                                                  show_load(view->session, hung->top_kg));
    case HUNG_UNKNOWN:
        break;
    }
    if (hung->hindrance == HINDRANCE_OUT_OF_REACH)
        return arena_printf(arena, "%s of it do not reach from the pin to the bar, so its load is not known",
                            show_metres(view->session, chain_shortest_strand_m(&hung->chain)));
    if (hung->hindrance == HINDRANCE_CHOKED_ON_PEGS)
        return "it cannot be choked round two pegs, so its load is not known";
    return hung->gym_band
               ? "its load cannot be computed without the bar's heights and, if it hangs from above, a set-up"
               : "the gym file does not describe it, so its load is not known";
}

static void piece_paragraphs(const struct setup_view *view, const struct report *report)
{
    struct arena *arena = view->session->arena;
    if (!view->loading->hung_count)
        return;
    report_heading(report, "Each piece");
    for (size_t i = 0; i < view->loading->hung_count; i++) {
        const struct hung *hung = &view->loading->hung[i];
        const char *side = hung->piece->label_right ? hung->right ? ", the right one" : ", the left one" : "";
        const char *name = text_visible(arena,
                                        load_in_unit(arena, pieces_print(arena, hung->piece, 1), view->session->unit));
        report_paragraph(report, arena_printf(arena, "%s%s: %s.", name, side, hung_words(view, hung)), 2);
    }
    output_text(report->output, "\n");
}

/* --- assumed ------------------------------------------------------------------------------------------------------ */

static void heights_paragraph(const struct setup_view *view, const struct report *report)
{
    struct arena *arena = view->session->arena;
    enum mass_unit unit = view->session->unit;
    if (view->loading->heights_estimated)
        report_paragraph(
            report,
            advice_in_unit(
                arena,
                "The bar's heights are estimated from stature, so no uncertainty can be given. To fix: measure floor "
                "to bar at bottom and top, and pass --heights '___ m ___ m' or give heights = in [lifter].",
                unit),
            2);
    else
        report_paragraph(
            report,
            advice_in_unit(
                arena,
                "The bar's heights are not known for this lift: chain counts as 0 at the bottom and in full at the "
                "top, "
                "and a labelled band has no load at all. To fix: measure floor to bar at bottom and top, and pass "
                "--heights '___ m ___ m', or name a --lifter and a --lift whose heights the gym file has.",
                unit),
            2);
}

/* What the gym file describes and cannot hang so, as each piece says; nothing is left to describe. */
static bool is_described(const struct loading *loading)
{
    for (size_t i = 0; i < loading->hung_count; i++)
        if (loading->hung[i].kind == HUNG_UNKNOWN && loading->hung[i].hindrance == HINDRANCE_NONE)
            return false;
    return true;
}

static void assumed_paragraphs(const struct setup_view *view, const struct report *report)
{
    unsigned assumed = view->effect.assumed;
    if (is_described(view->loading))
        assumed &= ~(unsigned)ASSUMED_UNKNOWN_GEAR;
    if (!assumed)
        return;
    report_heading(report, "Assumed");
    if (assumed & ASSUMED_NO_HEIGHTS)
        heights_paragraph(view, report);
    for (int bit = 0; bit < ASSUMPTION_BITS; bit++) {
        const char *meaning, *settle;
        enum assumption assumption = (enum assumption)(1 << bit);
        if ((assumed & 1u << bit) && assumption != ASSUMED_NO_HEIGHTS &&
            assumption_explain(view->session, assumption, &meaning, &settle))
            report_paragraph(report,
                             arena_printf(view->session->arena, "%c%s. To fix: %s.", toupper((unsigned char)*meaning),
                                          meaning + 1, settle),
                             2);
    }
    output_text(report->output, "\n");
}

void setup_text(const struct setup_view *view, struct output *output)
{
    struct report report = setup_report(view, output);
    struct arena *arena = view->session->arena;
    report_heading(&report,
                   text_visible(arena, load_in_unit(arena, load_print(arena, view->load), view->session->unit)));
    const char *expanded = isnan(view->effect.bottom_u_kg) ? "" : " \xC2\xB1 covers 19 cases in 20.";
    report_paragraph(&report, text_visible(arena, arena_printf(arena, "%s.%s", setup_whose_max(view), expanded)), 2);
    output_text(output, "\n");
    height_table(view, &report);
    facts(view, &report);
    speed_paragraphs(view, &report);
    alarms(view, &report);
    piece_paragraphs(view, &report);
    assumed_paragraphs(view, &report);
    report_cautions(&report);
}
