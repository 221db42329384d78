/* AR in notes, clause by clause. A clause counts if it begins with AR, unless it negates it or is about another
 * occasion. */
#ifndef TAUTLINE_READING_NOTE_READER_H
#define TAUTLINE_READING_NOTE_READER_H

#include "reading/load/load_reader.h"

/* AR in a note. NULL: a clause begins like AR and is refused (uneven, ambiguous). Borrowed from the reader's memory. */
const struct note_ar *note_read(struct load_reader *reader, const char *text, struct load_style style,
                                struct load_fault *fault);

#endif
