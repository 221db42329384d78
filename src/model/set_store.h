/* A compact set store: ten million sets in a few bytes per set, by lifter, for commands that need only totals.
 *
 * A lifter's sets are kept in the order added, as runs of equal sets; each run is the numbers of a weight, of AR and
 * of attributes (all else that counts) and a count. Notes and velocities are left out. Invariant on lines: the line is
 * exact for the first set of a lifter, day, lift and file, for the first set in its file with that AR, and for
 * bodyweight lifts; any other set has the line of such a set before it, which is never above the first set with its AR.
 */
#ifndef TAUTLINE_MODEL_SET_STORE_H
#define TAUTLINE_MODEL_SET_STORE_H

#include "model/set.h"

struct set_store;

struct set_store_span /* of one lifter in one file, or in the chunk of it that one worker read */
{
    uint32_t file;
    day_number first, last;
    /* The rest is private to the set store: where the sets are. */
    uint32_t lines; /* of the file before the worker's first */
    size_t begin;
    const uint32_t *words, *end; /* of a joined worker's store; NULL: in the lifter's own log, from `begin` on */
    const struct set_store *part;
    const struct set_store_numbers *numbers;
};

struct set_store_numbers /* by a worker's number: the number in the whole log. It outlives the whole's set store */
{
    LIST(const struct load *) weights, ars; /* by straight_id, by ar_id */
    LIST(uint32_t) lifters;
    LIST(uint32_t) lifts;
};

struct set_store *set_store_new(struct arena *arena);
void set_store_add(struct set_store *set_store, const struct set *set);
/* Forgets what the file gave, which was the last one: it was refused as a whole, or is read once more. */
void set_store_drop_file(struct set_store *set_store, uint32_t file);
/* Appends a lifter's sets to log->sets; log->loads are those of the set store's log. While nothing is added many may
 * read at once. */
void set_store_read(const struct set_store *set_store, struct log *log, uint32_t lifter);

bool set_store_notes_count(const struct set_store *set_store); /* of any set: ar_said, focus_noted */
/* These sets in place of all that the lifter has, in the order of their files. No file may be dropped after it. */
void set_store_replace(struct set_store *set_store, uint32_t lifter, const struct set *sets, size_t count);

/* A part is a set store that one worker filled. It has a file span per lifter and file, in the order met. Those of one
 * file are joined to the whole as its file `file`, `lines` further down, file by file in the order of the whole. The
 * part must not change after that. */
size_t set_store_file_spans(const struct set_store *part);
void set_store_join(struct set_store *set_store, const struct set_store *part, const struct set_store_numbers *numbers,
                    size_t first_span, size_t spans_end, uint32_t file, uint32_t lines);
const struct set_store_span *set_store_spans(const struct set_store *set_store, uint32_t lifter,
                                             size_t *count); /* in the order read */

/* Moves the log's sets from `first` on to its set store, if it has one and nothing points at a set by its place. */
void log_compact_sets(struct log *log, size_t first);
/* Takes all sets out of the set store, which is gone then; those of one file are adjacent, files in their order. */
void log_expand(struct log *log);

#endif
