/* Reads a workbook's sheets into records. */
#ifndef TAUTLINE_READING_WORKBOOK_WORKBOOK_LOG_H
#define TAUTLINE_READING_WORKBOOK_WORKBOOK_LOG_H

#include "reading/log_reader.h"
#include "reading/workbook/workbook.h"

enum workbook_read
{
    WORKBOOK_READ,       /* at least one sheet holds a log */
    WORKBOOK_HOLDS_NONE, /* none does; reported, unless `in_folder` */
    WORKBOOK_OTHER,      /* an archive of another kind, see `*other`; not reported */
    WORKBOOK_UNREADABLE  /* the workbook or one of its sheets; reported */
};

/* Reads each sheet that holds a log as a file of its own, year.xlsx:March. The other sheets are named in one note. */
enum workbook_read read_workbook(struct reading *reading, const char *path, bool in_folder, const char *root,
                                 struct file_kind *other);

#endif
