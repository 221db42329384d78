/* Load expressions: text to struct load, with PCRE2 for the words and a small grammar for the phrases. The grammar is
 * in tautline-log(5). */
#ifndef TAUTLINE_READING_LOAD_READER_H
#define TAUTLINE_READING_LOAD_READER_H

#include "base/arena.h"
#include "base/diag.h"
#include "model/gear.h"
#include "model/load.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

struct load_reader;

/* Patterns are compiled once (with JIT if available); texts seen before are remembered. Loads are interned in
 * `loads`. */
struct load_reader *load_reader_new(struct arena *arena, struct loads *loads, const struct gym *gym);
void load_reader_free(struct load_reader *reader); /* frees PCRE2's own objects */

struct load_style /* how to read bare numbers in this text */
{
    enum mass_unit unit;
    char decimal; /* '.' or ',' */
};

struct load_fault /* why a text was refused */
{
    enum diag_id id;
    size_t column, length; /* characters from 0 in the text as written; 0, 0: the whole text */
    const char *message;   /* owned by the reader's arena */
    const char *hint;      /* NULL: the usual one of the id */
};

/* A whole load: straight weight and AR. NULL: refused, see `fault`. */
const struct load *load_read(struct load_reader *reader, const char *text, struct load_style style,
                             struct load_fault *fault);

enum ar_column
{
    AR_COLUMN_ANY,   /* accommodating, ar: what may follow a + */
    AR_COLUMN_CHAIN, /* a bare number is the total mass */
    AR_COLUMN_BAND   /* a bare number is the total pull at the top */
};
enum ar_header /* what the header says about every cell */
{
    AR_HEADER_UNIT = 1,  /* a unit, so that a small bare number is a mass */
    AR_HEADER_SIDE = 2,  /* per side: applies unless a cell says otherwise */
    AR_HEADER_PLURAL = 4 /* "Chains per side": a small bare number is a count of them */
};
/* A cell of an AR column. Returns a load without straight weight; without pieces for an empty cell, 0, "none", "no".
 * NULL: refused. `header`: bits of enum ar_header. */
const struct load *ar_cell_read(struct load_reader *reader, const char *text, enum ar_column column, unsigned header,
                                struct load_style style, struct load_fault *fault);

enum ar_word
{
    AR_WORD_CHAIN = 1,
    AR_WORD_BAND = 2
};
struct note_ar
{
    const struct load *ar; /* pieces read from the note; NULL: none */
    unsigned negated;      /* enum ar_word: gear that was not used, according to a clause */
    bool names_gear;       /* it names chains or bands, in whatever way */
    uint8_t limit;         /* enum ar_limit of model/set.h: the sets that the pieces apply to */
    const char *unread;    /* first clause that names AR but was not read as AR; NULL: none. For `check` */
};

/* One load from the straight-weight cell, AR cells and note: equal AR given twice counts once, chain and band columns
 * add up, any other difference is refused as CONTRADICTION. `base` may be NULL (no weight). AR named by the lift
 * ("banded squat") is added as unknown gear if nothing else gives AR. */
struct load_sources
{
    const struct load *base;
    const struct load *chain, *band, *ar; /* cells; NULL: none */
    const struct note_ar *note;           /* NULL: none */
    bool lift_chain, lift_band, lift_reverse_band;
};

struct words;
struct piece_list;
struct phrase_reader;

/* For note_reader.c and load_combine.c: a reader for one phrase of these words. */
struct phrase_reader phrase_reader_for(struct load_reader *reader, const struct words *words, struct load_style style,
                                       struct load_fault *fault);

/* A load with these pieces and without straight weight; NULL for none. */
const struct load *load_of_pieces(struct load_reader *reader, const struct piece_list *pieces);

/* The memo's key for a text with a style and a salt; in the scratch arena. */
char *memo_key(struct load_reader *reader, const char *text, struct load_style style, int salt, size_t *length);

#endif
