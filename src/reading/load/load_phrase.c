#include "reading/load/load_phrase.h"

#include "base/text.h"
#include "reading/load/load_lexemes.h"
#include "reading/load/load_numbers.h"
#include "reading/load/load_piece.h"
#include "reading/load/load_slots.h"

#include <math.h>
#include <stdarg.h>
#include <string.h>

bool phrase_fault(struct phrase_reader *reader, enum diag_id id, size_t from, size_t to, const char *hint,
                  const char *format, ...)
{
    const struct words *words = reader->words;
    struct load_fault *fault = reader->fault;
    va_list arguments;
    va_start(arguments, format);
    fault->message = arena_vprintf(reader->arena, format, arguments);
    va_end(arguments);
    fault->id = id;
    fault->hint = hint;
    fault->column = fault->length = 0;
    if (from < words->list.count && to > from) {
        const struct word *first = &words->list.items[from], *last = &words->list.items[to - 1];
        fault->column = text_characters(words->text, first->at);
        fault->length = text_characters(words->text + first->at, last->at + last->length - first->at);
    }
    return false;
}

bool phrase_names_gear(const struct words *words, size_t at, size_t end)
{
    for (; at < end; at++) {
        const struct word *word = &words->list.items[at];
        /* "pair of b26", "b26 choked": a name with a band's word is a band, known or not. */
        if (word_is_gear(word->kind) || word_is_label_of(word, GEAR_CHAIN | GEAR_BAND))
            return true;
    }
    return false;
}

bool phrase_continues(const struct words *words, size_t at, size_t end)
{
    bool carries = false;
    for (; at < end; at++) {
        enum word_kind kind = words->list.items[at].kind;
        if (kind == WORD_TOP || kind == WORD_BOTTOM || kind == WORD_SIDE || kind == WORD_CHOKED ||
            kind == WORD_DOUBLED || kind == WORD_TOTAL || kind == WORD_LEADER || kind == WORD_STRAIGHT)
            carries = true;
        else if (kind == WORD_AT && at + 1 < end && words->list.items[at + 1].kind != WORD_NUMBER)
            return true;
        else if (kind != WORD_NUMBER && kind != WORD_UNIT && kind != WORD_FILLER && kind != WORD_AT)
            return false;
    }
    return carries;
}

/* --- words ---------------------------------------------------------------------------------------------------------------- */

static bool take_gear(struct phrase *phrase)
{
    static const enum phrase_gear gears[] = {[WORD_CHAIN] = CHAIN, [WORD_BAND] = BAND, [WORD_RELEASER] = RELEASER};
    struct slots *slots = &phrase->slots;
    enum phrase_gear gear = gears[phrase_kind(phrase, phrase->at)];
    if (slots->gear && slots->gear != gear)
        return phrase_fault(phrase->reader, DIAG_AMBIGUOUS_AR, phrase->at, phrase->at + 1, "put + between them",
                            "two kinds of gear in one phrase");
    if (slots->gear_named)
        return phrase_fault(phrase->reader, DIAG_AMBIGUOUS_AR, phrase->at, phrase->at + 1, "put + between them",
                            "gear is named twice in one phrase");
    slots->gear = gear;
    slots->gear_named = true;
    slots->gear_at = phrase->at++;
    return true;
}

static bool take_label(struct phrase *phrase)
{
    struct slots *slots = &phrase->slots;
    const struct word *word = phrase_word(phrase, phrase->at), *right = phrase_word(phrase, phrase->at + 2);
    if (slots->label)
        return phrase_fault(phrase->reader, DIAG_AMBIGUOUS_AR, phrase->at, phrase->at + 1, "put + between them",
                            "two names in one phrase");
    unsigned other = phrase->reader->column == AR_COLUMN_CHAIN  ? GEAR_BAND
                     : phrase->reader->column == AR_COLUMN_BAND ? GEAR_CHAIN
                                                                : 0;
    if (word->gear && word->gear == other)
        return phrase_fault(phrase->reader, DIAG_BAD_LOAD, phrase->at, phrase->at + 1, NULL,
                            "'%s' is a %s, in a column of %s", word->label, other == GEAR_BAND ? "band" : "chain",
                            other == GEAR_BAND ? "chains" : "bands");
    slots->label = word->label;
    slots->label_known = word->gear & (GEAR_CHAIN | GEAR_BAND);
    if (!slots->gear)
        slots->gear = word->gear & GEAR_BAND ? BAND : word->gear & GEAR_CHAIN ? CHAIN : NO_GEAR;
    phrase->at++;
    if (phrase_kind(phrase, phrase->at) == WORD_SLASH && (right->kind == WORD_LABEL || right->kind == WORD_UNKNOWN)) {
        slots->label_right = right->label;
        phrase->at += 2;
    }
    return true;
}

