#include "commands/check_corrections.h"

#include "base/names.h"
#include "base/text.h"
#include "commands/session/overwriting.h"
#include "reading/corrections/log_corrections.h"
#include "writing/escape.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>

struct sheet /* the file of corrections, as it is built */
{
    struct session *session;
    const char *folder;
    const struct corrections *before; /* NULL: the file is new */
    LIST(struct correction) rows;
    struct map *by_record; /* by file and record: those that are in `rows` */
};

static const char *record_key(const struct sheet *sheet, const char *file, const char *record)
{
    return arena_printf(sheet->session->arena, "%s\n%s", file, record);
}

static void add(struct sheet *sheet, const struct correction *row)
{
    const char *key = record_key(sheet, row->file, row->record);
    struct correction *made = LIST_ADD(sheet->session->arena, &sheet->rows);
    made->file = row->file;
    made->line = row->line;
    made->record = row->record;
    made->correction = row->correction;
    made->why = row->why;
    map_put(sheet->by_record, key, strlen(key), sheet);
}

static bool has(const struct sheet *sheet, const char *file, const char *record)
{
    const char *key = record_key(sheet, file, record);
    return map_get(sheet->by_record, key, strlen(key));
}

static bool is_log(const struct session *session, const char *path)
{
    for (size_t i = 0; i < session->log->files.count; i++)
        if (!strcmp(session->log->files.items[i].path, path))
            return true;
    return false;
}

/* A row with a correction is kept, whether it matched or not; a row still to be filled in is kept as long as its
 * record is refused. */
static void keep_filled(struct sheet *sheet)
{
    for (size_t i = 0; sheet->before && i < sheet->before->count; i++)
        if (*sheet->before->rows[i].correction)
            add(sheet, &sheet->before->rows[i]);
}

static const struct correction *before_of(const struct sheet *sheet, const char *file, const char *record)
{
    for (size_t i = 0; sheet->before && i < sheet->before->count; i++) {
        const struct correction *row = &sheet->before->rows[i];
        if (!strcmp(row->record, record) && (!strcmp(row->file, file) || !*row->correction))
            return row;
    }
    return NULL;
}

/* True if the record is itself a correction, refused again: the row is in the file already. */
static bool is_correction(const struct sheet *sheet, const char *record)
{
    for (size_t i = 0; sheet->before && i < sheet->before->count; i++)
        if (!strcmp(sheet->before->rows[i].correction, record))
            return true;
    return false;
}

static void add_refused(struct sheet *sheet, const struct diag *diag)
{
    if (diag_severity(diag->id) != SEVERITY_ERROR || !diag->excerpt || !*diag->excerpt || !diag->at.file ||
        !is_log(sheet->session, diag->at.file))
        return;
    const char *file = corrections_file_name(sheet->session->arena, sheet->folder, diag->at.file);
    if (has(sheet, file, diag->excerpt) || is_correction(sheet, diag->excerpt))
        return;
    const struct correction *before = before_of(sheet, file, diag->excerpt);
    const char *why = before && *before->why ? before->why : diag->message;
    add(sheet, &(struct correction){
                   .file = file, .line = diag->at.line, .record = diag->excerpt, .correction = "", .why = why});
}

static void put_rows(const struct sheet *sheet, struct output *output)
{
    output_text(output, "file,line,record,correction,why\n");
    for (size_t i = 0; i < sheet->rows.count; i++) {
        const struct correction *row = &sheet->rows.items[i];
        const char *const cells[] = {row->record, row->correction, row->why};
        escape_csv(output, row->file, false);
        if (row->line)
            output_printf(output, ",%u", row->line);
        else
            output_text(output, ",");
        for (size_t k = 0; k < sizeof cells / sizeof *cells; k++) {
            output_text(output, ",");
            escape_csv(output, cells[k], false);
        }
        output_text(output, "\n");
    }
}

void check_write_corrections(struct session *session, const char *path)
{
    struct sheet sheet = {
        .session = session, .folder = text_folder(session->arena, path), .by_record = map_new(session->arena)};
    const struct known_corrections *known = session->corrections;
    if (session->misused || !known || known->unreadable)
        return; /* a file that is not a corrections file is left alone */
    sheet.before = known->list.count ? known->list.items[0] : NULL;
    keep_filled(&sheet);
    diags_sort(session->diags);
    for (const struct diag *diag = diags_first(session->diags); diag; diag = diag->next)
        add_refused(&sheet, diag);
    struct output *output = session_may_write_corrections(session, path) ? output_open(session->arena, path) : NULL;
    if (output)
        put_rows(&sheet, output);
    if (session->misused || (output && output_commit(output)))
        return;
    fprintf(stderr, "tautline: %s cannot be written: %s\n", text_visible(session->arena, path), strerror(errno));
    session->unwritten = true;
}
