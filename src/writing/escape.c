#include "writing/escape.h"

#include "base/text.h"

#include <stdint.h>
#include <stdio.h>
#include <string.h>
#include <utf8proc.h>

#define REPLACEMENT 0xFFFD
#define FILE_NAME_BYTES 80

/* The next code point, and how many bytes it takes. Bytes that are not UTF-8, and the two noncharacters that XML
 * forbids, are read as U+FFFD. */
static size_t next_character(const char *text, utf8proc_int32_t *point)
{
    utf8proc_ssize_t used = utf8proc_iterate((const utf8proc_uint8_t *)text, (utf8proc_ssize_t)strnlen(text, 4), point);
    if (used <= 0) {
        *point = REPLACEMENT;
        return 1;
    }
    if (*point == 0xFFFE || *point == 0xFFFF)
        *point = REPLACEMENT;
    return (size_t)used;
}

static bool is_ascii_word(utf8proc_int32_t point)
{
    return (point >= '0' && point <= '9') || (point >= 'A' && point <= 'Z') || (point >= 'a' && point <= 'z');
}

/* Beginnings that spreadsheets take for a formula; some programs accept the fullwidth signs, too. */
static bool begins_formula(const char *text)
{
    static const char *const signs[] = {"=", "+", "-", "@", "\t", "\r", "\n", "\uFF1D", "\uFF0B", "\uFF0D", "\uFF20"};
    text += strspn(text, "'"); /* so that escape_csv_undone() gives back what was there */
    for (size_t i = 0; i < sizeof signs / sizeof *signs; i++)
        if (!strncmp(text, signs[i], strlen(signs[i])))
            return true;
    return false;
}

const char *escape_csv_undone(const char *cell)
{
    return *cell == '\'' && begins_formula(cell + 1) ? cell + 1 : cell;
}

static bool is_blank(char c)
{
    return c == ' ' || c == '\t';
}

#define EACH_BYTE(byte) ((byte)*UINT64_C(0x0101010101010101))

/* Not 0 if one of the eight bytes is this one: (x - 1) & ~x sets the highest bit of a byte that is 0, and of those
 * that it borrows from. */
static uint64_t find_byte(uint64_t eight, unsigned char byte)
{
    uint64_t zero_there = eight ^ EACH_BYTE(byte);
    return (zero_there - EACH_BYTE(1)) & ~zero_there & EACH_BYTE(0x80);
}

static bool must_be_quoted(uint64_t eight)
{
    return (find_byte(eight, ',') | find_byte(eight, '"') | find_byte(eight, '\r') | find_byte(eight, '\n')) != 0;
}

/* Is the text its own CSV cell, where formulas do not matter? Eight bytes at a time because measured: this runs for
 * every text of a table. */
static bool is_plain_in_csv(const char *text, size_t length)
{
    uint64_t eight = 0;
    /* Many readers strip blanks outside quotes. */
    if (!length || is_blank(text[0]) || is_blank(text[length - 1]))
        return !length;
    for (; length >= sizeof eight; text += sizeof eight, length -= sizeof eight) {
        memcpy(&eight, text, sizeof eight);
        if (must_be_quoted(eight))
            return false;
    }
    for (eight = 0; length; length--)
        eight = eight << 8 | (unsigned char)text[length - 1];
    return !must_be_quoted(eight);
}

static char *double_quotes(char *to, const char *text, size_t length)
{
    for (size_t i = 0; i < length; i++) {
        if (text[i] == '"')
            *to++ = '"';
        *to++ = text[i];
    }
    return to;
}

char *escape_csv_to(char *to, const char *text, size_t length, bool spreadsheet_safe)
{
    bool quoted = !is_plain_in_csv(text, length);
    if (quoted)
        *to++ = '"';
    if (spreadsheet_safe && begins_formula(text))
        *to++ = '\'';
    if (quoted) {
        to = double_quotes(to, text, length);
        *to++ = '"';
    } else {
        memcpy(to, text, length);
        to += length;
    }
    return to;
}

#define PIECE_BYTES ((size_t)4096) /* a long text is written in pieces of this size */

void escape_csv(struct output *output, const char *text, bool spreadsheet_safe)
{
    size_t length = text ? strlen(text) : 0;
    if (!length)
        return;
    bool quoted = !is_plain_in_csv(text, length), defused = spreadsheet_safe && begins_formula(text);
    output_text(output, quoted ? (defused ? "\"'" : "\"") : defused ? "'" : "");
    if (!quoted)
        output_put(output, text, length);
    for (size_t step; quoted && length; text += step, length -= step) {
        step = length < PIECE_BYTES ? length : PIECE_BYTES;
        char *to = output_room(output, 2 * step);
        if (to)
            output_used(output, double_quotes(to, text, step));
    }
    output_text(output, quoted ? "\"" : "");
}

