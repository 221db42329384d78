#include "reading/csv_plain.h"

#include <endian.h>
#include <string.h>

/* Eight bytes are looked at in one word; the first in the text is the lowest in the word. */
#define WORD sizeof(uint64_t)
#define EACH(byte) (UINT64_C(0x0101010101010101) * (unsigned char)(byte))
#define HIGH_BITS EACH(0x80)

/* The high bit of each byte of the word that is zero. Above the lowest such byte there may be false ones: only that one is sure
 * (the borrow of the subtraction; Warren, Hacker's Delight, 6-1). */
static uint64_t zero_bytes(uint64_t word)
{
    return (word - EACH(1)) & ~word & HIGH_BITS;
}

static uint64_t load_word(const char *text)
{
    uint64_t word;
    memcpy(&word, text, WORD);
    return le64toh(word);
}

static size_t first_byte(uint64_t high_bits)
{
    return (size_t)__builtin_ctzll(high_bits) / 8;
}

static bool is_blank(char c)
{
    return c == ' ' || c == '\t';
}

struct cursor /* in the text and in the copy of its cells */
{
    const char *from, *end;
    char *to;
};

/* Likewise for each byte that is a control character of the first 14, of which line ends are the ones that matter. */
static uint64_t control_bytes(uint64_t word)
{
    return (word - EACH(14)) & ~word & HIGH_BITS;
}

/* Copies an unquoted cell up to the delimiter or line end behind it; false: not plain, or no end in sight. */
static bool copy_bare(struct cursor *at, char delimiter)
{
    const uint64_t delimiters = EACH(delimiter);
    const char *start = at->from;
    for (uint64_t stops = 0; !stops;) {
        if ((size_t)(at->end - at->from) < WORD)
            return false;
        uint64_t word = load_word(at->from);
        stops = zero_bytes(word ^ delimiters) | control_bytes(word);
        memcpy(at->to, at->from, WORD);
        size_t step = stops ? first_byte(stops) : WORD;
        at->from += step;
        at->to += step;
    }
    bool ended = *at->from == delimiter || *at->from == '\n';
    return ended && (at->from == start || (!is_blank(*start) && !is_blank(at->from[-1])));
}

/* Copies a quoted cell, its opening quote passed, up to the delimiter or line end behind its closing quote. */
static bool copy_quoted(struct cursor *at, char delimiter)
{
    const uint64_t quotes = EACH('"');
    for (;;) {
        if ((size_t)(at->end - at->from) < WORD)
            return false;
        uint64_t stops = zero_bytes(load_word(at->from) ^ quotes);
        memcpy(at->to, at->from, WORD);
        size_t step = stops ? first_byte(stops) : WORD;
        at->from += step;
        at->to += step;
        if (!stops)
            continue;
        if (at->from + 1 == at->end)
            return false;
        char after = at->from[1];
        at->from += after == '"' ? 2 : 1;
        if (after == delimiter || after == '\n')
            return true;
        if (after != '"')
            return false;
        *at->to++ = '"';
    }
}

static uint32_t count_ends(const char *text, size_t length)
{
    uint32_t count = 0;
    for (const char *end = text + length; (text = memchr(text, '\n', (size_t)(end - text))); text++)
        count++;
    return count;
}

size_t csv_plain_split(struct csv_plain *plain, const char *text, size_t length)
{
    struct cursor at = {text, text + (length < CSV_PLAIN_BYTES ? length : CSV_PLAIN_BYTES), plain->text};
    plain->count = 0;
    plain->inner_ends = 0;
    if (!length || *text == '\n')
        return 0;
    for (;; at.from++) {
        if (plain->count == CSV_PLAIN_CELLS || at.from == at.end)
            return 0;
        char *cell = at.to;
        bool quoted = *at.from == '"';
        at.from += quoted;
        if (!(quoted ? copy_quoted(&at, plain->delimiter) : copy_bare(&at, plain->delimiter)))
            return 0;
        size_t bytes = (size_t)(at.to - cell);
        *at.to++ = 0;
        plain->cells[plain->count] = cell;
        plain->lengths[plain->count++] = bytes;
        if (quoted && bytes)
            plain->inner_ends += count_ends(cell, bytes);
        if (*at.from == '\n')
            return (size_t)(at.from - text) + 1;
    }
}
