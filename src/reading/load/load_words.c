#include "reading/load/load_words.h"

#include "base/names.h"
#include "base/number.h"
#include "base/pattern.h"
#include "base/text.h"
#include "reading/load/load_lexemes.h"

#include <string.h>

static const struct
{
    const char *word;
    enum word_kind kind;
    double number;
} vocabulary[] = {
#define X(word, kind, number) {word, kind, number},
#include "model/notation.def"
#undef X
};

struct label /* of the gym file */
{
    const char *text;
    unsigned gear;
    const struct setup *setup;
};

struct word_reader
{
    struct pattern point, comma, gear;
    struct map *vocabulary; /* folded word; maps to index + 1 */
    struct map *labels;     /* folded; maps to struct label */
    struct map *setups;
};

static void add_label(struct arena *arena, struct map *labels, const char *text, unsigned gear)
{
    char *folded = text_fold(arena, text);
    struct label *label = map_get(labels, folded, strlen(folded));
    if (!label) {
        label = ARENA_NEW(arena, struct label);
        label->text = text;
        map_put(labels, folded, strlen(folded), label);
    }
    label->gear |= gear;
}

struct word_reader *word_reader_new(struct arena *arena, const struct gym *gym)
{
    struct word_reader *reader = ARENA_NEW(arena, struct word_reader);
    reader->point = pattern_make(lexemes_pattern(arena, '.'));
    reader->comma = pattern_make(lexemes_pattern(arena, ','));
    reader->vocabulary = map_new(arena);
    for (size_t i = 0; i < sizeof vocabulary / sizeof *vocabulary; i++)
        map_put(reader->vocabulary, vocabulary[i].word, strlen(vocabulary[i].word), (void *)(uintptr_t)(i + 1));
    reader->labels = map_new(arena);
    for (size_t i = 0; i < gym->chain_count; i++)
        add_label(arena, reader->labels, gym->chains[i].label, GEAR_CHAIN);
    for (size_t i = 0; i < gym->band_count; i++)
        add_label(arena, reader->labels, gym->bands[i].label, GEAR_BAND);
    reader->gear = pattern_make(gear_pattern(arena, gym));
    if (!reader->gear.match) /* a label does not fit into a pattern: check every note */
        reader->gear = pattern_make("");
    reader->setups = map_new(arena);
    for (size_t i = 0; i < gym->setup_count; i++) {
        char *folded = text_fold(arena, gym->setups[i].name);
        map_put(reader->setups, folded, strlen(folded), &gym->setups[i]);
    }
    return reader;
}

void word_reader_free(struct word_reader *reader)
{
    pattern_free(&reader->point);
    pattern_free(&reader->comma);
    pattern_free(&reader->gear);
}

bool words_name_gear(struct word_reader *reader, const char *text)
{
    return pattern_match(&reader->gear, text, strlen(text), 0, 0) > 0;
}

/* The span of a named group in the last match; false: the group did not take part. */
static bool group(const struct pattern *pattern, const char *name, size_t *at, size_t *length)
{
    int number = pcre2_substring_number_from_name(pattern->code, (PCRE2_SPTR)name);
    PCRE2_SIZE *offsets = pcre2_get_ovector_pointer(pattern->match);
    if (number < 0 || offsets[2 * number] == PCRE2_UNSET)
        return false;
    *at = offsets[2 * number];
    *length = offsets[2 * number + 1] - *at;
    return true;
}

static double fraction_of(const char *text, size_t length, size_t *bytes)
{
    static const struct
    {
        const char *sign;
        double value;
    } fractions[] = {{"¼", 0.25}, {"½", 0.5}, {"¾", 0.75}, {"⅓", 1.0 / 3}, {"⅔", 2.0 / 3}, {"⅛", 0.125}};
    for (size_t i = 0; i < sizeof fractions / sizeof *fractions; i++) {
        size_t size = strlen(fractions[i].sign);
        if (length >= size && !memcmp(text + length - size, fractions[i].sign, size)) {
            *bytes = size;
            return fractions[i].value;
        }
    }
    *bytes = 0;
    return 0;
}

static void read_number(struct word *word, const char *text, char decimal, struct arena *arena)
{
    size_t fraction_bytes;
    double fraction = fraction_of(text + word->at, word->length, &fraction_bytes);
    char *plain = text_squeeze(arena, arena_text(arena, text + word->at, word->length - fraction_bytes));
    size_t length = strlen(plain);
    char sign = decimal;
    if (decimal == ',' && memchr(plain, '.', length) && !memchr(plain, ',', length)) {
        const char *point = strchr(plain, '.');
        if (strlen(point + 1) != 3) /* not a group of thousands: a decimal point after all */
            sign = '.';
    }
    word->number = 0;
    if (*plain && !number_whole(plain, sign, &word->number)) {
        word->kind = WORD_BAD_NUMBER;
        return;
    }
    word->kind = WORD_NUMBER;
    word->number += fraction;
    word->decimals = number_decimals(plain, length, sign);
    word->is_whole = !fraction_bytes && !word->decimals;
}

