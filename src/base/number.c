#include "base/number.h"

#include "base/system.h"

#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

/* Powers of ten that a double holds exactly: with at most 15 digits before, one division rounds once, as strtod does.
 */
static const double exact_power[] = {1e0, 1e1, 1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                                     1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15};

size_t number_prefix(const char *text, size_t length, char decimal, double *value)
{
    size_t at = 0, digits = 0, after = 0;
    uint64_t whole = 0;
    bool point = false;
    for (; at < length; at++) {
        if (is_digit(text[at])) {
            whole = whole * 10 + (uint64_t)(text[at] - '0');
            if (digits || text[at] != '0')
                digits++;
            after += point;
            if (digits > 15)
                break;
        } else if (text[at] == decimal && !point && at + 1 < length && is_digit(text[at + 1])) {
            point = true;
        } else {
            break;
        }
    }
    if (digits <= 15) {
        if (at == 0 || after > 15)
            return 0;
        *value = (double)whole / exact_power[after];
        return at;
    }
    /* Longer than a double holds exactly: strtod rounds it right. */
    char copy[320];
    for (at = 0, point = false; at < length && at < sizeof copy - 1; at++) {
        if (is_digit(text[at]))
            copy[at] = text[at];
        else if (text[at] == decimal && !point && at + 1 < length && is_digit(text[at + 1]))
            copy[at] = '.', point = true;
        else
            break;
    }
    copy[at] = 0;
    if (at == sizeof copy - 1)
        return 0;
    *value = strtod(copy, NULL);
    return isfinite(*value) ? at : 0;
}

static size_t blank(const char *text)
{
    if (*text == ' ' || *text == '\t' || *text == '\n' || *text == '\r')
        return 1;
    if (!memcmp(text, "\xC2\xA0", text[0] ? 2 : 1))
        return 2;
    return strncmp(text, "\xE2\x80\xAF", 3) ? 0 : 3; /* narrow no-break space */
}

static size_t thousands_sign(const char *text, char decimal)
{
    if (*text == '\'' || (*text == ',' && decimal != ',') || (*text == '.' && decimal != '.'))
        return 1;
    return *text == '\t' || *text == '\n' || *text == '\r' ? 0 : blank(text);
}

bool number_whole(const char *text, char decimal, double *value)
{
    char copy[320];
    size_t used = 0, group = 0, step;
    bool grouped = false, point = false;
    while ((step = blank(text)))
        text += step;
    if (*text == '+' || *text == '-') {
        copy[used++] = *text++;
    }
    size_t first = used;
    for (; *text && used < sizeof copy - 8; text += step) {
        step = 1;
        if (is_digit(*text)) {
            copy[used++] = *text;
            group++;
        } else if (*text == decimal && !point) {
            if (grouped && group != 3)
                return false;
            point = true;
            copy[used++] = '.';
            group = 0;
        } else if (!point && group && (step = thousands_sign(text, decimal)) && is_digit(text[step])) {
            if (grouped ? group != 3 : group > 3)
                return false;
            grouped = true;
            group = 0;
        } else {
            break;
        }
    }
    if (grouped && !point && group != 3)
        return false;
    if (used == first || (used == first + 1 && point))
        return false;
    if ((*text == 'e' || *text == 'E') &&
        (is_digit(text[1]) || ((text[1] == '+' || text[1] == '-') && is_digit(text[2])))) {
        copy[used++] = 'e';
        text++;
        do
            copy[used++] = *text++;
        while (is_digit(*text) && used < sizeof copy - 1);
    }
    while ((step = blank(text)))
        text += step;
    if (*text)
        return false;
    copy[used] = 0;
    *value = strtod(copy, NULL);
    return isfinite(*value);
}

static char *print_pair(char *to, uint64_t below_100)
{
    static const char pairs[] =
        "00010203040506070809101112131415161718192021222324252627282930313233343536373839404142434445464748"
        "495051525354555657585960616263646566676869707172737475767778798081828384858687888990919293949596979899";
    memcpy(to, pairs + 2 * below_100, 2);
    return to + 2;
}

char *number_print_digits(char *to, uint64_t number, int count)
{
    char *end = to + count;
    for (char *at = end; count > 0; number /= 100, count -= 2) {
        if (count == 1)
            at[-1] = (char)('0' + number % 10);
        else
            at = print_pair(at - 2, number % 100) - 2;
    }
    return end;
}

static int digits_in(uint64_t number)
{
    int count = 1;
    for (; number >= 10000; number /= 10000)
        count += 4;
    return count + (number >= 10) + (number >= 100) + (number >= 1000);
}

/* --- printing: by hand because measured. A table has tens of numbers a row, and snprintf takes 0.4 µs for each. ---------------- */

#define EIGHT_ZEROS UINT64_C(0x3030303030303030)

/* The eight digits of a number below 10^8, zeros in front included: the first is the lowest byte. No digit waits for
 * another: halves, quarters and eighths of the number are divided side by side in one register, by multiplying with
 * what comes close enough to 1/100 (below 10^4) and to 1/10 (below 100). */
