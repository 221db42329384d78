/* What every command over logs does first and last: read the gym file and the logs and work out what each set weighed;
 * at the end print the diagnostics and decide the exit status. */
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
    const struct table_sink *sink; /* where tables' rows go instead of the output; NULL: nowhere else */
    bool quiet;                    /* diagnostics are the command's own output */
    bool unreadable, unwritten;
    struct name_choice lifters, lifts;           /* what --lifter and --lift came to: selection.c's */
    const char *gym_found;                       /* a gym file that was found next to the logs; NULL: none */
    const struct known_corrections *corrections; /* reading/corrections/log_corrections.h's; NULL: no logs were read */
    bool shows_no_focus;                         /* nor anything that rests on it */
    bool misused;                                /* what was asked for is not done, said already */
    struct map *inputs;                          /* the files that were read, by device and inode: overwriting.c's */
    const struct findings *findings;             /* NULL until session_findings() is asked */
    const struct findings *every_finding;        /* whatever the options ask for; likewise session_causes() */
    const struct causes *causes;
    const struct waves *waves;      /* likewise session_waves() */
    const struct waves *every_wave; /* of the whole log, and what it rests on */
    const struct training *whole;
    const struct verdict *verdicts;   /* and session_verdicts() */
    const struct trend_week *weeks;   /* and session_weeks() */
    const struct trend_slope *slopes; /* and session_volume_slopes() */
    size_t verdict_count, week_count, slope_count;
    bool has_verdicts, has_weeks, has_slopes;
};

/* Reads everything. False: nothing was read; session_close() still gives the status. */
bool session_open(struct session *session, struct arena *arena, const struct options *options, bool shows_all);
/* Its last step, for whoever read the logs by other ways: gym, log and diags are set; works out what each set weighed.
 */
void session_train(struct session *session);
/* The same for what needs a lifter's sets at a time: session->training stays NULL, and session_each_lifter() gives the
 * training of each lifter. `small`: notes and velocities are not needed, the sets are kept in a few bytes each. */
bool session_open_by_lifter(struct session *session, struct arena *arena, const struct options *options, bool small);
/* Gives work() each lifter's training and an arena that is emptied after it. Where rows can be put together in parts
 * (`output` given), several lifters are worked on at once, each with a part of the output, which come out by the
 * lifters' names; else `part` is NULL. */
typedef void lifter_work(void *context, struct arena *arena, const struct training *training, struct output *part);
struct training_options session_training_options(const struct session *session);
unsigned session_jobs(const struct session *session); /* how many things at a time */
/* The gym file alone, for commands that read no logs: --gym, else gym.ini here. False: it cannot be read; an empty gym
 * stands for it. */
bool session_open_gym(struct session *session, struct arena *arena, const struct options *options);
/* The same; gym.ini is looked for next to that log. */
bool session_open_gym_of(struct session *session, struct arena *arena, const struct options *options, const char *log);
/* Of the session's training; made once, whoever asks. */
const struct waves *session_waves(struct session *session);
const struct verdict *session_verdicts(struct session *session, size_t *count);
const struct trend_week *session_weeks(struct session *session, size_t *count);
const struct trend_slope *session_volume_slopes(struct session *session, size_t *count);
/* Those that the options ask for; made once. */
const struct findings *session_findings(struct session *session);
/* Of all findings, whatever the options ask for: a finding has the same cause wherever it is shown. Made once. */
const struct causes *session_causes(struct session *session);
/* Prints the diagnostics to standard error (unless quiet) and gives the exit status. With --strict the findings count
 * in it. */
enum exit_status session_close(struct session *session);

/* The result's output: --output or standard output. NULL: cannot be made, already reported. */
struct output *session_output(struct session *session);
void session_commit(struct session *session, struct output *output);
struct table_style session_style(const struct session *session, const struct output *output);

/* Writes one table of rows: columns, then row(i) for each. */
void session_table(struct session *session, const struct column *columns, size_t column_count, const void *rows,
                   size_t count, size_t row_size);
/* The same into an output at hand. */
void session_rows(struct session *session, struct output *output, const struct column *columns, size_t column_count,
                  const void *rows, size_t count, size_t row_size);

size_t terminal_width(void);         /* of standard output; 0: no terminal */
bool wants_colour(bool is_terminal); /* NO_COLOR obeyed */

#endif
