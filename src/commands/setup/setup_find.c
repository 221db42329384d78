#include "commands/setup/setup_find.h"

#include "commands/setup/setup_alarms.h"

#include "commands/setup/setup.h"

#include "analysis/setup/setup_search.h"
#include "base/number.h"
#include "base/pounds.h"
#include "base/text.h"
#include "commands/report/report_closing.h"
#include "commands/session/summary.h"
#include "commands/setup/setup_text.h"

#include <math.h>
#include <string.h>

#define SHOWN 10

struct quest
{
    struct setup_wish wish;
    struct setup_search search;
    double bottom_m, top_m;
};

struct found_row
{
    const struct setup_found *found;
    long rank;
    const char *load, *set, *mind;
    char assumed[192];
};

#define GET(name, call)                                                                                                \
    static void get_##name(const void *row, struct cell *cell)                                                         \
    {                                                                                                                  \
        const struct found_row *r = row;                                                                               \
        const struct setup_found *found = r->found;                                                                    \
        (void)found;                                                                                                   \
        call;                                                                                                          \
    }
GET(rank, cell_count(cell, r->rank))
GET(load, cell_text(cell, r->load))
GET(set, cell_text(cell, r->set))
GET(straight, cell_number(cell, found->effect.straight_kg))
GET(bottom, cell_number(cell, found->effect.bottom_kg))
GET(top, cell_number(cell, found->effect.top_kg))
GET(mean, cell_number(cell, found->effect.mean_kg))
GET(bottom_u, cell_number(cell, found->effect.bottom_u_kg))
GET(top_u, cell_number(cell, found->effect.top_u_kg))
GET(share, cell_number(cell, found->share))
GET(miss, cell_number(cell, found->miss_kg))
GET(points, cell_number(cell, found->miss_share * 100))
GET(added, cell_number(cell, found->added_kg))
GET(leader, cell_number(cell, found->leader_m))
GET(anchor, cell_text(cell, found->anchor.name))
GET(anchor_height, cell_number(cell, found->anchor.name ? found->anchor.height_m : NAN))
GET(anchor_offset, cell_number(cell, found->anchor.name ? found->anchor.offset_m : NAN))
GET(anchor_spread, cell_number(cell, found->anchor.name ? found->anchor.spread_m : NAN))
GET(slack, cell_count(cell, found->slack))
GET(mind, cell_text(cell, r->mind))
GET(assumed, cell_text(cell, r->assumed))

static const struct column columns[] = {
    {"rank", "", QUANTITY_PLAIN, 0, get_rank},
    {"load", NULL, QUANTITY_PLAIN, 0, get_load},
    {"straight_kg", NULL, QUANTITY_LOAD, 1, get_straight},
    {"bottom_kg", "bottom", QUANTITY_LOAD, 1, get_bottom},
    {"top_kg", "top", QUANTITY_LOAD, 1, get_top},
    {"mean_kg", "mean", QUANTITY_LOAD, 1, get_mean},
    {"bottom_u_kg", NULL, QUANTITY_LOAD, 2, get_bottom_u},
    {"top_u_kg", NULL, QUANTITY_LOAD, 2, get_top_u},
    {"share", "share", QUANTITY_SHARE, 1, get_share},
    {"miss_kg", "miss kg", QUANTITY_LOAD, 1, get_miss},
    {"miss_points", "points", QUANTITY_PLAIN, 1, get_points},
    {"added_bottom_kg", NULL, QUANTITY_LOAD, 1, get_added},
    {"leader_m", NULL, QUANTITY_PLAIN, 2, get_leader},
    {"anchor", NULL, QUANTITY_PLAIN, 0, get_anchor},
    {"anchor_height_m", NULL, QUANTITY_PLAIN, 2, get_anchor_height},
    {"anchor_offset_m", NULL, QUANTITY_PLAIN, 2, get_anchor_offset},
    {"anchor_spread_m", NULL, QUANTITY_PLAIN, 2, get_anchor_spread},
    {"slack_at_bottom", NULL, QUANTITY_PLAIN, 0, get_slack},
    {"set", "to set", QUANTITY_PLAIN, 0, get_set},
    {"assumed", NULL, QUANTITY_PLAIN, 0, get_assumed},
    {"mind", "mind", QUANTITY_PLAIN, 0, get_mind},
};

