/* What a log file, CSV or text, adds up to: counted while it is read, said once at its end. */
#ifndef TAUTLINE_READING_TALLY_H
#define TAUTLINE_READING_TALLY_H

#include "reading/log_reader.h"

#include <stdint.h>

struct tally /* how often, and the line of the first; zeroed: never */
{
    uint32_t count, line;
};

void tally_add(struct tally *tally, uint32_t more, uint32_t line);

struct lift_tally /* of one lift in the file */
{
    struct tally unweighed; /* sets without weight */
    struct tally aside;     /* lines that are not sets: runs, planks */
};

struct waiting_tally /* of a lift whose name others settle: said later */
{
    const char *path;
    uint32_t lift;
    struct lift_tally tally;
};

struct waiting_tallies
{
    LIST(struct waiting_tally) list;
};

/* Each of these says nothing of what never happened. The lifts come last: where the reading has a list for them, they
 * are put there. */
void tally_say_lift(struct reading *reading, const char *path, uint32_t lift, const struct lift_tally *tally);
void tally_say_unit(struct reading *reading, const char *path, enum mass_unit unit, const struct tally *assumed);

/* Widens the file's first and last day to hold this one. */
void tally_day(struct log_file *file, day_number day);
/* Counts log->sets from `first` on as the file's, with their first and last day. */
void tally_sets(const struct log *log, struct log_file *file, size_t first);

#define REFUSED_AT_MOST 20000

/* So many lines refused and next to none read: the file is not a log, which is said, and its rest is left unread.
 * `sets`: of it, so far. */
bool tally_gives_up(struct reading *reading, const struct log_file *file, size_t sets, uint32_t line);

#endif
