/* Declarations shared by the files that read a plain-text log; no other file includes it.
 *
 * text_patterns.c has the patterns of lines and their parts; text_log.c goes through the lines and handles header and
 * note lines, text_session.c those with a date, text_headings.c those with only a lift's name; text_line.c parses a
 * line of work; text_sets.c makes sets from it. */
#ifndef TAUTLINE_READING_TEXT_LOG_H
#define TAUTLINE_READING_TEXT_LOG_H

#include "reading/csv/cells.h"
#include "reading/day.h"
#include "reading/log_reader.h"
#include "reading/tally.h"

#define WORK_LINE_LIMIT 4096 /* bytes; a longer line is not a line of work */

/* --- text_patterns.c --------------------------------------------------------------------------------------------- */

enum text_pattern
{
    PATTERN_HEADER,     /* 1 key, 2 value */
    PATTERN_NOTE,       /* 1 text */
    PATTERN_SESSION,    /* 1 date, 2 the rest */
    PATTERN_WARM_UP,    /* the mark */
    PATTERN_LOAD_START, /* the first character of a load */
    PATTERN_SCHEME,     /* 8x2; 5,5,4; AMRAP 10; miss: 1 is set for miss */
    PATTERN_ITEM,       /* 140x3x2: 1 load, 2 repetitions, 3 +, 4 sets, 5 set for "170 miss" */
    PATTERN_AT,         /* @ 100 kg: 1 number, 2 unit or % */
    PATTERN_ANNOTATION, /* enum annotation_group */
    PATTERN_CUT,        /* where a load may end; group 1 is set where it must: an effort or a speed follows */
    PATTERN_STRAIGHT,   /* a straight weight without a joining word after it */
    PATTERN_TIMED,      /* 3x60 s, 5 km: not sets and repetitions */
    PATTERN_NEXT_LOAD,  /* 110: 2x3, after the sets of another load */
    PATTERN_WORK,       /* anything that looks like sets and repetitions */
    PATTERN_SPACED,     /* the blank before 3x6 */
    PATTERN_SPELLED,    /* 100 kg, 5 reps, 3 sets: 1 load, 2 reps and 3 sets, or 4 sets and 5 reps */
    PATTERN_LIFT_WORD,  /* squat, press, row: a word that marks a name as that of a lift */
    PATTERN_COUNT
};

enum annotation_group
{
    ANNOTATION_AT = 1, /* @ NUMBER */
    ANNOTATION_AT_UNIT,
    ANNOTATION_RPE,
    ANNOTATION_RPE_AFTER, /* 8 RPE */
    ANNOTATION_RIR,
    ANNOTATION_RIR_AFTER,
    ANNOTATION_VELOCITY,
    ANNOTATION_PERCENT,
    ANNOTATION_MISS,
    ANNOTATION_FAILURE,
    ANNOTATION_WARM_UP,
    ANNOTATION_GROUPS
};

struct text_span
{
    size_t at, length; /* bytes in the line; at SIZE_MAX: absent */
};

struct text_match
{
    struct text_span all, group[ANNOTATION_GROUPS]; /* group[1] and up */
};

/* --- text_log.c -------------------------------------------------------------------------------------------------- */

/* Reports something about `length` characters of the text, from `column`, which counts characters from 0; length 0:
 * about the whole text. */
typedef void text_sayer(void *context, enum diag_id id, size_t column, size_t length, const char *hint,
                        const char *message);

struct text_session /* with a date that is valid in both orders of day and month */
{
    size_t first, end; /* in log->sets */
    day_number dmy, mdy;
};

enum session_state
{
    SESSION_NONE,
    SESSION_GOOD,
    SESSION_REFUSED /* its date is impossible, so every line under it is refused */
};

struct notes_together /* collected piece by piece, so that many notes take time linear in their bytes */
{
    LIST(char) text; /* without a final NUL */
};