static void read_leader(const struct pattern *pattern, struct word *word, const char *text)
{
    size_t at, length, unit_at, unit_length;
    double metres = 1;
    char digits[32] = "";
    if (!group(pattern, "leader_length", &at, &length) || !group(pattern, "leader_unit", &unit_at, &unit_length))
        return;
    memcpy(digits, text + at, length < sizeof digits ? length : sizeof digits - 1);
    number_whole(digits, memchr(digits, ',', sizeof digits) ? ',' : '.', &word->number);
    length_unit_read(text + unit_at, unit_length, &metres);
    word->number *= metres;
}

static enum word_kind mark_kind(char c)
{
    static const struct
    {
        char mark;
        enum word_kind kind;
    } marks[] = {{',', WORD_COMMA}, {';', WORD_STOP},  {'.', WORD_STOP},  {'(', WORD_OPEN},
                 {')', WORD_CLOSE}, {'[', WORD_OPEN},  {']', WORD_CLOSE}, {'/', WORD_SLASH},
                 {':', WORD_COLON}, {'=', WORD_COLON}, {'@', WORD_AT},    {'#', WORD_UNIT}};
    for (size_t i = 0; i < sizeof marks / sizeof *marks; i++)
        if (marks[i].mark == c)
            return marks[i].kind;
    return WORD_MARK;
}

static void classify(const struct word_reader *reader, struct word *word, const char *folded)
{
    uintptr_t row = (uintptr_t)map_get(reader->vocabulary, folded, strlen(folded));
    if (row) {
        word->kind = vocabulary[row - 1].kind;
        word->number = vocabulary[row - 1].number;
        word->is_word = word->is_whole = true;
    } else if (mass_unit_read(folded, strlen(folded), &word->unit)) {
        word->kind = WORD_UNIT;
    }
}

/* "reverse-band" is two words if the grammar knows both parts. */
static bool add_hyphenated(const struct word_reader *reader, struct arena *arena, struct words *words,
                           const struct word *whole, const char *folded)
{
    if (!strchr(folded, '-') || strlen(folded) != whole->length)
        return false;
    size_t before = words->list.count;
    for (const char *part = folded; part; part = strchr(part, '-') ? strchr(part, '-') + 1 : NULL) {
        struct word word = {
            .kind = WORD_UNKNOWN, .at = whole->at + (size_t)(part - folded), .length = strcspn(part, "-")};
        word.label = arena_text(arena, part, word.length);
        classify(reader, &word, word.label);
        if (word.kind == WORD_UNKNOWN || !word.length) {
            words->list.count = before;
            return false;
        }
        *LIST_ADD(arena, &words->list) = word;
    }
    return true;
}

static void add_word(const struct word_reader *reader, struct arena *arena, struct words *words, struct word *word)
{
    word->label = arena_text(arena, words->text + word->at, word->length);
    char *folded = text_fold(arena, word->label);
    classify(reader, word, folded);
    if (word->kind != WORD_UNKNOWN || !add_hyphenated(reader, arena, words, word, folded))
        *LIST_ADD(arena, &words->list) = *word;
}

static void add_quoted(struct arena *arena, struct words *words, struct word *word)
{
    const char *text = words->text + word->at;
    size_t open = *text == '"' ? 1 : 3; /* “ and „ are three bytes */
    word->kind = WORD_LABEL;
    word->label = text_squeeze(arena, arena_text(arena, text + open, word->length - 2 * open));
    word->gear = GEAR_QUOTED;
    *LIST_ADD(arena, &words->list) = *word;
}

static const struct
{
    const char *group;
    enum word_kind kind;
} plain_lexemes[] = {
    {"newline", WORD_STOP},
    {"side", WORD_SIDE},
    {"total", WORD_TOTAL},
    {"percent", WORD_PERCENT},
    {"join", WORD_JOIN},
    {"range", WORD_RANGE},
    {"times", WORD_TIMES},
    {"bad_number", WORD_BAD_NUMBER},
    {"bodyweight", WORD_BODYWEIGHT},
};

static void add_lexeme(const struct word_reader *reader, const struct pattern *pattern, struct arena *arena,
                       struct words *words, char decimal)
{
    struct word word = {.kind = WORD_UNKNOWN};
    if (group(pattern, "blank", &word.at, &word.length))
        return;
    if (group(pattern, "word", &word.at, &word.length)) {
        add_word(reader, arena, words, &word);
        return;
    }
    if (group(pattern, "quoted", &word.at, &word.length)) {
        add_quoted(arena, words, &word);
        return;
    }
    if (group(pattern, "number", &word.at, &word.length)) {
        read_number(&word, words->text, decimal, arena);
    } else if (group(pattern, "leader", &word.at, &word.length)) {
        word.kind = WORD_LEADER;
        read_leader(pattern, &word, words->text);
    } else if (group(pattern, "mark", &word.at, &word.length)) {
        word.kind = mark_kind(words->text[word.at]);
        word.unit = UNIT_LB; /* # */
    } else {
        for (size_t i = 0; i < sizeof plain_lexemes / sizeof *plain_lexemes; i++)
            if (group(pattern, plain_lexemes[i].group, &word.at, &word.length))
                word.kind = plain_lexemes[i].kind;
    }
    word.label = arena_text(arena, words->text + word.at, word.length);
    *LIST_ADD(arena, &words->list) = word;
}

