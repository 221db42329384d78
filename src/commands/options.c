#include "commands/options.h"

#include "base/number.h"
#include "base/text.h"

#include <getopt.h>
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

#define SET_TEXT(member)                                                    \
    static bool set_##member(struct options *options, const char *value)    \
    {                                                                       \
        options->member = value;                                            \
        return *value;                                                      \
    }
SET_TEXT(gym)
SET_TEXT(output)
SET_TEXT(lifter)
SET_TEXT(lift)
SET_TEXT(into)
SET_TEXT(only)
SET_TEXT(except)

static bool set_severity(struct options *options, const char *value)
{
    return finding_severity_read(value, &options->least_severity);
}

#define SET_DAY(member)                                                     \
    static bool set_##member(struct options *options, const char *value)    \
    {                                                                       \
        return date_read_iso(value, &options->member);                      \
    }
SET_DAY(today)
SET_DAY(from)
SET_DAY(to)

#define SET_FLAG(member)                                                    \
    static bool set_##member(struct options *options, const char *value)    \
    {                                                                       \
        (void)value;                                                        \
        return options->member = true;                                      \
    }
SET_FLAG(strict)
SET_FLAG(slopes)
SET_FLAG(spreadsheet_safe)
SET_FLAG(help)
SET_FLAG(version)

const struct option_row option_rows[] = {
    {"gym", "FILE", TAKES_LOGS, "the gym file (else gym.ini beside the first log, if there is one)", set_gym},
    {"log-unit", "kg|lb", TAKES_LOGS, "unit of bare numbers in the logs", set_log_unit},
    {"dates", "dmy|mdy|iso", TAKES_LOGS, "order of dates like 03/04/2026", set_dates},
    {"today", "DATE", TAKES_LOGS, "the day to take for today (YYYY-MM-DD)", set_today},
    {"formula", "NAME", TAKES_LOGS, "1RM estimate: epley, brzycki, lombardi, mayhew, wathan, oconner, lander", set_formula},
    {"lifter", "NAME", TAKES_FILTER, "this lifter only", set_lifter},
    {"lift", "NAME", TAKES_FILTER, "this lift only", set_lift},
    {"from", "DATE", TAKES_FILTER, "sets on or after this day", set_from},
    {"to", "DATE", TAKES_FILTER, "sets on or before this day", set_to},
    {"slopes", NULL, TAKES_SLOPES, "slopes over the weeks or waves instead of the rows", set_slopes},
    {"only", "IDS", TAKES_FINDINGS, "these findings only, as in chain-swings,band-slack", set_only},
    {"except", "IDS", TAKES_FINDINGS, "without these findings", set_except},
    {"severity", "note|caution|fault", TAKES_FINDINGS, "findings at least that grave", set_severity},
    {"format", "text|csv|json", TAKES_FORMAT, "text for people (default), CSV (RFC 4180), JSON (RFC 8259, one object a line)", set_format},
    {"output", "FILE", TAKES_FORMAT, "write there, whole or not at all, instead of to standard output", set_output},
    {"unit", "kg|lb", TAKES_FORMAT | TAKES_PLOTS, "unit of the output", set_unit},
    {"spreadsheet-safe", NULL, TAKES_FORMAT, "in CSV, defuse cells that a spreadsheet would take for formulas", set_spreadsheet_safe},
    {"into", "DIR", TAKES_PLOTS, "folder for the scripts and pictures", set_into},
    {"render", "svg|png|pdf|text|none", TAKES_PLOTS, "picture format (default svg); none writes the scripts only", set_render},
    {"size", "WxH", TAKES_PLOTS, "picture size in pixels, as 900x600", set_size},
    {"strict", NULL, TAKES_LOGS, "exit status 1 for findings of severity fault, too", set_strict},
    {"help", NULL, TAKES_ALWAYS, "show this help", set_help},
    {"version", NULL, TAKES_ALWAYS, "show the version", set_version},
};
const size_t option_row_count = sizeof option_rows / sizeof *option_rows;

#define ROWS (sizeof option_rows / sizeof *option_rows)
#define ROW_BASE 256 /* getopt values above all characters */

static const char *unknown_option(struct arena *arena, const char *written, unsigned groups)
{
    const char *names[ROWS];
    size_t count = 0, length = strcspn(written + strspn(written, "-"), "=");
    for (size_t i = 0; i < ROWS; i++)
        if (option_rows[i].groups & (groups | TAKES_ALWAYS))
            names[count++] = option_rows[i].name;
    const char *word = arena_text(arena, written + strspn(written, "-"), length);
    const char *nearest = text_nearest(word, names, count);
    return nearest ? arena_printf(arena, "no option '%s' here; did you mean --%s?", written, nearest) : arena_printf(arena, "no option '%s' here", written);
}

static const char *set_option(struct arena *arena, struct options *options, const struct option_row *row, const char *value)
{
    if (row->set(options, value ? value : ""))
        return NULL;
    return arena_printf(arena, "--%s takes %s, not '%s'", row->name, row->argument, value);
}

const char *options_parse(struct arena *arena, struct options *options, unsigned groups, int argc, char **argv)
{
    struct option known[ROWS + 1] = {{0}};
    size_t count = 0;
    *options = (struct options){.today = NO_DAY, .from = NO_DAY, .to = NO_DAY};
    for (size_t i = 0; i < ROWS; i++)
        if (option_rows[i].groups & (groups | TAKES_ALWAYS))
            known[count++] = (struct option){option_rows[i].name, option_rows[i].argument ? required_argument : no_argument, NULL, ROW_BASE + (int)i};
    opterr = 0;
    optind = 0; /* the GNU way to begin anew */
    for (int found; (found = getopt_long(argc, argv, ":", known, NULL)) != -1;) {
        if (found == ':')
            return arena_printf(arena, "%s wants %s", argv[optind - 1], option_rows[optopt >= ROW_BASE ? optopt - ROW_BASE : 0].argument);
        if (found < ROW_BASE)
            return unknown_option(arena, argv[optind - 1], groups);
        const char *message = set_option(arena, options, &option_rows[found - ROW_BASE], optarg);
        if (message)
            return message;
    }
    if (options->from != NO_DAY && options->to != NO_DAY && options->from > options->to)
        return "--from is after --to";
    options->arguments = (const char *const *)argv + optind;
    options->argument_count = (size_t)(argc - optind);
    return options_choose_findings(arena, options);
}

void options_help(struct output *output, unsigned groups)
{
    for (size_t i = 0; i < ROWS; i++) {
        const struct option_row *row = &option_rows[i];
        if (!(row->groups & (groups | TAKES_ALWAYS)))
            continue;
        char left[64] = "";
        size_t used = 0;
        for (const char *part[] = {"--", row->name, row->argument ? " " : "", row->argument ? row->argument : "", NULL}, **p = part; *p; p++)
            for (const char *c = *p; *c && used < sizeof left - 1; c++)
                left[used++] = *c;
        left[used] = 0;
        output_printf(output, "  %-30s %s\n", left, row->help);
    }
}
