#include "commands/options/options.h"

#include "analysis/setup/setup_search.h"
#include "base/number.h"
#include "base/text.h"
#include "commands/options/finding_ids.h"
#include "reading/csv/columns.h"

#include <math.h>
#include <string.h>

static bool set_format(struct options *options, const char *value)
{
    static const char *const names[] = {"text", "csv", "json"};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        if (!strcmp(value, names[i])) {
            options->format = (enum format)i;
            return options->format_said = true;
        }
    }
    return false;
}

static bool set_unit(struct options *options, const char *value)
{
    return options->unit_said = mass_unit_read(value, strlen(value), &options->unit);
}

static bool set_log_unit(struct options *options, const char *value)
{
    return options->log_unit_said = mass_unit_read(value, strlen(value), &options->log_unit);
}

static bool set_dates(struct options *options, const char *value)
{
    static const char *const names[] = {[DATES_ISO] = "iso", [DATES_DMY] = "dmy", [DATES_MDY] = "mdy"};
    for (int order = DATES_ISO; order <= DATES_MDY; order++) {
        if (!strcmp(value, names[order])) {
            options->dates = (enum date_order)order;
            return true;
        }
    }
    return false;
}

static bool set_formula(struct options *options, const char *value)
{
    return options->formula_said = e1rm_formula_read(value, &options->formula);
}

static bool set_render(struct options *options, const char *value)
{
    static const char *const names[] = {"svg", "png", "pdf", "text", "none"};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++)
        if (!strcmp(value, names[i]))
            options->render = names[i];
    return options->render && !strcmp(options->render, value);
}

static bool set_render_of_team(struct options *options, const char *value)
{
    if (strcmp(value, "changed") != 0)
        return set_render(options, value);
    options->render = "changed";
    return true;
}

#define SMALLEST_PICTURE 200
#define LARGEST_PICTURE 10000

/* 900x600 */
static bool set_size(struct options *options, const char *value)
{
    double width, height;
    size_t used = number_prefix(value, strlen(value), '.', &width);
    if (!used || value[used] != 'x')
        return false;
    value += used + 1;
    if (number_prefix(value, strlen(value), '.', &height) != strlen(value) || !*value)
        return false;
    if (width < SMALLEST_PICTURE || height < SMALLEST_PICTURE || width > LARGEST_PICTURE || height > LARGEST_PICTURE)
        return false;
    options->picture_width = (unsigned)width;
    options->picture_height = (unsigned)height;
    return true;
}

/* 20%: a number with its sign, so that it is clear whether 0.2 or 20 is meant. */
static bool percent_read(const char *text, double *fraction)
{
    double percent;
    size_t length = strlen(text), used = number_prefix(text, length, '.', &percent);
    size_t blanks = used ? strspn(text + used, " ") : 0;
    if (!used || strcmp(text + used + blanks, "%") != 0 || !(percent > 0) || percent > 100)
        return false;
    *fraction = percent / 100;
    return true;
}

#define SET_PERCENT(member)                                                                                            \
    static bool set_##member(struct options *options, const char *value)                                               \
    {                                                                                                                  \
        return percent_read(value, &options->member);                                                                  \
    }
SET_PERCENT(share)
SET_PERCENT(straight_share)

#define LARGEST_MASS_KG 2000

#define SET_MASS(member)                                                                                               \
    static bool set_##member(struct options *options, const char *value)                                               \
    {                                                                                                                  \
        bool no_unit;                                                                                                  \
        return mass_read(value, &options->member, &no_unit) && options->member > 0 &&                                  \
               options->member <= LARGEST_MASS_KG;                                                                     \
    }
SET_MASS(min_bottom_kg)
SET_MASS(max_kg)

#define HIGHEST_BAR_M 4

/* 0.78 m 1.42 m; a comma or "to" between them is allowed. */
static bool set_heights(struct options *options, const char *value)
{
    struct arena *scratch = arena_new();
    size_t first = strspn(value, " 0123456789."), word = strcspn(value + first, " ,0123456789");
    const char *rest = value + first + word;
    bool no_unit, low = length_read(arena_text(scratch, value, first + word), &options->bottom_m, &no_unit);
    rest += strspn(rest, " ,");
    if (text_starts(rest, "to "))
        rest += 3;
    bool high = length_read(rest, &options->top_m, &no_unit);
    arena_free(scratch);
    return low && high && options->bottom_m > 0 && options->top_m > 0 &&
           fmax(options->bottom_m, options->top_m) <= HIGHEST_BAR_M;
}

