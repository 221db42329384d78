/* Patterns for a load or a note, one lexeme at a time. */
#ifndef TAUTLINE_READING_LOAD_LEXEMES_H
#define TAUTLINE_READING_LOAD_LEXEMES_H

#include "base/arena.h"
#include "model/gear.h"
#include "reading/load/load_words.h"

/* One lexeme where the match begins; the named groups tell its kind. `decimal` is '.' or ','. */
char *lexemes_pattern(struct arena *arena, char decimal);

/* Does a word of this kind name gear, by itself or next to a label? "b26 choked" is a band, known or not. */
bool word_is_gear(enum word_kind kind);

/* The kind of a word, in letters of any case, that is a noun of the notation for chains, bands or releasers.
 * WORD_UNKNOWN: it is not. */
enum word_kind word_as_gear(const char *word, size_t length);

/* Any word of the notation that names gear, and any label of the gym file: a text that does not match has no AR. */
char *gear_pattern(struct arena *arena, const struct gym *gym);

#endif
