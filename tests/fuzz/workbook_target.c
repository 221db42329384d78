#include "fuzz/workbook_target.h"

#include "fuzz/target.h"
#include "reading/same_history.h"
#include "reading/workbook/workbook.h"

void target_workbook(const char *bytes, size_t length)
{
    struct reading *reading = target_reading(target_gym());
    struct arena *arena = arena_new();
    struct file_kind other;
    struct workbook *workbook = book_from_memory(arena, "log", bytes, length, reading->diags, &other);
    struct sheet sheet;
    while (workbook && book_next_sheet(workbook, &sheet))
        if (sheet.input)
            read_sheet(reading, sheet.input, NULL);
    MUST(!workbook || !book_failed(workbook) || diags_total(reading->diags, SEVERITY_FAILURE));
    book_close(workbook);
    reading_finish(reading);
    target_analyse(reading);
    target_print(reading->diags);
    arena_free(arena);
}
