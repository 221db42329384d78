/* What the words of one phrase have said: between load_phrase.c and load_numbers.c, which fill the slots, and
 * load_piece.c, which makes a piece of them. */
#ifndef TAUTLINE_READING_LOAD_SLOTS_H
#define TAUTLINE_READING_LOAD_SLOTS_H

#include "reading/load/load_phrase.h"

enum phrase_gear
{
    NO_GEAR,
    CHAIN,
    BAND,
    RELEASER
};

/* What the words of one phrase have given so far. `at` members are word indexes, for faults. */
struct slots
{
    enum phrase_gear gear;
    bool gear_named; /* by a word, not only by a label */
    size_t begin, gear_at;
    int count;         /* pieces; 0: not given */
    bool count_linked; /* by x, of or @: a mass belongs to one piece */
    bool pair, single;
    size_t double_at; /* the word "double"; SIZE_MAX: not given */
    double mass_kg;   /* NAN: not given */
    bool mass_linked;
    double bottom_kg, top_kg;
    bool side, each, total;
    const char *label, *label_right;
    bool label_known;
    enum rig rig;
    bool reverse;
    const char *setup;
    double leader_m;
    size_t end_word_at;  /* first of top, bottom; SIZE_MAX: none */
    bool end_word_first; /* "top 40", not "40 top" */
};

struct phrase
{
    struct phrase_reader *reader;
    struct slots slots;
    size_t at, end;
};

/* --- the words of a phrase --------------------------------------------------------------------------------------- */

static inline const struct word *phrase_word(const struct phrase *phrase, size_t at)
{
    static const struct word none = {.kind = WORD_STOP, .label = ""};
    return at < phrase->end ? &phrase->reader->words->list.items[at] : &none;
}

static inline enum word_kind phrase_kind(const struct phrase *phrase, size_t at)
{
    return phrase_word(phrase, at)->kind;
}

/* The kind before `at` in the phrase; WORD_STOP at its beginning. */
static inline enum word_kind phrase_kind_before(const struct phrase *phrase, size_t at)
{
    return at > phrase->slots.begin ? phrase_kind(phrase, at - 1) : WORD_STOP;
}

static inline bool word_is_label_of(const struct word *word, unsigned gear)
{
    return word->kind == WORD_LABEL && (word->gear & gear);
}

#endif
