/* State shared by load_reader.c, note_reader.c, note_labels.c and note_limits.c. */
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
    struct note_limits *limits;                   /* of note_limits.c; NULL until a note names gear */
    struct map *texts, *cells, *notes, *combined; /* what was read before: maps a key to struct answer or note_answer */
};

struct answer /* for a text that was read before */
{
    const struct load *load; /* NULL: refused */
    struct load_fault fault;
};

#define PIECES_LIMIT 16 /* most kinds of gear on one bar */

struct piece_list
{
    struct piece items[PIECES_LIMIT];
    size_t count;
};

#endif
