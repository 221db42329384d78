/* Corrections next to an export: what refused records should have been, kept in a separate CSV file, so that next
 * month's export, which has the same bad lines again, need not be edited again.
 *
 * Columns: file, line, record, correction, why; only `record` and `correction` are required. A record of a log whose
 * text equals `record` becomes `correction`, or is left out if that is "-"; an empty correction has not been filled
 * in yet. Rows are read once and shared by all readers of a run. */
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

#define CORRECTIONS_NAME "corrections.csv" /* file name that is looked for next to a log */
#define CORRECTION_LINES 64                /* most lines of a record */

struct correction
{
    const char *file;       /* a path from the corrections' folder, or only a file name */
    const char *record;     /* as the log has it, line breaks as LF */
    const char *correction; /* ""; not filled in yet; "-": leave out the record */
    const char *why;        /* the user's own words, or what was wrong with the record */
    uint32_t line;          /* of the record when it was noted; 0: not given */
    uint32_t at;            /* the row's own line in the corrections file */
    atomic_uint matched;    /* records that were replaced; the same whatever the number of readers */
    bool looked_for;        /* its file was read */
    bool speaks;            /* corrections exist for the log that was last asked for */
};

struct corrections
{
    const char *path, *folder;
    struct correction *rows; /* in the order of the file */
    size_t count;
};

/* NULL: it cannot be read or is not a corrections file, already reported. */
struct corrections *corrections_read(struct arena *arena, const char *path, struct diags *diags);

/* The same from an open input. */
struct corrections *corrections_of_input(struct arena *arena, struct input *input, struct diags *diags);

/* The corrections of one log that are filled in, by record. */
struct file_corrections
{
    struct map *by_record;
    size_t count;
    size_t most_lines; /* most lines of a record */
};

/* Adds the rows of `corrections` for the log to `file`, which is created if it is NULL and needed; of two rows for
 * one record the first added counts. Returns `file`, NULL: there are no corrections for it. */
struct file_corrections *corrections_of_file(struct arena *arena, struct file_corrections *file,
                                             struct corrections *corrections, const char *log_path);

/* The replacement of a record; NULL: it is not corrected. Counts it as matched. */
const char *correction_of(const struct file_corrections *file, const char *record, size_t length);
#define CORRECTION_DROPS "-"

/* A log's name in the column `file` of corrections in that folder. */
const char *corrections_file_name(struct arena *arena, const char *folder, const char *log_path);
/* Adds one note for each correction in the list whose record was not found, although its file was read or no longer
 * exists. */
void corrections_say_unmatched(const struct corrections *corrections, struct diags *diags);

#endif
