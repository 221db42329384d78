#include "commands/audit.h"

#include "commands/command.h"

#include "commands/report/report_closing.h"
#include "commands/report/report_findings.h"
#include "commands/report/report_text.h"
#include "commands/session/summary.h"
#include "commands/tables.h"

struct finding_row
{
    const struct finding *finding;
    const char *file, *cause;
};

#define GET(name, ...)                                                                                                 \
    static void get_##name(const void *row, struct cell *cell)                                                         \
    {                                                                                                                  \
        const struct finding_row *found = row;                                                                         \
        const struct finding *finding = found->finding;                                                                \
        __VA_ARGS__;                                                                                                   \
    }

/* Only masses are converted to the output's unit. */
static void finding_number(const struct finding *finding, struct cell *cell, double number)
{
    cell->quantity = finding->unit == FINDING_KG ? QUANTITY_LOAD : QUANTITY_PLAIN;
    cell_number(cell, number);
}

GET(id, cell_text(cell, finding_kinds[finding->id].id))
GET(severity, cell_text(cell, finding_severity_name(finding_kinds[finding->id].severity)))
GET(lifter, cell_text(cell, finding->first->lifter))
GET(lift, cell_text(cell, finding->first->lift))
GET(date, cell_day(cell, finding->first->set->day))
GET(file, (void)finding; cell_text(cell, found->file))
GET(line, cell_count(cell, (long)finding->first->set->line))
GET(value, finding_number(finding, cell, finding->value))
GET(limit, finding_number(finding, cell, finding->limit))
GET(message, cell_text(cell, finding->message))
GET(source, cell_text(cell, finding->source))
GET(cause, (void)finding; cell_text(cell, found->cause))

static const struct column columns[] = {
    {"id", NULL, QUANTITY_PLAIN, 0, get_id},         {"severity", NULL, QUANTITY_PLAIN, 0, get_severity},
    {"lifter", NULL, QUANTITY_PLAIN, 0, get_lifter}, {"lift", NULL, QUANTITY_PLAIN, 0, get_lift},
    {"date", NULL, QUANTITY_PLAIN, 0, get_date},     {"file", NULL, QUANTITY_PLAIN, 0, get_file},
    {"line", NULL, QUANTITY_PLAIN, 0, get_line},     {"value", NULL, QUANTITY_PLAIN, 0, get_value},
    {"limit", NULL, QUANTITY_PLAIN, 0, get_limit},   {"message", NULL, QUANTITY_PLAIN, 0, get_message},
    {"source", NULL, QUANTITY_PLAIN, 0, get_source}, {"cause", NULL, QUANTITY_PLAIN, 0, get_cause},
};

struct columns audit_columns(const struct options *options)
{
    (void)options;
    return COLUMNS_OF(columns);
}

void findings_table(struct session *session, struct output *output)
{
    const struct findings *findings = session_findings(session);
    const struct causes *causes = session_causes(session);
    struct finding_row *rows = ARENA_ARRAY(session->arena, struct finding_row, findings->count);
    for (size_t i = 0; i < findings->count; i++) {
        const struct finding *finding = findings->items[i];
        rows[i] = (struct finding_row){finding, session->log->files.items[finding->first->set->file].path,
                                       cause_of(causes, finding)->name};
    }
    session_rows(session, output, columns, sizeof columns / sizeof *columns, rows, findings->count, sizeof *rows);
}

static void write_rows(struct session *session)
{
    struct output *output = session_output(session);
    if (!output)
        return;
    findings_table(session, output);
    session_commit(session, output);
}

static void write_text(struct session *session)
{
    struct output *output = session_output(session);
    if (!output)
        return;
    struct report report = report_of_findings(session, output);
    summary_read(session, output);
    output_text(output, "\n");
    report_every_finding(&report);
    report_cautions(&report);
    session_commit(session, output);
}

enum exit_status run_audit(struct arena *arena, const struct options *options)
{
    struct session session;
    session_open(&session, arena, options, false);
    if (options->format == FORMAT_TEXT)
        write_text(&session);
    else
        write_rows(&session);
    return session_close(&session);
}
