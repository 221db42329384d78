#include "reading/load/load_reader.h"

#include "reading/load/load_numbers.h"
#include "reading/load/load_reader_state.h"
#include "reading/load/note_limits.h"

#include "base/number.h"
#include "base/text.h"

#include <ctype.h>
#include <math.h>
#include <string.h>

#define STRAIGHT_LIMIT_KG 1500

struct load_reader *load_reader_new(struct arena *arena, struct loads *loads, const struct gym *gym)
{
    struct load_reader *reader = ARENA_NEW(arena, struct load_reader);
    reader->arena = arena;
    reader->scratch = arena_new();
    reader->loads = loads;
    reader->gym = gym;
    reader->words = word_reader_new(arena, gym);
    reader->texts = map_new(arena);
    reader->cells = map_new(arena);
    reader->notes = map_new(arena);
    reader->combined = map_new(arena);
    return reader;
}

void load_reader_free(struct load_reader *reader)
{
    word_reader_free(reader->words);
    note_limits_free(reader->limits);
    arena_free(reader->scratch);
}

struct phrase_reader phrase_reader_for(struct load_reader *reader, const struct words *words, struct load_style style,
                                       struct load_fault *fault)
{
    return (struct phrase_reader){.words_reader = reader->words,
                                  .arena = reader->arena,
                                  .scratch = reader->scratch,
                                  .words = words,
                                  .style = style,
                                  .fault = fault};
}

char *memo_key(struct load_reader *reader, const char *text, struct load_style style, int salt, size_t *length)
{
    size_t size = strlen(text);
    char *key = arena_alloc(reader->scratch, size + 4);
    key[0] = (char)('a' + style.unit);
    key[1] = style.decimal;
    key[2] = (char)('a' + salt);
    memcpy(key + 3, text, size);
    *length = size + 3;
    return key;
}

const struct load *load_of_pieces(struct load_reader *reader, const struct piece_list *pieces)
{
    struct load load = {.straight = STRAIGHT_NONE, .pieces = pieces->items, .piece_count = pieces->count};
    return pieces->count ? load_intern(reader->loads, &load) : NULL;
}

/* --- straight weight ------------------------------------------------------------------------------------------------------- */

struct sum /* of the straight-weight terms of one load */
{
    struct load load;
    bool begun;
    size_t side_at; /* a term with a word for side; SIZE_MAX: none */
    double side_kg;
};

static enum word_kind kind_in(const struct words *words, size_t at, size_t end)
{
    return at < end ? words->list.items[at].kind : WORD_STOP;
}

static bool is_letter_or_digit(char c)
{
    return isalnum((unsigned char)c) || (unsigned char)c >= 0x80;
}

/* The grammar reads "8o" as two words, but the writer sees one, so a message quotes all of it. */
static bool is_same_word(const struct words *words, size_t at)
{
    const struct word *before = &words->list.items[at - 1], *word = &words->list.items[at];
    return before->at + before->length == word->at && is_letter_or_digit(words->text[word->at - 1]) &&
           is_letter_or_digit(words->text[word->at]);
}

static bool refuse_term(struct phrase_reader *phrases, size_t from, size_t to)
{
    const struct words *words = phrases->words;
    while (from && is_same_word(words, from))
        from--;
    while (to < words->list.count && is_same_word(words, to))
        to++;
    const struct word *first = &words->list.items[from], *last = &words->list.items[to - 1];
    if (kind_in(words, from, to) == WORD_BAD_NUMBER)
        return phrase_fault(phrases, DIAG_AMBIGUOUS_WEIGHT, from, from + 1,
                            "write it with a decimal point, or state that the file has decimal commas",
                            "'%s' has a decimal comma in a file of decimal points", first->label);
    return phrase_fault(phrases, DIAG_BAD_LOAD, from, to, NULL, "'%.*s' is not a load",
                        (int)(last->at + last->length - first->at), words->text + first->at);
}

/* A mass; *used is the number of words. */
static bool term_mass(struct phrase_reader *phrases, struct sum *sum, size_t from, size_t end, double sign,
                      size_t *used)
{
    const struct words *words = phrases->words;
    const struct word *number = &words->list.items[from];
    enum mass_unit unit = phrases->style.unit;
    *used = 1;
    if (kind_in(words, from + 1, end) == WORD_UNIT) {
        unit = words->list.items[from + 1].unit;
        *used = 2;
    }
    double kg = sign * kg_from(number->number, unit);
    if (kind_in(words, from + *used, end) == WORD_SIDE) {
        if (sum->side_at == SIZE_MAX)
            sum->side_at = from;
        sum->side_kg = kg;
        kg *= 2;
        ++*used;
    }
    sum->load.kg += kg;
    if (number->decimals > sum->load.decimals)
        sum->load.decimals = number->decimals;
    if (sum->load.straight == STRAIGHT_NONE)
        sum->load.straight = STRAIGHT_MASS;
    return true;
}

