/* Workers that read at the same time. Each has its own arena, names, loads and diagnostics, so nothing needs a lock.
 * Their results are joined in the order of the log, as if one worker had read it all: names are numbered and spelt,
 * loads interned and diagnostics limited in that order. log_joining.c gives each worker whole files, csv_chunks.c gives
 * each a chunk of one file. */
#ifndef TAUTLINE_READING_LOG_WORKER_H
#define TAUTLINE_READING_LOG_WORKER_H

#include "model/set_store.h"
#include "reading/log_reader.h"

struct log_worker
{
    struct arena *arena;
    struct reading *reading;               /* NULL: it has not read anything yet */
    struct set_store_numbers numbers;      /* its ids mapped to those of the whole log */
    uint32_t weights, ars, lifters, lifts; /* how many new_symbols() has returned */
};

struct new_symbols /* names and loads seen for the first time, in the order of the worker's ids; valid while it
                      continues to read */
{
    const struct load *const *weights, *const *ars;
    const char **lifters, **lifts;
    uint32_t weight_count, ar_count, lifter_count, lift_count;
};

/* Creates its reading if there is none, with a set store if the whole has one. */
void log_worker_begin(struct log_worker *worker, const struct reading *whole);
struct new_symbols new_symbols(struct log_worker *worker); /* since the last call */
/* Maps them to ids of the whole log. Must be called in the order in which new_symbols() returned them. */
void remap_ids(struct reading *whole, struct log_worker *worker, const struct new_symbols *symbols);
struct log_range /* in the worker's log and set store */
{
    size_t first, end;
};

struct log_ranges
{
    struct log_range sets, percents, file_spans;
};

struct log_ranges log_ranges_from(const struct log_worker *worker); /* sets `first` of each range to the current ends */
void log_ranges_end(const struct log_worker *worker, struct log_ranges *sets);
/* Adds them to the whole log, with its ids, as sets of its file number `file`, with `lines` added to their line
 * numbers. Sets in a set store stay in the worker's, which must not change after that. */
void log_worker_join_sets(struct log *whole, const struct log_worker *worker, const struct log_ranges *sets,
                          uint32_t file, uint32_t lines);
/* `joined`: its sets were merged, and the whole then owns what they refer to. */
void log_worker_end(struct log_worker *worker, struct reading *whole, bool joined);

#endif
