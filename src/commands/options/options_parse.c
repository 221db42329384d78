#include "commands/options/options_parse.h"

#include "base/text.h"
#include "commands/options/finding_ids.h"
#include "commands/options/option_values.h"
#include "commands/options/report_sections.h"
#include "reading/csv/columns.h"

#include <getopt.h>
#include <string.h>

#define ROW_BASE 256 /* getopt values above all characters */

static const char *unknown_option(struct arena *arena, const char *written, unsigned groups)
{
    const char **names = ARENA_ARRAY(arena, const char *, option_row_count);
    size_t count = 0, length = strcspn(written + strspn(written, "-"), "=");
    for (size_t i = 0; i < option_row_count; i++)
        if (option_rows[i].groups & (groups | TAKES_ALWAYS))
            names[count++] = option_rows[i].name;
    const char *word = arena_text(arena, written + strspn(written, "-"), length);
    const char *nearest = text_nearest(word, names, count);
    return nearest ? arena_printf(arena, "no option '%s' for this command; did you mean --%s?", written, nearest)
                   : arena_printf(arena, "no option '%s' for this command", written);
}

static const char *set_option(struct arena *arena, struct options *options, const struct option_row *row,
                              const char *value)
{
    if (row->set(options, value ? value : ""))
        return NULL;
    struct option_values values = option_values(arena, row);
    const char *nearest = values.kind == VALUE_WORD ? text_nearest(value, values.words, values.count) : NULL;
    if (!strcmp(row->name, "column"))
        return arena_printf(arena, "--column takes FIELD=HEADER, not '%s'; the fields are %s", value,
                            log_field_names(arena));
    const char *day = row->groups & TAKES_WEEKS ? "a Monday as YYYY-MM-DD" : "a day as YYYY-MM-DD";
    const char *takes = row->argument && !strcmp(row->argument, "DATE") ? day : row->argument;
    for (size_t i = 0; values.kind == VALUE_WORD && i < values.count;
         i++) /* all of them, though help may only name them below */
        takes = i ? arena_printf(arena, "%s|%s", takes, values.words[i]) : values.words[i];
    return arena_printf(arena, "--%s takes %s, not '%s'%s%s%s", row->name, takes, value,
                        nearest ? "; did you mean '" : "", nearest ? nearest : "", nearest ? "'?" : "");
}

/* "--html --output x": the value was forgotten, and the next option must not become the name of a file. NULL: it is a
 * value. */
static const char *forgotten_value(struct arena *arena, const struct option_row *row, const char *value,
                                   bool stands_apart)
{
    if (!value || !stands_apart || !text_starts(value, "--"))
        return NULL;
    for (size_t i = 0; i < option_row_count; i++)
        if (!strncmp(option_rows[i].name, value + 2, strcspn(value + 2, "=")) && value[2])
            return arena_printf(arena, "--%s needs %s, and %s is an option; if you mean it as the value, write --%s=%s",
                                row->name, row->argument, value, row->name, value);
    return NULL;
}

/* Files that no page is: a name typed from habit. NULL: it may be one. */
static const char *no_page(struct arena *arena, const char *option, const char *html)
{
    static const char *const endings[] = {".pdf", ".csv", ".txt", ".json", ".xlsx",
                                          ".ods", ".svg", ".png", ".gp",   ".ini"};
    const char *ending = html ? strrchr(html, '.') : NULL;
    for (size_t i = 0; ending && i < sizeof endings / sizeof *endings; i++)
        if (!strcmp(text_fold(arena, ending), endings[i]))
            return arena_printf(arena, "--%s writes an HTML page, not '%s': name it FILE.html%s", option, html,
                                i ? "" : ", open it in a browser and print it to PDF there");
    return NULL;
}

