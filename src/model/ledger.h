/* Sets kept small: a log of ten million sets in a few bytes a set, by lifter, for what needs no more of a set than its totals.
 *
 * A lifter's sets stand in the order added, each as small numbers: its load, its manner (all else that counts), and how many alike follow
 * each other. Notes and velocities are left out. A set's line is exact where it is the first of its lifter, day, lift and file, the first
 * in its file with that AR, or of the body; else it is that of such a set before it, which is no further up than the first with its AR. */
#ifndef TAUTLINE_MODEL_LEDGER_H
#define TAUTLINE_MODEL_LEDGER_H

#include "model/set.h"

struct ledger;

struct ledger_span /* of one lifter in one file, or in the stretch of it that a part has */
{
    uint32_t file;
    day_number first, last;
    /* The rest is the ledger's: where the sets stand. */
    uint32_t lines; /* of the file before the part's first */
    size_t begin;
    const uint32_t *words, *end; /* of a joined part; NULL: in the lifter's own book, from `begin` on */
    const struct ledger *part;
    const struct ledger_numbers *numbers;
};

struct ledger_numbers /* what a part's numbers are in the whole log, by the part's; it outlives the whole's ledger */
{
    LIST(const struct load *) loads;
    LIST(uint32_t) lifters;
    LIST(uint32_t) lifts;
};

struct ledger *ledger_new(struct arena *arena);
void ledger_add(struct ledger *ledger, const struct set *set);
/* Forgets what the file gave, which was the last one: it was refused as a whole, or is read once more. */
void ledger_drop_file(struct ledger *ledger, uint32_t file);
/* Puts a lifter's sets behind those of log->sets; log->loads are those of the ledger's log. While nothing is added many may read at once. */
void ledger_read(const struct ledger *ledger, struct log *log, uint32_t lifter);

bool ledger_notes_count(const struct ledger *ledger); /* of any set: ar_said, focus_noted */
/* These sets in place of all that the lifter has, in the order of their files. No file may be dropped after it. */
void ledger_replace(struct ledger *ledger, uint32_t lifter, const struct set *sets, size_t count);

/* A part is a ledger that one reader filled with files of its own. Its visits are of a lifter in a file each, in the order met; those of
 * one file are joined to the whole as the whole's file `file`, `lines` further down, file by file in the order of the whole. The part stays
 * as it is then. */
size_t ledger_visits(const struct ledger *part);
void ledger_join(struct ledger *ledger, const struct ledger *part, const struct ledger_numbers *numbers, size_t first_visit, size_t visits_end,
                 uint32_t file, uint32_t lines);
const struct ledger_span *ledger_spans(const struct ledger *ledger, uint32_t lifter, size_t *count); /* in the order read */

/* Moves the log's sets from `first` on to its ledger, if it has one and nothing points at a set by its place. */
void log_keep_small(struct log *log, size_t first);
/* Takes all sets out of the ledger, which is gone then; those of one file stand together, files in their order. */
void log_expand(struct log *log);

#endif
