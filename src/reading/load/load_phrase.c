#include "reading/load/load_phrase.h"

#include "base/text.h"
#include "reading/load/load_lexemes.h"
#include "reading/load/load_piece.h"
#include "reading/load/load_slots.h"

#include <math.h>
#include <stdarg.h>
#include <string.h>

#define AR_LIMIT_KG 1000

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

static const struct word *word_at(const struct phrase *phrase, size_t at)
{
    static const struct word none = {.kind = WORD_STOP, .label = ""};
    return at < phrase->end ? &phrase->reader->words->list.items[at] : &none;
}

static enum word_kind kind_at(const struct phrase *phrase, size_t at)
{
    return word_at(phrase, at)->kind;
}

/* The kind before `at` in the phrase; WORD_STOP at its beginning. */
static enum word_kind kind_before(const struct phrase *phrase, size_t at)
{
    return at > phrase->slots.begin ? kind_at(phrase, at - 1) : WORD_STOP;
}

static bool is_label_of(const struct word *word, unsigned gear)
{
    return word->kind == WORD_LABEL && (word->gear & gear);
}

static bool names_gear(const struct word *word)
{
    return word->kind == WORD_CHAIN || word->kind == WORD_BAND || word->kind == WORD_RELEASER ||
           is_label_of(word, GEAR_CHAIN | GEAR_BAND);
}

