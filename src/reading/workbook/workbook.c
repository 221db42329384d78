#include "reading/workbook/workbook.h"

#include "base/system.h"
#include "reading/workbook/archive.h"
#include "reading/workbook/ods_sheets.h"
#include "reading/workbook/part_reader.h"
#include "reading/workbook/xlsx_sheet.h"

#include <string.h>
#include <sys/stat.h>
#include <sys/types.h>

struct workbook
{
    struct arena *arena;
    const char *path;
    struct diags *diags;
    int64_t modified_ns;
    struct archive *archive;
    struct ods_sheets *ods; /* NULL: an .xlsx */
    struct xlsx_parts parts;
    struct xlsx_tables tables;
    size_t next; /* index in parts.sheets; number of sheets so far */
    bool failed;

    struct input *input; /* of the current sheet */
    const char *sheet_path;
    struct sheet_rows *rows;
    struct xlsx_sheet *xlsx;
    bool at_end;
};

static void say(struct workbook *workbook, enum diag_id id, const char *what)
{
    diag_add(workbook->diags, id, (struct place){.file = workbook->path}, NULL, NULL, "%s", what);
    workbook->failed = true;
}

/* --- what an archive is ------------------------------------------------------------------------------------------ */

#define SAVE_SHEET "open it where it was made and save the sheet as .xlsx, .ods or CSV"
#define EXPORT "export it as Excel (.xlsx) or CSV where it was made"
#define AS_TEXT "save it as plain text, or copy its table into a sheet and save that as CSV or .xlsx"

/* Members by which other kinds of archives are recognised. */
static const struct
{
    const char *member;
    struct file_kind kind;
} others[] = {
    {"xl/workbook.bin", {"a binary workbook (.xlsb)", SAVE_SHEET}},
    {"Index/Document.iwa", {"a Numbers document", EXPORT}},
    {"Index.zip", {"a Numbers document", EXPORT}},
    {"index.apxl", {"a presentation", EXPORT}},
    {"word/document.xml", {"a text document (.docx)", AS_TEXT}},
    {"ppt/presentation.xml", {"a presentation (.pptx)", AS_TEXT}},
};

/* An OpenDocument file gives its type in a member of its own; if there is none, it is taken for a workbook. */
static bool is_spreadsheet(struct archive *archive)
{
    static const char wanted[] = "application/vnd.oasis.opendocument.spreadsheet";
    char type[sizeof wanted] = "";
    if (!archive_has(archive, "mimetype"))
        return true;
    struct member *member = member_open(archive, "mimetype");
    size_t length = member ? member_read(member, type, sizeof type - 1) : 0;
    member_close(member);
    return length == sizeof type - 1 && !strcmp(type, wanted);
}

static struct file_kind other_kind(struct archive *archive)
{
    for (size_t i = 0; i < sizeof others / sizeof *others; i++)
        if (archive_has(archive, others[i].member))
            return others[i].kind;
    if (archive_has(archive, "content.xml") && !is_spreadsheet(archive))
        return (struct file_kind){"an OpenDocument file that is not a spreadsheet", AS_TEXT};
    if (archive_has(archive, "xl/workbook.xml") || archive_has(archive, "content.xml") ||
        archive_has(archive, "[Content_Types].xml"))
        return (struct file_kind){0};
    return (struct file_kind){"an archive (zip) without a workbook in it",
                              "unpack it and name the logs that are in it"};
}

/* In an .ods encrypted with a password, the parts in the archive are unreadable, and its manifest says so. */
static void see_manifest(void *context, const char *name, const char *const *attributes)
{
    bool *encrypted = context;
    (void)attributes;
    *encrypted |= !strcmp(xml_local(name), "encryption-data");
}

static void pass_end(void *context, const char *name)
{
    (void)context, (void)name;
}

static bool is_encrypted(struct workbook *workbook)
{
    static const struct xml_events events = {.start = see_manifest, .end = pass_end};
    static const char manifest[] = "META-INF/manifest.xml";
    bool encrypted = archive_has(workbook->archive, "encrypted-package") ||
                     archive_encrypted(workbook->archive, "content.xml") ||
                     archive_encrypted(workbook->archive, "xl/workbook.xml");
    enum diag_id id;
    const char *why;
    if (!encrypted && archive_has(workbook->archive, manifest))
        part_read(workbook->arena, workbook->archive, manifest, &events, &encrypted, &why,
                  &id); /* damage is noticed later */
    return encrypted;
}

/* False: it is something else, or cannot be read, which was reported. */
static bool open_kind(struct workbook *workbook, struct file_kind *other)
{
    struct archive *archive = workbook->archive;
    enum diag_id id;
    const char *why = archive_failure(archive, &id);
    if (!why) {
        *other = other_kind(archive);
        if (!other->what && is_encrypted(workbook))
            *other = (struct file_kind){"a workbook with a password, encrypted",
                                        "take the password off and save it again, or save the sheet as CSV"};
        if (other->what)
            return false;
        if (archive_has(archive, "content.xml"))
            workbook->ods = ods_sheets_open(workbook->arena, archive, &why, &id);
        else if (xlsx_parts_read(workbook->arena, archive, &workbook->parts, &why, &id))
            xlsx_tables_read(workbook->arena, archive, &workbook->parts, &workbook->tables, &why, &id);
    }
    if (why)
        say(workbook, id, why);
    return !why;
}

static struct workbook *book_new(struct arena *arena, const char *path, struct diags *diags)
{
    struct workbook *workbook = ARENA_NEW(arena, struct workbook);
    workbook->arena = arena;
    workbook->path = path;
    workbook->diags = diags;
    return workbook;
}

