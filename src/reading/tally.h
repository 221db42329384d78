/* Totals of a log file, CSV or text: counted while it is read, reported once at its end. */
#ifndef TAUTLINE_READING_TALLY_H
#define TAUTLINE_READING_TALLY_H

#include "reading/log_reader.h"

#include <stdint.h>

struct tally /* how often, and the line of the first; zero-initialised: never */
{
    uint32_t count, line;
};

void tally_add(struct tally *tally, uint32_t more, uint32_t line);

struct lift_tally /* of one lift in the file */
{
    struct tally unweighed; /* sets without weight */
    struct tally aside;     /* lines that are not sets: runs, planks */
};

struct waiting_tally /* of a lift whose name is settled elsewhere: reported later */
{
    const char *path;
    uint32_t lift;
    struct lift_tally tally;
};

struct waiting_tallies
{
    LIST(struct waiting_tally) list;
};

/* Each of these reports nothing for a count of 0. Lifts are reported last: if the reading has a list for them, they
 * go there. */
void tally_say_lift(struct reading *reading, const char *path, uint32_t lift, const struct lift_tally *tally);
void tally_say_unit(struct reading *reading, const char *path, enum mass_unit unit, const struct tally *assumed);

/* Extends the file's first and last day to include this one. */
void tally_day(struct log_file *file, day_number day);
/* Counts log->sets from `first` on for the file, with their first and last day. */
void tally_sets(const struct log *log, struct log_file *file, size_t first);

#define REFUSED_AT_MOST 20000

/* True if so many lines were refused and almost none read that the file cannot be a log: this is reported, and the
 * rest is not read. `sets`: its sets so far. */
bool tally_gives_up(struct reading *reading, const struct log_file *file, size_t sets, uint32_t line);

#endif