bool phrase_names_gear(const struct words *words, size_t at, size_t end)
{
    for (; at < end; at++) {
        const struct word *word = &words->list.items[at];
        /* "pair of b26", "b26 choked": a name with a band's word is a band, known or not. */
        if (word_is_gear(word->kind) || is_label_of(word, GEAR_CHAIN | GEAR_BAND))
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

/* --- numbers ------------------------------------------------------------------------------------------------------------- */

static size_t skip_fillers(const struct phrase *phrase, size_t at)
{
    while (kind_at(phrase, at) == WORD_FILLER || kind_at(phrase, at) == WORD_AT || kind_at(phrase, at) == WORD_COLON)
        at++;
    return at;
}

bool phrase_is_absurd(struct phrase_reader *reader, double kg, size_t from, size_t to)
{
    return kg > AR_LIMIT_KG && !phrase_fault(reader, DIAG_ABSURD_NUMBER, from, to, NULL,
                                             "more than %d kg of chain or band looks mistyped", AR_LIMIT_KG);
}

static bool set_mass(struct phrase *phrase, double kg, bool linked, size_t from, size_t to)
{
    struct slots *slots = &phrase->slots;
    if (phrase_is_absurd(phrase->reader, kg, from, to))
        return false;
    if (!isnan(slots->mass_kg))
        return phrase_fault(phrase->reader, DIAG_AMBIGUOUS_AR, from, to,
                            "write one mass, or bottom and top as 12-40 kg", "two masses in one phrase");
    slots->mass_kg = kg;
    slots->mass_linked = linked;
    return true;
}

static bool set_count(struct phrase *phrase, double written, size_t at)
{
    int count = written < 1000 ? (int)written : 1000;
    struct slots *slots = &phrase->slots;
    if (slots->count)
        return phrase_fault(phrase->reader, DIAG_AMBIGUOUS_AR, at, at + 1, "write the count once",
                            "two counts in one phrase");
    if (count < 1 || count > PHRASE_MOST_PIECES)
        return phrase_fault(phrase->reader, DIAG_AMBIGUOUS_AR, at, at + 1, NULL,
                            "%d%s pieces are not a count of chains or bands", count, count == 1000 ? " or more" : "");
    slots->count = count;
    return true;
}

static bool set_end(struct phrase *phrase, enum word_kind which, double kg, size_t from, size_t to)
{
    double *slot = which == WORD_TOP ? &phrase->slots.top_kg : &phrase->slots.bottom_kg;
    if (phrase_is_absurd(phrase->reader, kg, from, to))
        return false;
    if (!isnan(*slot))
        return phrase_fault(phrase->reader, DIAG_AMBIGUOUS_AR, from, to, NULL, "the %s is given twice",
                            which == WORD_TOP ? "top" : "bottom");
    *slot = kg;
    return true;
}

static double word_kg(const struct phrase *phrase, const struct word *number, const struct word *unit)
{
    return kg_from(number->number, unit->kind == WORD_UNIT ? unit->unit : phrase->reader->style.unit);
}

/* 12-40 kg, 12 kg > 40 kg, 12 to 40: bottom, then top. */
static bool take_range(struct phrase *phrase, size_t dash)
{
    const struct word *low = word_at(phrase, phrase->at), *high = word_at(phrase, dash + 1);
    const struct word *low_unit = word_at(phrase, phrase->at + 1), *high_unit = word_at(phrase, dash + 2);
    size_t end = dash + 2 + (high_unit->kind == WORD_UNIT);
    double bottom = word_kg(phrase, low, low_unit->kind == WORD_UNIT ? low_unit : high_unit);
    double top = word_kg(phrase, high, high_unit->kind == WORD_UNIT ? high_unit : low_unit);
    size_t from = phrase->at;
    phrase->at = end;
    return set_end(phrase, WORD_BOTTOM, bottom, from, end) && set_end(phrase, WORD_TOP, top, from, end);
}

/* Does gear come after `at`, with only words between that may name or describe it? */
static bool gear_follows(const struct phrase *phrase, size_t at)
{
    for (; at < phrase->end; at++) {
        if (names_gear(word_at(phrase, at)))
            return true;
        enum word_kind kind = kind_at(phrase, at);
        if (kind != WORD_UNKNOWN && kind != WORD_LABEL && kind != WORD_REVERSE && kind != WORD_PAIR &&
            kind != WORD_OF && kind != WORD_DOUBLED && kind != WORD_CHOKED && kind != WORD_STRAIGHT &&
            kind != WORD_SINGLE && kind != WORD_FILLER)
            return false;
    }
    return false;
}

static bool is_plural(const struct word *gear)
{
    return gear->length && (gear->label[gear->length - 1] | 0x20) == 's';
}

/* A number with no unit and no word that says what it is: a count up to 4, a mass otherwise, and nothing from 5 to 10.
 */
static bool take_bare_number(struct phrase *phrase, const struct word *word)
{
    struct phrase_reader *reader = phrase->reader;
    size_t at = phrase->at++;
    double kg = kg_from(word->number, reader->style.unit);
    bool before_gear = gear_follows(phrase, at + 1);
    if (word->is_word || kind_at(phrase, at + 1) == WORD_PAIR)
        return set_count(phrase, word->number, at);
    bool counts = before_gear && word->number <= 4; /* "2 chains", even below "Chains (kg)" */
    if (!word->is_whole || word->number > 10 || ((reader->header & AR_HEADER_UNIT) && !counts))
        return set_mass(phrase, kg, false, at, at + 1);
    bool after_several = phrase->slots.gear_named &&
                         is_plural(word_at(phrase, phrase->slots.gear_at)); /* chains 2 per side */
    bool of_header = (reader->header & AR_HEADER_PLURAL) && kind_at(phrase, at + 1) == WORD_SIDE; /* Chains: 2/side */
    if ((before_gear || after_several || of_header) && word->number >= 1 && word->number <= 4)
        return set_count(phrase, word->number, at);
    if (reader->in_note && !before_gear && (!phrase->slots.gear || kind_at(phrase, at + 1) == WORD_UNKNOWN)) {
        phrase->at = at; /* prose: "2 sets with chains" */
        return false;
    }
    const char *unit = mass_unit_name(reader->style.unit);
    return phrase_fault(reader, DIAG_AMBIGUOUS_AR, at, at + 1,
                        arena_printf(reader->arena, "write '%.*s %s' for a mass, or '%.*s x' for a count",
                                     (int)word->length, word->label, unit, (int)word->length, word->label),
                        "'%s' may be a count or a mass", word->label);
}

/* "2 chains/side @8": an effort may be meant. A note goes on without it; a load has no place for one. */
static bool stop_at_effort(struct phrase *phrase, size_t at_sign, size_t number)
{
    if (phrase->reader->in_note) {
        phrase->at = at_sign;
        return false;
    }
    const char *written = word_at(phrase, number)->label;
    return phrase_fault(phrase->reader, DIAG_AMBIGUOUS_AR, at_sign, number + 1,
                        arena_printf(phrase->reader->arena, "write '@ %s %s' for a mass; an effort goes after the sets",
                                     written, mass_unit_name(phrase->reader->style.unit)),
                        "'@ %s' may be a mass or an effort", written);
}

static bool take_number(struct phrase *phrase)
{
    size_t at = phrase->at, after = at + 1;
    const struct word *word = word_at(phrase, at), *next = word_at(phrase, after);
    if (kind_before(phrase, at) == WORD_TIMES && next->kind != WORD_UNIT && !isnan(phrase->slots.mass_kg)) {
        phrase->at++; /* 7 kg chain x 2 */
        phrase->slots.count_linked = true;
        return set_count(phrase, word->number, at);
    }
    if (kind_before(phrase, at) == WORD_TIMES && next->kind != WORD_UNIT && !phrase->slots.count) {
        phrase->at++; /* chain long x2 */
        return set_count(phrase, word->number, at);
    }
    size_t dash = after + (next->kind == WORD_UNIT);
    if (kind_at(phrase, dash) == WORD_RANGE && kind_at(phrase, dash + 1) == WORD_NUMBER)
        return take_range(phrase, dash);
    if (next->kind == WORD_TIMES) {
        phrase->at += 2;
        phrase->slots.count_linked = true;
        return word->is_whole ? set_count(phrase, word->number, at)
                              : phrase_fault(phrase->reader, DIAG_AMBIGUOUS_AR, at, at + 2, NULL,
                                             "'%s x' is not a count of pieces", word->label);
    }
    if (next->kind == WORD_WIDTH) { /* a band told by its width: 41 mm */
        if (phrase->slots.label)
            return phrase_fault(phrase->reader, DIAG_BAD_LOAD, at, at + 2, NULL, "two names in one phrase");
        phrase->slots.label = arena_printf(phrase->reader->arena, "%s %s", word->label, next->label);
        phrase->at += 2;
        return true;
    }
    size_t end_word = skip_fillers(phrase, dash);
    if (!phrase->slots.end_word_first &&
        (kind_at(phrase, end_word) == WORD_TOP || kind_at(phrase, end_word) == WORD_BOTTOM)) {
        phrase->at = end_word + 1;
        return set_end(phrase, kind_at(phrase, end_word), word_kg(phrase, word, next), at, phrase->at);
    }
    size_t said_before = at;
    while (kind_before(phrase, said_before) == WORD_FILLER)
        said_before--;
    enum word_kind before = kind_before(phrase, said_before);
    bool linked = before == WORD_TIMES ||
                  ((before == WORD_OF || before == WORD_AT) && (phrase->slots.count || phrase->slots.pair));
    if (next->kind == WORD_UNIT) {
        phrase->at = dash;
        return set_mass(phrase, word_kg(phrase, word, next), linked, at, dash);
    }
    if (before == WORD_AT && word->number <= 10 && !(phrase->reader->header & AR_HEADER_UNIT))
        return stop_at_effort(phrase, said_before - 1, at);
    if (linked || before == WORD_AT || before == WORD_OF) {
        phrase->at++;
        return set_mass(phrase, kg_from(word->number, phrase->reader->style.unit), linked, at, at + 1);
    }
    return take_bare_number(phrase, word);
}

/* "top 40", where the word is before its number; "40 top" was taken with the number. */
static bool take_end_word(struct phrase *phrase)
{
    size_t at = phrase->at, number = skip_fillers(phrase, at + 1);
    const struct word *word = word_at(phrase, number), *unit = word_at(phrase, number + 1);
    if (!phrase->slots.end_word_first || word->kind != WORD_NUMBER)
        return phrase_fault(phrase->reader, DIAG_BAD_LOAD, at, at + 1, "write '40 top 12 bottom' or '12-40 kg'",
                            "no number goes with '%s'", word_at(phrase, at)->label);
    phrase->at = number + 1 + (unit->kind == WORD_UNIT);
    return set_end(phrase, kind_at(phrase, at), word_kg(phrase, word, unit), at, phrase->at);
}

/* --- words ---------------------------------------------------------------------------------------------------------------- */

static bool take_gear(struct phrase *phrase)
{
    static const enum phrase_gear gears[] = {[WORD_CHAIN] = CHAIN, [WORD_BAND] = BAND, [WORD_RELEASER] = RELEASER};
    struct slots *slots = &phrase->slots;
    enum phrase_gear gear = gears[kind_at(phrase, phrase->at)];
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
    const struct word *word = word_at(phrase, phrase->at), *right = word_at(phrase, phrase->at + 2);
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
    if (kind_at(phrase, phrase->at) == WORD_SLASH && (right->kind == WORD_LABEL || right->kind == WORD_UNKNOWN)) {
        slots->label_right = right->label;
        phrase->at += 2;
    }
    return true;
}

static bool take_setup(struct phrase *phrase)
{
    struct phrase_reader *reader = phrase->reader;
    size_t at = phrase->at, first = at + 1, used = 1;
    while (kind_at(phrase, first) == WORD_FILLER)
        first++;
    const struct setup *setup = words_setup(reader->words_reader, reader->scratch, reader->words, first, &used);
    const struct word *word = word_at(phrase, first);
    enum word_kind kind = word->kind;
    bool could_be_name = kind == WORD_UNKNOWN || kind == WORD_LABEL;
    if (!setup && kind_at(phrase, at) == WORD_ON && (reader->in_note || !could_be_name))
        return reader->in_note
                   ? false /* prose */
                   : phrase_fault(reader, DIAG_BAD_LOAD, at, at + 1, "write 'on NAME' with the name of a set-up",
                                  "nothing to read after 'on'");
    if (!setup && kind == WORD_NUMBER) {
        phrase->at = first; /* 2 chains @ 7 kg, bands @ 40 kg top: the number says which */
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
    enum word_kind kind = kind_at(phrase, at);
    return kind == WORD_CHAIN || kind == WORD_BAND || kind == WORD_RELEASER;
}

/* Bands that hang on no bar. */
static bool is_other_band(const char *word)
{
    static const char *const words[] = {"head", "wrist", "waist", "watch", "broad"};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        if (text_same_name(word, words[i]))
            return true;
    return false;
}

/* In a note, words that describe the day and not the gear. */
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
    while (kind_at(phrase, at + count) == WORD_UNKNOWN)
        count++;
    return count;
}

/* May words[at .. at + count) be the name of gear that the gym file does not know? */
static bool may_be_name(const struct phrase *phrase, size_t at, size_t count)
{
    const struct phrase_reader *reader = phrase->reader;
    bool before = is_join_word(phrase, at + count),
         after = kind_before(phrase, at) == WORD_CHAIN || kind_before(phrase, at) == WORD_BAND;
    bool colon = kind_before(phrase, at) == WORD_COLON;
    bool described = kind_before(phrase, at) == WORD_OF || kind_before(phrase, at) == WORD_PAIR ||
                     kind_before(phrase, at) == WORD_REVERSE || kind_at(phrase, at + count) == WORD_CHOKED ||
                     kind_at(phrase, at + count) == WORD_DOUBLED || kind_at(phrase, at + count) == WORD_REVERSE;
    if (phrase->slots.label)
        return false;
    if (reader->column != AR_COLUMN_ANY)
        return count <= 3;
    if (!reader->in_note && is_other_band(word_at(phrase, at + count - 1)->label))
        return false;
    if (!reader->in_note)
        return before ? count <= 3 : (after || colon || described) && count <= 2;
    for (size_t i = 0; i < count; i++)
        if (is_no_gear_name(word_at(phrase, at + i)->label))
            return false;
    if (count == 1 && has_digit(word_at(phrase, at)->label))
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
                            (int)(word_at(phrase, at + count - 1)->at + word_at(phrase, at + count - 1)->length -
                                  word_at(phrase, at)->at),
                            reader->words->text + word_at(phrase, at)->at);
    }
    const struct word *last = word_at(phrase, at + count - 1), *right = word_at(phrase, at + count + 1);
    phrase->slots.label = text_squeeze(reader->arena,
                                       arena_text(reader->scratch, reader->words->text + word_at(phrase, at)->at,
                                                  last->at + last->length - word_at(phrase, at)->at));
    phrase->at += count;
    if (kind_at(phrase, phrase->at) == WORD_SLASH && (right->kind == WORD_LABEL || right->kind == WORD_UNKNOWN)) {
        phrase->slots.label_right = right->label;
        phrase->at += 2;
    }
    return true;
}