static struct workbook *opened(struct workbook *workbook, const char *why, struct file_kind *other)
{
    *other = (struct file_kind){0};
    if (!workbook->archive)
        say(workbook, DIAG_BAD_WORKBOOK,
            arena_printf(workbook->arena, "an archive (zip) that is damaged or cut short: %s", why));
    else if (open_kind(workbook, other))
        return workbook;
    book_close(workbook);
    return NULL;
}

struct workbook *book_open(struct arena *arena, const char *path, struct diags *diags, struct file_kind *other)
{
    struct workbook *workbook = book_new(arena, path, diags);
    struct stat status;
    const char *why = NULL;
    if (!stat(path, &status))
        workbook->modified_ns = system_modified_ns(&status);
    workbook->archive = archive_open(arena, path, &why);
    return opened(workbook, why, other);
}

struct workbook *book_from_memory(struct arena *arena, const char *path, const char *bytes, size_t length,
                                  struct diags *diags, struct file_kind *other)
{
    struct workbook *workbook = book_new(arena, path, diags);
    const char *why = NULL;
    workbook->archive = archive_of_memory(arena, bytes, length, &why);
    return opened(workbook, why, other);
}

/* --- sheets ------------------------------------------------------------------------------------------------------ */

static void close_sheet(struct workbook *workbook)
{
    input_close(workbook->input);
    xlsx_sheet_close(workbook->xlsx);
    if (workbook->ods)
        ods_sheets_fill(workbook->ods, NULL);
    sheet_rows_free(workbook->rows);
    workbook->input = NULL;
    workbook->xlsx = NULL;
    workbook->rows = NULL;
}

void book_close(struct workbook *workbook)
{
    if (!workbook)
        return;
    close_sheet(workbook);
    ods_sheets_close(workbook->ods);
    archive_close(workbook->archive);
}

/* Called when the input needs more of the sheet. */
static ssize_t read_part(void *context, char *to, size_t room)
{
    struct workbook *workbook = context;
    struct arena *arena = workbook->arena;
    const char *why = NULL;
    enum diag_id id;
    while (!workbook->at_end && !why && !sheet_waiting(workbook->rows))
        workbook->at_end = workbook->ods ? !ods_sheets_step(workbook->ods, arena, &why, &id)
                                         : !xlsx_sheet_step(workbook->xlsx, arena, &why, &id);
    if (why) {
        diag_add(workbook->diags, id, (struct place){.file = workbook->sheet_path}, NULL, NULL, "%s", why);
        workbook->at_end = true;
        return -1;
    }
    return (ssize_t)sheet_take(workbook->rows, to, room);
}

static bool next_xlsx(struct workbook *workbook, struct sheet *sheet, const char **part)
{
    const struct xlsx_parts *parts = &workbook->parts;
    while (workbook->next < parts->sheets.count && !parts->sheets.items[workbook->next].part)
        workbook->next++;
    if (workbook->next == parts->sheets.count)
        return false;
    const struct xlsx_sheet_part *found = &parts->sheets.items[workbook->next++];
    *sheet = (struct sheet){.name = found->name, .hidden = found->hidden};
    *part = found->part;
    return true;
}

static bool next_ods(struct workbook *workbook, struct sheet *sheet)
{
    enum diag_id id;
    const char *why;
    bool found = ods_sheets_next(workbook->ods, workbook->arena, &sheet->name, &sheet->hidden, &why, &id);
    if (found && workbook->next++ >= XLSX_SHEETS) {
        found = false;
        id = DIAG_LIMIT_REACHED;
        why = "it has more than 256 sheets";
    }
    if (!found && why)
        say(workbook, id, why);
    return found;
}

/* For an .xlsx: opens its part. False: it failed, already reported. */
static bool open_part(struct workbook *workbook, const char *part)
{
    struct arena *arena = workbook->arena;
    const char *why;
    enum diag_id id;
    if (xlsx_sheet_find_merged(arena, workbook->archive, part, workbook->rows, &why, &id))
        workbook->xlsx = xlsx_sheet_open(arena, workbook->archive, part, &workbook->tables, workbook->parts.epoch_1904,
                                         workbook->rows, &why, &id);
    if (!workbook->xlsx)
        diag_add(workbook->diags, id, (struct place){.file = workbook->sheet_path}, NULL, NULL, "%s", why);
    return workbook->xlsx;
}

bool book_next_sheet(struct workbook *workbook, struct sheet *sheet)
{
    const char *part = NULL;
    *sheet = (struct sheet){0};
    close_sheet(workbook);
    if (workbook->failed || !(workbook->ods ? next_ods(workbook, sheet) : next_xlsx(workbook, sheet, &part)))
        return false;
    workbook->sheet_path = sheet->path = arena_printf(workbook->arena, "%s:%s", workbook->path, sheet->name);
    diags_name_sheet(workbook->diags, sheet->path);
    workbook->rows = sheet_rows_new(sheet->path, workbook->diags);
    workbook->at_end = false;
    if (workbook->ods)
        ods_sheets_fill(workbook->ods, workbook->rows);
    else if (!open_part(workbook, part))
        return true;
    const struct input_source source = {.read = read_part, .context = workbook};
    sheet->input = workbook->input = input_of_sheet(workbook->arena, sheet->path, &source, workbook->modified_ns,
                                                    workbook->diags);
    return true;
}

bool book_failed(const struct workbook *workbook)
{
    return workbook->failed;
}

uint32_t book_refused(const struct workbook *workbook)
{
    return workbook->rows ? sheet_refused(workbook->rows) : 0;
}
