/* The row for one set that is made from a row of a table: its cells, where each of them is in the table, and what
 * became of it. */
#ifndef TAUTLINE_READING_TABLE_MADE_ROW_H
#define TAUTLINE_READING_TABLE_MADE_ROW_H

#include "reading/csv/csv_log.h"
#include "reading/table/table_parts.h"

enum fate /* what became of a cell that is not empty */
{
    FATE_NONE, /* nothing was recorded: it is ignored */
    FATE_READ,
    FATE_ASIDE,
    FATE_REFUSED
};

struct maker /* works on one row of the table at a time */
{
    struct table *table;
    struct csv_log *log;
    struct arena *scratch; /* for the row; the reading's own scratch is emptied by each made row */
    struct text_log text;  /* parses sets and sessions in cells */
    const struct table_row *row;
    size_t row_number; /* index in table->rows */
    struct csv_source source;
    const char *cells[FIELD_COUNT];
    size_t lengths[FIELD_COUNT];
    struct csv_origin origins[FIELD_COUNT + 1]; /* the last one: for messages about a cell of the table */
    enum fate *fates;                           /* by column */
    struct text_span piece;                     /* within the cell whose text is being read */
    size_t piece_column;
    const char *lift;              /* the last one named, which applies to the sets below it; NULL: none */
    struct tally notes_of_several; /* those that name no gear */
    bool row_is_lost;              /* its date or lift is invalid, already reported: its sets are lost too */
    bool goes_on;                  /* the file has not been given up */
    enum fate last;                /* of the row that was made last */
    size_t made;                   /* number of rows made from this one */
    bool any_read;                 /* a set or a date in the row was read */
    unsigned week, day;            /* carried over from above; 0: none */
};

/* Gives the made row's field the text of a column, or a text found in it at `span`; at SIZE_MAX: one that is derived
 * from it. */
void maker_take(struct maker *maker, enum log_field field, size_t column);
void maker_put(struct maker *maker, enum log_field field, const char *text, size_t column, struct text_span span);
void maker_clear(struct maker *maker, enum log_field field);
/* Has the made row read as a set, and records the outcome for `column`. */
void maker_emit(struct maker *maker, size_t column);
/* Refuses a cell of the table, or a part of it; at SIZE_MAX: all of it. */
void maker_refuse(struct maker *maker, size_t column, struct text_span span, enum diag_id id, const char *hint,
                  const char *message);

/* Gives it the field's first column that is not empty. */
void maker_take_field(struct maker *maker, enum log_field field);

/* Can more rows be made from this one? Not if its date or lift is invalid, or if the file was given up. */
bool maker_goes_on(const struct maker *maker);

/* The worse of two outcomes for a cell. */
enum fate fate_worse(enum fate a, enum fate b);

/* Takes the unit in a column's header for a field of the made rows. */
void maker_take_unit(struct maker *maker, enum log_field field, const struct column_use *use);

#endif
