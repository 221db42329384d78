/* Sets kept small: a log of ten million sets in a few bytes a set, by lifter, for what needs no more of a set than its totals.
 *
 * A lifter's sets stand in the order added, each as small numbers of one to five bytes: its load, its manner (all else that counts),
 * and how many alike follow each other. Notes and velocities are left out. A set's line is exact where it is the first of its lifter,
 * day, lift and file, the first in its file with that AR, or of the body; else it is that of the nearest such set before it. */
#ifndef TAUTLINE_MODEL_LEDGER_H
#define TAUTLINE_MODEL_LEDGER_H

#include "model/set.h"

struct ledger;

struct ledger_span /* of one lifter in one file */
{
    uint32_t file;
    day_number first, last;
};

struct ledger *ledger_new(struct arena *arena);
void ledger_add(struct ledger *ledger, const struct set *set);
/* Forgets what the file gave: it was refused as a whole. No set of it is added afterwards. */
void ledger_drop_file(struct ledger *ledger, uint32_t file);
/* Puts a lifter's sets behind those of log->sets, which is this ledger's log. */
void ledger_read(struct ledger *ledger, struct log *log, uint32_t lifter);
const struct ledger_span *ledger_spans(const struct ledger *ledger, uint32_t lifter, size_t *count); /* in the order read */

/* Moves the log's sets from `first` on to its ledger, if it has one and nothing points at a set by its place. */
void log_keep_small(struct log *log, size_t first);
/* Takes all sets out of the ledger, which is gone then: before those that are in log->sets already. */
void log_expand(struct log *log);

#endif
