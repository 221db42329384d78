#include "reading/load/load_numbers.h"

#include <math.h>

#define AR_LIMIT_KG 1000

static bool names_gear(const struct word *word)
{
    return word->kind == WORD_CHAIN || word->kind == WORD_BAND || word->kind == WORD_RELEASER ||
           word_is_label_of(word, GEAR_CHAIN | GEAR_BAND);
}

static size_t skip_fillers(const struct phrase *phrase, size_t at)
{
    while (phrase_kind(phrase, at) == WORD_FILLER || phrase_kind(phrase, at) == WORD_AT ||
           phrase_kind(phrase, at) == WORD_COLON)
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

bool phrase_set_count(struct phrase *phrase, double written, size_t at)
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
    const struct word *low = phrase_word(phrase, phrase->at), *high = phrase_word(phrase, dash + 1);
    const struct word *low_unit = phrase_word(phrase, phrase->at + 1), *high_unit = phrase_word(phrase, dash + 2);
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
        if (names_gear(phrase_word(phrase, at)))
            return true;
        enum word_kind kind = phrase_kind(phrase, at);
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
    if (word->is_word || phrase_kind(phrase, at + 1) == WORD_PAIR)
        return phrase_set_count(phrase, word->number, at);
    bool counts = before_gear && word->number <= 4; /* "2 chains", even below "Chains (kg)" */
    if (!word->is_whole || word->number > 10 || ((reader->header & AR_HEADER_UNIT) && !counts))
        return set_mass(phrase, kg, false, at, at + 1);
    bool after_several = phrase->slots.gear_named &&
                         is_plural(phrase_word(phrase, phrase->slots.gear_at)); /* chains 2 per side */
    bool of_header = (reader->header & AR_HEADER_PLURAL) &&
                     phrase_kind(phrase, at + 1) == WORD_SIDE; /* Chains: 2/side */
    if ((before_gear || after_several || of_header) && word->number >= 1 && word->number <= 4)
        return phrase_set_count(phrase, word->number, at);
    if (reader->in_note && !before_gear && (!phrase->slots.gear || phrase_kind(phrase, at + 1) == WORD_UNKNOWN)) {
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
    const char *written = phrase_word(phrase, number)->label;
    return phrase_fault(phrase->reader, DIAG_AMBIGUOUS_AR, at_sign, number + 1,
                        arena_printf(phrase->reader->arena, "write '@ %s %s' for a mass; an effort goes after the sets",
                                     written, mass_unit_name(phrase->reader->style.unit)),
                        "'@ %s' may be a mass or an effort", written);
}

bool phrase_take_number(struct phrase *phrase)
{
    size_t at = phrase->at, after = at + 1;
    const struct word *word = phrase_word(phrase, at), *next = phrase_word(phrase, after);
    if (phrase_kind_before(phrase, at) == WORD_TIMES && next->kind != WORD_UNIT && !isnan(phrase->slots.mass_kg)) {
        phrase->at++; /* 7 kg chain x 2 */
        phrase->slots.count_linked = true;
        return phrase_set_count(phrase, word->number, at);
    }
    if (phrase_kind_before(phrase, at) == WORD_TIMES && next->kind != WORD_UNIT && !phrase->slots.count) {
        phrase->at++; /* chain long x2 */
        return phrase_set_count(phrase, word->number, at);
    }
    size_t dash = after + (next->kind == WORD_UNIT);
    if (phrase_kind(phrase, dash) == WORD_RANGE && phrase_kind(phrase, dash + 1) == WORD_NUMBER)
        return take_range(phrase, dash);
    if (next->kind == WORD_TIMES) {
        phrase->at += 2;
        phrase->slots.count_linked = true;
        return word->is_whole ? phrase_set_count(phrase, word->number, at)
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
        (phrase_kind(phrase, end_word) == WORD_TOP || phrase_kind(phrase, end_word) == WORD_BOTTOM)) {
        phrase->at = end_word + 1;
        return set_end(phrase, phrase_kind(phrase, end_word), word_kg(phrase, word, next), at, phrase->at);
    }
    size_t said_before = at;
    while (phrase_kind_before(phrase, said_before) == WORD_FILLER)
        said_before--;
    enum word_kind before = phrase_kind_before(phrase, said_before);
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
bool phrase_take_end_word(struct phrase *phrase)
{
    size_t at = phrase->at, number = skip_fillers(phrase, at + 1);
    const struct word *word = phrase_word(phrase, number), *unit = phrase_word(phrase, number + 1);
    if (!phrase->slots.end_word_first || word->kind != WORD_NUMBER)
        return phrase_fault(phrase->reader, DIAG_BAD_LOAD, at, at + 1, "write '40 top 12 bottom' or '12-40 kg'",
                            "no number goes with '%s'", phrase_word(phrase, at)->label);
    phrase->at = number + 1 + (unit->kind == WORD_UNIT);
    return set_end(phrase, phrase_kind(phrase, at), word_kg(phrase, word, unit), at, phrase->at);
}
