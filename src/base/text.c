#include "base/text.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <utf8proc.h>

/* The next code point; a byte that is not UTF-8 counts as one, given as -1 less the byte. */
static utf8proc_ssize_t next_point(const char *text, size_t left, utf8proc_int32_t *point)
{
    if (!(*text & 0x80)) { /* as nearly always */
        *point = *text;
        return 1;
    }
    utf8proc_ssize_t used = utf8proc_iterate((const utf8proc_uint8_t *)text, (utf8proc_ssize_t)left, point);
    if (used > 0)
        return used;
    *point = -1 - (unsigned char)*text;
    return 1;
}

/* Columns of a terminal. */
static size_t point_width(utf8proc_int32_t point)
{
    if (point < 0 || (point >= ' ' && point < 0x7F))
        return 1;
    int columns = utf8proc_charwidth(point);
    return columns > 0 ? (size_t)columns : 0;
}

static bool is_blank_point(utf8proc_int32_t point)
{
    return point == ' ' || (point >= '\t' && point <= '\r') ||
           (point > 0 && utf8proc_category(point) == UTF8PROC_CATEGORY_ZS);
}

char *text_squeeze(struct arena *arena, const char *text)
{
    size_t left = strlen(text), used = 0;
    char *out = arena_alloc(arena, left + 1);
    bool blank = false;
    while (left) {
        utf8proc_int32_t point;
        size_t step = (size_t)next_point(text, left, &point);
        if (is_blank_point(point)) {
            blank = used > 0;
        } else {
            if (blank)
                out[used++] = ' ';
            blank = false;
            memcpy(out + used, text, step);
            used += step;
        }
        text += step;
        left -= step;
    }
    out[used] = 0;
    return out;
}

static bool is_plain_ascii(const char *text)
{
    for (; *text; text++)
        if (*text & 0x80)
            return false;
    return true;
}

#define MARKS_AT_MOST 30 /* on one letter: UAX #15, Stream-Safe Text Format */

/* More marks on one letter than any writing has: they would be put in order by a method that takes the square of their
 * number. */
static bool has_too_many_marks(const char *text)
{
    size_t left = strlen(text), marks = 0;
    for (size_t step; left && marks <= MARKS_AT_MOST; text += step, left -= step) {
        utf8proc_int32_t point;
        step = (size_t)next_point(text, left, &point);
        marks = point > 0x7F && utf8proc_get_property(point)->combining_class ? marks + 1 : 0;
    }
    return marks > MARKS_AT_MOST;
}

char *text_fold(struct arena *arena, const char *text)
{
    char *squeezed = text_squeeze(arena, text);
    if (is_plain_ascii(squeezed)) {
        for (char *c = squeezed; *c; c++)
            if (*c >= 'A' && *c <= 'Z')
                *c = (char)(*c - 'A' + 'a');
        return squeezed;
    }
    if (has_too_many_marks(squeezed))
        return squeezed; /* compared as it is */
    utf8proc_uint8_t *folded = NULL;
    utf8proc_map((const utf8proc_uint8_t *)squeezed, 0, &folded,
                 UTF8PROC_NULLTERM | UTF8PROC_STABLE | UTF8PROC_COMPOSE | UTF8PROC_COMPAT | UTF8PROC_CASEFOLD |
                     UTF8PROC_IGNORE);
    if (!folded)
        return squeezed; /* no UTF-8: compared as it is */
    char *copy = text_squeeze(arena, (char *)folded);
    free(folded);
    return copy;
}

static bool is_graphic(char c)
{
    return c > ' ' && c < 0x7F;
}

static char small_letter(char c)
{
    return c >= 'A' && c <= 'Z' ? (char)(c + 'a' - 'A') : c;
}

bool text_same_name(const char *a, const char *b)
{
    /* Most names are plain ASCII words with single blanks between them. No folding makes two such letters one, or a
     * letter of a blank or of an end; a blank at the start, more than one, and one at the end are for the folding
     * below. */
    for (size_t at = 0;; at++) {
        bool left = is_graphic(a[at]), right = is_graphic(b[at]);
        if (left && right && small_letter(a[at]) != small_letter(b[at]))
            return false;
        if (!a[at] && !b[at])
            return true;
        if ((left && (!b[at] || (b[at] == ' ' && at))) || (right && (!a[at] || (a[at] == ' ' && at))))
            return false;
        bool both_blank = at && a[at] == ' ' && b[at] == ' ' && is_graphic(a[at + 1]) && is_graphic(b[at + 1]);
        if (!(left && right) && !both_blank)
            break;
    }
    struct arena *scratch = arena_new();
    bool same = !strcmp(text_fold(scratch, a), text_fold(scratch, b));
    arena_free(scratch);
    return same;
}

size_t text_count(const char *text, size_t length, char byte)
{
    size_t count = 0;
    for (const char *end = text + length; (text = memchr(text, byte, (size_t)(end - text))); text++)
        count++;
    return count;
}

size_t text_width(const char *text)
{
    size_t left = strlen(text), width = 0;
    while (left) {
        utf8proc_int32_t point;
        size_t step = (size_t)next_point(text, left, &point);
        width += point_width(point);
        text += step;
        left -= step;
    }
    return width;
}

size_t text_characters(const char *text, size_t bytes)
{
    size_t count = 0;
    while (bytes) {
        utf8proc_int32_t point;
        size_t step = (size_t)next_point(text, bytes, &point);
        text += step;
        bytes -= step;
        count++;
    }
    return count;
}

