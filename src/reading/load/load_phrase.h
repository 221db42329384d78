/* One phrase of accommodating resistance: "2 x 7 kg chain/side doubled", "reverse bands 35 bottom 5 top @ rack". The
 * words of a phrase may be in any order; each fills a slot, and the slots together make a piece or a reason for
 * refusal. */
#ifndef TAUTLINE_READING_LOAD_PHRASE_H
#define TAUTLINE_READING_LOAD_PHRASE_H

#include "model/load.h"
#include "reading/load/load_reader.h"
#include "reading/load/load_words.h"

struct phrase_reader
{
    struct word_reader *words_reader;
    struct arena *arena; /* for what is kept: pieces' strings, messages */
    struct arena *scratch;
    const struct words *words;
    struct load_style style;
    bool in_note;          /* prose may follow: stop there instead of refusing */
    unsigned header;       /* enum ar_header: what the column's header says */
    enum ar_column column; /* a bare number means what this column means */
    struct load_fault *fault;
};

enum phrase_result
{
    PHRASE_READ,
    PHRASE_REFUSED, /* `fault` is set */
    PHRASE_NOT_AR   /* nothing in it names gear */
};

/* Reads words[at .. end); *used is how many were used (all of them, unless in a note). */
enum phrase_result phrase_read(struct phrase_reader *reader, size_t at, size_t end, struct piece *piece, size_t *used);

/* Do words[at .. end) name gear? */
bool phrase_names_gear(const struct words *words, size_t at, size_t end);
/* Can words[at .. end) only be the continuation of a phrase before it ("40 top", "doubled", "per side")? */
bool phrase_continues(const struct words *words, size_t at, size_t end);

#define PHRASE_MOST_PIECES 20 /* counted by one number; a larger one is a weight */

/* Sets the fault to the span of words[from .. to) and a message; returns false. `hint` may be NULL. */
bool phrase_fault(struct phrase_reader *reader, enum diag_id id, size_t from, size_t to, const char *hint,
                  const char *format, ...) __attribute__((format(printf, 6, 7)));

#endif
