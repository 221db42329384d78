/* The numbers of a phrase: which is a count, which a mass, and of which end. Each fills a slot; false: the fault is
 * filled, or the phrase ends here. */
#ifndef TAUTLINE_READING_LOAD_NUMBERS_H
#define TAUTLINE_READING_LOAD_NUMBERS_H

#include "reading/load/load_slots.h"

bool phrase_take_number(struct phrase *phrase);
bool phrase_take_end_word(struct phrase *phrase); /* "top 40", where the word is before its number */
bool phrase_set_count(struct phrase *phrase, double written, size_t at);
/* More chain or band than a bar takes: the fault is filled. */
bool phrase_is_absurd(struct phrase_reader *reader, double kg, size_t from, size_t to);

#endif
