/* Readers at work at the same time, each with an arena, names, loads and diagnostics of its own, so that nothing needs a lock. What they
 * found is joined in the order of the log, as if one reader had read it all: names get their numbers and spellings, loads their one
 * pointer, diagnostics their limits in that order. log_joining.c has files read so, csv_stretches.c stretches of one. */
#ifndef TAUTLINE_READING_LOG_PARTS_H
#define TAUTLINE_READING_LOG_PARTS_H

#include "model/ledger.h"
#include "reading/log_reader.h"

struct part /* one such reader */
{
    struct arena *arena;
    struct reading *reading;       /* NULL: it has had nothing to read so far */
    struct ledger_numbers numbers; /* what its numbers are in the whole log */
    struct load_adoption adoption;
    uint32_t loads, lifters, lifts; /* how many it has told of */
};

struct part_news /* what a reader met for the first time in what it read, in the order of its numbers; good while it reads on */
{
    const struct load **loads;
    const char **lifters, **lifts;
    uint32_t load_count, lifter_count, lift_count;
};

/* Makes its reading, if it has none, which keeps sets small where the whole does. */
void part_begin(struct part *part, const struct reading *whole);
struct part_news part_news(struct part *part); /* since it told last */
/* Gives all that its number in the whole. News are adopted in the order told. */
void part_adopt(struct reading *whole, struct part *part, const struct part_news *news);
struct part_range /* of what stands in the part's log and ledger */
{
    size_t first, end;
};

struct part_sets
{
    struct part_range sets, percents, visits;
};

struct part_sets part_sets_from(const struct part *part); /* those that come from now on: their firsts */
void part_sets_end(const struct part *part, struct part_sets *sets);
/* Adds them to the whole's, in the whole's numbers, as sets of the whole's file `file` and `lines` further down. Those that were kept small
 * stay in the part's ledger, to which nothing is added any more. */
void part_join_sets(struct log *whole, const struct part *part, const struct part_sets *sets, uint32_t file, uint32_t lines);
/* `joined`: its sets were, and what they are made of is the whole's then. */
void part_end(struct part *part, struct reading *whole, bool joined);

#endif