static inline uint64_t eight_digits(uint32_t number)
{
    uint64_t fours = number / 10000 | (uint64_t)(number % 10000) << 32;
    uint64_t hundreds = fours * 10486 >> 20 & UINT64_C(0x0000007F0000007F);
    uint64_t twos = hundreds | (fours - 100 * hundreds) << 16;
    uint64_t tens = twos * 103 >> 10 & UINT64_C(0x000F000F000F000F);
    return tens | (twos - 10 * tens) << 8;
}

/* Puts eight characters, that of the lowest byte first. */
static void put_eight(char *to, uint64_t characters)
{
    characters = SYSTEM_LITTLE_64(characters);
    memcpy(to, &characters, sizeof characters);
}

int number_print_whole(char *buffer, long value)
{
    char *to = buffer;
    uint64_t size = value < 0 ? 0 - (uint64_t)value : (uint64_t)value;
    if (value < 0)
        *to++ = '-';
    if (size < 100000000) {
        uint64_t digits = eight_digits((uint32_t)size);
        int zeros = size ? __builtin_ctzll(digits) / 8 : 7; /* in front */
        put_eight(to, (digits | EIGHT_ZEROS) >> 8 * zeros);
        to += 8 - zeros;
    } else {
        to = number_print_digits(to, size, digits_in(size));
    }
    *to = 0;
    return (int)(to - buffer);
}

/* How many decimals make nine digits of a size from 0.0001 to below 10^9. */
static int decimals_for_nine(double size)
{
    uint32_t whole = (uint32_t)size;
    if (whole >= 10000)
        return 4 - (whole >= 100000) - (whole >= 1000000) - (whole >= 10000000) - (whole >= 100000000);
    if (whole)
        return 8 - (whole >= 10) - (whole >= 100) - (whole >= 1000);
    return 9 + (size < 0.1) + (size < 0.01) + (size < 0.001);
}

/* Nine digits of a value between 0.0001 and a thousand million, by one scaling. It gives up (0) where the ninth digit
 * is too near a tie to be sure, so that it always prints what snprintf does. */
static int print_nine_digits(char *buffer, double value)
{
    double size = fabs(value);
    if (!(size >= 1e-4 && size < 1e9))
        return 0;
    int after = decimals_for_nine(size);
    double scaled = size * exact_power[after];
    uint32_t nine = (uint32_t)(scaled + 0.5);
    if (fabs(fabs(scaled - nine) - 0.5) < 1e-5 || nine >= 1000000000)
        return 0;
    char *to = buffer;
    if (value < 0)
        *to++ = '-';
    uint64_t digits = eight_digits(nine % 100000000), characters = digits | EIGHT_ZEROS; /* of them all but the first */
    int whole = 9 - after, wanted = digits ? 9 - __builtin_clzll(digits) / 8 : 1; /* without the zeros at the end */
    if (whole <= 0) {
        put_eight(to, UINT64_C(0x3030303030302E30)); /* 0.000000 */
        to += 2 - whole;
    }
    to[0] = (char)('0' + nine / 100000000);
    put_eight(to + 1, characters);
    if (whole > 0 && wanted > whole) {
        put_eight(to + whole + 1, characters >> 8 * (whole - 1));
        to[whole] = '.';
        to++;
    } else if (whole > wanted) {
        wanted = whole;
    }
    to += wanted;
    *to = 0;
    return (int)(to - buffer);
}

int number_print(char *buffer, double value)
{
    if (fabs(value) < 1e9 && value == (double)(int32_t)value) /* whole, and no minus before a zero */
        return number_print_whole(buffer, (int32_t)value);
    int length = print_nine_digits(buffer, value);
    return length ? length : snprintf(buffer, 32, "%.9g", value);
}

/* A value below 10^9 with at most three decimals, by one scaling; the same for what it gives up (0). */
static int print_few_decimals(char *buffer, size_t size, double value, int decimals)
{
    if (!(fabs(value) < 1e9) || decimals < 0 || decimals > 3 || size < 16)
        return 0;
    double scaled = fabs(value) * exact_power[decimals];
    uint64_t number = (uint64_t)(scaled + 0.5), unit = (uint64_t)exact_power[decimals];
    if (fabs(fabs(scaled - (double)number) - 0.5) < 1e-3)
        return 0;
    char *to = buffer;
    if (value < 0 && number)
        *to++ = '-';
    to = number_print_digits(to, number / unit, digits_in(number / unit));
    if (decimals) {
        *to++ = '.';
        to = number_print_digits(to, number % unit, decimals);
    }
    *to = 0;
    return (int)(to - buffer);
}

int number_fixed(char *buffer, size_t size, double value, int decimals)
{
    int length = print_few_decimals(buffer, size, value, decimals);
    if (length)
        return length;
    length = snprintf(buffer, size, "%.*f", decimals, value);
    if (buffer[0] == '-' && strspn(buffer + 1, "0.") == strlen(buffer + 1)) {
        memmove(buffer, buffer + 1, strlen(buffer));
        length--;
    }
    return length;
}

int number_decimals(const char *text, size_t length, char decimal)
{
    const char *point = memchr(text, decimal, length);
    int count = 0;
    if (point)
        for (const char *digit = point + 1; digit < text + length && is_digit(*digit); digit++)
            count++;
    return count;
}