/* What has to be made or measured out before it hangs as found. */
static const char *to_set(const struct session *session, const struct setup_found *found, enum mass_unit unit)
{
    if (found->anchor.name)
        return arena_printf(session->arena, "anchor %s", length_in_unit(session->arena, found->anchor.height_m, unit));
    return isnan(found->leader_m)
               ? ""
               : arena_printf(session->arena, "leader %s", length_in_unit(session->arena, found->leader_m, unit));
}

static const char *to_mind(const struct setup_found *found, enum mass_unit unit)
{
    if (found->slack)
        return "slack at bottom";
    if (found->effect.assumed & ASSUMED_NO_SETUP)
        return "on the floor";
    return !(found->effect.assumed & ASSUMED_HITCH) ? "" : unit == UNIT_LB ? "hitch 4 in" : "hitch 10 cm";
}

/* Scripts get metres, whatever the unit of loads. */
static struct found_row row_of(const struct session *session, const struct setup_search *search, size_t at)
{
    enum mass_unit unit = session->options->format == FORMAT_TEXT ? session->unit : UNIT_KG;
    const struct setup_found *found = &search->found[at];
    struct found_row row = {found,
                            (long)at + 1,
                            load_print(session->arena, &found->load),
                            to_set(session, found, unit),
                            to_mind(found, unit),
                            ""};
    assumptions_print(row.assumed, found->effect.assumed);
    return row;
}

/* --- text --------------------------------------------------------------------------------------------------------- */

static void wish_paragraph(const struct setup_view *view, const struct report *report, const struct quest *quest)
{
    struct session *session = view->session;
    struct arena *arena = session->arena;
    const char *wanted = show_load(session, quest->wish.share * view->one_rm.kg);
    const char *least = quest->wish.min_added_kg > 0 ? arena_printf(arena, ", and at least %s at the bottom",
                                                                    show_load(session, quest->wish.min_added_kg))
                                                     : "";
    report_heading(report, "Wanted");
    report_paragraph(report, text_visible(arena, arena_printf(arena, "%s.", setup_whose_max(view))), 2);
    report_paragraph(report,
                     arena_printf(arena, "%s of 1RM by chain and band: %s more with the bar at %s than at %s%s.",
                                  show_percent(arena, quest->wish.share), wanted, show_metres(session, quest->top_m),
                                  show_metres(session, quest->bottom_m), least),
                     2);
    report_paragraph(report,
                     arena_printf(arena, "Straight weight %s%s.", show_load(session, view->effect.straight_kg),
                                  view->straight_from ? arena_printf(arena, ", %s", view->straight_from) : ""),
                     2);
    if (view->loading->heights_estimated)
        report_paragraph(
            report,
            "The bar's heights are estimated from stature: measure them before you set up anything by these lengths.",
            2);
    output_text(report->output, "\n");
}

static void found_loads(const struct setup_view *view, const struct report *report, const struct quest *quest)
{
    struct arena *arena = view->session->arena;
    report_heading(report, "Nearest");
    report_paragraph(
        report,
        arena_printf(arena,
                     "Loads in %s. The best of each gear, sorted by how far it misses the share (in steps of half a "
                     "point of 1RM), then by the load at "
                     "the bottom. A leader is as long as the bar is high when its chain begins to lift. Pass one of "
                     "these loads to setup to see all of it, with its uncertainty.",
                     mass_unit_name(view->session->unit)),
        2);
    output_text(report->output, "\n");
    struct table_writer *writer = table_open(arena, report->output, columns, sizeof columns / sizeof *columns,
                                             &report->style);
    for (size_t i = 0; i < quest->search.count; i++) {
        struct found_row row = row_of(view->session, &quest->search, i);
        table_row(writer, &row);
    }
    table_close(writer);
    output_text(report->output, "\n");
    for (size_t i = 0; i < quest->search.count; i++)
        output_printf(report->output, "  %2zu  %s\n", i + 1,
                      text_visible(arena, load_in_unit(arena, load_print(arena, &quest->search.found[i].load),
                                                       view->session->unit)));
    output_text(report->output, "\n");
}

