/* Labels of the gym file in a note: which of them are meant, and which are ordinary words. */
#ifndef TAUTLINE_READING_NOTE_LABELS_H
#define TAUTLINE_READING_NOTE_LABELS_H

#include "reading/load/load_words.h"

/* In a note a label of the gym file may be an ordinary word ("long day at work"). Labels that are neither next to a
 * word for gear nor next to a count or a side become ordinary words, and keep only their `gear`. */
void note_labels_unmark(struct words *words);
/* ", doubled" after a band belongs to it. */
void note_join_rigs(struct words *words);
/* Is it such a label, and one that cannot be an ordinary word (b26)? */
bool note_label_alone(const struct word *word);

#endif