static bool may_begin_label(const struct word *word)
{
    return word->kind == WORD_UNKNOWN || word->kind == WORD_LABEL || word->kind == WORD_NUMBER;
}

/* "felt off", "slow off the chest": does not negate anything. */
static bool is_idiom(const struct words *words, size_t at)
{
    static const char *const before[] = {"felt", "feel",   "feels", "feeling", "was",  "were",
                                         "bit",  "little", "slow",  "fast",    "quick"};
    static const char *const after[] = {"chest", "floor", "box", "pins", "blocks", "ground", "rack"};
    const struct word *items = words->list.items;
    for (size_t i = 0; at > 0 && i < sizeof before / sizeof *before; i++)
        if (text_same_name(items[at - 1].label, before[i]))
            return true;
    for (size_t i = 0; at + 2 < words->list.count && i < sizeof after / sizeof *after; i++)
        if (text_same_name(items[at + 1].label, "the") && text_same_name(items[at + 2].label, after[i]))
            return true;
    return false;
}

static void unmark_idioms(struct words *words)
{
    for (size_t i = 0; i < words->list.count; i++)
        if (words->list.items[i].kind == WORD_NEGATION && text_same_name(words->list.items[i].label, "off") &&
            is_idiom(words, i))
            words->list.items[i].kind = WORD_UNKNOWN;
}

#define BRACKET_DEPTH 4

/* Brackets nested more deeply become plain marks: each word is then in only a few of them, and searching them takes
 * linear time. */
static void unmark_deep_brackets(struct words *words)
{
    size_t depth = 0;
    for (size_t i = 0; i < words->list.count; i++) {
        struct word *word = &words->list.items[i];
        if (word->kind == WORD_OPEN && depth == BRACKET_DEPTH)
            word->kind = WORD_MARK;
        else if (word->kind == WORD_OPEN)
            depth++;
        else if (word->kind == WORD_CLOSE && depth)
            depth--;
    }
}

#define LABEL_WORDS 4

/* Words that spell a label of the gym file become one LABEL; a bare number never does. */
static void merge_labels(const struct word_reader *reader, struct arena *arena, struct words *words)
{
    size_t kept = 0;
    for (size_t i = 0, used; i < words->list.count; i += used) {
        struct word word = words->list.items[i];
        used = 1;
        for (size_t n = LABEL_WORDS; n > 0 && may_begin_label(&word); n--) {
            if (i + n > words->list.count || (n == 1 && word.kind == WORD_NUMBER))
                continue;
            const struct word *last = &words->list.items[i + n - 1];
            const char *span = n == 1 ? word.label
                                      : arena_text(arena, words->text + word.at, last->at + last->length - word.at);
            char *folded = text_fold(arena, span);
            const struct label *label = map_get(reader->labels, folded, strlen(folded));
            if (label) {
                word.kind = WORD_LABEL;
                word.label = label->text;
                word.gear = label->gear;
                word.length = last->at + last->length - word.at;
                used = n;
                break;
            }
        }
        words->list.items[kept++] = word;
    }
    words->list.count = kept;
}

struct words *words_read(struct word_reader *reader, struct arena *arena, const char *text, char decimal)
{
    struct pattern *pattern = decimal == ',' ? &reader->comma : &reader->point;
    struct words *words = ARENA_NEW(arena, struct words);
    words->text = text;
    size_t length = strlen(text), at = 0;
    while (at < length) {
        int found = pattern_match(pattern, text, length, at, 0);
        PCRE2_SIZE *offsets = pcre2_get_ovector_pointer(pattern->match);
        if (found > 0 && offsets[1] > at) {
            add_lexeme(reader, pattern, arena, words, decimal);
            at = offsets[1];
        } else { /* bytes that are not UTF-8 */
            struct word odd = {.kind = WORD_MARK, .at = at, .length = 1, .label = arena_text(arena, text + at, 1)};
            *LIST_ADD(arena, &words->list) = odd;
            at++;
        }
    }
    unmark_idioms(words);
    unmark_deep_brackets(words);
    merge_labels(reader, arena, words);
    return words;
}

const struct setup *words_setup(struct word_reader *reader, struct arena *arena, const struct words *words, size_t at,
                                size_t *used)
{
    for (size_t n = LABEL_WORDS; n > 0; n--) {
        if (at + n > words->list.count)
            continue;
        const struct word *first = &words->list.items[at], *last = &words->list.items[at + n - 1];
        const char *span = n == 1 ? first->label
                                  : arena_text(arena, words->text + first->at, last->at + last->length - first->at);
        char *folded = text_fold(arena, span);
        const struct setup *setup = map_get(reader->setups, folded, strlen(folded));
        if (setup) {
            *used = n;
            return setup;
        }
    }
    return NULL;
}
