/* Declarations shared by the files that read a table (table.c and those next to it); no other file includes it.
 *
 * heading.c reads headers and items.c cells of sets; layout.c determines how the table is laid out, layout_fit.c how
 * well its cells fit; layout_say.c reports on it; sets.c makes rows of one set each, set_cells.c from cells that hold
 * several; table_rows.c stores the rows; table.c goes through a table, and table_log.c makes one from a text file. */
#ifndef TAUTLINE_READING_TABLE_TABLE_PARTS_H
#define TAUTLINE_READING_TABLE_TABLE_PARTS_H

#include "reading/table/heading.h"
#include "reading/table/items.h"
#include "reading/table/table.h"
#include "reading/text/text_log.h"

#define NO_COLUMN SIZE_MAX

enum layout_kind
{
    LAYOUT_ROWS,         /* one row per set */
    LAYOUT_GROUPS,       /* Set 1 Weight, Set 1 Reps, Set 2 Weight ... */
    LAYOUT_SET_CELLS,    /* Set 1, Set 2 ... or Sets: 100x5, 110x3 */
    LAYOUT_REPS_ACROSS,  /* Weight, Set 1, Set 2 ...: repetitions */
    LAYOUT_LIFTS_ACROSS, /* Squat, Bench ...: 100x5 */
    LAYOUT_DATES_ACROSS, /* 2026-01-05, 2026-01-12 ... or Week 1, Week 2 ...: 100x5 */
    LAYOUT_SESSIONS,     /* Workout: Squat: 100x5; Bench 60x5 */
    LAYOUT_COUNT
};

enum layout_dates
{
    DATES_IN_COLUMN,
    DATES_OF_WEEKS, /* a week and a day */
    DATES_IN_ROWS,  /* rows that hold nothing else */
    DATES_IN_HEADER,
    DATES_MISSING
};

struct layout_group /* the columns of one set */
{
    unsigned number;
    size_t of[FIELD_COUNT]; /* NO_COLUMN: none */
};

struct layout_fit /* how many of its cells are what they should be */
{
    size_t good, all;           /* items */
    size_t cells;               /* cells that hold them */
    size_t bad_row, bad_column; /* the first that does not fit */
};

struct layout
{
    enum layout_kind kind;
    LIST(size_t) columns;             /* that hold sets, in their order; not used for LAYOUT_GROUPS */
    LIST(struct layout_group) groups; /* in the order of their numbers */
    struct layout_fit fit;
};

struct table
{
    struct reading *reading;
    struct table_origin origin;
    struct arena *own;
    LIST(struct table_row) rows;
    size_t header; /* index of its row; NO_COLUMN: there is none */
    struct column_heading *headings;
    size_t heading_count;  /* up to the last that is not empty */
    struct column_map map; /* of columns without a number */
    char decimal;
    bool decimal_open;
    enum layout_dates dates;
    size_t week, weekday; /* column indexes */
    char **header_days;   /* for DATES_IN_HEADER, by column: YYYY-MM-DD, or as written with its year */
    bool header_years_taken;
    struct layout layout;
    struct item_manner manner;
    struct table_cells cells;
};

#endif
