/* LOG arguments to records. */
#ifndef TAUTLINE_READING_LOG_READER_H
#define TAUTLINE_READING_LOG_READER_H

#include "base/diag.h"
#include "model/gear.h"
#include "model/set.h"
#include "reading/input/input.h"
#include "reading/lift_names.h"
#include "reading/load/load_reader.h"

#include <stdbool.h>
#include <stddef.h>

struct reading_options
{
    bool unit_said;
    enum mass_unit unit; /* --log-unit: of bare numbers, over the gym file's; a file's own word wins */
    enum date_order dates;
    unsigned jobs;  /* readers at work at a time; 0 and 1: this one alone */
    bool jobs_said; /* the user's word, which holds for small logs too */
};

struct reading /* all that a reader of one file needs */
{
    struct arena *arena;   /* of the run: what is kept */
    struct arena *scratch; /* of one row: emptied by whoever loops over rows */
    struct diags *diags;
    const struct gym *gym; /* never NULL */
    struct load_reader *loads;
    struct lift_names *lifts;
    struct log *log; /* what is read is added here; sets go to its ledger, if it is given one */
    bool notes_go;   /* sets go on as small numbers, without their notes: no text of one need outlive what is remembered of it */
    struct reading_options options;
    struct waiting_tallies *waiting; /* tally.c's; NULL: nothing waits to be said */
    struct log_queue *queue;        /* LOGs that are named and not yet read: log_queue.c's */
    struct seen *seen;              /* files and folders met so far, lifters by their folded names */
    struct csv_memory *csv_memory;  /* csv_log.c's, and freed with the reading; NULL until the first CSV log */
    struct text_patterns *patterns; /* text_log.c's; NULL until the first text log */
};

struct reading *reading_new(struct arena *arena, const struct gym *gym, struct diags *diags,
                            const struct reading_options *options);
void reading_free(struct reading *reading); /* not the log, which is the arena's */

/* Names one LOG: a file, a folder (recursively, in byte order of names, without hidden files, *.ini and files that are no
 * log) or "-". */
void queue_log(struct reading *reading, const char *argument);
/* Reads those named since. However many readers there are, log and diagnostics come out the same. False: not all could be read, said
 * already. */
bool read_queued_logs(struct reading *reading);
bool read_log(struct reading *reading, const char *argument); /* both, for one LOG */

/* After the last LOG: where two files hold the same lifter, day and lift with the same sets, those of the older file
 * are dropped. */
void reading_finish(struct reading *reading);

/* Used by read_log; each reads one open input whole and adds to reading->log. `file` is its number in log->files. */
bool read_csv_log(struct reading *reading, struct input *input, uint32_t file, char delimiter, uint32_t header_line);
bool read_text_log(struct reading *reading, struct input *input, uint32_t file);

/* Is it a text log? One of the lines of its head is dated, or there are only comments and header lines. `strictly`: a
 * line of work must be there too, as it is in a log and not in a letter. */
bool text_log_detect(struct reading *reading, struct input *input, bool strictly);
void text_patterns_free(struct text_patterns *patterns); /* NULL is allowed */
void csv_memory_free(struct csv_memory *memory);         /* likewise */

/* Is it a CSV log? One of the first 20 lines is a header with a date and a lift column, under one of the delimiters , ;
 * tab |. */
bool csv_log_detect(struct reading *reading, struct input *input, char *delimiter, uint32_t *header_line);

/* The lifter where the log names none: the [lifter] whose log = matches the path; else the only [lifter]; else "". */
const char *lifter_of_path(const struct gym *gym, const char *path);
/* The gym file's spelling of a lifter's name, else the name squeezed; its number in log->lifters. */
uint32_t lifter_number(struct reading *reading, const char *written);
/* Who is not in the gym file is said again where a log names him again: what was said so far did not count. */
void lifters_forget_spellings(struct reading *reading);

#endif
