/* Declarations shared by the files that read a CSV log (csv_log.c and csv_*.c next to it), and by table/sets.c, which
 * passes on rows made from wide tables.
 *
 * csv_detect.c finds header, delimiter and decimal sign; csv_log.c reads the header, loops over the records and
 * settles what depends on the whole file; csv_chunks.c lets several readers loop over the records of a big file;
 * csv_record.c turns one record into sets; csv_cells.c reads its small cells, csv_loads.c its weight, AR and note,
 * csv_dates.c its date; csv_unread.c counts cells of gear in columns that are not recognised; csv_down.c knows what
 * carries over from the rows above; csv_say.c locates cells and reports what is wrong with them. */
#ifndef TAUTLINE_READING_CSV_LOG_H
#define TAUTLINE_READING_CSV_LOG_H

#include "base/system.h"
#include "model/focus.h"
#include "reading/csv/cells.h"
#include "reading/csv/columns.h"
#include "reading/csv/csv_rows.h"
#include "reading/day.h"
#include "reading/log_reader.h"
#include "reading/tally.h"

#include <string.h>

#define CSV_WHOLE_ROW SIZE_MAX /* in place of a cell's index: the whole record */
#define CSV_MEMO_BYTES 96      /* up to this length, a cell equal to that of the record before is not parsed again */

#define CSV_SETS_WAITING 1024 /* for csv_keep_small(): small enough for the processor's first-level cache */

struct csv_cell
{
    const char *text;
    size_t length;
    size_t index;
    const struct column_use *use;
};

struct csv_origin /* where the text of a made row's cell comes from in the original row */
{
    size_t cell;
    uint32_t at, length; /* characters; length 0: the text comes from the cell as a whole */
};

struct csv_source /* the original of a made row, for messages */
{
    const char *record; /* as messages show it */
    uint32_t line, lines;
    size_t count;
    const char *const *cells;
    const struct csv_origin *origins; /* indexed by the made row's cells */
    bool sheet;
    bool year_taken; /* the date comes from a header without its year */
};

struct csv_above /* values that carry over to rows without them */
{
    bool date, lift;           /* one is remembered, and may be used */
    bool lifts_named;          /* a record named its lift */
    bool dates_off, lifts_off; /* the first row has none, so none may be taken from above */
    bool date_row;             /* the record was a date row: a session begins, and it is not a set */
    bool looked;               /* something was taken from above: how distant records are read depends on others */
    day_number day;            /* of the newest date read; NO_DAY: none yet */
    uint16_t date_assumed;     /* enum assumption: for that date */
    enum focus focus;          /* of the session, from its date row */
    struct tally dates, lifts, years;
    uint32_t date_line, lift_line; /* of the rows counted last: one row of a table may become several rows */
};

struct csv_memo /* the text of the last cell that was read */
{
    size_t length; /* 0: none */
    char text[CSV_MEMO_BYTES];
};

struct csv_entry /* one record, read */
{
    struct written_day written;
    uint32_t lifter, lift;
    const struct load *weight, *ar;
    const char *note;
    double rpe, rir, velocity_ms, bodyweight_kg;
    struct kind_cell kind;
    enum focus focus;
    enum ar_said ar_said;
    enum ar_limit ar_limit;
    bool light, focus_noted;
    unsigned sets;       /* of each group of `reps`; 1 unless a sets column gives more */
    enum mass_unit unit; /* of bare numbers in this record */
    bool unit_said;
    bool unit_assumed;  /* a bare number was read in a unit that was not given */
    bool added_weight;  /* a plain weight of a bodyweight lift whose lifter's bodyweight is not known yet */
    size_t weight_cell; /* CSV_WHOLE_ROW: empty */
};

struct csv_lift /* state of a lift within the file, indexed by its number */
{
    bool asked, bodyweight;
    struct lift_tally tally;
};

struct csv_lifter
{
    bool asked, bodyweight_known; /* from the gym file or a cell of this file */
};

struct csv_pending /* sets of a record whose date is valid in both orders */
{
    size_t first, count; /* in log->sets */
    day_number dmy, mdy;
};

struct csv_added /* sets of a record whose weight may turn out to be added to the body */
{
    size_t first, count;
    uint32_t lifter;
};

struct csv_unread /* a column of map.unread */
{
    const char *header, *excerpt;
    struct place at;
    uint32_t cells;
};

#define CSV_WEIGHT_BITS 12
#define CSV_EFFORT_BITS 6
#define CSV_COMBINATIONS 1024

/* Parsed cells, kept from file to file: a folder of a thousand small logs repeats most of them a thousand times. */
struct csv_memory
{
    struct arena *own;
    struct map *notes[2][2]; /* by unit and decimal sign (a comma: 1): maps text to struct csv_note */
    struct map *kept_notes;  /* maps a text to its copy in the log's arena */
    size_t note_count;
    const struct load *no_load;
    struct csv_weight /* plain numbers, by csv_short_text() of at most seven bytes; the eighth byte holds unit and
                         decimal sign */
    {
        uint64_t text;
        const struct load *load;
    } weights[1 << CSV_WEIGHT_BITS];
    struct csv_effort
    {
        uint64_t text;
        double value;
        char decimal;
    } efforts[1 << CSV_EFFORT_BITS];
    struct csv_combination
    {
        struct load_sources sources;
        const struct load *load;
    } combinations[CSV_COMBINATIONS];
};