struct heading /* a lift alone on a line, for the set lines below it; or the lift of the line above */
{
    const char *ar; /* "2 chains/side" after the lift, for each set line below without AR; NULL: nothing */
    bool has_lift;
    uint32_t number;     /* of the lift, once a set line or a line of work has needed it */
    const char *waiting; /* the heading as the file has it, until a set line follows; NULL: one has */
    const char *name;    /* the name in it */
    struct place at;     /* of the name */
    bool after_blank;    /* the line before this one was blank, a date or a header */
};

struct text_log
{
    struct reading *reading;
    text_sayer *say; /* reports what is wrong with a text that is not a line of a text log; NULL: it is one */
    void *say_context;
    struct input *input;
    struct arena *own; /* for this file */
    struct text_patterns *patterns;
    const char *path;
    uint32_t file, line;
    const char *line_text; /* the line as the file has it */
    struct heading heading;
    const char *text; /* the line, NUL-terminated, without trailing blanks */
    size_t length;

    char decimal;
    enum mass_unit unit;
    bool unit_said;
    bool lifter_known;
    uint32_t lifter;
    size_t bodyweight_said_at, lifter_said_at; /* number of sets in the log at that time */
    bool lifter_said;
    double bodyweight_kg, bare_bodyweight; /* NAN: not given; as written if it had no unit */

    enum session_state state;
    bool any_session;
    bool given_up; /* almost no line could be read */
    struct written_day written;
    day_number last_day; /* of the session before, or one that it may be; NO_DAY: none */
    bool year_taken;     /* the session's date has no year of its own */
    struct tally years;  /* counts such dates */
    int named_year;      /* in a title above the first date; 0: there is none */
    enum focus focus;
    bool light;                    /* a deload */
    struct notes_together waiting; /* notes of the session's own line, and note: lines above its first sets */
    struct notes_together behind;  /* note: lines below the sets of the last line of work, and the notes they had */
    size_t last_first, last_end;   /* sets of this session's last line of work, which a note: line applies to */
    struct day_order order;
    uint32_t dmy_line, mdy_line, either_line;
    LIST(struct text_session) sessions;

    LIST(struct lift_tally) lifts;   /* by lift number */
    struct tally unit_assumed;       /* counts loads */
    size_t first_set, first_percent; /* where the file's part of the log begins */
};

struct lift_tally *text_lift(struct text_log *log, uint32_t number);
uint32_t text_lifter(struct text_log *log); /* the current one */
/* Both notes in one; either may be NULL. In the log's arena. */
const char *text_join_notes(struct text_log *log, const char *first, const char *second);
void text_add_note(struct text_log *log, struct notes_together *notes, const char *text);
/* Returns the collected notes, in the log's arena, and empties the collection; NULL: there are none. */
const char *text_take_notes(struct text_log *log, struct notes_together *notes);
/* Gives the sets of the last line of work the notes below it. */
void text_end_notes(struct text_log *log);

/* Reports something about a part of the line; `hint` NULL: the usual one. Returns false. */
bool text_say(struct text_log *log, enum diag_id id, struct text_span span, const char *hint, const char *format, ...)
    __attribute__((format(printf, 5, 6)));
bool text_say_fault(struct text_log *log, size_t at, const struct load_fault *fault); /* a load reader's fault */

/* --- text_session.c ---------------------------------------------------------------------------------------------- */

/* --- text_line.c, text_sets.c ------------------------------------------------------------------------------------ */

struct text_item /* sets of one load */
{
    struct text_span load; /* at SIZE_MAX: none was written */
    struct reps_cell reps;
    double rpe, rir, velocity_ms;
    bool missed, to_failure;
    bool on_body; /* dip 3x8: only bodyweight */
};

struct text_work /* a parsed line of work */
{
    struct text_span lift;
    uint32_t lift_number;
    bool is_body;
    bool warm_up;
    LIST(struct text_item) items;
    const char *percent_note; /* a percentage next to a written load; NULL: none */
    struct text_span note;    /* the free words after it */
};

bool read_text_log(struct reading *reading, struct input *input, uint32_t file);

#endif
