/* team: the nightly job over every [lifter] of the gym file; what its files share, and no other file includes.
 *
 * team_scope.c says whom a run works for; team_logs.c finds the logs and digests them; team_inputs.c says whether a
 * lifter's folder rests on what is there now; team_state.c keeps that beside the folder's files; team_workers.c runs
 * processes, and team_lifter.c is what they do; team_publish.c puts a folder's files in place; gather/ makes of the
 * folders what the team has in common: store, tables, page. */
#ifndef TAUTLINE_COMMANDS_TEAM_H
#define TAUTLINE_COMMANDS_TEAM_H

#include "analysis/findings/findings.h"
#include "analysis/verdict.h"
#include "base/digest.h"
#include "base/names.h"
#include "commands/command.h"
#include "commands/session/session.h"
#include "reading/log_reader.h"
#include "writing/store/store.h"

#include <sys/types.h>

struct team_file /* a real file, however many lifters' patterns lead to it */
{
    const char *path; /* as first met; in a state, as the lifter's own pattern leads to it */
    char digest[DIGEST_TEXT];
    int64_t bytes, modified_ns;
    size_t lifters; /* whose patterns match it */
    const struct team_lifter *last;
    const char *fault; /* why it cannot be read; NULL: it can */
};

struct team_match
{
    const char *path;
    struct team_file *file;
};

struct team_argument /* what a pattern matched: a file or a folder */
{
    const char *path;
    LIST(struct team_match) files;
    const char *fault; /* NULL: it can be read */
};

struct name_count
{
    const char *name;
    size_t sets;
};

struct team_group /* lifters with the same shared logs, which are read once, by a process that then forks their workers
                   */
{
    LIST(const struct team_argument *) arguments;
    struct arena *arena; /* NULL: not read yet */
    struct diags *diags;
    struct reading *reading;
    struct set *sets;                   /* by lifter, as read within one */
    size_t *places;                     /* of each of `sets` in the log as read */
    size_t *starts;                     /* in `sets`, by lifter */
    struct refusals *refusals;          /* team_refusals.c's */
    LIST(struct name_count) names;      /* whom these logs name */
    LIST(struct team_lifter *) members; /* in the gym file's order */
    const struct team_lifter *first;    /* in the gym file's order: the one whose folder says whom they name */
    bool unreadable;
};

#define TEAM_WEEKS 26u /* that the page shows */

struct team_output
{
    const char *name; /* within the lifter's folder */
    int64_t bytes;
};

struct team_answer /* is each wave heavier? */
{
    const char *what; /* lift and focus */
    const char *text;
    enum verdict_kind verdict;
};

struct team_state /* what a lifter's folder holds and rests on: state.json */
{
    const char *lifter;  /* whose it is; "": of a version that did not say */
    const char *key;     /* digest of all that the folder rests on; "": it is to be made anew */
    const char *results; /* digest of its tables: what the store holds of it */
    week_number last_week;
    bool any_chain;
    LIST(const char *) bands, setups, lifts; /* used, by name */
    LIST(struct team_file) files;
    LIST(struct team_output) outputs;
    LIST(struct name_count) names; /* whom the logs name; those shared, only for the first who shares them */
    LIST(struct team_answer) answers;
    LIST(double) volumes_kg; /* of all lifts by the mean load, a week each, the last of them: */
    week_number volume_week;
    size_t sets, refused, findings[FINDING_FAULT + 1];
    size_t sets_before;       /* the newest day */
    const char *note;         /* what to know of it; "" */
    const char *undrawn;      /* why a picture is missing, which the next night tries again; "" */
    const char *first, *last; /* days; "" */
    const char *report;       /* the file for a reader */
};

enum team_work
{
    WORK_NONE,      /* not this run's business */
    WORK_WANTED,    /* to be looked at, and made where it does not stand */
    WORK_UNCHANGED, /* what stands rests on what is there now */
    WORK_DONE,
    WORK_UNDRAWN, /* done, but for a picture */
    WORK_KEPT,    /* the last good folder stands, for what there is now is not to be trusted */
    WORK_FAILED   /* the last good folder stands, if there is one */
};
#define WORKS (WORK_FAILED + 1)

struct worker;

struct team_lifter
{
    const struct lifter *block;
    const char *folder; /* its name under lifters/ */
    const char *path;   /* DIR/lifters/FOLDER, for messages */
    LIST(struct team_argument *) arguments;
    LIST(const char *) unmatched; /* patterns */
    struct team_group *group;     /* NULL: shares no log */
    struct team_state *state;     /* NULL: the folder has none */
    enum team_work work;
    const struct worker *worker; /* who has it; NULL: nobody yet */
    const char *message;         /* of a failure, or what to know; "" */
    double seconds;
    size_t new_findings;
};

struct team
{
    struct arena *arena;
    const struct options *options;
    const struct gym *gym;
    const char *into;
    int root, lifters_folder; /* DIR and DIR/lifters, open */
    day_number today;
    struct team_lifter *lifters; /* in the gym file's order */
    size_t count;
    struct map *files; /* by device and inode */
    LIST(struct team_group *) groups;
    double lifter_seconds, picture_seconds; /* time limits */
    bool has_gnuplot;                       /* a night with it draws what one without it did not */
    bool only_looks;                        /* nothing is made: are the folders those of today's logs? */
    bool *gnuplot_hangs;           /* shared by all processes of the night: it was found so, and is not tried again */
    bool is_part;                  /* other runs may be at work on other lifters */
    LIST(const char *) gym_errors; /* what of the gym file was refused */
};

struct folder; /* being made beside the real one */
struct gathering;

struct team_finding /* one that was not there the night before */
{
    const char *lifter, *lift, *date, *severity, *id, *message;
};

struct team_page
{
    LIST(struct team_finding) fresh;
    LIST(struct name_count) strangers; /* in the logs, without a block */
    LIST(const char *) misplaced;      /* sentences: lifters in logs that are not theirs */
    LIST(const char *) gone;           /* folders without a block */
    LIST(const char *) left;           /* who were in the gym file the last night */
    LIST(const char *) refusals;       /* the new ones, the first of them */
    const char *store_trouble, *clock; /* NULL: none */
    bool first_night;
    bool news_from_csv, news_unknown; /* for want of the store */
    size_t refused, new_refused, failed, new_said;
    size_t counts[WORKS];
};
enum exit_status run_team(struct arena *arena, const struct options *options);

#endif
