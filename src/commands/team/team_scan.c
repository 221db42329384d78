#include "commands/team/team_scan.h"

#include "base/number.h"
#include "base/text.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define DEEPEST 16 /* of our own files: 3 */
#define NUMBER_BYTES 64

struct scan scan_of(char *text, size_t length)
{
    return (struct scan){.at = text, .bad = strlen(text) != length || !text_is_utf8(text, length)};
}

static char next(struct scan *scan)
{
    while (*scan->at == ' ' || *scan->at == '\n' || *scan->at == '\t' || *scan->at == '\r')
        scan->at++;
    return scan->bad ? 0 : *scan->at;
}

static bool fail(struct scan *scan)
{
    scan->bad = true;
    return false;
}

static bool take(struct scan *scan, char wanted)
{
    if (next(scan) != wanted)
        return fail(scan);
    scan->at++;
    return true;
}

static bool take_word(struct scan *scan, const char *word)
{
    if (strncmp(scan->at, word, strlen(word)) != 0)
        return fail(scan);
    scan->at += strlen(word);
    return true;
}

bool scan_end(struct scan *scan)
{
    return !next(scan) && !scan->depth && !scan->bad;
}

/* --- arrays and objects -------------------------------------------------------------------------------------------- */

bool scan_at(struct scan *scan, char opening)
{
    return next(scan) == opening;
}

bool scan_begin(struct scan *scan, char opening)
{
    if (!scan_at(scan, opening)) {
        scan_skip(scan);
        return false;
    }
    scan->at++;
    return ++scan->depth > DEEPEST ? fail(scan) : true;
}

bool scan_more(struct scan *scan, char closing)
{
    char sign = next(scan);
    if (sign == closing) {
        scan->at++;
        scan->depth--;
        return false;
    }
    if (sign == ',')
        scan->at++;
    return next(scan) ? true : fail(scan);
}

/* --- values -------------------------------------------------------------------------------------------------------- */

/* Our own files have \u only for control characters. */
static bool unescape(struct scan *scan, char **to)
{
    static const char signs[] = "\"\\/bfnrt", meant[] = "\"\\/\b\f\n\r\t";
    const char *found = *scan->at ? strchr(signs, *scan->at) : NULL;
    if (found) {
        *(*to)++ = meant[found - signs];
        scan->at++;
        return true;
    }
    char digits[5] = "", *end;
    if (*scan->at != 'u' || strlen(scan->at) < sizeof digits)
        return fail(scan);
    memcpy(digits, scan->at + 1, sizeof digits - 1);
    unsigned long point = strtoul(digits, &end, 16);
    if (*end || !point || point > 0x7F)
        return fail(scan);
    *(*to)++ = (char)point;
    scan->at += sizeof digits;
    return true;
}

const char *scan_text(struct scan *scan)
{
    if (!scan_at(scan, '"')) {
        scan_skip(scan);
        return "";
    }
    char *begin = ++scan->at, *to = begin;
    while (!scan->bad) {
        size_t plain = strcspn(scan->at, "\"\\");
        if (to != scan->at)
            memmove(to, scan->at, plain);
        to += plain;
        scan->at += plain;
        if (!*scan->at)
            fail(scan);
        else if (*scan->at++ == '"')
            break;
        else
            unescape(scan, &to);
    }
    *to = 0;
    return scan->bad ? "" : begin;
}

const char *scan_name(struct scan *scan)
{
    if (!scan_at(scan, '"'))
        fail(scan);
    const char *name = scan->bad ? "" : scan_text(scan);
    take(scan, ':');
    return name;
}

double scan_number(struct scan *scan)
{
    char copy[NUMBER_BYTES], first = next(scan);
    size_t length = strspn(scan->at, "-+.eE0123456789");
    double number = 0;
    if (first != '-' && (first < '0' || first > '9')) {
        scan_skip(scan);
        return 0;
    }
    if (number_prefix(scan->at, length, '.', &number) != length) { /* it has a sign or an exponent */
        snprintf(copy, sizeof copy, "%.*s", (int)(length < sizeof copy ? length : 0), scan->at);
        if (!number_whole(copy, '.', &number))
            fail(scan);
    }
    scan->at += length;
    return number;
}

bool scan_true(struct scan *scan)
{
    if (next(scan) == 't')
        return take_word(scan, "true");
    scan_skip(scan);
    return false;
}

void scan_skip(struct scan *scan)
{
    char first = next(scan);
    if (first == '{' || first == '[') {
        char closing = first == '{' ? '}' : ']';
        for (bool any = scan_begin(scan, first); any && scan_more(scan, closing); scan_skip(scan))
            if (first == '{')
                scan_name(scan);
    } else if (first == '"') {
        scan_text(scan);
    } else if (first == '-' || (first >= '0' && first <= '9')) {
        scan_number(scan);
    } else {
        take_word(scan, first == 't' ? "true" : first == 'f' ? "false" : "null");
    }
}
