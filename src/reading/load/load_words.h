/* The words of a load expression or a note: text to tokens, with PCRE2. The grammar for them is in load_phrase.c. */
#ifndef TAUTLINE_READING_LOAD_WORDS_H
#define TAUTLINE_READING_LOAD_WORDS_H

#include "base/arena.h"
#include "base/unit.h"
#include "model/gear.h"

#include <stdbool.h>
#include <stddef.h>

enum word_kind
{
    WORD_UNKNOWN, /* any other word */
    WORD_NUMBER,
    WORD_BAD_NUMBER, /* a decimal comma in a file with decimal points */
    WORD_UNIT,       /* of mass */
    WORD_WIDTH,      /* mm, cm: of a band identified by its width */
    WORD_PERCENT,
    WORD_SIDE,  /* per side and the like */
    WORD_EACH,  /* each, apiece: of a piece or of a side */
    WORD_TOTAL, /* "in all" */
    WORD_TIMES,
    WORD_AT,
    WORD_ON,
    WORD_OF,
    WORD_JOIN, /* + with w/ plus and & */
    WORD_LEAD, /* used, using, added */
    WORD_COMMA,
    WORD_STOP, /* ; . line break: ends a clause */
    WORD_OPEN,
    WORD_CLOSE,
    WORD_RANGE, /* - > to */
    WORD_SLASH,
    WORD_COLON,
    WORD_CHAIN,
    WORD_BAND,
    WORD_REVERSE,
    WORD_RELEASER,
    WORD_LEADER, /* on 40 cm leader */
    WORD_PAIR,
    WORD_SINGLE,
    WORD_DOUBLE,
    WORD_TRIPLE,
    WORD_STRAIGHT, /* rig: stretched once */
    WORD_CHOKED,
    WORD_DOUBLED, /* doubled, looped */
    WORD_TOP,
    WORD_BOTTOM,
    WORD_BAR,
    WORD_BODYWEIGHT,
    WORD_HAND,  /* left, right */
    WORD_LABEL, /* gear of the gym file, or any quoted name */
    WORD_NEGATION,
    WORD_OCCASION, /* next, last, planned ... */
    WORD_FILLER,
    WORD_MARK /* any other character */
};

enum gear_mask
{
    GEAR_CHAIN = 1,
    GEAR_BAND = 2,
    GEAR_QUOTED = 4 /* a quoted name that the gym file does not have */
};

struct word
{
    enum word_kind kind;
    size_t at, length; /* bytes in the text */
    double number;     /* NUMBER; LEADER: metres */
    bool is_word;      /* NUMBER written as a word: two */
    bool is_whole;     /* NUMBER without decimals or fraction */
    int decimals;
    enum mass_unit unit;
    const char *label; /* LABEL: as the gym file spells it; other words: as written */
    unsigned gear;     /* LABEL: enum gear_mask */
};

struct words
{
    const char *text;
    LIST(struct word) list;
};

struct word_reader;

struct word_reader *word_reader_new(struct arena *arena, const struct gym *gym);
void word_reader_free(struct word_reader *reader);
/* Everything is owned by the arena; blanks are left out. `decimal` is '.' or ','. */
struct words *words_read(struct word_reader *reader, struct arena *arena, const char *text, char decimal);
/* Could the text name AR at all? A quick check before a note is parsed. */
bool words_name_gear(struct word_reader *reader, const char *text);
/* The set-up whose name begins at word `at`; NULL: none. *used: number of words. */
const struct setup *words_setup(struct word_reader *reader, struct arena *arena, const struct words *words, size_t at,
                                size_t *used);

#endif
