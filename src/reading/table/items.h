/* Sets written into one cell: 100x5, 110x3 @8. Cells of whole sessions: Squat: 100x5, 110x3; Bench 60x5x3. */
#ifndef TAUTLINE_READING_TABLE_ITEMS_H
#define TAUTLINE_READING_TABLE_ITEMS_H

#include "reading/text/text_log.h"

#include <stdbool.h>
#include <stddef.h>

#define ITEMS_LIMIT 64 /* in one cell; what is more stays with the last */

struct items /* parts of a cell, in its order, without blanks around them */
{
    struct text_span spans[ITEMS_LIMIT];
    size_t count;
};

struct item_manner /* how the table's numbers and lifts are written */
{
    struct text_patterns *patterns;
    const struct gym *gym;
    char decimal;
};

/* At line breaks and semicolons, and at commas and blanks where a set ends and another begins. */
void items_split(const struct item_manner *manner, const char *text, struct items *items);
/* At line breaks and semicolons, and at commas before the name of a lift that is known and its sets. */
void items_split_session(const struct item_manner *manner, const char *text, struct items *items);

/* Does it look like a set or sets of one load? */
bool item_looks(const struct item_manner *manner, const char *text, size_t length);
/* What may have been meant for a set is there, and is none: 8ox3, 110x. */
bool item_is_garbled(const char *text, size_t length);
/* Is there any such word in it? */
bool item_hides_garbled(const char *text, size_t length);
/* Like a lift and its sets? *sets, if so: where the sets begin that follow a name and a colon (Squat: 100x5); 0: it is
 * a line like those of a text log. */
bool session_looks(const struct item_manner *manner, const char *text, size_t length, size_t *sets);
/* Repetitions of one set: 5, 10+. */
bool reps_look(const char *text, char decimal);

#endif
