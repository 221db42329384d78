/* Corrections next to an export: what refused records should have been, kept in a CSV file of their own, so that next
 * month's export, which brings the same bad lines back, need not be edited again.
 *
 * Columns: file, line, record, correction, why; only `record` and `correction` are needed. A record of a log whose text
 * equals `record` becomes `correction`, or is left out where that is "-"; an empty correction waits to be filled in.
 * Rows are read once and shared by all readers of a run. */
#ifndef TAUTLINE_READING_CORRECTIONS_H
#define TAUTLINE_READING_CORRECTIONS_H

#include "base/arena.h"
#include "base/diag.h"
#include "base/names.h"
#include "reading/input/input.h"

#include <stdatomic.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#define CORRECTIONS_NAME "corrections.csv" /* what is looked for next to a log */
#define CORRECTION_LINES 64                /* of a record, at most */

struct correction
{
    const char *file;       /* a path from the corrections' folder, or a file's name alone */
    const char *record;     /* as the log has it, line breaks as LF */
    const char *correction; /* ""; not filled in; "-": the record is left out */
    const char *why;        /* the user's own words, or what was wrong with the record */
    uint32_t line;          /* of the record when it was noted; 0: not said */
    uint32_t at;            /* the row's own line in the corrections file */
    atomic_uint matched;    /* records that were replaced; the same however many readers there are */
    bool looked_for;        /* its file was read */
    bool speaks;            /* of the log that was asked for last */
};

struct corrections
{
    const char *path, *folder;
    struct correction *rows; /* in the file's order */
    size_t count;
};

/* NULL: it cannot be read or is no such file, already reported. */
struct corrections *corrections_read(struct arena *arena, const char *path, struct diags *diags);

/* The same of an open input. */
struct corrections *corrections_of_input(struct arena *arena, struct input *input, struct diags *diags);

/* Those of one log, filled in, by their records. */
struct file_corrections
{
    struct map *by_record;
    size_t count;
    size_t most_lines; /* of a record */
};

/* Adds what `corrections` say of the log to `file`, which is made where it is NULL and needed; of two for one record
 * the first added counts. Returns `file`, NULL: nothing is said of it. */
struct file_corrections *corrections_of_file(struct arena *arena, struct file_corrections *file,
                                             struct corrections *corrections, const char *log_path);

/* What becomes of a record; NULL: it stays as it is. Counts it as matched. */
const char *correction_of(const struct file_corrections *file, const char *record, size_t length);
#define CORRECTION_DROPS "-"

/* The name that a log has in the column `file` of corrections in that folder. */
const char *corrections_file_name(struct arena *arena, const char *folder, const char *log_path);
/* One note for each correction of the list whose file was read, or is no longer there, and whose record was not met. */
void corrections_say_unmatched(const struct corrections *corrections, struct diags *diags);

#endif