/* One sentence each for all set-ups found: they share the straight weight. */
static void alarms(const struct setup_view *view, const struct report *report, const struct setup_search *search)
{
    struct arena *arena = view->session->arena;
    const char *worst = "", *ranks = "";
    double top_kg = 0;
    bool too_early = false;
    for (size_t i = 0; i < search->count; i++) {
        const struct effect *effect = &search->found[i].effect;
        const char *alarm = setup_alarm(view, effect);
        too_early |= setup_bands_too_early(view, &search->found[i].load);
        if (!*alarm)
            continue;
        ranks = arena_printf(arena, "%s%s%zu", ranks, *ranks ? ", " : "", i + 1);
        worst = !*worst || effect->top_kg > top_kg ? alarm : worst;
        top_kg = fmax(top_kg, effect->top_kg);
    }
    if (*ranks)
        report_paragraph(report, arena_printf(arena, "Careful with %s: the heaviest %s.", ranks, worst), 2);
    if (too_early)
        report_paragraph(report, SETUP_BANDS_TOO_EARLY, 2);
    if (*ranks || too_early)
        output_text(report->output, "\n");
}

static bool is_first_of_name(const struct setup_search *search, size_t at)
{
    for (size_t i = 0; i < at; i++)
        if (search->found[i].anchor.name && !strcmp(search->found[i].anchor.name, search->found[at].anchor.name))
            return false;
    return true;
}

/* Blocks to paste into the gym file: with them, the loads above are read as they were found. */
static void anchor_blocks(const struct report *report, const struct setup_search *search)
{
    bool any = false;
    for (size_t i = 0; i < search->count; i++) {
        const struct setup *anchor = &search->found[i].anchor;
        if (!anchor->name || !is_first_of_name(search, i))
            continue;
        if (!any)
            report_heading(report, "For the gym file, once the anchor is there");
        bool inches = report->session->unit == UNIT_LB;
        double unit_m = inches ? M_PER_IN : 1;
        const char *unit = inches ? "in" : "m";
        output_printf(report->output,
                      "  [setup \"%s\"]\n  height = %.2f %s\n  offset = %.2f %s\n  spread = %.2f %s\n\n", anchor->name,
                      anchor->height_m / unit_m, unit, anchor->offset_m / unit_m, unit, anchor->spread_m / unit_m,
                      unit);
        any = true;
    }
}

static void need_paragraph(const struct setup_view *view, const struct report *report, const struct quest *quest)
{
    struct session *session = view->session;
    struct arena *arena = session->arena;
    struct setup_need need = setup_need_for(&quest->wish);
    const char *high = show_metres(session, quest->top_m), *low = show_metres(session, quest->bottom_m);
    const char *least = quest->wish.min_added_kg > 0 ? arena_printf(arena, ", where they pull at least %s",
                                                                    show_load(session, quest->wish.min_added_kg))
                                                     : "";
    if (quest->search.count)
        report_paragraph(
            report,
            arena_printf(arena, "None of this gear comes near: the best misses by %s, more than two points of 1RM.",
                         show_load(session, fabs(quest->search.found[0].miss_kg))),
            2);
    else if (quest->search.tried)
        report_paragraph(report, "None of this gear will do: the reasons are below.", 2);
    if (quest->wish.gear & SETUP_BANDS)
        report_paragraph(report,
                         arena_printf(arena,
                                      "What would do: a pair of bands that together pull %s more at %s than at %s%s.",
                                      show_load(session, need.added_kg), high, low, least),
                         2);
    if ((quest->wish.gear & SETUP_CHAINS) && !isnan(need.chain_kg))
        report_paragraph(report,
                         arena_printf(arena, "What would do: a chain of %s and %s on each side, on a leader of %s.",
                                      show_load(session, need.chain_kg), show_metres(session, need.chain_m),
                                      show_metres(session, need.leader_m)),
                         2);
    output_text(report->output, "\n");
}

