/* report: all of it for a reader. */
#include "commands/command.h"

#include "commands/report_text.h"
#include "commands/summary.h"

void report_write(struct session *session, struct output *output)
{
    struct report report = report_make(session, output);
    summary_read(session, output);
    output_text(output, "\n");
    report_overload(&report);
    report_waves(&report);
    report_findings(&report);
    report_loads(&report);
    report_weeks(&report);
    report_velocity(&report);
    report_records(&report);
    summary_assumed(session, output);
    report_sharpen(&report);
    report_refused(&report);
    report_cautions(&report);
}

enum exit_status run_report(struct arena *arena, const struct options *options)
{
    struct session session;
    if (options->format != FORMAT_TEXT)
        return usage_error("report", "a report is text; trend, waves and loads have --format csv and json");
    session_open(&session, arena, options, false);
    struct output *output = session_output(&session);
    if (output) {
        report_write(&session, output);
        session_commit(&session, output);
    }
    return session_close(&session);
}