static bool take_setup(struct phrase *phrase)
{
    struct phrase_reader *reader = phrase->reader;
    size_t at = phrase->at, first = at + 1, used = 1;
    while (phrase_kind(phrase, first) == WORD_FILLER)
        first++;
    const struct setup *setup = words_setup(reader->words_reader, reader->scratch, reader->words, first, &used);
    const struct word *word = phrase_word(phrase, first);
    enum word_kind kind = word->kind;
    bool could_be_name = kind == WORD_UNKNOWN || kind == WORD_LABEL;
    if (!setup && phrase_kind(phrase, at) == WORD_ON && (reader->in_note || !could_be_name))
        return reader->in_note
                   ? false /* prose */
                   : phrase_fault(reader, DIAG_BAD_LOAD, at, at + 1, "write 'on NAME' with the name of a set-up",
                                  "nothing to read after 'on'");
    if (!setup && kind == WORD_NUMBER) {
        phrase->at = first; /* 2 chains @ 7 kg, bands @ 40 kg top: the number decides */
        return true;
    }
    if (!setup && !could_be_name)
        return phrase_fault(reader, DIAG_BAD_LOAD, at, at + 1, "write @ and the name of a set-up, or @ and a load",
                            "nothing to read after '@'");
    phrase->slots.setup = setup ? setup->name : word->label;
    phrase->at = first + (setup ? used : 1);
    return true;
}

static bool is_join_word(const struct phrase *phrase, size_t at)
{
    enum word_kind kind = phrase_kind(phrase, at);
    return kind == WORD_CHAIN || kind == WORD_BAND || kind == WORD_RELEASER;
}

/* Bands that are not attached to a bar. */
static bool is_other_band(const char *word)
{
    static const char *const words[] = {"head", "wrist", "waist", "watch", "broad"};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        if (text_same_name(word, words[i]))
            return true;
    return false;
}

/* Words in a note that describe the day and not the gear. */
static bool is_no_gear_name(const char *word)
{
    static const char *const words[] = {"today", "again",  "in",    "up",    "as",   "felt",  "feel",  "were", "was",
                                        "is",    "are",    "for",   "good",  "loud", "head",  "wrist", "hip",  "knee",
                                        "ankle", "arm",    "waist", "broad", "belt", "watch", "like",  "feet", "great",
                                        "fine",  "heavy?", "work",  "sets",  "set",  "all",   "only",  "still"};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        if (text_same_name(word, words[i]))
            return true;
    return false;
}

static bool has_digit(const char *word)
{
    return strpbrk(word, "0123456789");
}

static size_t unknown_run(const struct phrase *phrase, size_t at)
{
    size_t count = 0;
    while (phrase_kind(phrase, at + count) == WORD_UNKNOWN)
        count++;
    return count;
}

/* Can words[at .. at + count) be the name of gear that the gym file does not have? */
static bool may_be_name(const struct phrase *phrase, size_t at, size_t count)
{
    const struct phrase_reader *reader = phrase->reader;
    bool before = is_join_word(phrase, at + count),
         after = phrase_kind_before(phrase, at) == WORD_CHAIN || phrase_kind_before(phrase, at) == WORD_BAND;
    bool colon = phrase_kind_before(phrase, at) == WORD_COLON;
    bool described = phrase_kind_before(phrase, at) == WORD_OF || phrase_kind_before(phrase, at) == WORD_PAIR ||
                     phrase_kind_before(phrase, at) == WORD_REVERSE || phrase_kind(phrase, at + count) == WORD_CHOKED ||
                     phrase_kind(phrase, at + count) == WORD_DOUBLED || phrase_kind(phrase, at + count) == WORD_REVERSE;
    if (phrase->slots.label)
        return false;
    if (reader->column != AR_COLUMN_ANY)
        return count <= 3;
    if (!reader->in_note && is_other_band(phrase_word(phrase, at + count - 1)->label))
        return false;
    if (!reader->in_note)
        return before ? count <= 3 : (after || colon || described) && count <= 2;
    for (size_t i = 0; i < count; i++)
        if (is_no_gear_name(phrase_word(phrase, at + i)->label))
            return false;
    if (count == 1 && has_digit(phrase_word(phrase, at)->label))
        return before || after || colon || described;
    return count == 1 && (before || colon);
}

