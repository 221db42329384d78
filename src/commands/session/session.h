/* The first and last steps of every command that works on logs: read the gym file and the logs and work out the load
 * of each set; at the end print the diagnostics and determine the exit status. */
#ifndef TAUTLINE_COMMANDS_SESSION_H
#define TAUTLINE_COMMANDS_SESSION_H

#include "analysis/findings/causes.h"
#include "analysis/statistics/slopes.h"
#include "analysis/training.h"
#include "analysis/trend.h"
#include "analysis/verdict.h"
#include "analysis/waves.h"
#include "base/diag.h"
#include "commands/options/options.h"
#include "model/set.h"
#include "writing/output.h"
#include "writing/table.h"

enum exit_status
{
    EXIT_ALL_READ = 0,
    EXIT_REFUSED = 1, /* done, but lines were refused */
    EXIT_USAGE = 2,
    EXIT_UNREADABLE = 3, /* an input could not be read or an output not written */
    EXIT_INTERNAL = 4
};

struct session
{
    struct arena *arena;
    const struct options *options;
    struct diags *diags;
    const struct gym *gym;
    struct gym *own_gym; /* the same, while it is read; NULL: another made it */
    struct log *log;
    const struct training *training;
    const struct session *part_of; /* the session of all lifters that this is a part of: session_part.c's; NULL: none */
    enum mass_unit unit;           /* of the output */
    const struct table_sink *sink; /* receives the tables' rows instead of the output; NULL: there is none */
    bool quiet;                    /* diagnostics are part of the command's own output */
    bool unreadable, unwritten;
    struct name_choice lifters, lifts;           /* what --lifter and --lift select; see selection.c */
    const char *gym_found;                       /* a gym file that was found next to the logs; NULL: none */
    const struct known_corrections *corrections; /* of reading/corrections/log_corrections.h; NULL: no logs read */
    bool shows_no_focus;                         /* nor anything that depends on it */
    bool misused;                                /* the request was refused, which was reported */
    struct map *inputs;                          /* the files that were read, by device and inode; see overwriting.c */
    const struct findings *findings;             /* NULL until session_findings() is called */
    const struct findings *every_finding;        /* whatever the options select; likewise session_causes() */
    const struct causes *causes;
    const struct waves *waves;      /* likewise session_waves() */
    const struct waves *every_wave; /* of the whole log, and what is based on it */
    const struct training *whole;
    const struct verdict *verdicts;   /* and session_verdicts() */
    const struct trend_week *weeks;   /* and session_weeks() */
    const struct trend_slope *slopes; /* and session_volume_slopes() */
    size_t verdict_count, week_count, slope_count;
    bool has_verdicts, has_weeks, has_slopes;
};

/* Reads everything. False: nothing was read; session_close() still returns the status. */
bool session_open(struct session *session, struct arena *arena, const struct options *options, bool shows_all);
/* The last step of session_open(), for callers that read the logs in another way: gym, log and diags must be set;
 * works out the load of each set. */
void session_train(struct session *session);
/* The same for commands that need one lifter's sets at a time: session->training stays NULL, and
 * session_each_lifter() passes on the training of each lifter. `small`: notes and velocities are not needed, so that
 * a set takes only a few bytes. */
bool session_open_by_lifter(struct session *session, struct arena *arena, const struct options *options, bool small);
/* Calls work() with each lifter's training and an arena that is emptied afterwards. Where rows can be built in parts
 * (`output` given), several lifters are worked on in parallel, each with its own part of the output; the parts are
 * written in the order of the lifters' names. Otherwise `part` is NULL. */
typedef void lifter_work(void *context, struct arena *arena, const struct training *training, struct output *part);
struct training_options session_training_options(const struct session *session);
unsigned session_jobs(const struct session *session); /* how many jobs run at a time */
/* Opens only the gym file, for commands that read no logs: --gym, else gym.ini in the current folder. False: it
 * cannot be read; an empty gym is used instead. */
bool session_open_gym(struct session *session, struct arena *arena, const struct options *options);
/* The same; gym.ini is looked for next to that log. */
bool session_open_gym_of(struct session *session, struct arena *arena, const struct options *options, const char *log);
/* Of the session's training; computed once, at the first call. */
const struct waves *session_waves(struct session *session);
const struct verdict *session_verdicts(struct session *session, size_t *count);
const struct trend_week *session_weeks(struct session *session, size_t *count);
const struct trend_slope *session_volume_slopes(struct session *session, size_t *count);
/* The findings that the options select; computed once. */
const struct findings *session_findings(struct session *session);
/* Of all findings, whatever the options select, so that a finding has the same cause wherever it is shown. Computed
 * once. */
const struct causes *session_causes(struct session *session);
/* Prints the diagnostics to standard error (unless quiet) and returns the exit status. With --strict, findings affect
 * it. */
enum exit_status session_close(struct session *session);

/* The output of the result: --output or standard output. NULL: it cannot be opened, which was reported. */
struct output *session_output(struct session *session);
void session_commit(struct session *session, struct output *output);
struct table_style session_style(const struct session *session, const struct output *output);

/* Writes one table of rows: columns, then row(i) for each. */
void session_table(struct session *session, const struct column *columns, size_t column_count, const void *rows,
                   size_t count, size_t row_size);
/* The same into an existing output. */
void session_rows(struct session *session, struct output *output, const struct column *columns, size_t column_count,
                  const void *rows, size_t count, size_t row_size);

size_t terminal_width(void);         /* of standard output; 0: not a terminal */
bool wants_colour(bool is_terminal); /* respects NO_COLOR */

#endif
