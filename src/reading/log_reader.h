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

enum found
{
    READ,   /* or refused as a whole, which is said */
    NO_LOG, /* nothing of it was used */
    LATER,  /* a workbook, which has several files: by the run's own reader, not by one of several */
    UNREADABLE
};

struct reading_options
{
    const char *as;          /* whose logs these are, where neither log nor gym file names anybody; NULL: not said */
    const char *corrections; /* in place of those next to the logs; NULL: not said */
    bool corrections_may_be_new; /* that file is about to be written: it need not be there */
    bool unit_said;
    enum mass_unit unit; /* --log-unit: of bare numbers, over the gym file's; a file's own word wins */
    enum date_order dates;
    bool ar_stays; /* --no-carry-ar */
    bool start_said;
    day_number start; /* --start: the Monday of week 1, over the gym file's */
    unsigned jobs;    /* readers at work at a time; 0 and 1: this one alone */
    bool jobs_said;   /* the user's word, which holds for small logs too */
};

struct reading /* all that a reader of one file needs */
{
    struct arena *arena;   /* of the run: what is kept */
    struct arena *scratch; /* of one row: emptied by whoever loops over rows */
    struct diags *diags;
    const struct gym *gym; /* never NULL */
    struct load_reader *loads;
    struct lift_names *lifts;
    struct log *log; /* what is read is added here; sets go to its set store, if it is given one */
    bool notes_go;   /* sets go on as small numbers, without their notes: no text of one need outlive what is remembered
                        of it */
    struct reading_options options;
    struct waiting_tallies *waiting;       /* tally.c's; NULL: nothing waits to be said */
    struct known_corrections *corrections; /* corrections/log_corrections.h's: of the LOGs named so far */
    struct log_queue *queue;               /* LOGs that are named and not yet read: log_queue.c's */
    struct seen *seen;                     /* files and folders met so far, lifters by their folded names */
    struct csv_memory *csv_memory;         /* csv_log.c's, and freed with the reading; NULL until the first CSV log */
    struct text_patterns *patterns;        /* text_log.c's; NULL until the first text log */
};

struct reading *reading_new(struct arena *arena, const struct gym *gym, struct diags *diags,
                            const struct reading_options *options);
void reading_free(struct reading *reading); /* not the log, which is the arena's */

/* Reads those named since. However many readers there are, log and diagnostics come out the same. False: not all could
 * be read, said already. */
bool read_queued_logs(struct reading *reading);
bool read_log(struct reading *reading, const char *argument); /* both, for one LOG */

struct log_entry;

/* Reads one entry of the queue, whose places in the log follow those of the entries before it. */
enum found log_read_file(struct reading *reading, const struct log_entry *entry);
/* A sheet of a workbook, if it holds a log; its file is log->files' last then. NO_LOG: nothing was said. `root`: the
 * folder that was named as a LOG and holds the workbook; NULL: the workbook was. */
enum found read_sheet(struct reading *reading, struct input *input, const char *root);

#endif
