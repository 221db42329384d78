#include "reading/years.h"

#include "base/date.h"

#include <string.h>

#define HALF_A_YEAR 183 /* days */

static int year_in(const char *name)
{
    int year = 0;
    for (const char *at = name; *at; at++) {
        size_t digits = strspn(at, "0123456789");
        if (digits == 4 && ((at[0] == '2' && at[1] == '0') || (at[0] == '1' && at[1] == '9')))
            year = (at[0] - '0') * 1000 + (at[1] - '0') * 100 + (at[2] - '0') * 10 + (at[3] - '0');
        at += digits ? digits - 1 : 0;
    }
    return year;
}

int year_of_names(const char *name, const char *path)
{
    const char *slash = strrchr(path, '/');
    int year = name ? year_in(name) : 0;
    return year ? year : year_in(slash ? slash + 1 : path);
}

day_number written_any_day(const struct written_day *written)
{
    return written->kind == DAY_SURE ? written->day : written->dmy != NO_DAY ? written->dmy : written->mdy;
}

int year_after(const char *text, day_number above, int named)
{
    int year, month, day_of_month;
    if (above == NO_DAY)
        return named;
    date_split(above, &year, &month, &day_of_month);
    struct written_day written = day_read_in_year(text, year);
    day_number day = written_any_day(&written);
    return year + (day != NO_DAY && above - day > HALF_A_YEAR);
}
