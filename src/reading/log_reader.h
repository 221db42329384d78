/* Reads LOG arguments into records. */
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

enum found
{
    READ,   /* or refused as a whole, which was reported */
    NO_LOG, /* nothing in it was used */
    LATER,  /* a workbook, which has several files: must be read by the run's own reader */
    UNREADABLE
};

struct reading_options
{
    const char *as;              /* the lifter of logs for which neither log nor gym file names one; NULL: not given */
    const char *corrections;     /* instead of those next to the logs; NULL: not given */
    bool corrections_may_be_new; /* that file is about to be written, so it need not exist */
    bool unit_said;
    enum mass_unit unit; /* --log-unit: of bare numbers, over the gym file's; a unit in the file takes precedence */
    enum date_order dates;
    bool ar_stays; /* --no-carry-ar */
    bool start_said;
    day_number start; /* --start: the Monday of week 1, over the gym file's */
    unsigned jobs;    /* readers that work in parallel; 0 and 1: only this one */
    bool jobs_said;   /* given by the user, so it also applies to small logs */
};

struct reading /* everything that a reader of one file needs */
{
    struct arena *arena;   /* for the run: what is kept */
    struct arena *scratch; /* for one row: emptied by the code that loops over rows */
    struct diags *diags;
    const struct gym *gym; /* never NULL */
    struct load_reader *loads;
    struct lift_names *lifts;
    struct log *log; /* results are added here; sets go to its set store, if it has one */
    bool notes_go;   /* sets become small numbers, without their notes: the text of a note need not outlive its entry in
                        the memo */
    struct reading_options options;
    struct waiting_tallies *waiting;       /* see tally.c; NULL: nothing is held back */
    struct known_corrections *corrections; /* see corrections/log_corrections.h: of the LOGs named so far */
    struct log_queue *queue;               /* LOGs that were named but not read yet; see log_queue.c */
    struct seen *seen;                     /* files and folders found so far, lifters by their folded names */
    struct csv_memory *csv_memory;         /* of csv_log.c, freed with the reading; NULL until the first CSV log */
    struct text_patterns *patterns;        /* of text_log.c; NULL until the first text log */
};

struct reading *reading_new(struct arena *arena, const struct gym *gym, struct diags *diags,
                            const struct reading_options *options);
void reading_free(struct reading *reading); /* does not free the log, which the arena owns */

/* Reads the logs queued since the last call. Invariant: log and diagnostics are the same for any number of readers.
 * False: some could not be read, already reported. */
bool read_queued_logs(struct reading *reading);
bool read_log(struct reading *reading, const char *argument); /* queues and reads one LOG */

struct log_entry;

/* Reads one entry of the queue; entries must be read in order, because their places in the log follow each other. */
enum found log_read_file(struct reading *reading, const struct log_entry *entry);
/* A sheet of a workbook, if it holds a log; its file is then the last of log->files. NO_LOG: nothing was reported.
 * `root`: the folder that was named as a LOG and holds the workbook; NULL: the workbook was named. */
enum found read_sheet(struct reading *reading, struct input *input, const char *root);

#endif