static bool set_flat(struct options *options, const char *value)
{
    bool no_unit;
    return length_read(value, &options->flat_m, &no_unit) && options->flat_m >= 0.05 && options->flat_m <= 10;
}

#define FASTEST_BAR_MS 5 /* no bar is faster */

/* 0.5 m/s, 0.8 m/s peak */
static bool set_speed(struct options *options, const char *value)
{
    size_t used = number_prefix(value, strlen(value), '.', &options->speed_ms);
    const char *unit = value + used + strspn(value + used, " ");
    if (!used || !text_starts(unit, "m/s"))
        return false;
    const char *word = unit + strlen("m/s");
    word += strspn(word, " ");
    options->speed_is_peak = !strcmp(word, "peak");
    return (options->speed_is_peak || !*word || !strcmp(word, "mean")) && options->speed_ms > 0 &&
           options->speed_ms <= FASTEST_BAR_MS;
}

static bool set_curve(struct options *options, const char *value)
{
    options->curve = !strcmp(value, "csv") ? FORMAT_CSV : !strcmp(value, "json") ? FORMAT_JSON : FORMAT_TEXT;
    return options->curve != FORMAT_TEXT;
}

static bool set_gear(struct options *options, const char *value)
{
    static const char *const names[] = {
        [SETUP_CHAINS] = "chains", [SETUP_BANDS] = "bands", [SETUP_CHAINS | SETUP_BANDS] = "both"};
    for (unsigned i = 1; i < sizeof names / sizeof *names; i++)
        if (!strcmp(value, names[i]))
            options->gear = i;
    return options->gear && !strcmp(names[options->gear], value);
}

#define MOST_ROWS 1000

static bool set_most(struct options *options, const char *value)
{
    double most;
    size_t length = strlen(value);
    if (!length || strspn(value, "0123456789") != length || number_prefix(value, length, '.', &most) != length ||
        most < 1 || most > MOST_ROWS)
        return false;
    options->most = (unsigned)most;
    return true;
}

#define MOST_PERCENT 150.0

/* 50,55,60 or 50%, 55%, 60%: straight weights in % of 1RM. */
static bool set_percents(struct options *options, const char *value)
{
    for (options->percent_count = 0; options->percent_count < MOST_PERCENTS; value++) {
        double percent;
        value += strspn(value, " ");
        size_t used = number_prefix(value, strlen(value), '.', &percent);
        if (!used || !(percent > 0) || percent > MOST_PERCENT)
            return false;
        options->percents[options->percent_count++] = percent / 100;
        value += used;
        value += strspn(value, " %");
        if (*value != ',')
            return !*value;
    }
    return false;
}

/* 2.5kg, 5 lb or 2%: how much heavier the next wave is to be. */
static bool set_over(struct options *options, const char *value)
{
    bool no_unit;
    options->over.kg = options->over.share = NAN;
    options->over_said = percent_read(value, &options->over.share) ||
                         (mass_read(value, &options->over.kg, &no_unit) && !no_unit && options->over.kg > 0 &&
                          options->over.kg <= LARGEST_MASS_KG);
    return options->over_said;
}

static bool set_at(struct options *options, const char *value)
{
    static const char *const names[] = {[PLAN_AT_BOTH] = "both", [PLAN_AT_TOP] = "top", [PLAN_AT_BOTTOM] = "bottom"};
    for (int i = PLAN_AT_BOTH; i <= PLAN_AT_BOTTOM; i++) {
        if (strcmp(value, names[i]))
            continue;
        options->over.at = (enum plan_end)i;
        return options->at_said = true;
    }
    return false;
}

#define MOST_STEP 20.0 /* points of 1RM per week */

static bool set_step(struct options *options, const char *value)
{
    double points;
    size_t used = number_prefix(value, strlen(value), '.', &points);
    if (!used || value[used + strspn(value + used, " %")] || points > MOST_STEP)
        return false;
    options->step = points / 100;
    return options->step_said = true;
}

static bool set_count(unsigned *member, const char *value, unsigned most)
{
    double count;
    size_t length = strlen(value);
    if (!length || strspn(value, "0123456789") != length)
        return false;
    if (number_prefix(value, length, '.', &count) != length || count < 1 || count > most)
        return false;
    *member = (unsigned)count;
    return true;
}

