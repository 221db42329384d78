#include "reading/day.h"

#include <stddef.h>
#include <string.h>
#include <strings.h>

/* A date is at most three numbers and their separators; the name of a month counts as a number. */
struct part
{
    int value;
    int digits;  /* 0: a month name */
    char before; /* the separator before it: '/', '-', '.', or ' ' for anything else */
};

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

static bool is_letter(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

static const char *skip_blanks(const char *text)
{
    for (;;)
        if (*text == ' ' || *text == '\t' || *text == '\n')
            text++;
        else if (!strncmp(text, "\xC2\xA0", 2))
            text += 2;
        else if (!strncmp(text, "\xE2\x80\xAF", 3))
            text += 3;
        else
            return text;
}

/* Reads at most `most` digits; returns how many, 0 for none or too many. */
static int digits_read(const char **text, int most, int *value)
{
    int count = 0;
    *value = 0;
    for (; is_digit(**text) && count <= most; ++*text, count++)
        *value = *value * 10 + (**text - '0');
    return count > most ? 0 : count;
}

/* What may follow a date: nothing, or a time and zone after T or a blank, which are ignored. */
static bool is_tail(const char *text)
{
    const char *rest = skip_blanks(text);
    return !*rest || rest > text || *rest == 'Z' || ((*rest == 'T' || *rest == 't') && is_digit(rest[1])) ||
           *rest == ',';
}

static struct written_day sure(bool exists, day_number day)
{
    return (struct written_day){.kind = exists ? DAY_SURE : DAY_IMPOSSIBLE, .day = day, .dmy = NO_DAY, .mdy = NO_DAY};
}

static struct written_day sure_date(int year, int month, int day)
{
    day_number number = NO_DAY;
    bool exists = date_make(year, month, day, &number);
    return sure(exists, number);
}

static const struct written_day unreadable = {DAY_UNREADABLE, NO_DAY, NO_DAY, NO_DAY};

static struct written_day week_date(int year, int week, int weekday)
{
    week_number number;
    bool exists = weekday >= 1 && weekday <= 7 && week_make(year, week, &number);
    return sure(exists, exists ? week_monday(number) + weekday - 1 : NO_DAY);
}

static struct written_day ordinal_date(int year, int day_of_year)
{
    day_number first, next;
    bool exists = date_make(year, 1, 1, &first) && (year == 9999 || date_make(year + 1, 1, 1, &next)) &&
                  day_of_year >= 1 && day_of_year <= (year == 9999 ? 365 : next - first);
    return sure(exists, exists ? first + day_of_year - 1 : NO_DAY);
}

/* Forms that begin with a year of four digits, including their tail (ISO 8601-1:2019, 5.2); false: none of them. */
static bool iso_read(const char *text, struct written_day *written)
{
    int value, number, count = digits_read(&text, 8, &value);
    if ((count == 8 || count == 7) && is_tail(text)) {
        *written = count == 8 ? sure_date(value / 10000, value / 100 % 100, value % 100)
                              : ordinal_date(value / 1000, value % 1000);
        return true;
    }
    if (count != 4)
        return false;
    bool dashed = *text == '-';
    text += dashed;
    if (*text == 'W' || *text == 'w') {
        text++;
        int digits = digits_read(&text, 3, &number);
        if (digits == 3 && !dashed && is_tail(text))
            return *written = week_date(value, number / 10, number % 10), true;
        if (digits != 2 || !dashed || *text != '-' || !is_digit(text[1]) || !is_tail(text + 2))
            return false;
        return *written = week_date(value, number, text[1] - '0'), true;
    }
    if (dashed && digits_read(&text, 3, &number) == 3 && is_tail(text))
        return *written = ordinal_date(value, number), true;
    return false;
}

/* Whole English month names and their first three letters (and "sept"). */
static int month_read(const char *word, size_t length)
{
    static const char *const names[] = {"january", "february", "march",     "april",   "may",      "june",
                                        "july",    "august",   "september", "october", "november", "december"};
    for (int i = 0; i < 12; i++) {
        bool fits = length == 3 || length == strlen(names[i]) || (i == 8 && length == 4);
        if (fits && !strncasecmp(word, names[i], length))
            return i + 1;
    }
    return 0;
}

static bool is_weekday(const char *word, size_t length)
{
    static const char *const names[] = {"monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++)
        if (length >= 2 && length <= strlen(names[i]) && !strncasecmp(word, names[i], length))
            return true;
    return false;
}

static bool is_ordinal_ending(const char *word, size_t length)
{
    return length == 2 && (!strncasecmp(word, "st", 2) || !strncasecmp(word, "nd", 2) || !strncasecmp(word, "rd", 2) ||
                           !strncasecmp(word, "th", 2));
}

/* A number, or a month's name; weekday names and "of" are skipped. Moves `*text` past it. */
static bool part_read(const char **text, struct part *part)
{
    for (;;) {
        const char *word = *text;
        if (is_digit(*word)) {
            part->digits = digits_read(text, 4, &part->value);
            const char *ending = *text;
            while (is_letter(*ending))
                ending++;
            if (is_ordinal_ending(*text, (size_t)(ending - *text)))
                *text = ending;
            return part->digits > 0;
        }
        while (is_letter(**text))
            ++*text;
        size_t length = (size_t)(*text - word);
        part->digits = 0;
        part->value = month_read(word, length);
        if (part->value)
            *text += **text == '.' && part->value;
        if (part->value || (!is_weekday(word, length) && !(length == 2 && !strncasecmp(word, "of", 2))))
            return part->value;
        *text += **text == '.' || **text == ',';
        *text = skip_blanks(*text);
    }
}

/* Three parts and their separators; then the tail. */
static bool parts_read(const char *text, struct part parts[3])
{
    for (int i = 0; i < 3; i++) {
        parts[i].before = ' ';
        if (i) {
            text = skip_blanks(text);
            parts[i].before = *text && strchr("/-.", *text) ? *text : ' ';
            if (*text && strchr("/-.,", *text))
                text = skip_blanks(text + 1);
        }
        if (!part_read(&text, &parts[i]))
            return false;
    }
    return is_tail(text);
}

static bool year_of(const struct part *part, int *year)
{
    *year = part->digits == 2 ? 2000 + part->value : part->value;
    return part->digits == 2 || part->digits == 4;
}

/* 12 January 2026, January 12 2026, 2026 Jan 12. */
static struct written_day named_month(const struct part parts[3])
{
    int year;
    if (!parts[0].digits && parts[1].digits && parts[1].digits <= 2 && year_of(&parts[2], &year))
        return sure_date(year, parts[0].value, parts[1].value);
    if (!parts[1].digits && parts[0].digits && parts[0].digits <= 2 && year_of(&parts[2], &year))
        return sure_date(year, parts[1].value, parts[0].value);
    if (!parts[1].digits && parts[0].digits == 4 && parts[2].digits && parts[2].digits <= 2)
        return sure_date(parts[0].value, parts[1].value, parts[2].value);
    return unreadable;
}

static struct written_day day_and_month(const struct part parts[3])
{
    struct written_day written = unreadable;
    int year;
    if (parts[0].digits > 2 || parts[1].digits > 2 || !year_of(&parts[2], &year))
        return unreadable;
    bool dmy = date_make(year, parts[1].value, parts[0].value, &written.dmy);
    bool mdy = date_make(year, parts[0].value, parts[1].value, &written.mdy);
    if (dmy && mdy && written.dmy == written.mdy) /* 04/04/2026 */
        return sure(true, written.dmy);
    written.kind = dmy && mdy ? DAY_EITHER : dmy ? DAY_DMY_ONLY : mdy ? DAY_MDY_ONLY : DAY_IMPOSSIBLE;
    return written;
}

static struct written_day form_read(const char *text)
{
    struct written_day written;
    struct part parts[3];
    int year;
    text = skip_blanks(text);
    if (iso_read(text, &written))
        return written;
    if (!parts_read(text, parts))
        return unreadable;
    if (!parts[0].digits || !parts[1].digits || !parts[2].digits)
        return named_month(parts);
    if (parts[1].before != parts[2].before || parts[1].before == ' ')
        return unreadable;
    if (parts[0].digits == 4)
        return parts[1].digits <= 2 && parts[2].digits <= 2 ? sure_date(parts[0].value, parts[1].value, parts[2].value)
                                                            : unreadable;
    if (parts[1].before != '.')
        return day_and_month(parts);
    bool dotted = parts[0].digits <= 2 && parts[1].digits <= 2 && year_of(&parts[2], &year);
    return dotted ? sure_date(year, parts[1].value, parts[0].value) : unreadable;
}

static bool is_far(day_number day)
{
    int year, month, day_of_month;
    if (day == NO_DAY)
        return false;
    date_split(day, &year, &month, &day_of_month);
    return year < FIRST_YEAR || year > LAST_YEAR;
}

struct written_day day_read(const char *text)
{
    struct written_day written = form_read(text);
    if (is_far(written.day) || is_far(written.dmy) || is_far(written.mdy))
        return (struct written_day){DAY_FAR, NO_DAY, NO_DAY, NO_DAY};
    return written;
}

/* Two parts and their separators; then the tail, which in "8.6." includes the last point. */
static bool two_parts_read(const char *text, struct part parts[2])
{
    if (!part_read(&text, &parts[0]))
        return false;
    text = skip_blanks(text);
    parts[1].before = *text && strchr("/-.", *text) ? *text : ' ';
    if (*text && strchr("/-.,", *text))
        text = skip_blanks(text + 1);
    if (!part_read(&text, &parts[1]))
        return false;
    if (parts[1].before == '.' && *text == '.')
        text++;
    return is_tail(text);
}

struct written_day day_read_in_year(const char *text, int year)
{
    struct part parts[3];
    text = skip_blanks(text);
    if (!two_parts_read(text, parts) || parts[0].digits > 2 || parts[1].digits > 2)
        return unreadable;
    if (!parts[0].digits && parts[1].digits)
        return sure_date(year, parts[0].value, parts[1].value);
    if (parts[0].digits && !parts[1].digits)
        return sure_date(year, parts[1].value, parts[0].value);
    if (!parts[0].digits || parts[1].before == ' ')
        return unreadable;
    if (parts[1].before == '.')
        return sure_date(year, parts[1].value, parts[0].value);
    parts[2] = (struct part){.value = year, .digits = 4, .before = parts[1].before};
    return day_and_month(parts);
}

void day_order_begin(struct day_order *order)
{
    *order = (struct day_order){.dmy_up = true, .dmy_down = true, .mdy_up = true, .mdy_down = true};
}

static void see_next(day_number day, day_number *last, bool begun, bool *up, bool *down, bool *differs)
{
    if (begun) {
        *up = *up && day >= *last;
        *down = *down && day <= *last;
        *differs = *differs || day != *last;
    }
    *last = day;
}

void day_order_see(struct day_order *order, const struct written_day *written)
{
    day_number dmy = written->kind == DAY_SURE ? written->day : written->dmy,
               mdy = written->kind == DAY_SURE ? written->day : written->mdy;
    if (written->kind == DAY_DMY_ONLY)
        order->saw_dmy = true;
    else if (written->kind == DAY_MDY_ONLY)
        order->saw_mdy = true;
    else if (written->kind == DAY_EITHER)
        order->saw_either = true;
    if (written->kind != DAY_SURE && written->kind != DAY_EITHER)
        return;
    see_next(dmy, &order->last_dmy, order->begun, &order->dmy_up, &order->dmy_down, &order->dmy_differs);
    see_next(mdy, &order->last_mdy, order->begun, &order->mdy_up, &order->mdy_down, &order->mdy_differs);
    order->begun = true;
}

enum day_settled day_order_settle(const struct day_order *order)
{
    if (order->saw_dmy && order->saw_mdy)
        return SETTLED_BOTH;
    if (order->saw_dmy || order->saw_mdy)
        return order->saw_dmy ? SETTLED_DMY : SETTLED_MDY;
    if (!order->saw_either)
        return SETTLED_ISO;
    bool dmy = order->dmy_differs && (order->dmy_up || order->dmy_down);
    bool mdy = order->mdy_differs && (order->mdy_up || order->mdy_down);
    if (dmy != mdy)
        return dmy ? SETTLED_DMY_BY_ORDER : SETTLED_MDY_BY_ORDER;
    return SETTLED_NOT;
}
