#include "commands/report/report.h"

#include "commands/command.h"

#include "base/text.h"
#include "commands/report/html/report_html.h"
#include "commands/report/report_text.h"
#include "commands/report/report_workbook.h"
#include "commands/session/overwriting.h"
#include "commands/session/summary.h"
#include "commands/report/report_closing.h"
#include "commands/report/report_findings.h"
#include "commands/report/report_overload.h"
#include "commands/report/report_setups.h"
#include "commands/report/report_velocity.h"
#include "commands/report/report_waves.h"
#include "commands/report/report_weeks.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>

void report_write(struct session *session, struct output *output)
{
    struct report report = report_make(session, output);
    summary_read(session, output);
    output_text(output, "\n");
    report_overload(&report);
    report_waves(&report);
    report_loads(&report);
    report_weeks(&report);
    report_velocity(&report);
    report_records(&report);
    report_findings(&report);
    summary_assumed(session, output);
    report_sharpen(&report);
    report_refused(&report);
    report_cautions(&report);
}

/* A page or a workbook goes to its own file, whole or not at all. `write` puts it there; false: it cannot, errno says why. */
static void write_file(struct session *session, const char *path, bool (*write)(struct session *session, struct output *output))
{
    if (!session->log->sets.count && (session->unreadable || diags_total(session->diags, SEVERITY_FAILURE)))
        return; /* no file at all is better than an empty one over a good one */
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

enum exit_status run_report(struct arena *arena, const struct options *options)
{
    struct session session;
    if (options->format != FORMAT_TEXT)
        return usage_error("report", "a report is text; trend, waves and loads have --format csv and json");
    if (options->html && options->output)
        return usage_error("report", "either --html FILE or --output FILE: a page goes to its own file");
    if (options->workbook && (options->html || options->output))
        return usage_error("report", "--workbook FILE goes alone: no --html, no --output");
    if (options->workbook && !report_has_workbooks())
        return usage_error("report", "this tautline was built without workbooks; loads, waves and trend have --format csv");
    if (options->plan && !options->html)
        return usage_error("report", "--plan wants --html; waves --plan shows the same as text");
    session_open(&session, arena, options, false);
    if (options->html) {
        write_file(&session, options->html, write_page);
        return session_close(&session);
    }
    if (options->workbook) {
        write_file(&session, options->workbook, report_workbook);
        return session_close(&session);
    }
    struct output *output = session_output(&session);
    if (output) {
        report_write(&session, output);
        session_commit(&session, output);
    }
    return session_close(&session);
}
