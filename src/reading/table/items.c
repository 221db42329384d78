#include "reading/table/items.h"

#include "base/text.h"
#include "reading/text/text_patterns.h"

#include <string.h>
#include <strings.h>

#define CELL_BYTES 16384 /* a longer cell holds no sets, nor does a longer part of one: */
#define ITEM_BYTES 1024

static size_t skip(const char *text, size_t length, size_t at)
{
    while (at < length && strchr(" \t\n", text[at]))
        at++;
    return at;
}

static bool fits(const struct item_manner *manner, enum text_pattern pattern, const char *text, size_t length,
                 size_t at, struct text_match *match)
{
    return at < length && text_fits(manner->patterns, pattern, manner->decimal, text, length, at, match);
}

static bool is_word(const char *text, size_t length, size_t at)
{
    static const char *const words[] = {"kg", "kgs",  "lb",    "lbs",   "chain", "chains",
                                        "ch", "band", "bands", "pairs", "pair"};
    size_t end = at;
    while (end < length && ((text[end] | 0x20) >= 'a' && (text[end] | 0x20) <= 'z'))
        end++;
    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        if (strlen(words[i]) == end - at && !strncasecmp(words[i], text + at, end - at))
            return true;
    return false;
}

/* 100x5, but not 2x7 kg of chain. */
static bool item_at(const struct item_manner *manner, const char *text, size_t length, size_t at,
                    struct text_match *match)
{
    if (!fits(manner, PATTERN_ITEM, text, length, at, match))
        return false;
    size_t end = match->all.at + match->all.length, next = skip(text, length, end);
    return match->group[4].at != SIZE_MAX || !is_word(text, length, next);
}

/* 70 + 12 kg chain/side: 3x2 */
static bool colon_form(const struct item_manner *manner, const char *text, size_t length, size_t at)
{
    struct text_match match;
    if (!fits(manner, PATTERN_LOAD_START, text, length, at, &match))
        return false;
    for (size_t i = at + 1; i < length; i++)
        if (text[i] == ':' && fits(manner, PATTERN_SCHEME, text, length, skip(text, length, i + 1), &match))
            return true;
    return false;
}

/* 60 + 2 chains 8x2: a load with chains or bands, a blank, sets and repetitions. */
static bool spaced_form(const struct item_manner *manner, const char *text, size_t length, size_t at)
{
    struct text_match match;
    const char *plus = at < length ? memchr(text + at, '+', length - at) : NULL;
    if (!plus || !fits(manner, PATTERN_LOAD_START, text, length, at, &match))
        return false;
    for (size_t from = (size_t)(plus - text);
         text_finds(manner->patterns, PATTERN_SPACED, manner->decimal, text, length, from, &match);
         from = match.all.at + match.all.length)
        if (fits(manner, PATTERN_SCHEME, text, length, match.all.at + match.all.length, &match))
            return true;
    return false;
}

/* 3x5 @ 100 kg; 100 kg 3x5 */
static bool scheme_form(const struct item_manner *manner, const char *text, size_t length, size_t at)
{
    struct text_match match;
    if (fits(manner, PATTERN_SCHEME, text, length, at, &match) &&
        fits(manner, PATTERN_AT, text, length, skip(text, length, match.all.at + match.all.length), &match))
        return true;
    if (!fits(manner, PATTERN_STRAIGHT, text, length, at, &match))
        return false;
    size_t next = skip(text, length, match.all.at + match.all.length);
    return next > match.all.at + match.all.length && fits(manner, PATTERN_SCHEME, text, length, next, &match) &&
           memchr(text + match.all.at, 'x', match.all.length);
}

bool item_looks(const struct item_manner *manner, const char *text, size_t length)
{
    struct text_match match;
    size_t at = skip(text, length, 0);
    if (length > ITEM_BYTES)
        return false;
    if (fits(manner, PATTERN_WARM_UP, text, length, at, &match))
        at += match.all.length;
    return item_at(manner, text, length, at, &match) || colon_form(manner, text, length, at) ||
           scheme_form(manner, text, length, at) || spaced_form(manner, text, length, at);
}

bool item_is_garbled(const char *text, size_t length)
{
    size_t run = 0, digits = 0, next;
    while (run < length && strchr("0123456789oOlI.", text[run]))
        digits += text[run] >= '0' && text[run] <= '9', run++;
    next = skip(text, length, run);
    if (!run || next == length || (text[next] | 0x20) != 'x')
        return false;
    next = skip(text, length, next + 1);
    bool repetitions = next < length && strchr("0123456789", text[next]);
    bool ends = next == length || strchr(",;?@", text[next]);
    return (repetitions && digits < run && !memchr(text, '.', run)) || (digits && ends);
}

bool item_hides_garbled(const char *text, size_t length)
{
    for (size_t at = 0; at < length; at++)
        if ((!at || strchr(" \t\n,;(", text[at - 1])) && item_is_garbled(text + at, length - at))
            return true;
    return false;
}

bool reps_look(const char *text, char decimal)
{
    struct reps_cell reps;
    return reps_read(text, decimal, &reps) && reps.count == 1 && reps.groups[0].sets == 1 && !reps.sets_said;
}

