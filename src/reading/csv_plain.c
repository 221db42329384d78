#include "reading/csv_plain.h"

#include <string.h>
#if defined(__SSE2__)
#include <emmintrin.h>
#endif

/* A bit for each of CSV_PLAIN_STEP bytes at which something may end: the delimiter, a quote, or a control character of the first 14, of
 * which line ends are the ones that matter. The bytes are copied on the way. */
#if defined(__SSE2__) /* which every x86-64 has */
static inline uint32_t copy_stops(char *to, const char *from, char delimiter)
{
    __m128i bytes = _mm_loadu_si128((const __m128i *)(const void *)from);
    __m128i delimiters = _mm_cmpeq_epi8(bytes, _mm_set1_epi8(delimiter)), quotes = _mm_cmpeq_epi8(bytes, _mm_set1_epi8('"'));
    __m128i controls = _mm_cmpeq_epi8(_mm_min_epu8(bytes, _mm_set1_epi8(13)), bytes);
    _mm_storeu_si128((__m128i *)(void *)to, bytes);
    return (uint32_t)_mm_movemask_epi8(_mm_or_si128(_mm_or_si128(delimiters, quotes), controls));
}
#else
static inline uint32_t copy_stops(char *to, const char *from, char delimiter)
{
    uint32_t stops = 0;
    for (unsigned i = 0; i < CSV_PLAIN_STEP; i++)
        stops |= (uint32_t)(from[i] == delimiter || from[i] == '"' || (unsigned char)from[i] < 14) << i;
    memcpy(to, from, CSV_PLAIN_STEP);
    return stops;
}
#endif

enum within
{
    BARE,    /* an unquoted cell, or before the first byte of any */
    QUOTED,  /* its closing quote is not seen yet */
    DOUBLED, /* likewise, and the next stop is the second of two quotes that stand for one */
    CLOSED   /* behind a closing quote: the next stop ends the cell */
};

struct splitting
{
    struct csv_plain *plain;
    size_t start, end;   /* of the cell's text; the end once it is closed */
    enum within within;
    bool doubled;        /* the cell has quotes that stand for one */
};

/* "" within a quoted cell becomes ", in place; returns the cell's new length. */
static size_t merge_quotes(char *cell, size_t length)
{
    size_t to = 0;
    for (size_t from = 0; from < length; from++) {
        cell[to++] = cell[from];
        from += cell[from] == '"';
    }
    cell[to] = 0;
    return to;
}

/* False: not plain. A tab within an unquoted cell was a stop that ends none: of blanks only spaces are left. */
static bool end_cell(struct splitting *at, size_t end)
{
    struct csv_plain *plain = at->plain;
    char *cell = plain->text + at->start;
    size_t length = end - at->start;
    if (plain->count == CSV_PLAIN_CELLS || (at->within == BARE && length && (*cell == ' ' || cell[length - 1] == ' ')))
        return false;
    cell[length] = 0;
    plain->cells[plain->count] = cell;
    plain->lengths[plain->count++] = at->doubled ? merge_quotes(cell, length) : length;
    return true;
}

/* A quote at `here`, of which `after` is the next byte. False: not plain. */
static bool see_quote(struct splitting *at, size_t here, char after)
{
    switch (at->within) {
    case BARE:
        if (here == at->start) {
            at->within = QUOTED;
            at->start++;
        }
        return true; /* within an unquoted cell a quote is text */
    case QUOTED:
        if (after == '"') {
            at->within = DOUBLED;
            at->doubled = true;
            return true;
        }
        at->within = CLOSED;
        at->end = here;
        return after == at->plain->delimiter || after == '\n';
    case DOUBLED:
        at->within = QUOTED;
        return true;
    case CLOSED:
        break;
    }
    return false;
}

size_t csv_plain_split(struct csv_plain *plain, const char *text, size_t length)
{
    const char delimiter = plain->delimiter;
    struct splitting at = {.plain = plain};
    plain->count = 0;
    plain->inner_ends = 0;
    if (!length || *text == '\n')
        return 0;
    for (size_t step = 0; step + CSV_PLAIN_STEP < length && step + CSV_PLAIN_STEP < CSV_PLAIN_BYTES; step += CSV_PLAIN_STEP) {
        uint32_t stops = copy_stops(plain->text + step, text + step, delimiter);
        for (; stops; stops &= stops - 1) {
            size_t here = step + (size_t)__builtin_ctz(stops);
            char stop = text[here];
            if (stop == '"') {
                if (!see_quote(&at, here, text[here + 1]))
                    return 0;
                continue;
            }
            if (at.within == QUOTED) {
                plain->inner_ends += stop == '\n';
                continue;
            }
            if (stop != delimiter && stop != '\n')
                return 0;
            if (!end_cell(&at, at.within == CLOSED ? at.end : here))
                return 0;
            if (stop == '\n')
                return here + 1;
            at = (struct splitting){.plain = plain, .start = here + 1};
        }
    }
    return 0;
}
