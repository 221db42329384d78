/* The words of a header: synonyms of the trade, fillers, units. */
#ifndef TAUTLINE_READING_HEADER_WORDS_H
#define TAUTLINE_READING_HEADER_WORDS_H

#include "reading/csv/columns.h"

void column_says_unit(struct column_use *use, enum mass_unit unit);

/* Takes off the first bracket with what is in it: "(lb)", "[kg]". True: it named metres a second. */
bool header_take_bracket(char *header, struct column_use *use);

/* Blanks "per side", "/side", "on each side" and the like out of a folded header. True: it was there. */
bool header_take_side(char *header);

/* Case folded, punctuation to single blanks. */
char *header_words(struct arena *scratch, char *header);

/* "weight lb", "weight in kg": the unit comes off where another word remains. */
void header_take_trailing_unit(char *words, struct column_use *use);

/* Filler words dropped; nothing remains where all are fillers: "workout name" names no lifter. */
char *header_without_fillers(struct arena *scratch, const char *words);

/* The field whose synonym the words are; FIELD_COUNT: none. */
enum log_field header_known_field(const char *words);

/* By its words alone, in any order, without fillers and units. Several words that say what was done or planned tell
 * which. */
enum log_field header_field_by_words(const char *text, struct column_use *use);

#endif
