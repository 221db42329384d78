#include "reading/workbook/number_format.h"

#include "base/date.h"
#include "base/number.h"

#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

/* --- format codes ------------------------------------------------------------------------------------------------ */

struct code /* the first section of a format code, letter by letter */
{
    char letters[64]; /* letters with a meaning, in lower case */
    char shown[32];   /* letters that are shown literally */
    size_t letter_count, shown_count;
    bool percent, elapsed;
};

static void keep(char *to, size_t *count, size_t room, char letter)
{
    if (*count + 1 < room)
        to[(*count)++] = (char)tolower((unsigned char)letter);
}

/* [Red], [$-409], [h]: the last one is a time that may exceed a day. */
static const char *pass_bracket(struct code *code, const char *at)
{
    char first = (char)tolower((unsigned char)at[1]);
    const char *end = strchr(at, ']');
    if ((first == 'h' || first == 'm' || first == 's') && end && (size_t)(end - at - 1) == strspn(at + 1, "hHmMsS"))
        code->elapsed = true;
    return end ? end : at + strlen(at) - 1;
}

static const char *pass_quoted(struct code *code, const char *at)
{
    const char *from = at + 1, *end = strchr(from, '"');
    for (; *from && from != end; from++)
        keep(code->shown, &code->shown_count, sizeof code->shown, *from);
    return end ? end : from - 1;
}

static void split_code(struct code *code, const char *at)
{
    for (; *at && *at != ';'; at++) {
        if (*at == '"') {
            at = pass_quoted(code, at);
        } else if (*at == '[') {
            at = pass_bracket(code, at);
        } else if ((*at == '\\' || *at == '_' || *at == '*') && at[1]) {
            if (*at++ == '\\')
                keep(code->shown, &code->shown_count, sizeof code->shown, *at);
        } else if (*at == '%') {
            code->percent = true;
        } else if (isalpha((unsigned char)*at) || *at == '/') {
            keep(code->letters, &code->letter_count, sizeof code->letters, *at);
        }
    }
}

/* Removes each `word` from the letters: AM/PM contains letters that mean something else. */
static void take_out(struct code *code, const char *word)
{
    for (char *at; (at = strstr(code->letters, word));)
        memmove(at, at + strlen(word), strlen(at + strlen(word)) + 1);
}

static uint8_t unit_shown(struct code *code)
{
    const char *from = code->shown + strspn(code->shown, " ");
    size_t length = strlen(from);
    while (length && (from[length - 1] == ' ' || from[length - 1] == '.'))
        length--;
    if ((length == 2 && !memcmp(from, "kg", 2)) || (length == 3 && !memcmp(from, "kgs", 3)))
        return 1;
    return (length == 2 && !memcmp(from, "lb", 2)) || (length == 3 && !memcmp(from, "lbs", 3)) ? 2 : 0;
}

struct number_format number_format_read(const char *text)
{
    struct code code = {0};
    split_code(&code, text);
    take_out(&code, "am/pm");
    take_out(&code, "a/p");
    take_out(&code, "general");
    take_out(&code, "standard");
    bool day = strpbrk(code.letters, "yd"), time = code.elapsed || strpbrk(code.letters, "hs");
    day = day || (strchr(code.letters, 'm') && !time); /* m is a month, except next to hours and seconds */
    if (day || time)
        return (struct number_format){.kind = day && time ? NUMBER_DAY_TIME : day ? NUMBER_DAY : NUMBER_TIME};
    if (code.percent)
        return (struct number_format){.kind = NUMBER_PERCENT};
    return (struct number_format){.unit = unit_shown(&code)};
}

struct number_format number_format_built_in(uint32_t number)
{
    static const struct
    {
        uint32_t first, last;
        enum number_kind kind;
    } ranges[] = {
        {9, 10, NUMBER_PERCENT}, {14, 17, NUMBER_DAY},  {18, 21, NUMBER_TIME}, {22, 22, NUMBER_DAY_TIME},
        {27, 31, NUMBER_DAY},    {32, 35, NUMBER_TIME}, {36, 36, NUMBER_DAY},  {45, 47, NUMBER_TIME},
        {50, 54, NUMBER_DAY},    {55, 56, NUMBER_TIME}, {57, 58, NUMBER_DAY},
    };
    for (size_t i = 0; i < sizeof ranges / sizeof *ranges; i++)
        if (number >= ranges[i].first && number <= ranges[i].last)
            return (struct number_format){.kind = (uint8_t)ranges[i].kind};
    return (struct number_format){0};
}

/* --- numbers ----------------------------------------------------------------------------------------------------- */

#define DAY_1900 (-25569) /* serial number 0, in days from 1970-01-01: right from 1 March 1900 on, serial 61 */
#define DAY_1904 (-24107)
#define LAST_SERIAL 2958465 /* 9999-12-31 */

static size_t put_time(char *to, size_t room, double day, bool seconds)
{
    long second = lround(day * 86400);
    int length = seconds || second % 60
                     ? snprintf(to, room, "%02ld:%02ld:%02ld", second / 3600, second / 60 % 60, second % 60)
                     : snprintf(to, room, "%02ld:%02ld", second / 3600, second / 60 % 60);
    return (size_t)length;
}

static size_t put_day(char buffer[NUMBER_TEXT_BYTES], double serial, bool with_time, bool epoch_1904)
{
    double second = round(serial * 86400), whole = floor(second / 86400), part = (second - whole * 86400) / 86400;
    if (!(whole >= (epoch_1904 ? 0 : 61) && whole <= LAST_SERIAL))
        return 0;
    date_print(buffer, (day_number)(whole + (epoch_1904 ? DAY_1904 : DAY_1900)));
    size_t length = strlen(buffer);
    if (with_time && part > 0) {
        buffer[length++] = ' ';
        length += put_time(buffer + length, NUMBER_TEXT_BYTES - length, part, false);
    }
    return length;
}

/* Most numbers are short, and stay as they are written: 82.5. A long one comes from a calculation:
 * 82.500000000000014. */
static size_t put_number(char buffer[NUMBER_TEXT_BYTES], const char *written, size_t length, double value)
{
    if (length <= 10 && strspn(written, "0123456789.-") >= length) {
        memcpy(buffer, written, length);
        return length;
    }
    return (size_t)number_print(buffer, value);
}

static size_t put_unit(char buffer[NUMBER_TEXT_BYTES], size_t length, const char *unit)
{
    memcpy(buffer + length, unit, strlen(unit));
    return length + strlen(unit);
}

size_t number_as_text(char buffer[NUMBER_TEXT_BYTES], const char *written, size_t length, struct number_format format,
                      bool epoch_1904)
{
    static const char *const units[] = {"", " kg", " lb"};
    char text[40];
    double value;
    if (!length || length >= sizeof text)
        return 0;
    memcpy(text, written, length);
    text[length] = 0;
    if (!number_whole(text, '.', &value) || !isfinite(value))
        return 0;
    switch ((enum number_kind)format.kind) {
    case NUMBER_PERCENT:
        return put_unit(buffer, (size_t)number_print(buffer, value * 100), "%");
    case NUMBER_TIME:
        if (value >= 0 && value < 10000)
            return put_time(buffer, NUMBER_TEXT_BYTES, value, true);
        break;
    case NUMBER_DAY:
    case NUMBER_DAY_TIME:
        return put_day(buffer, value, format.kind == NUMBER_DAY_TIME, epoch_1904);
    case NUMBER_PLAIN:
        break;
    }
    return put_unit(buffer, put_number(buffer, text, length, value), units[format.unit]);
}