static bool take_unknown(struct phrase *phrase)
{
    size_t at = phrase->at, count = unknown_run(phrase, at);
    struct phrase_reader *reader = phrase->reader;
    if (!may_be_name(phrase, at, count)) {
        if (reader->in_note)
            return false;
        return phrase_fault(reader, DIAG_BAD_LOAD, at, at + count, NULL, "'%.*s' is not understood",
                            (int)(phrase_word(phrase, at + count - 1)->at +
                                  phrase_word(phrase, at + count - 1)->length - phrase_word(phrase, at)->at),
                            reader->words->text + phrase_word(phrase, at)->at);
    }
    const struct word *last = phrase_word(phrase, at + count - 1), *right = phrase_word(phrase, at + count + 1);
    phrase->slots.label = text_squeeze(reader->arena,
                                       arena_text(reader->scratch, reader->words->text + phrase_word(phrase, at)->at,
                                                  last->at + last->length - phrase_word(phrase, at)->at));
    phrase->at += count;
    if (phrase_kind(phrase, phrase->at) == WORD_SLASH && (right->kind == WORD_LABEL || right->kind == WORD_UNKNOWN)) {
        phrase->slots.label_right = right->label;
        phrase->at += 2;
    }
    return true;
}

static bool take_flag(struct phrase *phrase)
{
    struct slots *slots = &phrase->slots;
    size_t at = phrase->at++;
    switch (phrase_kind(phrase, at)) {
    case WORD_SIDE:
        slots->side = true;
        break;
    case WORD_EACH:
        slots->each = true;
        break;
    case WORD_TOTAL:
        slots->total = true;
        break;
    case WORD_PAIR:
        slots->pair = true;
        break;
    case WORD_SINGLE:
        slots->single = true;
        break;
    case WORD_DOUBLE:
        slots->double_at = at;
        break;
    case WORD_TRIPLE:
        return phrase_set_count(phrase, 3, at);
    case WORD_REVERSE:
        slots->reverse = true;
        break;
    case WORD_CHOKED:
        slots->rig = RIG_CHOKED;
        break;
    case WORD_DOUBLED:
        slots->rig = RIG_DOUBLED;
        break;
    case WORD_LEADER:
        slots->leader_m = phrase_word(phrase, at)->number;
        break;
    default: /* of, a, the, x, :, straight: they mean nothing by themselves */
        break;
    }
    return true;
}

static bool refuse_word(struct phrase *phrase)
{
    struct phrase_reader *reader = phrase->reader;
    const struct word *word = phrase_word(phrase, phrase->at);
    bool of_gear = word->kind == WORD_BAD_NUMBER &&
                   (phrase_kind(phrase, phrase->at + 1) == WORD_UNIT || is_join_word(phrase, phrase->at - 1));
    if (reader->in_note && !of_gear)
        return false;
    if (word->kind == WORD_BAD_NUMBER)
        return phrase_fault(reader, DIAG_AMBIGUOUS_WEIGHT, phrase->at, phrase->at + 1,
                            "write it with a decimal point, or state that the file has decimal commas",
                            "'%s' has a decimal comma in a file of decimal points", word->label);
    return phrase_fault(reader, DIAG_BAD_LOAD, phrase->at, phrase->at + 1, NULL, "'%s' is not understood", word->label);
}

/* "b26 left, b30 right": each would be read as one on each side. In a note, "right" may begin other words. */
static bool take_hand(struct phrase *phrase)
{
    struct slots *slots = &phrase->slots;
    if (phrase->reader->in_note && (!slots->gear || slots->side || phrase_kind(phrase, phrase->at + 1) == WORD_UNKNOWN))
        return false;
    return phrase_fault(phrase->reader, DIAG_AMBIGUOUS_AR, phrase->at, phrase->at + 1,
                        slots->gear == BAND ? "write 'band b26/b30' for one on the left and another on the right"
                                            : "write what hangs on each side: 15 kg chain/side",
                        "what hangs on the other side?");
}

/* "(doubled)", "(5 kg)": words in brackets fill slots like any others. In a note, brackets with anything else are
 * prose. */
static bool take_bracket(struct phrase *phrase)
{
    size_t close = phrase->at + 1;
    while (close < phrase->end && phrase_kind(phrase, close) != WORD_CLOSE) {
        enum word_kind kind = phrase_kind(phrase, close++);
        if (phrase->reader->in_note &&
            (kind == WORD_UNKNOWN || kind == WORD_MARK || kind == WORD_STOP || kind == WORD_NEGATION))
            return false;
    }
    phrase->at++;
    return true;
}