/* --- splitting ----------------------------------------------------------------------------------------------------- */

static void add_span(struct items *items, const char *text, size_t from, size_t to)
{
    from = skip(text, to, from);
    while (to > from && strchr(" \t\n", text[to - 1]))
        to--;
    if (to == from)
        return;
    if (items->count == ITEMS_LIMIT) {
        struct text_span *last = &items->spans[ITEMS_LIMIT - 1];
        last->length = to - last->at;
        return;
    }
    items->spans[items->count++] = (struct text_span){from, to - from};
}

/* Does a set with its efforts end exactly at `to`? */
static bool set_ends_at(const struct item_manner *manner, const char *text, size_t from, size_t to)
{
    struct text_match match;
    from = skip(text, to, from);
    if (!item_at(manner, text, to, from, &match))
        return false;
    size_t end = match.all.at + match.all.length;
    while (end < to && fits(manner, PATTERN_ANNOTATION, text, to, skip(text, to, end), &match))
        end = match.all.at + match.all.length;
    return end == to;
}

/* True if the comma or blank at `at` separates two sets. */
static bool parts_sets(const struct item_manner *manner, const char *text, size_t length, size_t from, size_t at)
{
    struct text_match match;
    size_t next = skip(text, length, at + 1);
    if (next == length || !strchr("0123456789bB~+-.oOlI", text[next]))
        return false;
    if (text[at] != ',')
        return item_at(manner, text, length, next, &match) && set_ends_at(manner, text, from, at);
    return (item_at(manner, text, length, next, &match) || item_is_garbled(text + next, length - next) ||
            (text[next] == '~' && item_looks(manner, text + next, length - next))) &&
           (item_looks(manner, text + from, at - from) ||
            item_is_garbled(text + skip(text, at, from), at - skip(text, at, from)));
}

void items_split(const struct item_manner *manner, const char *text, struct items *items)
{
    size_t length = strlen(text), from = 0;
    items->count = 0;
    for (size_t i = 0; i < length && length <= CELL_BYTES; i++) {
        bool parts = text[i] == '\n' || text[i] == ';' ||
                     ((text[i] == ',' || text[i] == ' ') && parts_sets(manner, text, length, from, i));
        if (!parts)
            continue;
        add_span(items, text, from, i);
        from = i + 1;
    }
    add_span(items, text, from, length);
}

/* --- sessions ------------------------------------------------------------------------------------------------------ */

static bool has_letter(const char *text, size_t length)
{
    for (size_t i = 0; i < length; i++)
        if (((text[i] | 0x20) >= 'a' && (text[i] | 0x20) <= 'z') || (text[i] & 0x80))
            return true;
    return false;
}

static bool is_number_in_name(const char *text, size_t length)
{
    for (size_t i = 0; i < length; i++)
        if (text[i] >= '0' && text[i] <= '9')
            return true;
    return false;
}

bool session_looks(const struct item_manner *manner, const char *text, size_t length, size_t *sets)
{
    struct text_match match;
    const char *colon = memchr(text, ':', length);
    size_t name = colon ? (size_t)(colon - text) : 0;
    *sets = 0;
    if (length > ITEM_BYTES)
        return false;
    if (item_looks(manner, text, length))
        return false;
    if (colon && has_letter(text, name) && !is_number_in_name(text, name) &&
        item_looks(manner, colon + 1, length - name - 1)) {
        *sets = name + 1;
        return true;
    }
    if (!text_finds(manner->patterns, PATTERN_LOAD_START, manner->decimal, text, length, 1, &match) ||
        !has_letter(text, match.all.at))
        return false;
    return item_looks(manner, text + match.all.at, length - match.all.at) ||
           text_finds(manner->patterns, PATTERN_TIMED, manner->decimal, text, length, 1, &match);
}

/* Squat 100x5, Bench 60x5: only if the words are those of a known lift. */
static bool lift_begins(const struct item_manner *manner, const char *text, size_t length, size_t at)
{
    struct text_match match;
    size_t next = skip(text, length, at);
    if (next == length || !has_letter(text + next, 1) ||
        !text_finds(manner->patterns, PATTERN_LOAD_START, manner->decimal, text, length, next + 1, &match))
        return false;
    size_t end = match.all.at;
    while (end > next && strchr(" \t:-", text[end - 1]))
        end--;
    struct arena *scratch = arena_new();
    const char *name = text_squeeze(scratch, arena_text(scratch, text + next, end - next));
    bool known = gym_lift(manner->gym, name) || builtin_lift(text_fold(scratch, name));
    arena_free(scratch);
    return known && item_looks(manner, text + match.all.at, length - match.all.at);
}

void items_split_session(const struct item_manner *manner, const char *text, struct items *items)
{
    size_t length = strlen(text), from = 0;
    items->count = 0;
    for (size_t i = 0; i < length && length <= CELL_BYTES; i++) {
        bool parts = text[i] == '\n' || text[i] == ';' || (text[i] == ',' && lift_begins(manner, text, length, i + 1));
        if (!parts)
            continue;
        add_span(items, text, from, i);
        from = i + 1;
    }
    add_span(items, text, from, length);
}