/* "4,904 set-ups were tried. Left out: 1,592 for a band stretched beyond the longest length measured, 1,058 for a chain
 * that swings." */
static void counts_paragraph(const struct report *report, const struct quest *quest)
{
    static const char *const reasons[] = {
        [SETUP_OVER_RANGE] = "a band stretched beyond the longest length measured",
        [SETUP_SWINGS] = "a chain that swings",
        [SETUP_IDLE] = "a piece that adds no more at the top than at the bottom",
        [SETUP_TOO_LIGHT] = "adding too little at the bottom",
    };
    struct arena *arena = report->session->arena;
    const struct setup_search *search = &quest->search;
    char count[32];
    const char *left_out = "", *slack = "";
    for (int i = 0; i < SETUP_REJECTIONS; i++)
        if (search->rejected[i])
            left_out = arena_printf(arena, "%s %s for %s",
                                    *left_out ? arena_printf(arena, "%s,", left_out) : " Left out:",
                                    grouped_count(count, search->rejected[i]), reasons[i]);
    if (search->slack)
        slack = arena_printf(arena,
                             " Kept, but ranked after the rest: %s with a band that is slack at the bottom and snaps "
                             "taut on the way up.",
                             grouped_count(count, search->slack));
    report_paragraph(report,
                     arena_printf(arena, "Set-ups tried: %s.%s%s%s", grouped_count(count, search->tried), left_out,
                                  *left_out ? "." : "", slack),
                     2);
    report_paragraph(
        report,
        "Counts go up to four chains and two bands on a side, however many the gym has: check that they are there.", 2);
    output_text(report->output, "\n");
}

static void no_gear_paragraph(const struct report *report, const struct quest *quest)
{
    if (quest->search.usable_chains + quest->search.usable_bands)
        return;
    report_paragraph(report,
                     "The gym file has no chain with mass and length, and no band with tension, that could be used "
                     "here: describe them in [chain] and [band].",
                     2);
}

static void find_text(const struct setup_view *view, const struct quest *quest)
{
    struct output *output = session_output(view->session);
    if (!output)
        return;
    struct report report = setup_report(view, output);
    const struct setup_search *search = &quest->search;
    wish_paragraph(view, &report, quest);
    if (search->count)
        found_loads(view, &report, quest);
    alarms(view, &report, search);
    no_gear_paragraph(&report, quest);
    if (!search->count || fabs(search->found[0].miss_share) > SETUP_NEAR)
        need_paragraph(view, &report, quest);
    anchor_blocks(&report, search);
    if (search->tried)
        counts_paragraph(&report, quest);
    report_cautions(&report);
    session_commit(view->session, output);
}

/* --- all forms ---------------------------------------------------------------------------------------------------- */

void setup_find(const struct setup_view *view)
{
    struct session *session = view->session;
    const struct options *options = session->options;
    struct quest quest = {
        .wish =
            {
                .context = view->context,
                .straight = *view->load,
                .share = options->share,
                .min_added_kg = options->min_bottom_kg,
                .gear = options->gear ? options->gear : SETUP_CHAINS | SETUP_BANDS,
                .most = options->most ? options->most : SHOWN,
                .tape = options->unit_said ? options->unit : session->gym->unit, /* whatever the format */
            },
        .bottom_m = view->loading->bottom_m,
        .top_m = view->loading->top_m,
    };
    quest.search = setup_search(session->arena, &quest.wish);
    if (options->format == FORMAT_TEXT) {
        find_text(view, &quest);
        return;
    }
    struct found_row *rows = ARENA_ARRAY(session->arena, struct found_row, quest.search.count);
    for (size_t i = 0; i < quest.search.count; i++)
        rows[i] = row_of(session, &quest.search, i);
    session_table(session, columns, sizeof columns / sizeof *columns, rows, quest.search.count, sizeof *rows);
}