static bool term_bodyweight(struct phrase_reader *phrases, struct sum *sum, size_t from, size_t end, size_t *used)
{
    const struct words *words = phrases->words;
    sum->load.straight = STRAIGHT_BODYWEIGHT;
    *used = 1;
    if (kind_in(words, from + 1, end) == WORD_RANGE && kind_in(words, from + 2, end) == WORD_NUMBER) { /* BW-15 */
        size_t taken;
        term_mass(phrases, sum, from + 2, end, -1, &taken);
        *used = 2 + taken;
    }
    return true;
}

/* One term of straight weight: words[from .. to). */
static bool read_term(struct phrase_reader *phrases, struct sum *sum, size_t from, size_t to)
{
    const struct words *words = phrases->words;
    const struct word *word = &words->list.items[from];
    size_t used = 1;
    bool first = !sum->begun;
    sum->begun = true;
    if (word->kind == WORD_NUMBER && kind_in(words, from + 1, to) == WORD_PERCENT && first) {
        sum->load.straight = STRAIGHT_PERCENT;
        sum->load.percent = word->number;
        used = 2;
    } else if (word->kind == WORD_NUMBER && !word->is_word && sum->load.straight != STRAIGHT_PERCENT) {
        term_mass(phrases, sum, from, to, 1, &used);
    } else if (word->kind == WORD_BAR && sum->load.straight != STRAIGHT_BODYWEIGHT &&
               sum->load.straight != STRAIGHT_PERCENT) {
        sum->load.straight = STRAIGHT_MASS;
        sum->load.bars++;
    } else if (word->kind == WORD_BODYWEIGHT && first) {
        term_bodyweight(phrases, sum, from, to, &used);
    } else if (word->kind == WORD_UNKNOWN && text_same_name(word->label, "empty") &&
               kind_in(words, from + 1, to) == WORD_BAR && first) {
        sum->load.straight = STRAIGHT_MASS;
        sum->load.bars = 1;
        used = 2;
    } else {
        return refuse_term(phrases, from, to);
    }
    if (from + used < to)
        return refuse_term(phrases, from + used, to);
    return true;
}

/* 60/side gives the weight on the bar only if the bar is in the sum. */
static bool check_side(struct phrase_reader *phrases, const struct sum *sum)
{
    if (sum->side_at == SIZE_MAX || sum->load.bars)
        return true;
    char each[32], all[32];
    enum mass_unit unit = phrases->style.unit;
    number_print(each, kg_to(sum->side_kg, unit));
    number_print(all, kg_to(sum->side_kg * 2, unit));
    return phrase_fault(phrases, DIAG_AMBIGUOUS_WEIGHT, sum->side_at, sum->side_at + 1,
                        arena_printf(phrases->arena,
                                     "write 'bar + %s/side' with the bar, or '%s %s' for all of it without", each, all,
                                     mass_unit_name(unit)),
                        "%s on each side: with or without the bar?", each);
}

static bool check_size(struct phrase_reader *phrases, const struct sum *sum)
{
    if (fabs(sum->load.kg) > STRAIGHT_LIMIT_KG || sum->load.percent > 200 || sum->load.bars > 5)
        return phrase_fault(phrases, DIAG_ABSURD_NUMBER, 0, phrases->words->list.count, NULL,
                            "more than %d kg or 200 %% looks mistyped", STRAIGHT_LIMIT_KG);
    return true;
}

/* --- a whole load ------------------------------------------------------------------------------------------------------------ */

static bool is_separator(enum word_kind kind)
{
    return kind == WORD_JOIN || kind == WORD_COMMA;
}

/* Where the segment that begins at `at` ends: at the next separator outside brackets. A separator before words that
 * only continue the phrase ("12 bottom, 40 top") does not end it. */
static size_t segment_end(const struct words *words, size_t at, bool is_ar)
{
    size_t depth = 0, count = words->list.count;
    for (size_t i = at; i < count; i++) {
        enum word_kind kind = words->list.items[i].kind;
        depth += kind == WORD_OPEN;
        depth -= kind == WORD_CLOSE && depth;
        if (depth || !is_separator(kind))
            continue;
        size_t next = i + 1;
        while (next < count && !is_separator(words->list.items[next].kind))
            next++;
        if (is_ar && next > i + 1 && phrase_continues(words, i + 1, next)) {
            words->list.items[i].kind = WORD_FILLER;
            i = next - 1;
            continue;
        }
        return i;
    }
    return count;
}

