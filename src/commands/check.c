#include "commands/check.h"

#include "commands/command.h"

#include "base/text.h"
#include "commands/check_corrections.h"
#include "commands/session/summary.h"
#include "commands/tables.h"

#include <string.h>

static void get_file(const void *row, struct cell *cell)
{
    cell_text(cell, ((const struct diag *)row)->at.file);
}

static void get_line(const void *row, struct cell *cell)
{
    if (((const struct diag *)row)->at.line)
        cell_count(cell, (long)((const struct diag *)row)->at.line);
}

static void get_column(const void *row, struct cell *cell)
{
    if (((const struct diag *)row)->at.column)
        cell_count(cell, (long)((const struct diag *)row)->at.column);
}

static void get_severity(const void *row, struct cell *cell)
{
    cell_text(cell, severity_name(diag_severity(((const struct diag *)row)->id)));
}

static void get_id(const void *row, struct cell *cell)
{
    cell_text(cell, diag_name(((const struct diag *)row)->id));
}

static void get_message(const void *row, struct cell *cell)
{
    cell_text(cell, ((const struct diag *)row)->message);
}

static void get_hint(const void *row, struct cell *cell)
{
    cell_text(cell, ((const struct diag *)row)->hint);
}

static void get_excerpt(const void *row, struct cell *cell)
{
    cell_text(cell, ((const struct diag *)row)->excerpt);
}

static const struct column columns[] = {
    {"file", "file", QUANTITY_PLAIN, 0, get_file},
    {"line", "line", QUANTITY_PLAIN, 0, get_line},
    {"column", "column", QUANTITY_PLAIN, 0, get_column},
    {"severity", "severity", QUANTITY_PLAIN, 0, get_severity},
    {"id", "id", QUANTITY_PLAIN, 0, get_id},
    {"message", "message", QUANTITY_PLAIN, 0, get_message},
    {"hint", NULL, QUANTITY_PLAIN, 0, get_hint},
    {"excerpt", NULL, QUANTITY_PLAIN, 0, get_excerpt},
};

void diags_table(struct session *session, struct output *output, diag_wanted *wanted, void *context)
{
    struct table_style style = session_style(session, output);
    struct table_writer *writer = table_open(session->arena, output, columns, sizeof columns / sizeof *columns, &style);
    diags_sort(session->diags);
    for (const struct diag *diag = diags_first(session->diags); diag; diag = diag->next)
        if (!wanted || wanted(context, diag))
            table_row(writer, diag);
    table_close(writer);
}

static void put_output(void *context, const char *text)
{
    output_text(context, text);
}

static void check_text(struct session *session, struct output *output)
{
    bool colour = wants_colour(output_is_terminal(output));
    summary_read(session, output);
    summary_files(session, output);
    summary_assumed(session, output);
    size_t errors = diags_total(session->diags, SEVERITY_ERROR) + diags_total(session->diags, SEVERITY_FAILURE);
    size_t warnings = diags_total(session->diags, SEVERITY_WARNING), notes = diags_total(session->diags, SEVERITY_NOTE);
    output_printf(output, "%zu refused, %zu %s, %zu %s\n", errors, warnings, plural(warnings, "warning", "warnings"),
                  notes, plural(notes, "note", "notes"));
    if (diags_first(session->diags))
        output_text(output, "\n");
    diags_print(session->diags, put_output, output, colour);
}

enum exit_status run_check(struct arena *arena, const struct options *options)
{
    struct session session;
    session_open(&session, arena, options, true);
    if (options->corrections)
        check_write_corrections(&session, options->corrections);
    struct output *output = session_output(&session);
    if (output) {
        if (options->format == FORMAT_TEXT)
            check_text(&session, output);
        else
            diags_table(&session, output, NULL, NULL);
        session_commit(&session, output);
    } else {
        session.quiet = false; /* diagnostics are then not part of the result, and must still be shown */
    }
    return session_close(&session);
}
