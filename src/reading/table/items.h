/* Sets written into one cell: 100x5, 110x3 @8. Cells of whole sessions: Squat: 100x5, 110x3; Bench 60x5x3. */
#ifndef TAUTLINE_READING_TABLE_ITEMS_H
#define TAUTLINE_READING_TABLE_ITEMS_H

#include "reading/text/text_log.h"

#include <stdbool.h>
#include <stddef.h>

#define ITEMS_LIMIT 64 /* in one cell; any further ones stay in the last item */

struct items /* parts of a cell, in order, without blanks around them */
{
    struct text_span spans[ITEMS_LIMIT];
    size_t count;
};

struct item_manner /* notation of the table's numbers and lifts */
{
    struct text_patterns *patterns;
    const struct gym *gym;
    char decimal;
};

/* Splits at line breaks and semicolons, and at commas and blanks where one set ends and another begins. */
void items_split(const struct item_manner *manner, const char *text, struct items *items);
/* Splits at line breaks and semicolons, and at commas before the name of a known lift and its sets. */
void items_split_session(const struct item_manner *manner, const char *text, struct items *items);

/* Does it look like one or more sets with one load? */
bool item_looks(const struct item_manner *manner, const char *text, size_t length);
/* It was probably meant to be a set, but is not one: 8ox3, 110x. */
bool item_is_garbled(const char *text, size_t length);
/* Is there any such word in it? */
bool item_hides_garbled(const char *text, size_t length);
/* Does it look like a lift and its sets? If so, *sets is where the sets begin after a name and a colon (Squat:
 * 100x5); 0: it is like a line of a text log. */
bool session_looks(const struct item_manner *manner, const char *text, size_t length, size_t *sets);
/* Does it look like repetitions of one set: 5, 10+? */
bool reps_look(const char *text, char decimal);

#endif