bool text_is_utf8(const char *text, size_t bytes)
{
    while (bytes) {
        utf8proc_int32_t point;
        size_t step = (size_t)next_point(text, bytes, &point);
        if (point < 0)
            return false;
        text += step;
        bytes -= step;
    }
    return true;
}

static bool is_unseen(utf8proc_int32_t point)
{
    return point < ' ' || (point >= 0x7F && point < 0xA0) || point == 0x2028 || point == 0x2029 || point == 0x200E ||
           point == 0x200F || point == 0x061C || (point >= 0x202A && point <= 0x202E) ||
           (point >= 0x2066 && point <= 0x2069) || point == 0xFEFF;
}

size_t text_plain(const char *text, size_t length)
{
    size_t plain = 0;
    while (plain < length && text[plain] >= ' ' && text[plain] <= '~')
        plain++;
    return plain;
}

const char *text_visible(struct arena *arena, const char *text)
{
    size_t left = strlen(text), length = left, unseen = 0;
    utf8proc_int32_t point;
    for (size_t at = text_plain(text, length), step; at < length; at += step) {
        step = (size_t)next_point(text + at, length - at, &point);
        unseen += is_unseen(point);
    }
    if (!unseen)
        return text;
    char *out = arena_alloc(arena, length + unseen * 10 + 1);
    size_t used = 0;
    for (size_t step; left; text += step, left -= step) {
        step = (size_t)next_point(text, left, &point);
        if (!is_unseen(point)) {
            memcpy(out + used, text, step);
            used += step;
        } else if (point < 0x100) {
            used += (size_t)snprintf(out + used, 11, "\\x%02X", (unsigned)(unsigned char)*text);
            if (point > 0x7F)
                used -= 4, used += (size_t)snprintf(out + used, 11, "\\u{%04X}", (unsigned)point);
        } else {
            used += (size_t)snprintf(out + used, 11, "\\u{%04X}", (unsigned)point);
        }
    }
    out[used] = 0;
    return out;
}

const char *text_cut(struct arena *arena, const char *text, size_t width)
{
    text = text_visible(arena, text);
    if (text_width(text) <= width)
        return text;
    size_t left = strlen(text), used = 0, taken = 0;
    while (left) {
        utf8proc_int32_t point;
        size_t step = (size_t)next_point(text + used, left, &point);
        size_t columns = point_width(point);
        if (taken + columns + 1 > width)
            break;
        taken += columns;
        used += step;
        left -= step;
    }
    return width ? arena_printf(arena, "%.*s\xE2\x80\xA6", (int)used, text) : "";
}

/* The bytes of as many code points from `text` on as have `width` columns at most. */
static size_t bytes_of_columns(const char *text, size_t width)
{
    size_t left = strlen(text), used = 0, taken = 0;
    while (left) {
        utf8proc_int32_t point;
        size_t step = (size_t)next_point(text + used, left, &point);
        taken += point_width(point);
        if (taken > width)
            break;
        used += step;
        left -= step;
    }
    return used;
}

const char *text_cut_middle(struct arena *arena, const char *text, size_t width)
{
    text = text_visible(arena, text);
    size_t whole = text_width(text), head = width / 2, tail = width > head ? width - head - 1 : 0;
    if (whole <= width)
        return text;
    size_t skipped = bytes_of_columns(text, whole - tail);
    while (text_width(text + skipped) > tail) /* a wide character across the edge */
        skipped += bytes_of_columns(text + skipped, 2);
    return width ? arena_printf(arena, "%.*s\xE2\x80\xA6%s", (int)bytes_of_columns(text, head), text, text + skipped)
                 : "";
}

bool text_starts(const char *text, const char *start)
{
    return !strncmp(text, start, strlen(start));
}

/* Edit distance with transpositions of neighbours (optimal string alignment), given up above `most`. */
static size_t edit_distance(const char *a, const char *b, size_t most)
{
    size_t rows = strlen(a), columns = strlen(b), table[32][32];
    if (rows > 31 || columns > 31)
        return most + 1;
    for (size_t i = 0; i <= rows; i++) {
        for (size_t j = 0; j <= columns; j++) {
            size_t best;
            if (!i || !j) {
                best = i + j;
            } else {
                best = table[i - 1][j - 1] + (a[i - 1] != b[j - 1]);
                if (table[i - 1][j] + 1 < best)
                    best = table[i - 1][j] + 1;
                if (table[i][j - 1] + 1 < best)
                    best = table[i][j - 1] + 1;
                if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1] && table[i - 2][j - 2] + 1 < best)
                    best = table[i - 2][j - 2] + 1;
            }
            table[i][j] = best;
        }
    }
    return table[rows][columns];
}

const char *text_nearest(const char *word, const char *const *words, size_t count)
{
    const char *nearest = NULL;
    size_t best = 3;
    for (size_t i = 0; i < count; i++) {
        size_t distance = edit_distance(word, words[i], 2);
        if (distance < best && distance * 2 < strlen(words[i])) {
            best = distance;
            nearest = words[i];
        }
    }
    return nearest;
}

char *text_folder(struct arena *arena, const char *path)
{
    const char *slash = strrchr(path, '/');
    return slash ? arena_text(arena, path, slash == path ? 1 : (size_t)(slash - path)) : arena_copy(arena, ".");
}

char *text_path(struct arena *arena, const char *folder, const char *entry)
{
    size_t length = strlen(folder);
    return arena_printf(arena, "%s%s%s", folder, length && folder[length - 1] == '/' ? "" : "/", entry);
}