typedef bool take_word(struct phrase *phrase);
static take_word *const takers[] = {
    [WORD_UNKNOWN] = take_unknown,
    [WORD_NUMBER] = phrase_take_number,
    [WORD_BAD_NUMBER] = refuse_word,
    [WORD_UNIT] = refuse_word,
    [WORD_WIDTH] = refuse_word,
    [WORD_PERCENT] = refuse_word,
    [WORD_SIDE] = take_flag,
    [WORD_EACH] = take_flag,
    [WORD_TOTAL] = take_flag,
    [WORD_TIMES] = take_flag,
    [WORD_AT] = take_setup,
    [WORD_ON] = take_setup,
    [WORD_OF] = take_flag,
    [WORD_JOIN] = refuse_word,
    [WORD_LEAD] = refuse_word,
    [WORD_COMMA] = refuse_word,
    [WORD_STOP] = refuse_word,
    [WORD_OPEN] = take_bracket,
    [WORD_CLOSE] = take_flag,
    [WORD_RANGE] = refuse_word,
    [WORD_SLASH] = refuse_word,
    [WORD_COLON] = take_flag,
    [WORD_CHAIN] = take_gear,
    [WORD_BAND] = take_gear,
    [WORD_REVERSE] = take_flag,
    [WORD_RELEASER] = take_gear,
    [WORD_LEADER] = take_flag,
    [WORD_PAIR] = take_flag,
    [WORD_SINGLE] = take_flag,
    [WORD_DOUBLE] = take_flag,
    [WORD_TRIPLE] = take_flag,
    [WORD_STRAIGHT] = take_flag,
    [WORD_CHOKED] = take_flag,
    [WORD_DOUBLED] = take_flag,
    [WORD_TOP] = phrase_take_end_word,
    [WORD_BOTTOM] = phrase_take_end_word,
    [WORD_BAR] = refuse_word,
    [WORD_BODYWEIGHT] = refuse_word,
    [WORD_HAND] = take_hand,
    [WORD_LABEL] = take_label,
    [WORD_NEGATION] = refuse_word,
    [WORD_OCCASION] = refuse_word,
    [WORD_FILLER] = take_flag,
    [WORD_MARK] = refuse_word,
};

/* Prose that begins like AR ("5 chain links were loose") must not refuse a line: in a note, a fault before unknown
 * words means that it is not AR. A bar loaded unevenly remains a fault. */
static bool is_prose_after_all(const struct phrase *phrase)
{
    enum diag_id id = phrase->reader->fault->id;
    if (!phrase->reader->in_note || id == DIAG_UNEVEN_CHAINS || id == DIAG_UNEVEN_BANDS)
        return false;
    for (size_t at = phrase->at; at < phrase->end; at++)
        if (phrase_kind(phrase, at) == WORD_UNKNOWN)
            return true;
    return false;
}

static enum phrase_result refused(const struct phrase *phrase)
{
    if (!is_prose_after_all(phrase))
        return PHRASE_REFUSED;
    *phrase->reader->fault = (struct load_fault){.id = DIAG_BAD_LOAD};
    return PHRASE_NOT_AR;
}

static void find_end_words(struct phrase *phrase)
{
    struct slots *slots = &phrase->slots;
    for (size_t at = phrase->at; at < phrase->end && slots->end_word_at == SIZE_MAX; at++)
        if (phrase_kind(phrase, at) == WORD_TOP || phrase_kind(phrase, at) == WORD_BOTTOM)
            slots->end_word_at = at;
    if (slots->end_word_at == SIZE_MAX)
        return;
    size_t before = slots->end_word_at;
    while (before > slots->begin &&
           (phrase_kind(phrase, before - 1) == WORD_FILLER || phrase_kind(phrase, before - 1) == WORD_UNIT))
        before--;
    slots->end_word_first = before == slots->begin || phrase_kind(phrase, before - 1) != WORD_NUMBER;
}

enum phrase_result phrase_read(struct phrase_reader *reader, size_t at, size_t end, struct piece *piece, size_t *used)
{
    struct phrase phrase = {.reader = reader,
                            .at = at,
                            .end = end,
                            .slots = {.begin = at,
                                      .double_at = SIZE_MAX,
                                      .mass_kg = NAN,
                                      .bottom_kg = NAN,
                                      .top_kg = NAN,
                                      .leader_m = NAN,
                                      .end_word_at = SIZE_MAX}};
    find_end_words(&phrase);
    if (reader->column == AR_COLUMN_CHAIN || reader->column == AR_COLUMN_BAND)
        phrase.slots.gear = reader->column == AR_COLUMN_CHAIN ? CHAIN : BAND;
    reader->fault->message = NULL;
    while (phrase.at < phrase.end && takers[phrase_kind(&phrase, phrase.at)](&phrase))
        ;
    if (reader->fault->message)
        return refused(&phrase);
    struct slots *slots = &phrase.slots;
    bool band_word = slots->reverse || slots->rig != RIG_SINGLE || slots->pair;
    if (!slots->gear && slots->label && band_word)
        slots->gear = BAND; /* "pair of b26", "b26 choked" */
    if (!slots->gear)
        return PHRASE_NOT_AR;
    *used = phrase.at - at;
    return slots_piece(&phrase, piece) ? PHRASE_READ : refused(&phrase);
}