static const char *no_workbook(struct arena *arena, const char *workbook)
{
    const char *ending = workbook ? strrchr(workbook, '.') : NULL;
    if (!workbook || (ending && !strcmp(text_fold(arena, ending), ".xlsx")))
        return NULL;
    return arena_printf(arena, "--workbook writes an .xlsx workbook, not '%s': name it FILE.xlsx", workbook);
}

const char *options_parse(struct arena *arena, struct options *options, unsigned groups, int argc, char **argv)
{
    struct option *known = ARENA_ARRAY(arena, struct option, option_row_count + 1); /* the last is empty */
    size_t count = 0;
    *options = (struct options){.arena = arena,
                                .today = NO_DAY,
                                .from = NO_DAY,
                                .to = NO_DAY,
                                .start = NO_DAY,
                                .first_monday = NO_DAY,
                                .against_from = NO_DAY,
                                .against_to = NO_DAY};
    for (size_t i = 0; i < option_row_count; i++)
        if (option_rows[i].groups & (groups | TAKES_ALWAYS))
            known[count++] = (struct option){option_rows[i].name,
                                             option_rows[i].argument ? required_argument : no_argument, NULL,
                                             ROW_BASE + (int)i};
    opterr = 0;
    optind = 0; /* the GNU way to begin anew */
    for (int found; (found = getopt_long(argc, argv, ":h", known, NULL)) != -1;) {
        if (found == ':')
            return arena_printf(arena, "%s needs %s", argv[optind - 1],
                                option_rows[optopt >= ROW_BASE ? optopt - ROW_BASE : 0].argument);
        if (found == 'h') {
            options->help = options->brief = true;
            continue;
        }
        if (found < ROW_BASE)
            return unknown_option(arena, argv[optind - 1], groups);
        const struct option_row *row = &option_rows[found - ROW_BASE];
        const char *message = forgotten_value(arena, row, optarg, optarg == argv[optind - 1]);
        if (!message)
            message = set_option(arena, options, row, optarg);
        if (message)
            return message;
    }
    const char *message = no_page(arena, "html", options->html);
    message = message ? message : no_page(arena, "page", options->page);
    message = message ? message : no_workbook(arena, options->workbook);
    if (message)
        return message;
    if (options->from != NO_DAY && options->to != NO_DAY && options->from > options->to)
        return "--from is after --to";
    if (options->against && !options->lifters.count)
        return "--against LIFTER compares that lifter with one that --lifter names";
    if (options->against)
        *LIST_ADD(arena, &options->lifters) = options->against;
    options->arguments = (const char *const *)argv + optind;
    options->argument_count = (size_t)(argc - optind);
    message = options_choose_findings(arena, options);
    options->sections = ALL_SECTIONS;
    if (!message && options->only_sections)
        message = report_sections_read(arena, options->only_sections, &options->sections);
    return message;
}

/* "--format text|csv|json" */
static const char *written(struct arena *arena, const struct option_row *row)
{
    return arena_printf(arena, "--%s%s%s", row->name, row->argument ? " " : "", row->argument ? row->argument : "");
}

void options_help(struct arena *arena, struct output *output, unsigned groups)
{
    for (size_t i = 0; i < option_row_count; i++)
        if (option_rows[i].groups & (groups | TAKES_ALWAYS))
            output_printf(output, "  %-30s %s\n", written(arena, &option_rows[i]), option_rows[i].help);
}

#define BRIEF_COLUMNS 80

void options_brief(struct arena *arena, struct output *output, unsigned groups)
{
    size_t column = 0;
    for (size_t i = 0; i < option_row_count; i++) {
        if (!(option_rows[i].groups & (groups | TAKES_ALWAYS)))
            continue;
        const char *option = arena_printf(arena, " [%s]", written(arena, &option_rows[i]));
        if (!column || column + strlen(option) > BRIEF_COLUMNS) {
            output_text(output, column ? "\n " : " ");
            column = 1;
        }
        output_text(output, option);
        column += strlen(option);
    }
    output_text(output, "\n");
}