#define SET_COUNT(member, most)                                                                                        \
    static bool set_##member(struct options *options, const char *value)                                               \
    {                                                                                                                  \
        return set_count(&options->member, value, most);                                                               \
    }
SET_COUNT(weeks, MOST_PERCENTS)
SET_COUNT(sets, 100)
SET_COUNT(reps, 100)
SET_COUNT(jobs, 1000)
SET_COUNT(time_limit, 86400)

#define NARROWEST 40
#define WIDEST 500

static bool set_width(struct options *options, const char *value)
{
    struct options read = {0};
    if (!set_count(&read.columns_wide, value, WIDEST) || read.columns_wide < NARROWEST)
        return false;
    options->columns_wide = read.columns_wide;
    return true;
}

static bool set_focus(struct options *options, const char *value)
{
    return focus_read(value, &options->focus) && options->focus != FOCUS_UNSAID;
}

#define SET_TEXT(member)                                                                                               \
    static bool set_##member(struct options *options, const char *value)                                               \
    {                                                                                                                  \
        options->member = value;                                                                                       \
        return *value;                                                                                                 \
    }
SET_TEXT(gym)
SET_TEXT(output)
SET_TEXT(as)
SET_TEXT(corrections)
SET_TEXT(into)
SET_TEXT(ar)
SET_TEXT(plan)
SET_TEXT(html)
SET_TEXT(page)
SET_TEXT(only_sections)
SET_TEXT(workbook)
SET_TEXT(only)
SET_TEXT(except)
SET_TEXT(straight)
SET_TEXT(plot)
SET_TEXT(band)
SET_TEXT(bar)
SET_TEXT(plates)
SET_TEXT(summary)
SET_TEXT(lifters_from)
SET_TEXT(store)

