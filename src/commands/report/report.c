#include "commands/report/report.h"

#include "commands/command.h"

#include "base/text.h"
#include "commands/report/html/report_html.h"
#include "commands/report/html/report_page.h"
#include "commands/report/report_closing.h"
#include "commands/report/report_findings.h"
#include "commands/report/report_first.h"
#include "commands/report/report_setups.h"
#include "commands/report/report_text.h"
#include "commands/report/report_velocity.h"
#include "commands/report/report_verdicts.h"
#include "commands/report/report_waves.h"
#include "commands/report/report_weeks.h"
#include "commands/report/report_workbook.h"
#include "commands/session/overwriting.h"
#include "commands/session/summary.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>

static void write_assumed(const struct report *report)
{
    summary_assumed(report->session, report->output);
}

static void (*const sections[SECTION_COUNT])(const struct report *report) = {
    [SECTION_FIRST] = report_first,       [SECTION_VERDICTS] = report_verdicts, [SECTION_FINDINGS] = report_findings,
    [SECTION_WAVES] = report_waves,       [SECTION_SETUPS] = report_loads,      [SECTION_WEEKS] = report_weeks,
    [SECTION_VELOCITY] = report_velocity, [SECTION_BESTS] = report_records,     [SECTION_ASSUMED] = write_assumed,
    [SECTION_IMPROVE] = report_sharpen,   [SECTION_REFUSED] = report_refused,
};

void report_write(struct session *session, struct output *output)
{
    struct report report = report_make(session, output);
    uint32_t wanted = session->options->sections;
    for (size_t i = 0; i < SECTION_COUNT; i++)
        if (wanted >> i & 1)
            sections[i](&report);
    report_cautions(&report);
    if (wanted == ALL_SECTIONS)
        report_last(&report);
}

/* A page or a workbook goes to its own file, whole or not at all. `write` fills it; false: it failed, errno says
 * why. */
static void write_file(struct session *session, const char *path,
                       bool (*write)(struct session *session, struct output *output))
{
    if (!session->log->sets.count && (session->unreadable || diags_total(session->diags, SEVERITY_FAILURE)))
        return; /* do not overwrite a good file with an empty one */
    if (!session_may_write(session, path))
        return;
    struct output *output = output_open(session->arena, path);
    if (output && write(session, output) && output_commit(output))
        return;
    fprintf(stderr, "tautline: %s cannot be written: %s\n", text_visible(session->arena, path), strerror(errno));
    if (output)
        output_discard(output);
    session->unwritten = true;
}

static bool write_page(struct session *session, struct output *output)
{
    report_html(session, output);
    return true;
}

static bool write_sheet(struct session *session, struct output *output)
{
    report_page(session, output);
    return true;
}

enum exit_status run_report(struct arena *arena, const struct options *options)
{
    struct session session;
    if (options->format != FORMAT_TEXT)
        return usage_error("report", "a report is text; trend, waves and loads have --format csv and json");
    if ((options->html || options->page) && options->output)
        return usage_error(
            "report", "use --html FILE (or --page FILE) or --output FILE, not both: a page is written to its own file");
    if (options->sections != ALL_SECTIONS && options->html)
        return usage_error("report", "--only names sections of the text; the page has links to its sections");
    if (options->workbook && (options->html || options->page || options->output))
        return usage_error("report", "--workbook FILE cannot be combined with --html, --page or --output");
    if (options->workbook && !report_has_workbooks())
        return usage_error("report",
                           "this tautline was built without workbooks; loads, waves and trend have --format csv");
    if (options->plan && !options->html)
        return usage_error("report", "--plan needs --html; waves --plan shows the same as text");
    session_open(&session, arena, options, false);
    if (options->html)
        write_file(&session, options->html, write_page);
    if (options->page)
        write_file(&session, options->page, write_sheet);
    if (options->workbook)
        write_file(&session, options->workbook, report_workbook);
    if (options->html || options->page || options->workbook)
        return session_close(&session);
    struct output *output = session_output(&session);
    if (output) {
        report_write(&session, output);
        session_commit(&session, output);
    }
    return session_close(&session);
}
