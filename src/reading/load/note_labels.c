#include "reading/load/note_labels.h"

#include "reading/load/load_lexemes.h"
#include "reading/load/load_reader_state.h"

#include <string.h>

static enum word_kind kind_at(const struct words *words, size_t at)
{
    return at < words->list.count ? words->list.items[at].kind : WORD_STOP;
}

static bool has_digit(const struct word *word)
{
    return strpbrk(word->label, "0123456789");
}

bool note_label_alone(const struct word *word)
{
    return word->kind == WORD_UNKNOWN && word->gear && has_digit(word);
}

/* Words that mean nothing between a label and its neighbour. */
static bool is_empty(enum word_kind kind)
{
    return kind == WORD_FILLER || kind == WORD_OF || kind == WORD_COLON || kind == WORD_OPEN || kind == WORD_CLOSE;
}

static size_t after(const struct words *words, size_t at)
{
    do
        at++;
    while (is_empty(kind_at(words, at)));
    return at;
}

/* The nearest word before `at` with a meaning; SIZE_MAX: none. */
static size_t before(const struct words *words, size_t at)
{
    do
        at--;
    while (at != SIZE_MAX && is_empty(kind_at(words, at)));
    return at;
}

/* Nothing follows that could turn a count and a label into prose: "2 long" is gear, "2 long days" is not. */
static bool ends_phrase(enum word_kind kind)
{
    return kind == WORD_STOP || kind == WORD_COMMA || kind == WORD_JOIN || kind == WORD_AT || kind == WORD_ON;
}

static bool counts_behind(const struct words *words, size_t at)
{
    size_t next = after(words, at);
    enum word_kind kind = kind_at(words, next);
    if (word_is_gear(kind) || kind == WORD_SIDE || kind == WORD_EACH)
        return true;
    if (kind == WORD_TIMES)
        return kind_at(words, next + 1) == WORD_NUMBER;
    /* "b26 left / b48 right": sides, if the label is not an ordinary word */
    return kind == WORD_HAND && has_digit(&words->list.items[at]) && kind_at(words, after(words, next)) != WORD_UNKNOWN;
}

static bool counts_in_front(const struct words *words, size_t at)
{
    size_t nearest = before(words, at);
    enum word_kind kind = kind_at(words, nearest);
    if (kind == WORD_TIMES) /* 2 x long */
        kind = kind_at(words, --nearest);
    bool count = kind == WORD_NUMBER && words->list.items[nearest].is_whole;
    return word_is_gear(kind) || (count && ends_phrase(kind_at(words, after(words, at))));
}

/* band b26/b30: both labels count together. */
static bool counts(const struct words *words, size_t at)
{
    if (counts_in_front(words, at) || counts_behind(words, at))
        return true;
    return at > 1 && kind_at(words, at - 1) == WORD_SLASH && kind_at(words, at - 2) == WORD_LABEL;
}

/* A dash without a number after it also ends a clause. */
static bool clause_ends_at(const struct words *words, size_t at)
{
    enum word_kind kind = kind_at(words, at);
    return kind == WORD_STOP || kind == WORD_COMMA || kind == WORD_CLOSE || kind == WORD_OPEN ||
           (kind == WORD_RANGE && kind_at(words, at + 1) != WORD_NUMBER);
}

void note_join_rigs(struct words *words)
{
    bool band = false;
    for (size_t i = 0; i < words->list.count; i++) {
        struct word *word = &words->list.items[i];
        bool rig_follows = kind_at(words, i + 1) == WORD_DOUBLED || kind_at(words, i + 1) == WORD_CHOKED;
        if (word->kind == WORD_COMMA && band && rig_follows && clause_ends_at(words, i + 2))
            word->kind = WORD_FILLER;
        else if (clause_ends_at(words, i))
            band = false;
        band |= word->kind == WORD_BAND || (word->kind == WORD_LABEL && (word->gear & GEAR_BAND));
    }
}

void note_labels_unmark(struct words *words)
{
    for (size_t i = 0; i < words->list.count; i++) {
        struct word *word = &words->list.items[i];
        bool pair_follows = kind_at(words, i + 1) == WORD_SLASH && kind_at(words, i + 2) == WORD_LABEL &&
                            counts_behind(words, i + 2);
        if (word->kind == WORD_LABEL && word->gear != GEAR_QUOTED && !counts(words, i) && !pair_follows)
            word->kind = WORD_UNKNOWN;
    }
}