static bool take_flag(struct phrase *phrase)
{
    struct slots *slots = &phrase->slots;
    size_t at = phrase->at++;
    switch (kind_at(phrase, at)) {
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
        return set_count(phrase, 3, at);
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
        slots->leader_m = word_at(phrase, at)->number;
        break;
    default: /* of, a, the, x, :, straight: they say nothing by themselves */
        break;
    }
    return true;
}

static bool refuse_word(struct phrase *phrase)
{
    struct phrase_reader *reader = phrase->reader;
    const struct word *word = word_at(phrase, phrase->at);
    bool of_gear = word->kind == WORD_BAD_NUMBER &&
                   (kind_at(phrase, phrase->at + 1) == WORD_UNIT || is_join_word(phrase, phrase->at - 1));
    if (reader->in_note && !of_gear)
        return false;
    if (word->kind == WORD_BAD_NUMBER)
        return phrase_fault(reader, DIAG_AMBIGUOUS_WEIGHT, phrase->at, phrase->at + 1,
                            "write it with a decimal point, or state that the file has decimal commas",
                            "'%s' has a decimal comma in a file of decimal points", word->label);
    return phrase_fault(reader, DIAG_BAD_LOAD, phrase->at, phrase->at + 1, NULL, "'%s' is not understood", word->label);
}

