/* Dates as people and exports write them. */
#ifndef TAUTLINE_READING_DAY_H
#define TAUTLINE_READING_DAY_H

#include "base/date.h"
#include "model/gear.h"

#include <stdbool.h>

enum written_day_kind
{
    DAY_UNREADABLE,
    DAY_SURE,     /* ISO, dotted (day first), or a month name */
    DAY_EITHER,   /* 03/04/2026: both `dmy` and `mdy` exist */
    DAY_DMY_ONLY, /* 25/04/2026: exists only with the day first */
    DAY_MDY_ONLY,
    DAY_IMPOSSIBLE, /* looks like a date, but does not exist: 2026-02-30 */
    DAY_FAR         /* a day before FIRST_YEAR or after LAST_YEAR */
};

/* Logs are not from other years, and one mistyped year would make a row for each week of thousands of years. */
#define FIRST_YEAR 1900
#define LAST_YEAR 2199

struct written_day
{
    enum written_day_kind kind;
    day_number day;      /* DAY_SURE */
    day_number dmy, mdy; /* NO_DAY if that reading does not exist */
};

/* ISO 8601 (2026-01-12, 20260112, week and ordinal dates 2026-W03-1, 2026-012); anything after T or a blank counts as
 * time and zone and is ignored; 12.1.2026 and 12.01.26 (day first); 03/04/2026, 3-4-26; 12 Jan 2026, January 12,
 * 2026, Mon 12 January 2026. Two-digit years are 20yy. English month names, full or three letters, any case. The text
 * must end in NUL, but nothing is read beyond it. */
struct written_day day_read(const char *text);

/* The same for a date without its year, which is in `year`: 8 Jun, Jun 8, Mon 8 Jun, 8.6., 8/6. DAY_UNREADABLE: it is
 * none of these. */
struct written_day day_read_in_year(const char *text, int year);

/* The whole file decides: pass on every written day in order, then ask. */
struct day_order
{
    bool saw_dmy, saw_mdy, saw_either;       /* there were values that settle it, and values that do not */
    bool dmy_up, dmy_down, mdy_up, mdy_down; /* rows are in order (not all equal) in that reading */
    /* the rest is internal */
    day_number last_dmy, last_mdy;
    bool dmy_differs, mdy_differs;
    bool begun;
};

void day_order_begin(struct day_order *order);
void day_order_see(struct day_order *order, const struct written_day *written);

enum day_settled
{
    SETTLED_ISO, /* nothing to settle */
    SETTLED_DMY,
    SETTLED_MDY,
    SETTLED_DMY_BY_ORDER, /* assumed: the rows are in order in this reading only */
    SETTLED_MDY_BY_ORDER,
    SETTLED_NOT, /* both remain possible */
    SETTLED_BOTH /* some rows have the day first, others the month */
};
enum day_settled day_order_settle(const struct day_order *order);

#endif
