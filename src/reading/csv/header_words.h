/* The words of a header: usual synonyms, fillers, units. */
#ifndef TAUTLINE_READING_HEADER_WORDS_H
#define TAUTLINE_READING_HEADER_WORDS_H

#include "reading/csv/columns.h"

void column_says_unit(struct column_use *use, enum mass_unit unit);

/* Removes the first bracket with its contents: "(lb)", "[kg]". True: it named metres per second. */
bool header_take_bracket(char *header, struct column_use *use);

/* Replaces "per side", "/side", "on each side" and the like in a folded header by blanks. True: it was there. */
bool header_take_side(char *header);

/* Case is folded, and punctuation becomes single blanks. */
char *header_words(struct arena *scratch, char *header);

/* "weight lb", "weight in kg": removes the unit if another word remains. */
void header_take_trailing_unit(char *words, struct column_use *use);

/* Drops filler words; the result is empty if all are fillers: "workout name" does not name a lifter. */
char *header_without_fillers(struct arena *scratch, const char *words);

/* The field that the words are a synonym of; FIELD_COUNT: none. */
enum log_field header_known_field(const char *words);

/* Matches words only, in any order, without fillers and units. If several words fit, those that mean done or planned
 * decide. */
enum log_field header_field_by_words(const char *text, struct column_use *use);

#endif
