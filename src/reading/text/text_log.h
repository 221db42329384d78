/* What the files that read a plain-text log share; no other file includes it.
 *
 * text_patterns.c has the patterns of lines and their parts; text_log.c goes through the lines and takes header and
 * note lines, text_session.c those with a date, text_headings.c those that are a lift's name alone; text_line.c takes a
 * line of work apart; text_sets.c makes sets of it. */
#ifndef TAUTLINE_READING_TEXT_LOG_H
#define TAUTLINE_READING_TEXT_LOG_H

#include "reading/csv/cells.h"
#include "reading/day.h"
#include "reading/log_reader.h"
#include "reading/tally.h"

#define WORK_LINE_LIMIT 4096 /* bytes; a longer line of work is none */

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
    PATTERN_CUT,        /* where a load may end; 1 is set where it must: an effort or a speed follows */
    PATTERN_STRAIGHT,   /* a straight weight, and no joining word after it */
    PATTERN_TIMED,      /* 3x60 s, 5 km: no sets and repetitions */
    PATTERN_NEXT_LOAD,  /* 110: 2x3, after the sets of another load */
    PATTERN_WORK,       /* anything that looks like sets and repetitions */
    PATTERN_SPACED,     /* the blank before 3x6 */
    PATTERN_SPELLED,    /* 100 kg, 5 reps, 3 sets: 1 load, 2 reps and 3 sets, or 4 sets and 5 reps */
    PATTERN_LIFT_WORD,  /* squat, press, row: a word that makes a name that of a lift */
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
    size_t at, length; /* bytes in the line; at SIZE_MAX: not there */
};

struct text_match
{
    struct text_span all, group[ANNOTATION_GROUPS]; /* group[1] on */
};

/* --- text_log.c -------------------------------------------------------------------------------------------------- */

/* Something about `length` characters of the text, at `column` characters from 0; length 0: about the whole. */
typedef void text_sayer(void *context, enum diag_id id, size_t column, size_t length, const char *hint,
                        const char *message);

struct text_session /* of a date that both orders of day and month would take */
{
    size_t first, end; /* in log->sets */
    day_number dmy, mdy;
};

enum session_state
{
    SESSION_NONE,
    SESSION_GOOD,
    SESSION_REFUSED /* its date is impossible: so is every line under it */
};

struct notes_together /* put together piece by piece: many notes take no longer than their bytes */
{
    LIST(char) text; /* no NUL at its end */
};

struct heading /* a lift alone on a line, for the set lines below it; or the lift of the line above */
{
    const char *ar; /* "2 chains/side" behind the lift: of each set line below that names none; NULL: nothing */
    bool has_lift;
    uint32_t number;     /* the lift's, once a set line or a line of work has asked for it */
    const char *waiting; /* the line as the file has it, where no set line has followed so far; NULL: one has */
    const char *name;    /* what is in it */
    struct place at;     /* of the name */
    bool after_blank;    /* the line before this one was blank, a date or a header */
};

struct text_log
{
    struct reading *reading;
    text_sayer *say; /* says what is wrong with a text that is not a line of a text log; NULL: it is one */
    void *say_context;
    struct input *input;
    struct arena *own; /* of this file */
    struct text_patterns *patterns;
    const char *path;
    uint32_t file, line;
    const char *line_text; /* the line as the file has it */
    struct heading heading;
    const char *text; /* the line, NUL-terminated, without blanks at its end */
    size_t length;

    char decimal;
    enum mass_unit unit;
    bool unit_said;
    bool lifter_known;
    uint32_t lifter;
    size_t bodyweight_said_at, lifter_said_at; /* sets that the log had then */
    bool lifter_said;
    double bodyweight_kg, bare_bodyweight; /* NAN: not said; as written where no unit stood beside it */

    enum session_state state;
    bool any_session;
    bool given_up; /* hardly a line could be read */
    struct written_day written;
    day_number last_day; /* of the session before, or one that it may be; NO_DAY: none */
    bool year_taken;     /* the session's date leaves out its year */
    struct tally years;  /* such dates */
    int named_year;      /* in a title above the first date; 0: in none */
    enum focus focus;
    bool light;                    /* a deload */
    struct notes_together waiting; /* of the session's line or note: lines above its first sets */
    struct notes_together behind;  /* note: lines below the sets of the last line of work, and what these had before */
    size_t last_first, last_end;   /* sets of the last line of work of this session: a note: line speaks of them */
    struct day_order order;
    uint32_t dmy_line, mdy_line, either_line;
    LIST(struct text_session) sessions;

    LIST(struct lift_tally) lifts;   /* by lift number */
    struct tally unit_assumed;       /* loads */
    size_t first_set, first_percent; /* where the file's part of the log begins */
};

struct lift_tally *text_lift(struct text_log *log, uint32_t number);
uint32_t text_lifter(struct text_log *log); /* the one in force */
/* Both notes in one; either may be NULL. In the log's arena. */
const char *text_join_notes(struct text_log *log, const char *first, const char *second);
void text_add_note(struct text_log *log, struct notes_together *notes, const char *text);
/* What was put together, in the log's arena; NULL: nothing. It is empty then. */
const char *text_take_notes(struct text_log *log, struct notes_together *notes);
/* Gives the sets of the last line of work the notes below it. */
void text_end_notes(struct text_log *log);

/* Says something about a part of the line; `hint` NULL: the list's. Returns false. */
bool text_say(struct text_log *log, enum diag_id id, struct text_span span, const char *hint, const char *format, ...)
    __attribute__((format(printf, 5, 6)));
bool text_say_fault(struct text_log *log, size_t at, const struct load_fault *fault); /* a load reader's reason */

/* --- text_session.c ---------------------------------------------------------------------------------------------- */

/* --- text_line.c, text_sets.c ------------------------------------------------------------------------------------ */

struct text_item /* sets of one load */
{
    struct text_span load; /* at SIZE_MAX: none written */
    struct reps_cell reps;
    double rpe, rir, velocity_ms;
    bool missed, to_failure;
    bool on_body; /* dip 3x8: the body alone */
};

struct text_work /* a line of work, taken apart */
{
    struct text_span lift;
    uint32_t lift_number;
    bool is_body;
    bool warm_up;
    LIST(struct text_item) items;
    const char *percent_note; /* a percent next to a written load; NULL: none */
    struct text_span note;    /* the free words after */
};

bool read_text_log(struct reading *reading, struct input *input, uint32_t file);

#endif