/* The short escape of RFC 8259, section 7; 0: there is none. */
static char json_letter(char c)
{
    static const char plain[] = "\"\\\b\f\n\r\t", letter[] = "\"\\bfnrt";
    const char *found = strchr(plain, c);
    return found ? letter[found - plain] : 0;
}

static bool stands_for_itself(char c)
{
    return (unsigned char)c >= ' ' && (unsigned char)c < 0x80 && c != '"' && c != '\\';
}

bool is_plain_in_json(const char *text, size_t length)
{
    while (length && stands_for_itself(text[length - 1]))
        length--;
    return !length;
}

void escape_json(struct output *output, const char *text)
{
    output_put(output, "\"", 1);
    for (const char *run = text ? text : ""; *run;) {
        const char *at = run;
        while (stands_for_itself(*at))
            at++;
        output_put(output, run, (size_t)(at - run));
        if (!*at)
            break;
        if ((unsigned char)*at >= 0x80) {
            utf8proc_int32_t point;
            size_t used = next_character(at, &point);
            if (point == REPLACEMENT)
                output_text(output, "\xEF\xBF\xBD");
            else
                output_put(output, at, used);
            run = at + used;
            continue;
        }
        if (json_letter(*at))
            output_put(output, (char[]){'\\', json_letter(*at)}, 2);
        else
            output_printf(output, "\\u%04X", (unsigned)*at);
        run = at + 1;
    }
    output_put(output, "\"", 1);
}

/* The text with control characters made visible and only good UTF-8 in it. Most texts are printable ASCII: they need
 * no copy. */
static const char *cleaned(struct arena *arena, const char *text)
{
    text = text_visible(arena, text ? text : "");
    size_t length = strlen(text);
    if (text_plain(text, length) == length)
        return text;
    char *out = arena_alloc(arena, length * 3 + 1);
    utf8proc_int32_t point;
    size_t used = 0;
    for (size_t step; *text; text += step) {
        step = next_character(text, &point);
        used += (size_t)utf8proc_encode_char(point, (utf8proc_uint8_t *)out + used);
    }
    out[used] = 0;
    return out;
}

char *escape_gnuplot(struct arena *arena, const char *text)
{
    text = cleaned(arena, text);
    char *out = arena_alloc(arena, strlen(text) * 4 + 3);
    size_t used = 0;
    out[used++] = '"';
    for (bool octal = false; *text; text++) {
        /* gnuplot reads all octal digits after a backslash as one number, not only three: "\0567" is w, not .7 */
        octal = !(is_ascii_word(*text) || *text == ' ') || (octal && *text >= '0' && *text <= '7');
        if (octal)
            used += (size_t)snprintf(out + used, 5, "\\%03o", (unsigned)(unsigned char)*text);
        else
            out[used++] = *text;
    }
    out[used++] = '"';
    return out;
}

char *escape_gnuplot_cell(struct arena *arena, const char *text)
{
    return escape_gnuplot(arena, text);
}

static const char *html_entity(char c)
{
    switch (c) {
    case '&':
        return "&amp;";
    case '<':
        return "&lt;";
    case '>':
        return "&gt;";
    case '"':
        return "&quot;";
    case '\'':
        return "&#39;";
    default:
        return NULL;
    }
}

void escape_html(struct output *output, const char *text)
{
    struct arena *scratch = NULL;
    text = text ? text : "";
    size_t length = strlen(text);
    if (text_plain(text, length) < length) {
        scratch = arena_new();
        text = cleaned(scratch, text);
    }
    for (const char *run = text; *text; run = text) {
        const char *entity = NULL;
        while (*text && !(entity = html_entity(*text)))
            text++;
        output_put(output, run, (size_t)(text - run));
        if (*text) {
            output_text(output, entity);
            text++;
        }
    }
    arena_free(scratch);
}

static bool may_stand_in_name(utf8proc_int32_t point)
{
    if (point < 0x80)
        return is_ascii_word(point) || point == '_';
    utf8proc_category_t category = utf8proc_category(point);
    return (category >= UTF8PROC_CATEGORY_LU && category <= UTF8PROC_CATEGORY_NO) && point != REPLACEMENT;
}

char *escape_file_name(struct arena *arena, const char *text)
{
    char *out = arena_alloc(arena, FILE_NAME_BYTES + 1);
    utf8proc_int32_t point;
    size_t used = 0, step;
    bool dash = false;
    for (text = text ? text : ""; *text; text += step) {
        step = next_character(text, &point);
        if (!may_stand_in_name(point)) {
            dash = used > 0;
            continue;
        }
        if (used + dash + step > FILE_NAME_BYTES)
            break;
        if (dash)
            out[used++] = '-';
        dash = false;
        memcpy(out + used, text, step);
        used += step;
    }
    return used ? out : arena_copy(arena, "unnamed");
}
