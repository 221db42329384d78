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

struct cursor
{
    const char *text; /* what is split, up to `limit` bytes */
    char *copy;
    size_t limit, step; /* the bytes before `step` were copied; it is the next to look at */
    uint32_t stops;     /* in the step before that, those not yet come to */
    char delimiter;
};

#define NO_STOP SIZE_MAX

/* Where the next stop is. There is a byte behind it. */
static inline size_t next_stop(struct cursor *at)
{
    while (!at->stops) {
        if (at->step + CSV_PLAIN_STEP >= at->limit)
            return NO_STOP;
        at->stops = copy_stops(at->copy + at->step, at->text + at->step, at->delimiter);
        at->step += CSV_PLAIN_STEP;
    }
    size_t place = at->step - CSV_PLAIN_STEP + (size_t)__builtin_ctz(at->stops);
    at->stops &= at->stops - 1;
    return place;
}

/* The end of an unquoted cell that starts at `start`: a quote within it is text. NO_STOP: not plain. A tab in it is no delimiter: it
 * ends the record here, and of blanks around it only spaces are left. */
static inline size_t end_bare(struct cursor *at, size_t start)
{
    size_t end = next_stop(at);
    while (end != NO_STOP && at->text[end] == '"')
        end = next_stop(at);
    if (end == NO_STOP || (at->text[end] != at->delimiter && at->text[end] != '\n'))
        return NO_STOP;
    return end > start && (at->text[start] == ' ' || at->text[end - 1] == ' ') ? NO_STOP : end;
}

/* The closing quote of a cell whose opening quote is the next stop; *doubled: quotes in it stand for one. NO_STOP: not plain. */
static inline size_t end_quoted(struct cursor *at, uint32_t *inner_ends, bool *doubled)
{
    size_t end = next_stop(at);
    for (;;) {
        end = next_stop(at);
        if (end == NO_STOP)
            return NO_STOP;
        if (at->text[end] == '\n')
            ++*inner_ends;
        if (at->text[end] != '"')
            continue;
        if (at->text[end + 1] != '"')
            break;
        *doubled = true;
        if (next_stop(at) == NO_STOP)
            return NO_STOP;
    }
    bool closes = at->text[end + 1] == at->delimiter || at->text[end + 1] == '\n';
    return closes && next_stop(at) != NO_STOP ? end : NO_STOP;
}

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

size_t csv_plain_split(struct csv_plain *plain, const char *text, size_t length)
{
    struct cursor at = {text, plain->text, length < CSV_PLAIN_BYTES ? length : CSV_PLAIN_BYTES, 0, 0, plain->delimiter};
    size_t count = 0;
    uint32_t inner_ends = 0;
    if (!length || *text == '\n')
        return 0;
    for (size_t start = 0, end; count < CSV_PLAIN_CELLS; start = end + 1) {
        bool quoted = text[start] == '"', doubled = false;
        end = quoted ? end_quoted(&at, &inner_ends, &doubled) : end_bare(&at, start);
        if (end == NO_STOP)
            return 0;
        char *cell = plain->text + start + quoted;
        size_t bytes = end - start - quoted;
        cell[bytes] = 0;
        plain->cells[count] = cell;
        plain->lengths[count++] = doubled ? merge_quotes(cell, bytes) : bytes;
        end += quoted;
        if (text[end] == '\n') {
            plain->count = count;
            plain->inner_ends = inner_ends;
            return end + 1;
        }
    }
    return 0;
}
