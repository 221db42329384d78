/* Notes that limit their chains or bands to some of the sets. */
#ifndef TAUTLINE_READING_NOTE_LIMITS_H
#define TAUTLINE_READING_NOTE_LIMITS_H

#include "model/set.h"
#include "reading/load/load_reader_state.h"

/* The sets to which a note limits its gear ("last set without"); the words that say so become the end of a clause in
 * `words`. AR_LIMIT_OTHER: *unread is the clause. */
enum ar_limit note_limit(struct load_reader *reader, struct words *words, const char **unread);
void note_limits_free(struct note_limits *limits); /* NULL is allowed */

#endif