#define SET_NAMES(member)                                                                                              \
    static bool set_##member(struct options *options, const char *value)                                               \
    {                                                                                                                  \
        *LIST_ADD(options->arena, &options->member##s) = value;                                                        \
        options->member = value;                                                                                       \
        return *value;                                                                                                 \
    }
SET_NAMES(lifter)
SET_NAMES(lift)

/* reps=Tally */
static bool set_column(struct options *options, const char *value)
{
    const char *equals = strchr(value, '=');
    if (!equals || !equals[1 + strspn(equals + 1, " ")])
        return false;
    char *field = text_squeeze(options->arena, arena_text(options->arena, value, (size_t)(equals - value)));
    for (size_t i = 0; i < FIELD_COUNT; i++)
        if (text_same_name(field, log_field_name((enum log_field)i))) {
            *LIST_ADD(options->arena, &options->told_columns) = (struct told_column){
                log_field_name((enum log_field)i), text_squeeze(options->arena, equals + 1)};
            return true;
        }
    return false;
}

static bool set_severity(struct options *options, const char *value)
{
    return finding_severity_read(value, &options->least_severity);
}

static bool set_experience(struct options *options, const char *value)
{
    options->experience = value;
    return !strcmp(value, "new") || !strcmp(value, "some") || !strcmp(value, "seasoned");
}

#define SET_DAY(member)                                                                                                \
    static bool set_##member(struct options *options, const char *value)                                               \
    {                                                                                                                  \
        return date_read_iso(value, &options->member);                                                                 \
    }
SET_DAY(today)
SET_DAY(from)
SET_DAY(to)
SET_DAY(start)

/* 2025-08-01..2025-10-31, or another lifter */
static bool set_against(struct options *options, const char *value)
{
    const char *dots = strstr(value, "..");
    options->against = NULL;
    options->against_from = options->against_to = NO_DAY;
    if (!dots || !strchr("0123456789", *value)) {
        options->against = value;
        return *value;
    }
    char first[16] = "";
    if (dots - value < (ptrdiff_t)sizeof first)
        memcpy(first, value, (size_t)(dots - value));
    return date_read_iso(first, &options->against_from) && date_read_iso(dots + 2, &options->against_to) &&
           options->against_from <= options->against_to;
}

static bool set_by(struct options *options, const char *value)
{
    options->by_share = !strcmp(value, "share");
    return options->by_share || !strcmp(value, "load");
}

static bool set_accept(struct options *options, const char *value)
{
    if (!*value || options->accepted_count == MOST_ACCEPTED)
        return false;
    options->accepted[options->accepted_count++] = value;
    return true;
}

static bool set_part(struct options *options, const char *value)
{
    double part, parts;
    size_t slash = strcspn(value, "/"), length = strlen(value);
    if (slash == length || number_prefix(value, slash, '.', &part) != slash ||
        number_prefix(value + slash + 1, length - slash - 1, '.', &parts) != length - slash - 1 || !(part >= 1) ||
        !(parts >= part) || parts > 1000000 || part != floor(part) || parts != floor(parts))
        return false;
    options->part = (unsigned)part;
    options->parts = (unsigned)parts;
    return true;
}

bool options_accept(const struct options *options, const char *name)
{
    for (size_t i = 0; i < options->accepted_count; i++)
        if (!strcmp(options->accepted[i], "all") || text_same_name(options->accepted[i], name))
            return true;
    return false;
}

static bool set_first_monday(struct options *options, const char *value)
{
    return date_read_iso(value, &options->first_monday) && day_of_week(options->first_monday) == 1;
}

static bool set_columns(struct options *options, const char *value)
{
    options->columns = value;
    return *value;
}

#define SET_FLAG(member)                                                                                               \
    static bool set_##member(struct options *options, const char *value)                                               \
    {                                                                                                                  \
        (void)value;                                                                                                   \
        return options->member = true;                                                                                 \
    }
SET_FLAG(strict)
SET_FLAG(ar_stays)
SET_FLAG(slopes)
SET_FLAG(verdicts)
SET_FLAG(velocity)
SET_FLAG(speed_loss)
SET_FLAG(wait)
SET_FLAG(gather)
SET_FLAG(list)
SET_FLAG(ask)
SET_FLAG(new_findings)
SET_FLAG(block)
SET_FLAG(compare)
SET_FLAG(keep_steps)
SET_FLAG(spreadsheet_safe)
SET_FLAG(verbose)
SET_FLAG(wide)
SET_FLAG(help)
SET_FLAG(version)

const struct option_row option_rows[] = {
    {"gym", "FILE", TAKES_LOGS | TAKES_SETUP | TAKES_FIT | TAKES_TEAM | TAKES_NAMES,
     "the gym file (else gym.ini beside the first log, if there is one)", set_gym},
    {"log-unit", "kg|lb", TAKES_LOGS | TAKES_SETUP | TAKES_FIT | TAKES_TEAM, "unit of bare numbers in the logs",
     set_log_unit},
    {"dates", "dmy|mdy|iso", TAKES_LOGS | TAKES_FIT | TAKES_TEAM, "order of dates like 03/04/2026", set_dates},
    {"as", "NAME", TAKES_LOGS, "the lifter, for logs that name none", set_as},
    {"column", "FIELD=HEADER", TAKES_LOGS,
     "read a field from the column with that header, as in reps=Tally; may be repeated", set_column},
    {"corrections", "FILE", TAKES_LOGS,
     "apply the corrections in that file (else in corrections.csv beside the logs); check writes refused lines into it",
     set_corrections},
    {"no-carry-ar", NULL, TAKES_LOGS | TAKES_TEAM, "chains or bands in the note on a first set apply to that set only",
     set_ar_stays},
    {"today", "DATE", TAKES_LOGS | TAKES_SETUP | TAKES_TEAM, "use this date as today (YYYY-MM-DD)", set_today},
    {"formula", "NAME", TAKES_LOGS | TAKES_TEAM,
     "1RM estimate: epley, brzycki, lombardi, mayhew, wathan, oconner, lander", set_formula},
    {"lifter", "NAME", TAKES_FILTER | TAKES_SETUP | TAKES_TEAM,
     "this lifter only: a name or an unambiguous part of one; may be repeated", set_lifter},
    {"lift", "NAME", TAKES_FILTER | TAKES_SETUP, "this lift only, named in the same way", set_lift},
    {"from", "DATE", TAKES_FILTER, "sets on or after this day", set_from},
    {"to", "DATE", TAKES_FILTER, "sets on or before this day", set_to},
    {"focus", "NAME", TAKES_PLAN, "the focus to plan: speed (default), strength, volume, skill, test", set_focus},
    {"percent", "N,N,...", TAKES_PLAN, "straight weight by week in % of 1RM (default: the last wave, each week raised)",
     set_percents},
    {"over", "N kg|N%", TAKES_PLAN, "list ways to make the next wave heavier by this much, best first", set_over},
    {"at", "top|bottom|both", TAKES_PLAN, "where --over applies: at the top, at the bottom, or at both ends (default)",
     set_at},
    {"steps", "N", TAKES_PLAN,
     "percentage points of 1RM to add each week after the first, or after the last of --percent", set_step},
    {"keep-steps", NULL, TAKES_PLAN, "repeat the last wave's steps even where they are uneven", set_keep_steps},
    {"weeks", "N", TAKES_PLAN, "weeks to plan (default: as many as percentages)", set_weeks},
    {"sets", "N", TAKES_PLAN, "sets per day (default: as in the last wave)", set_sets},
    {"reps", "N", TAKES_PLAN, "reps per set (default: as in the last wave)", set_reps},
    {"ar", "CHAINS AND BANDS", TAKES_PLAN,
     "what hangs on the bar, as in '2 chains/side' (default: as in the last wave)", set_ar},
    {"start", "DATE", TAKES_PLAN, "first day (default: the week after the last logged one)", set_start},
    {"start", "DATE", TAKES_WEEKS, "the Monday of week 1, for logs that number their weeks", set_first_monday},
    {"plan", "FILE", TAKES_PLANNED, "compare a plan (plan --format csv) with what was done", set_plan},
    {"velocity", NULL, TAKES_VELOCITY, "each lift's load-velocity line instead of the weeks", set_velocity},
    {"speed-loss", NULL, TAKES_VELOCITY, "the velocity loss in each session of speed work instead of the weeks",
     set_speed_loss},
    {"slopes", NULL, TAKES_SLOPES, "slopes across the weeks or waves instead of one row for each", set_slopes},
    {"verdicts", NULL, TAKES_VERDICTS, "is each wave heavier? One row per lift and focus instead of the weeks",
     set_verdicts},
    {"heights", "N m N m", TAKES_SETUP,
     "floor to the middle of the bar, at the bottom and at the top of the lift (else the lifter's)", set_heights},
    {"max", "N kg|lb", TAKES_SETUP | TAKES_PLAN, "the 1RM (else the lifter's newest tested one)", set_max_kg},
    {"speed", "N m/s", TAKES_SETUP,
     "what moving the load takes beside it, for that mean speed of the bar; '0.8 m/s peak': for that peak speed",
     set_speed},
    {"curve", "csv|json", TAKES_SETUP, "the load at every height of the bar instead of the summary", set_curve},
    {"plot", "FILE.gp", TAKES_SETUP | TAKES_FIT, "also write the result as a gnuplot script", set_plot},
    {"flat", "N m", TAKES_FIT, "length of the loop laid flat, end to end, if no line has pull 0 and no column gives it",
     set_flat},
    {"band", "LABEL", TAKES_FIT, "the band's label, if no column gives it (else the file's name)", set_band},
    {"compare", NULL, TAKES_FIT, "compare left with right and newest with older instead of fitting laws", set_compare},
    {"block", NULL, TAKES_FIT, "only the [band] blocks for the gym file", set_block},
    {"share", "N%", TAKES_SETUP | TAKES_PLAN, "find set-ups that add this share of the 1RM from bottom to top",
     set_share},
    {"min-bottom", "N kg|lb", TAKES_SETUP, "with --share: the least that chain and band must add at the bottom",
     set_min_bottom_kg},
    {"gear", "chains|bands|both", TAKES_SETUP, "with --share: what to use (default both)", set_gear},
    {"straight", "LOAD", TAKES_SETUP, "with --share: the straight weight (default: the last wave's, else the bar)",
     set_straight},
    {"straight-share", "N%", TAKES_SETUP, "with --share: the straight weight as a share of the 1RM",
     set_straight_share},
    {"most", "N", TAKES_SETUP, "with --share: how many to show (default 10)", set_most},
    {"only", "IDS", TAKES_FINDINGS, "these findings only, as in chain-swings,band-slack", set_only},
    {"except", "IDS", TAKES_FINDINGS, "without these findings", set_except},
    {"severity", "note|caution|fault", TAKES_FINDINGS, "findings of this severity or above", set_severity},
    {"format", "text|csv|json", TAKES_FORMAT,
     "text for people (default), CSV (RFC 4180), JSON (RFC 8259, one object per line)", set_format},
    {"width", "40..500", TAKES_FORMAT, "columns that text may take (default: the terminal's, else 80)", set_width},
    {"wide", NULL, TAKES_VERDICTS, "in text, all columns, however wide the table becomes", set_wide},
    {"columns", "NAMES", TAKES_COLUMNS, "in CSV and JSON, these columns only, in this order, as in lift,week,sets",
     set_columns},
    {"output", "FILE", TAKES_FORMAT, "write to this file, completely or not at all, instead of to standard output",
     set_output},
    {"unit", "kg|lb", TAKES_FORMAT | TAKES_PLOTS, "unit of the output", set_unit},
    {"only", "SECTIONS", TAKES_PAGE, "these sections of the text only, as in first,findings", set_only_sections},
    {"page", "FILE", TAKES_PAGE, "write one sheet per lifter to this file, as HTML to print", set_page},
    {"html", "FILE", TAKES_PAGE, "write the report to this file as one HTML page with pictures, instead of text",
     set_html},
    {"workbook", "FILE", TAKES_PAGE,
     "write the report to this file as a workbook (.xlsx) of tables and charts, instead of text", set_workbook},
    {"verbose", NULL, TAKES_PAGE, "in text, give the statistics behind each verdict too", set_verbose},
    {"spreadsheet-safe", NULL, TAKES_FORMAT | TAKES_TEAM,
     "in CSV, escape cells that a spreadsheet would take for formulas", set_spreadsheet_safe},
    {"into", "DIR", TAKES_PLOTS | TAKES_TEAM, "output folder", set_into},
    {"against", "FROM..TO|LIFTER", TAKES_PLOTS,
     "only compare with the same weeks of another span (days as YYYY-MM-DD), or of another lifter", set_against},
    {"by", "load|share", TAKES_PLOTS, "with --against: the loads (default), or their share of the 1RM", set_by},
    {"render", "svg|png|pdf|text|none", TAKES_PLOTS | TAKES_SETUP | TAKES_FIT,
     "picture format (default svg); none writes the scripts only", set_render},
    {"render", "changed|svg|png|pdf|text|none", TAKES_TEAM,
     "picture format; changed (default): SVG, where a picture's script has changed; none: scripts only",
     set_render_of_team},
    {"size", "WxH", TAKES_PLOTS | TAKES_SETUP | TAKES_FIT | TAKES_TEAM, "picture size in pixels, as 900x600", set_size},
    {"jobs", "N", TAKES_LOGS | TAKES_TEAM,
     "how many files to read, pictures to draw or team lifters to work on at a time (default: one per processor)",
     set_jobs},
    {"time-limit", "SECONDS", TAKES_TEAM,
     "time allowed for one lifter (default 600); one who takes longer keeps the last good results", set_time_limit},
    {"wait", NULL, TAKES_TEAM, "wait for another run in the same folder to end", set_wait},
    {"accept", "NAME", TAKES_TEAM,
     "accept that this lifter's logs have lost sets; all: every such lifter (may be repeated)", set_accept},
    {"lifters-from", "FILE", TAKES_TEAM, "only the lifters named in this file, one per line", set_lifters_from},
    {"part", "I/N", TAKES_TEAM, "only the I-th of N parts of the lifters", set_part},
    {"list", NULL, TAKES_TEAM, "only list the lifters, one per line", set_list},
    {"summary", "FILE", TAKES_TEAM,
     "write what has changed since the last night to this file, in at most 20 lines; - for standard output",
     set_summary},
    {"store", "FILE", TAKES_TEAM, "the database (default: team.sqlite in DIR)", set_store},
    {"gather", NULL, TAKES_TEAM, "only build the team's page, tables and database from the lifters' folders",
     set_gather},
    {"new-findings", NULL, TAKES_TEAM, "list the findings that are new since the last night", set_new_findings},
    {"lifter", "NAME", TAKES_START, "the lifter of the new log, and of exports that name none", set_lifter},
    {"unit", "kg|lb", TAKES_START, "what a bare number in the logs means", set_unit},
    {"bar", "N kg|lb", TAKES_START, "mass of the bar", set_bar},
    {"plates", "LIST", TAKES_START, "plates for one side, as in '25x4 20 15 10 5 2.5 1.25'", set_plates},
    {"experience", "new|some|seasoned", TAKES_START, "the lifter's experience with chains and bands", set_experience},
    {"dates", "dmy|mdy|iso", TAKES_START, "order of dates like 03/04/2026", set_dates},
    {"ask", NULL, TAKES_START, "ask even if standard input is not a terminal", set_ask},
    {"strict", NULL, TAKES_LOGS | TAKES_TEAM, "exit status 1 also for findings of severity fault", set_strict},
    {"help", NULL, TAKES_ALWAYS, "show this help", set_help},
    {"version", NULL, TAKES_ALWAYS, "show the version", set_version},
};
const size_t option_row_count = sizeof option_rows / sizeof *option_rows;