struct csv_log
{
    struct reading *reading;
    struct input *input;             /* NULL: the rows are made from a table's */
    const struct csv_source *source; /* of the current row, if it was made; NULL: it is the input's own */
    struct arena *own;               /* for this file */
    const char *path;
    const char *name; /* of the table, which may contain the year */
    uint32_t file;
    char delimiter;
    char decimal;
    bool decimal_open; /* no number has shown yet which sign is the decimal one */
    const struct csv_row *row;
    bool header_read;
    bool failed; /* refused as a whole, already reported */
    struct column_map map;
    size_t needed_cells;
    enum mass_unit unit; /* of bare numbers, if neither cell nor unit column gives one */
    bool unit_said;
    const char *lifter_of_path;
    uint32_t default_lifter;         /* the lifter's number */
    size_t first_set, first_percent; /* where the file's part of the log begins */

    enum date_order dates; /* asked for by the user; DATES_UNSAID: the file decides */
    struct day_order order;
    uint32_t dmy_line, mdy_line, either_line; /* line of the first of each; 0: none */
    LIST(struct csv_pending) pending;
    struct csv_above above;

    LIST(struct csv_unread) unread;
    LIST(struct csv_lift) lifts;
    LIST(struct csv_lifter) lifters;
    LIST(struct csv_added) added;
    struct tally unit_assumed; /* records */

    struct csv_memo date_memo, lifter_memo, lift_memo, focus_memo, unit_memo, workout_memo;
    struct written_day date_value;
    uint32_t lifter_value, lift_value;
    const struct csv_note *note; /* of the nearest record above that has one; NULL: none had */
    enum mass_unit note_unit, unit_value;
    struct focus_said focus_value, workout_value;
    bool focus_alone;       /* the cell holds nothing else */
    struct map *kinds_said; /* unknown words of kind, each reported once */
    struct csv_memory *memory;
    struct reps_cell reps; /* of the record */
    uint32_t last_line;    /* the last physical line of the record */
};

static inline bool csv_memo_holds(const struct csv_memo *memo, const struct csv_cell *cell)
{
    return memo->length == cell->length && !memcmp(memo->text, cell->text, cell->length);
}

/* A cell of at most eight bytes as one distinct number; 0: it is longer. The cell must not contain NUL. */
static inline uint64_t csv_short_text(const struct csv_cell *cell)
{
    size_t last = cell->length - 1;
    uint32_t low, high;
    if (last > 7)
        return 0;
    if (last < 3) {
        const unsigned char *bytes = (const unsigned char *)cell->text;
        return bytes[0] | (uint64_t)bytes[last / 2] << last / 2 * 8 | (uint64_t)bytes[last] << last * 8;
    }
    memcpy(&low, cell->text, sizeof low);
    memcpy(&high, cell->text + last - 3, sizeof high); /* what both hold comes out the same twice */
    return SYSTEM_LITTLE_32(low) | (uint64_t)SYSTEM_LITTLE_32(high) << (last - 3) * 8;
}

/* Its slot in a hash table: the golden ratio spreads adjacent values (Knuth, TAOCP 3, 6.4). */
static inline size_t csv_short_slot(uint64_t text, unsigned bits)
{
    return (size_t)((text * UINT64_C(0x9E3779B97F4A7C15)) >> (64 - bits));
}

struct csv_log *csv_log_new(struct reading *reading, struct input *input, uint32_t file, char delimiter);

/* For rows made from a table's, each with its source: the caller sets path, name and map of columns, then calls
 * csv_log_ready(), csv_see_row() for each row and csv_log_finish(). */
struct csv_log *csv_log_of_table(struct reading *reading, const char *path, uint32_t file, char delimiter);
void csv_log_ready(struct csv_log *log);  /* sets unit, lifter, order of dates: once the map is known */
bool csv_log_finish(struct csv_log *log); /* false: refused as a whole, already reported */
void csv_log_free(struct csv_log *log);
bool csv_count_refused(struct csv_log *log,
                       uint32_t line); /* counts one more; false: there are so many that the file is given up */

/* One for the records of the same file, whose header is known already, from this or another reading. */
struct csv_log *csv_log_like(const struct csv_log *like, struct reading *reading, struct input *input, uint32_t file);
/* Reads only the header, from the head of the input. Returns its last line; 0: it does not end there, and nothing was
 * read. */
uint32_t csv_read_header_alone(struct csv_log *log, uint32_t header_line);
bool csv_see_row(void *context, const struct csv_row *row); /* a csv_log's csv_row_seen */
/* Compacts sets that cannot change any more, before the end of the file. */
void csv_compact_sets(struct csv_log *log);

/* Reads the records after the header's last line with several readers, including the log's own. False: it is not
 * possible, and nothing of the records is kept except numbers of names and loads; the caller must remove sets of the
 * log's own reader, and what it remembers. */

/* Used by read_log; each reads a whole open input and adds to reading->log. `file` is its number in log->files. */
bool read_csv_log(struct reading *reading, struct input *input, uint32_t file, char delimiter, uint32_t header_line);

void csv_memory_free(struct csv_memory *memory); /* likewise */

#endif
