/* A lifter's part of a session: what is written a lifter at a time must not look through all lifters' rows for each. */
#ifndef TAUTLINE_COMMANDS_SESSION_PART_H
#define TAUTLINE_COMMANDS_SESSION_PART_H

#include "commands/session/session.h"

/* Where a lifter's items lie among items of all, which are by lifter (bytes). */
struct lifter_span
{
    size_t first, count;
};
typedef const char *lifter_getter(const void *item);
struct lifter_span lifter_span(const void *items, size_t count, size_t size, lifter_getter *lifter_of,
                               const char *lifter);
lifter_getter lifter_of_verdict, lifter_of_week, lifter_of_slope, lifter_of_set;
lifter_getter lifter_of_finding; /* of a pointer to one, as struct findings holds them */

/* The lifter's sets, weeks, slopes, verdicts, findings and causes alone, which are the whole session's. What is made of
 * it is of `arena`. */
struct session *session_part(struct arena *arena, struct session *session, const char *lifter);

#endif