static bool add_piece(struct phrase_reader *phrases, struct piece_list *pieces, size_t from, size_t to)
{
    size_t used = 0;
    if (pieces->count == PIECES_LIMIT)
        return phrase_fault(phrases, DIAG_BAD_LOAD, from, to, NULL, "more than %d kinds of gear on one bar",
                            PIECES_LIMIT);
    switch (phrase_read(phrases, from, to, &pieces->items[pieces->count], &used)) {
    case PHRASE_READ:
        pieces->count++;
        return true;
    case PHRASE_NOT_AR:
        return refuse_term(phrases, from, to);
    case PHRASE_REFUSED:
        break;
    }
    return false;
}

/* Splits a text at its separators and reads each segment as straight weight or AR. `sum` NULL: only AR. */
static bool read_segments(struct phrase_reader *phrases, struct sum *sum, struct piece_list *pieces)
{
    const struct words *words = phrases->words;
    size_t at = 0, count = words->list.count;
    if (at < count && !sum && is_separator(words->list.items[0].kind))
        at++; /* an AR cell may begin with + */
    while (at < count) {
        size_t end = segment_end(words, at, false);
        bool is_ar = !sum || phrase_names_gear(words, at, end);
        if (is_ar)
            end = segment_end(words, at, true);
        if (!is_ar && at &&
            words->list.items[at - 1].kind == WORD_COMMA) /* 1,000,00: a sum, or a typing error in one number? */
            return phrase_fault(phrases, DIAG_BAD_LOAD, at - 1, at, "write + between two weights",
                                "a comma between two weights, or a number with a comma too many");
        if (end == at)
            return phrase_fault(phrases, DIAG_BAD_LOAD, at < count ? at : count - 1, at < count ? at + 1 : count, NULL,
                                "there is nothing between two separators");
        if (is_ar ? !add_piece(phrases, pieces, at, end) : !read_term(phrases, sum, at, end))
            return false;
        if (end + 1 == count)
            return phrase_fault(phrases, DIAG_BAD_LOAD, end, count, NULL, "nothing follows '%s'",
                                words->list.items[end].label);
        at = end + 1;
    }
    return true;
}

/* bench 60 band doubled: if there is no other weight, a bare number may be the bar's, with the band or chain attached
 * to it. */
static bool check_first_number(struct phrase_reader *phrases, const struct sum *sum)
{
    const struct words *words = phrases->words;
    const struct word *first = &words->list.items[0];
    if (sum->load.straight != STRAIGHT_NONE || first->kind != WORD_NUMBER || first->number <= PHRASE_MOST_PIECES ||
        kind_in(words, 1, words->list.count) == WORD_UNIT || kind_in(words, 1, words->list.count) == WORD_RANGE ||
        kind_in(words, 1, words->list.count) == WORD_SLASH)
        return true;
    const char *number = arena_text(phrases->arena, words->text + first->at, first->length);
    return phrase_fault(phrases, DIAG_AMBIGUOUS_WEIGHT, 0, 1,
                        arena_printf(phrases->arena, "put a + after the bar's weight: %s + ...", number),
                        "%s may be the bar's weight, or that of the chain or band", number);
}

static const struct load *read_whole(struct load_reader *reader, const char *text, struct load_style style,
                                     struct load_fault *fault)
{
    struct words *words = words_read(reader->words, reader->scratch, text, style.decimal);
    struct phrase_reader phrases = phrase_reader_for(reader, words, style, fault);
    struct sum sum = {.side_at = SIZE_MAX};
    struct piece_list pieces = {.count = 0};
    if (!words->list.count) {
        phrase_fault(&phrases, DIAG_BAD_LOAD, 0, 0, NULL, "no load is given");
        return NULL;
    }
    if (!read_segments(&phrases, &sum, &pieces) || !check_side(&phrases, &sum) || !check_size(&phrases, &sum) ||
        !check_first_number(&phrases, &sum))
        return NULL;
    sum.load.pieces = pieces.items;
    sum.load.piece_count = pieces.count;
    return load_intern(reader->loads, &sum.load);
}