/* "b26 left, b30 right": each of them would be read as one on each side. In a note "right" may begin other words. */
static bool take_hand(struct phrase *phrase)
{
    struct slots *slots = &phrase->slots;
    if (phrase->reader->in_note && (!slots->gear || slots->side || kind_at(phrase, phrase->at + 1) == WORD_UNKNOWN))
        return false;
    return phrase_fault(phrase->reader, DIAG_AMBIGUOUS_AR, phrase->at, phrase->at + 1,
                        slots->gear == BAND ? "write 'band b26/b30' for one on the left and another on the right"
                                            : "write what hangs on each side: 15 kg chain/side",
                        "what hangs on the other side?");
}

/* "(doubled)", "(5 kg)": brackets hold slots like any other words. In a note, brackets that hold anything else are
 * prose. */
static bool take_bracket(struct phrase *phrase)
{
    size_t close = phrase->at + 1;
    while (close < phrase->end && kind_at(phrase, close) != WORD_CLOSE) {
        enum word_kind kind = kind_at(phrase, close++);
        if (phrase->reader->in_note &&
            (kind == WORD_UNKNOWN || kind == WORD_MARK || kind == WORD_STOP || kind == WORD_NEGATION))
            return false;
    }
    phrase->at++;
    return true;
}

typedef bool take_word(struct phrase *phrase);
static take_word *const takers[] = {
    [WORD_UNKNOWN] = take_unknown, [WORD_NUMBER] = take_number,     [WORD_BAD_NUMBER] = refuse_word,
    [WORD_UNIT] = refuse_word,     [WORD_WIDTH] = refuse_word,      [WORD_PERCENT] = refuse_word,
    [WORD_SIDE] = take_flag,       [WORD_EACH] = take_flag,         [WORD_TOTAL] = take_flag,
    [WORD_TIMES] = take_flag,      [WORD_AT] = take_setup,          [WORD_ON] = take_setup,
    [WORD_OF] = take_flag,         [WORD_JOIN] = refuse_word,       [WORD_LEAD] = refuse_word,
    [WORD_COMMA] = refuse_word,    [WORD_STOP] = refuse_word,       [WORD_OPEN] = take_bracket,
    [WORD_CLOSE] = take_flag,      [WORD_RANGE] = refuse_word,      [WORD_SLASH] = refuse_word,
    [WORD_COLON] = take_flag,      [WORD_CHAIN] = take_gear,        [WORD_BAND] = take_gear,
    [WORD_REVERSE] = take_flag,    [WORD_RELEASER] = take_gear,     [WORD_LEADER] = take_flag,
    [WORD_PAIR] = take_flag,       [WORD_SINGLE] = take_flag,       [WORD_DOUBLE] = take_flag,
    [WORD_TRIPLE] = take_flag,     [WORD_STRAIGHT] = take_flag,     [WORD_CHOKED] = take_flag,
    [WORD_DOUBLED] = take_flag,    [WORD_TOP] = take_end_word,      [WORD_BOTTOM] = take_end_word,
    [WORD_BAR] = refuse_word,      [WORD_BODYWEIGHT] = refuse_word, [WORD_HAND] = take_hand,
    [WORD_LABEL] = take_label,     [WORD_NEGATION] = refuse_word,   [WORD_OCCASION] = refuse_word,
    [WORD_FILLER] = take_flag,     [WORD_MARK] = refuse_word,
};

/* Prose that begins like AR ("5 chain links were loose") is not a reason to refuse a line: in a note, a fault before
 * unknown words makes it no AR. A bar that would be uneven stays a fault. */
static bool is_prose_after_all(const struct phrase *phrase)
{
    enum diag_id id = phrase->reader->fault->id;
    if (!phrase->reader->in_note || id == DIAG_UNEVEN_CHAINS || id == DIAG_UNEVEN_BANDS)
        return false;
    for (size_t at = phrase->at; at < phrase->end; at++)
        if (kind_at(phrase, at) == WORD_UNKNOWN)
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
        if (kind_at(phrase, at) == WORD_TOP || kind_at(phrase, at) == WORD_BOTTOM)
            slots->end_word_at = at;
    if (slots->end_word_at == SIZE_MAX)
        return;
    size_t before = slots->end_word_at;
    while (before > slots->begin &&
           (kind_at(phrase, before - 1) == WORD_FILLER || kind_at(phrase, before - 1) == WORD_UNIT))
        before--;
    slots->end_word_first = before == slots->begin || kind_at(phrase, before - 1) != WORD_NUMBER;
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
    while (phrase.at < phrase.end && takers[kind_at(&phrase, phrase.at)](&phrase))
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
