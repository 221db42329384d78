/* Diagnostics about inputs: collected where a fault is noticed, printed by the commands.
 *
 * diagnostics.def lists all of them: id, severity, name, hint. A message says what was done with the input.
 * At most DIAGS_SHOWN of one id and file are kept with their text and the rest only counted; nothing is counted twice.
 */
#ifndef TAUTLINE_BASE_DIAG_H
#define TAUTLINE_BASE_DIAG_H

#include "base/arena.h"
#include "base/unit.h"

#include <stdbool.h>
#include <stdint.h>

#define DIAGS_SHOWN 20

enum severity
{
    SEVERITY_NOTE,    /* good to know; changes no exit status */
    SEVERITY_WARNING, /* read, but look at it; changes no exit status */
    SEVERITY_ERROR,   /* a line or record was refused: exit status 1 */
    SEVERITY_FAILURE  /* a whole input could not be read: exit status 3 (1 if other inputs were) */
};

enum diag_id
{
#define DIAG(id, severity, name, hint) DIAG_##id,
#include "diagnostics.def"
#undef DIAG
    DIAG_COUNT
};

/* Lines and columns count from 1; the column counts characters as decoded; 0: not known. `length` in characters. In a
 * sheet of a workbook the line is the row and the column that of the cell, 0 for the row as a whole; the place is
 * printed as year.xlsx:March!C14. */
struct place
{
    const char *file; /* as the user named it; borrowed, lives as long as the diags; NULL: none */
    uint32_t line, column, length;
    bool sheet; /* line and column are a sheet's row and column */
};

#define SHEET_LETTERS 8
/* The name of a sheet's column: A, Z, AA. 0: "". Returns the buffer. */
char *sheet_column_letters(char buffer[SHEET_LETTERS], uint32_t column);

struct diag
{
    enum diag_id id;
    struct place at;
    const char *message, *hint; /* hint may be NULL */
    const char *excerpt;        /* the line as written, or all lines of a record; NULL: none */
    const char *once;           /* the key of a diagnostic that is given once; NULL: it may be repeated */
    struct diag *next;
};

struct diags;

struct diags *diags_new(struct arena *arena);
void diags_show_all(struct diags *diags);                     /* lifts DIAGS_SHOWN */
bool diags_takes(const struct diags *diags, enum diag_id id); /* it was not left out */
/* Its places are in a sheet, as struct place says, whoever adds them. */
void diags_name_sheet(struct diags *diags, const char *file);
/* Hints are printed with blanks and examples in that unit. */
void diags_advise_in(struct diags *diags, enum mass_unit unit);
void diags_leave_out(struct diags *diags,
                     enum diag_id id); /* what of this id is added from now on is dropped, uncounted */

/* `excerpt` and `hint` may be NULL; a NULL hint takes the list's. Everything is copied. */
void diag_add(struct diags *diags, enum diag_id id, struct place at, const char *excerpt, const char *hint,
              const char *format, ...) __attribute__((format(printf, 6, 7)));

/* The same for a diagnostic that is given once in a run, however many parts of it notice: equal keys are the same
 * diagnostic. */
void diag_add_once(struct diags *diags, const char *key, enum diag_id id, struct place at, const char *excerpt,
                   const char *hint, const char *format, ...) __attribute__((format(printf, 7, 8)));

/* A collection for a part of the work, with the settings of the whole. Merging adds its diagnostics to the whole as if
 * they had been noticed there, `lines` further down. */
struct diags *diags_part(struct arena *arena, const struct diags *whole);
void diags_join(struct diags *whole, const struct diags *part, uint32_t lines);

const struct diag *diags_first(const struct diags *diags);                         /* in the order added; borrowed */
size_t diags_total(const struct diags *diags, enum severity severity);             /* those not kept count too */
size_t diags_hidden(const struct diags *diags, enum diag_id id, const char *file); /* not kept, of one id and file */

/* Sorts by file (in the order first named), line, column; then prints each as
 *   file:line:column: severity: message
 *     the line as written, of a record the first
 *     ^~~~ hint: ...
 * through `put`. Control characters are shown escaped. `colour`: with terminal colours. */
typedef void diag_put(void *context, const char *text);
void diags_print(struct diags *diags, diag_put *put, void *context, bool colour);
void diags_sort(struct diags *diags);

enum severity diag_severity(enum diag_id id);
const char *diag_name(enum diag_id id); /* uneven-chains */
const char *diag_hint(enum diag_id id);
const char *severity_name(enum severity severity);

#endif