const struct load *load_read(struct load_reader *reader, const char *text, struct load_style style,
                             struct load_fault *fault)
{
    size_t length;
    char *key = memo_key(reader, text, style, 0, &length);
    struct answer *answer = map_get(reader->texts, key, length);
    if (!answer) {
        answer = ARENA_NEW(reader->arena, struct answer);
        answer->load = read_whole(reader, text, style, &answer->fault);
        map_put(reader->texts, key, length, answer);
    }
    arena_reset(reader->scratch);
    *fault = answer->fault;
    return answer->load;
}

/* --- cells of AR columns --------------------------------------------------------------------------------------------------- */

static bool says_nothing(const char *text)
{
    static const char *const words[] = {"", "-", "–", "none", "no", "n", "false", "0", "n/a", "nil"};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        if (text_same_name(text, words[i]))
            return true;
    double number;
    return number_whole(text, '.', &number) && number == 0;
}

/* "yes" in a column only says that there was gear. */
static bool says_some(const char *text)
{
    static const char *const words[] = {"yes", "y", "true", "x", "\u2713"};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        if (text_same_name(text, words[i]))
            return true;
    return false;
}

static bool some_gear(enum ar_column column, struct piece_list *pieces)
{
    pieces->items[pieces->count++] = (struct piece){.kind = column == AR_COLUMN_CHAIN ? PIECE_CHAIN : PIECE_BAND,
                                                    .mass_kg = NAN,
                                                    .bottom_kg = NAN,
                                                    .top_kg = NAN,
                                                    .leader_m = NAN};
    return true;
}

/* A number alone is the mass in a chain column, and the pull at the top in a band column: in total, or per side if
 * the header says so. */
static bool bare_cell(struct phrase_reader *phrases, struct piece_list *pieces)
{
    const struct word *word = &phrases->words->list.items[0];
    double kg = kg_from(word->number, phrases->style.unit);
    const bool side = phrases->header & AR_HEADER_SIDE, bands = phrases->column == AR_COLUMN_BAND;
    const bool plural = phrases->header & AR_HEADER_PLURAL;
    bool maybe_count = word->number <= 4 && word->is_whole && !(phrases->header & AR_HEADER_UNIT) &&
                       (side || plural || !bands);
    bool count = maybe_count && side && plural;
    if (maybe_count && !count)
        return phrase_fault(phrases, DIAG_AMBIGUOUS_AR, 0, 1,
                            bands ? "write the unit of a pull, or '2 bands' for a count"
                                  : "write the unit of a mass, or '2 chains' for a count",
                            bands ? "'%s' may be a count or a pull" : "'%s' may be a count or a mass", word->label);
    struct piece piece = {.kind = phrases->column == AR_COLUMN_CHAIN ? PIECE_CHAIN : PIECE_BAND,
                          .mass_kg = NAN,
                          .bottom_kg = NAN,
                          .top_kg = NAN,
                          .leader_m = NAN};
    kg *= side ? 2 : 1;
    if (phrase_is_absurd(phrases, kg, 0, 1))
        return false;
    if (count) {
        piece.per_side = (int)word->number;
    } else if (piece.kind == PIECE_CHAIN) {
        piece.mass_kg = kg;
    } else {
        piece.bottom_kg = 0;
        piece.top_kg = kg;
    }
    pieces->items[pieces->count++] = piece;
    return true;
}

const struct load *ar_cell_read(struct load_reader *reader, const char *text, enum ar_column column, unsigned header,
                                struct load_style style, struct load_fault *fault)
{
    size_t length;
    char *key = memo_key(reader, text, style, 1 + (int)column * 8 + (int)header, &length);
    struct answer *answer = map_get(reader->cells, key, length);
    if (!answer) {
        answer = ARENA_NEW(reader->arena, struct answer);
        struct words *words = words_read(reader->words, reader->scratch, text, style.decimal);
        struct phrase_reader phrases = phrase_reader_for(reader, words, style, &answer->fault);
        struct piece_list pieces = {.count = 0};
        phrases.column = column;
        phrases.header = header;
        bool bare = words->list.count == 1 && words->list.items[0].kind == WORD_NUMBER && column != AR_COLUMN_ANY;
        bool some = column != AR_COLUMN_ANY && says_some(text);
        bool read = says_nothing(text) || (some   ? some_gear(column, &pieces)
                                           : bare ? bare_cell(&phrases, &pieces)
                                                  : read_segments(&phrases, NULL, &pieces));
        struct load load = {.straight = STRAIGHT_NONE, .pieces = pieces.items, .piece_count = pieces.count};
        answer->load = read ? load_intern(reader->loads, &load) : NULL;
        map_put(reader->cells, key, length, answer);
    }
    arena_reset(reader->scratch);
    *fault = answer->fault;
    return answer->load;
}
