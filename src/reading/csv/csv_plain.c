#include "reading/csv/csv_plain.h"

#include <string.h>
#if defined(__SSE2__)
#include <emmintrin.h>
#endif

#define STEP CSV_PLAIN_STEP
#define CARRIED (STEP - 1) /* the carried bit, in front of the next step's first bit */

struct marks /* where each kind of byte is within a step; the lowest bit is the first byte */
{
    uint64_t quotes, delimiters, spaces;
    uint64_t controls; /* characters below 14: line ends, and others that libcsv may strip or treat as one */
    uint64_t ends;     /* only line ends */
};

/* The marks of the bytes at `from`, which are copied at the same time. */
#if defined(__SSE2__) /* available on every x86-64 */
static inline uint64_t bits_where(__m128i equal, int at)
{
    return (uint64_t)(uint32_t)_mm_movemask_epi8(equal) << at;
}

static inline struct marks copy_marking(char *to, const char *from, char delimiter)
{
    struct marks marks = {0};
    for (int at = 0; at < STEP; at += 16) {
        __m128i bytes = _mm_loadu_si128((const __m128i *)(const void *)(from + at));
        _mm_storeu_si128((__m128i *)(void *)(to + at), bytes);
        marks.quotes |= bits_where(_mm_cmpeq_epi8(bytes, _mm_set1_epi8('"')), at);
        marks.delimiters |= bits_where(_mm_cmpeq_epi8(bytes, _mm_set1_epi8(delimiter)), at);
        marks.spaces |= bits_where(_mm_cmpeq_epi8(bytes, _mm_set1_epi8(' ')), at);
        marks.controls |= bits_where(_mm_cmpeq_epi8(_mm_min_epu8(bytes, _mm_set1_epi8(13)), bytes), at);
        marks.ends |= bits_where(_mm_cmpeq_epi8(bytes, _mm_set1_epi8('\n')), at);
    }
    return marks;
}
#else
static inline struct marks copy_marking(char *to, const char *from, char delimiter)
{
    struct marks marks = {0};
    for (int at = 0; at < STEP; at++) {
        marks.quotes |= (uint64_t)(from[at] == '"') << at;
        marks.delimiters |= (uint64_t)(from[at] == delimiter) << at;
        marks.spaces |= (uint64_t)(from[at] == ' ') << at;
        marks.controls |= (uint64_t)((unsigned char)from[at] < 14) << at;
        marks.ends |= (uint64_t)(from[at] == '\n') << at;
    }
    memcpy(to, from, STEP);
    return marks;
}
#endif

/* Sets the bits from each quote to the next: those where the number of quotes so far is odd. */
static inline uint64_t within_quotes(uint64_t quotes)
{
    for (int shift = 1; shift < STEP; shift *= 2)
        quotes ^= quotes << shift;
    return quotes;
}

struct record /* state while a record is split, step by step */
{
    struct csv_plain *plain;
    const char *text;
    size_t start;       /* of the current cell */
    bool odd;           /* the steps before have an odd number of quotes: a quoted cell continues */
    uint64_t cell_ends; /* whether the last byte of the step before ended a cell; likewise the next two, for */
    uint64_t closing;   /* a quote that did not begin a cell */
    uint64_t space;
    uint64_t not_plain; /* any bit set: there are bytes that only libcsv may handle */
    uint64_t strays;    /* any bit set: there are quotes that neither open nor close a cell */
};

/* Adds a cell for each of its ends. A quote at its start is dropped, and so is the byte before its end. */
static inline void end_cells(struct record *record, size_t at, uint64_t cell_ends)
{
    struct csv_plain *plain = record->plain;
    size_t start = record->start, count = plain->count;
    for (; cell_ends; cell_ends &= cell_ends - 1) {
        size_t end = at + (size_t)__builtin_ctzll(cell_ends), quoted = record->text[start] == '"';
        char *cell = plain->text + start + quoted;
        size_t length = end - start - 2 * quoted;
        cell[length] = 0;
        plain->cells[count] = cell;
        plain->lengths[count++] = length;
        start = end + 1;
    }
    record->start = start;
    plain->count = count;
}

/* The step at byte `at` of the record. True: the record ends in it. */
static inline bool take_step(struct record *record, size_t at, const struct marks *marks)
{
    uint64_t within = within_quotes(marks->quotes) ^ (record->odd ? UINT64_MAX : 0);
    uint64_t ends = marks->ends & ~within, here = ends ? ends ^ (ends - 1) : UINT64_MAX; /* up to the record's end */
    uint64_t cell_ends = ((marks->delimiters & ~within) | ends) & here;
    uint64_t starts = cell_ends << 1 | record->cell_ends, closing = marks->quotes & ~starts & here;
    record->strays |= (closing << 1 | record->closing) & ~cell_ends;
    record->not_plain |= marks->controls & ~within & ~cell_ends & here;
    record->not_plain |= (marks->spaces & starts & here) | ((marks->spaces << 1 | record->space) & cell_ends);
    for (uint64_t inner = marks->ends & within & here; inner; inner &= inner - 1)
        record->plain->inner_ends++;
    record->odd = within >> CARRIED;
    record->cell_ends = cell_ends >> CARRIED;
    record->closing = closing >> CARRIED;
    record->space = marks->spaces >> CARRIED;
    end_cells(record, at, cell_ends);
    return ends;
}

/* Replaces "" within quoted cells by ", in place. False: there is any other quote in a cell. */
static bool merge_quotes(struct csv_plain *plain, const char *text)
{
    for (size_t i = 0; i < plain->count; i++) {
        size_t first = (size_t)(plain->cells[i] - plain->text), end = first + plain->lengths[i], length = 0;
        bool quoted = first && text[first - 1] == '"';
        if (quoted && text[end] != '"')
            return false;
        for (size_t from = first; from < end; from++) {
            plain->text[first + length++] = text[from];
            if (text[from] == '"' && (!quoted || from + 1 == end || text[++from] != '"'))
                return false;
        }
        plain->text[first + length] = 0;
        plain->lengths[i] = length;
    }
    return true;
}

/* The last bytes of the text, followed by NULs, which are not plain. */
static struct marks mark_tail(char *to, const char *from, size_t length, char delimiter)
{
    char tail[STEP] = {0};
    memcpy(tail, from, length);
    return copy_marking(to, tail, delimiter);
}

size_t csv_plain_split(struct csv_plain *plain, const char *text, size_t length)
{
    struct record record = {.plain = plain, .text = text, .cell_ends = 1};
    size_t limit = length < CSV_PLAIN_BYTES ? length : CSV_PLAIN_BYTES;
    bool ended = false;
    plain->count = 0;
    plain->inner_ends = 0;
    if (!length || *text == '\n')
        return 0;
    for (size_t at = 0; !ended && at < limit && plain->count <= CSV_PLAIN_CELLS; at += STEP) {
        struct marks marks = limit - at < STEP ? mark_tail(plain->text + at, text + at, limit - at, plain->delimiter)
                                               : copy_marking(plain->text + at, text + at, plain->delimiter);
        ended = take_step(&record, at, &marks);
    }
    bool plainly = ended && !record.not_plain && plain->count <= CSV_PLAIN_CELLS;
    return plainly && (!record.strays || merge_quotes(plain, text)) ? record.start : 0;
}
