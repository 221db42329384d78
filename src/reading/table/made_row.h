/* The row of one set that is made of a row of a table: its cells, where each of them is in the table, and what becomes
 * of it. */
#ifndef TAUTLINE_READING_TABLE_MADE_ROW_H
#define TAUTLINE_READING_TABLE_MADE_ROW_H

#include "reading/csv/csv_log.h"
#include "reading/table/table_parts.h"

enum fate /* of a cell that is not empty */
{
    FATE_NONE, /* nothing has been said of it: it is ignored */
    FATE_READ,
    FATE_ASIDE,
    FATE_REFUSED
};

struct maker /* of one row of the table at a time */
{
    struct table *table;
    struct csv_log *log;
    struct arena *scratch; /* of the row; not the reading's, which each made row empties */
    struct text_log text;  /* reads sets and sessions in cells */
    const struct table_row *row;
    size_t row_number; /* in table->rows */
    struct csv_source source;
    const char *cells[FIELD_COUNT];
    size_t lengths[FIELD_COUNT];
    struct csv_origin origins[FIELD_COUNT + 1]; /* the last: of what is said about a cell of the table */
    enum fate *fates;                           /* by column */
    struct text_span piece;                     /* of the cell whose text is read */
    size_t piece_column;
    const char *lift;              /* the last one named, for the sets below it; NULL: none */
    struct tally notes_of_several; /* that name no gear */
    bool row_is_lost;              /* its date or lift is none, already reported: so are its sets */
    bool goes_on;                  /* the file is not given up */
    enum fate last;                /* of the row made last */
    size_t made;                   /* rows made of this one */
    bool any_read;                 /* a set or a date of the row was read */
    unsigned week, day;            /* those above; 0: none */
};

/* Gives the field of the made row the text of a column, or a text that is in it at `span`; at SIZE_MAX: that is made of
 * it. */
void maker_take(struct maker *maker, enum log_field field, size_t column);
void maker_put(struct maker *maker, enum log_field field, const char *text, size_t column, struct text_span span);
void maker_clear(struct maker *maker, enum log_field field);
/* Has the made row read as a set; what became of it falls to `column`. */
void maker_emit(struct maker *maker, size_t column);
/* Refuses a cell of the table, or a part of it; at SIZE_MAX: all of it. */
void maker_refuse(struct maker *maker, size_t column, struct text_span span, enum diag_id id, const char *hint,
                  const char *message);

/* The field's first column that is not empty. */
void maker_take_field(struct maker *maker, enum log_field field);

/* May more be made of the row? Not where its date or lift is none, nor where the file is given up. */
bool maker_goes_on(const struct maker *maker);

/* The worse of what became of a cell. */
enum fate fate_worse(enum fate a, enum fate b);

/* The unit that a column's header says for a field of the made rows. */
void maker_take_unit(struct maker *maker, enum log_field field, const struct column_use *use);

#endif
