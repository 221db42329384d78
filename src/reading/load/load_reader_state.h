/* What load_reader.c, note_reader.c and note_labels.c share. */
#ifndef TAUTLINE_READING_LOAD_READER_STATE_H
#define TAUTLINE_READING_LOAD_READER_STATE_H

#include "base/names.h"
#include "reading/load/load_phrase.h"
#include "reading/load/load_reader.h"
#include "reading/load/load_words.h"

struct load_reader
{
    struct arena *arena, *scratch;
    struct loads *loads;
    const struct gym *gym;
    struct word_reader *words;
    struct map *texts, *cells, *notes, *combined; /* what was read before: key to struct answer or note_answer */
};

struct answer /* of a text read before */
{
    const struct load *load; /* NULL: refused */
    struct load_fault fault;
};

#define PIECES_LIMIT 16 /* kinds of gear on one bar */

struct piece_list
{
    struct piece items[PIECES_LIMIT];
    size_t count;
};

struct phrase_reader phrase_reader_for(struct load_reader *reader, const struct words *words, struct load_style style, struct load_fault *fault);
/* A load of these pieces and no straight weight; NULL for none. */
const struct load *load_of_pieces(struct load_reader *reader, const struct piece_list *pieces);
/* The memo's key of a text under a style and a salt; the scratch arena's. */
char *memo_key(struct load_reader *reader, const char *text, struct load_style style, int salt, size_t *length);


/* note_labels.c: in a note a label of the gym file may be a common word ("long day at work"). Those that stand neither beside a word for
 * gear nor beside a count or a side become words like any other, and keep only their `gear`. */
void note_labels_unmark(struct words *words);
/* Is it such a label, and one that no other word looks like (b29)? */
bool note_label_alone(const struct word *word);

#endif
