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

struct splitting
{
    struct csv_plain *plain;
    char *start;  /* of the cell's text */
    char *end;    /* behind it, once its closing quote is seen; NULL: not so far */
    bool quoted;  /* the cell began with a quote */
    bool doubled; /* it has quotes that stand for one */
    bool pending; /* the next stop is the second of two such quotes */
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

static inline void keep_cell(struct splitting *at, char *end)
{
    struct csv_plain *plain = at->plain;
    *end = 0;
    plain->cells[plain->count] = at->start;
    plain->lengths[plain->count++] = (size_t)(end - at->start);
}

static void keep_quoted(struct splitting *at)
{
    keep_cell(at, at->end);
    size_t *length = &at->plain->lengths[at->plain->count - 1];
    if (at->doubled)
        *length = merge_quotes(at->start, *length);
    at->end = NULL;
    at->quoted = at->doubled = false;
}

/* A quote, of which `after` is the next byte. False: not plain. */
static bool see_quote(struct splitting *at, char *here, char after)
{
    if (!at->quoted) {
        at->quoted = here == at->start; /* within an unquoted cell a quote is text */
        at->start += at->quoted;
        return true;
    }
    if (at->pending) {
        at->pending = false;
        return true;
    }
    if (after == '"') {
        at->pending = at->doubled = true;
        return true;
    }
    at->end = here;
    return after == at->plain->delimiter || after == '\n';
}

/* A tab within an unquoted cell was a stop that ends none: of blanks around it only spaces are left. */
static bool has_blanks(const char *cell, const char *end)
{
    return end > cell && (*cell == ' ' || end[-1] == ' ');
}

size_t csv_plain_split(struct csv_plain *plain, const char *text, size_t length)
{
    const char delimiter = plain->delimiter;
    struct splitting at = {.plain = plain, .start = plain->text};
    const size_t limit = length < CSV_PLAIN_BYTES ? length : CSV_PLAIN_BYTES;
    plain->count = 0;
    plain->inner_ends = 0;
    if (!length || *text == '\n')
        return 0;
    for (size_t step = 0; step + CSV_PLAIN_STEP < limit && plain->count <= CSV_PLAIN_CELLS - CSV_PLAIN_STEP; step += CSV_PLAIN_STEP) {
        uint32_t stops = copy_stops(plain->text + step, text + step, delimiter);
        for (; stops; stops &= stops - 1) {
            size_t place = step + (size_t)__builtin_ctz(stops);
            char stop = text[place], *here = plain->text + place;
            if (stop == '"') {
                if (!see_quote(&at, here, text[place + 1]))
                    return 0;
            } else if (at.quoted && !at.end) {
                plain->inner_ends += stop == '\n';
            } else if (stop != delimiter && stop != '\n') {
                return 0;
            } else {
                if (at.quoted)
                    keep_quoted(&at);
                else if (has_blanks(at.start, here))
                    return 0;
                else
                    keep_cell(&at, here);
                if (stop == '\n')
                    return place + 1;
                at.start = here + 1;
            }
        }
    }
    return 0;
}
