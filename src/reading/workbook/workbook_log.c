#include "reading/workbook/workbook_log.h"

#define NAMES_SHOWN 10

struct sheets_read /* of one workbook */
{
    struct reading *reading;
    const char *path, *root;
    size_t logs, skipped; /* sheets that hold a log; sheets that do not */
    const char *skipped_names;
    bool unreadable;
};

static void skip(struct sheets_read *sheets, const struct sheet *sheet)
{
    struct arena *arena = sheets->reading->arena;
    if (sheets->skipped < NAMES_SHOWN)
        sheets->skipped_names = sheets->skipped ? arena_printf(arena, "%s, %s", sheets->skipped_names, sheet->name)
                                                : sheet->name;
    sheets->skipped++;
}

static void read_one(struct sheets_read *sheets, struct workbook *workbook, const struct sheet *sheet)
{
    struct reading *reading = sheets->reading;
    enum found found = sheet->input ? read_sheet(reading, sheet->input, sheets->root) : UNREADABLE;
    if (found == NO_LOG) {
        skip(sheets, sheet);
        return;
    }
    sheets->unreadable |= found == UNREADABLE;
    if (found == UNREADABLE)
        return;
    sheets->logs++;
    reading->log->files.items[reading->log->files.count - 1].refused += book_refused(workbook);
    if (sheet->hidden)
        diag_add(reading->diags, DIAG_HIDDEN_SHEET, (struct place){.file = sheet->path}, NULL, NULL,
                 "this sheet is hidden in the workbook and was read like the others");
}

static void say_skipped(const struct sheets_read *sheets)
{
    const struct place at = {.file = sheets->path};
    const char *more = sheets->skipped > NAMES_SHOWN ? ", ..." : "";
    if (!sheets->logs)
        diag_add(sheets->reading->diags, DIAG_NOT_A_LOG, at, NULL, NULL,
                 "a workbook, and none of its sheets holds a log (%s%s): nothing in it was used",
                 sheets->skipped ? sheets->skipped_names : "it has none", more);
    else if (sheets->skipped)
        diag_add(sheets->reading->diags, DIAG_SKIPPED_SHEET, at, NULL, NULL, "%zu %s no log: %s%s", sheets->skipped,
                 sheets->skipped == 1 ? "sheet holds" : "sheets hold", sheets->skipped_names, more);
}

enum workbook_read read_workbook(struct reading *reading, const char *path, bool in_folder, const char *root,
                                 struct file_kind *other)
{
    struct sheets_read sheets = {.reading = reading, .path = path, .root = root};
    struct arena *own = arena_new();
    struct workbook *workbook = book_open(own, path, reading->diags, other);
    struct sheet sheet;
    if (!workbook) {
        arena_free(own);
        return other->what ? WORKBOOK_OTHER : WORKBOOK_UNREADABLE;
    }
    while (book_next_sheet(workbook, &sheet)) {
        sheet.name = arena_copy(reading->arena, sheet.name);
        read_one(&sheets, workbook, &sheet);
    }
    bool damaged = book_failed(workbook);
    book_close(workbook);
    arena_free(own);
    if (!sheets.unreadable && !damaged && (sheets.logs || !in_folder))
        say_skipped(&sheets);
    if (sheets.unreadable || damaged)
        return WORKBOOK_UNREADABLE;
    return sheets.logs ? WORKBOOK_READ : WORKBOOK_HOLDS_NONE;
}
