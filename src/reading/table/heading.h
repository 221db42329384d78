/* The meaning of a table's header: its field, the number of its set, a date, a week, a lift. */
#ifndef TAUTLINE_READING_TABLE_HEADING_H
#define TAUTLINE_READING_TABLE_HEADING_H

#include "reading/csv/columns.h"
#include "reading/day.h"

#include <stdbool.h>
#include <stddef.h>

#define HEADING_MOST_SETS 60 /* a larger number is not that of a set */
#define HEADING_MOST_WEEKS 520

struct column_heading
{
    const char *text;     /* as written; "" where the header is empty */
    enum log_field field; /* FIELD_COUNT: none */
    struct column_use use;
    unsigned number;  /* of the set, from 1: Set 2 Weight, Reps_2, kg.2; 0: none */
    bool is_set;      /* the set itself, not one of its fields: Set 2 */
    unsigned week;    /* Week 3: from 1; 0: none */
    bool is_day;      /* a date, with or without its year */
    const char *lift; /* a known lift, without its unit or AR; NULL: none */
    const char *ar;   /* chains or bands in brackets after it: Squat (2 x 8 kg chain/side); NULL: none */
};

/* The heading of column `index`; its text is borrowed, and parts of it live as long as the arena. */
struct column_heading heading_read(struct arena *arena, const struct gym *gym, const char *text, size_t index);

/* Is it a date without its year? A bare number does not count. */
bool heading_is_yearless(const char *text);

#endif
