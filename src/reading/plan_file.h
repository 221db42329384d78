/* A plan as `plan --format csv` writes it: what was to be lifted, week by week.
 *
 * Columns are found by name, in any order: lift, focus, week and straight_kg are required; lifter, step, bottom_kg,
 * top_kg, mean_kg, volume_mean_kg and ar are optional. Load columns may end in _lb. Other columns are ignored. */
#ifndef TAUTLINE_READING_PLAN_FILE_H
#define TAUTLINE_READING_PLAN_FILE_H

#include "base/arena.h"
#include "base/date.h"
#include "base/diag.h"
#include "model/set.h"
#include "reading/input/input.h"

#include <stddef.h>

struct planned_week
{
    const char *lifter, *lift; /* as written; "" if there is no name */
    enum focus focus;
    week_number week;
    unsigned step; /* 0: not given */
    double straight_kg;
    double bottom_kg, top_kg, mean_kg, volume_mean_kg; /* NAN: not given */
    const char *ar;
    uint32_t line;
};

struct planned_weeks
{
    LIST(struct planned_week) list;
};

/* False: it is not a plan, already reported. A row that cannot be read is refused and reported. */
bool plan_read(struct arena *arena, struct input *input, struct diags *diags, struct planned_weeks *plan);

#endif
