/* A workbook's sheets to records. */
#ifndef TAUTLINE_READING_WORKBOOK_WORKBOOK_LOG_H
#define TAUTLINE_READING_WORKBOOK_WORKBOOK_LOG_H

#include "reading/log_reader.h"
#include "reading/workbook/workbook.h"

enum workbook_read
{
    WORKBOOK_READ,       /* at least one sheet holds a log */
    WORKBOOK_HOLDS_NONE, /* none does; said, but where `in_folder` */
    WORKBOOK_OTHER,      /* an archive of another kind, which `*other` tells; not said */
    WORKBOOK_UNREADABLE  /* it, or one of its sheets; said */
};

/* Reads each sheet that holds a log as a file of its own, year.xlsx:March. Sheets that hold none are named in one note.
 */
enum workbook_read read_workbook(struct reading *reading, const char *path, bool in_folder, const char *root,
                                 struct file_kind *other);

#endif
