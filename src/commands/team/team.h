/* team: the nightly job over every [lifter] of the gym file. These are the declarations that its files share; no
 * other file includes them.
 *
 * team_scope.c chooses the lifters that a run works for; team_logs.c finds the logs and digests them; team_inputs.c
 * decides whether a lifter's folder is up to date; team_state.c stores with the folder what it was made from;
 * team_workers.c runs processes, and team_lifter.c is what they do; team_publish.c puts a folder's files in place;
 * gather/ builds from the folders what the team has in common: store, tables, page. */
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

struct team_file /* one real file, however many lifters' patterns lead to it */
{
    const char *path; /* as first found; in a state, as the lifter's own pattern leads to it */
    char digest[DIGEST_TEXT];
    int64_t bytes, modified_ns;
    size_t lifters; /* how many have a pattern that matches it */
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

struct team_group /* lifters who share the same logs; one process reads these once and then forks the lifters' workers
                   */
{
    LIST(const struct team_argument *) arguments;
    struct arena *arena; /* NULL: not read yet */
    struct diags *diags;
    struct reading *reading;
    struct set *sets;                   /* by lifter; within one, in the order of the log */
    size_t *places;                     /* index of each of `sets` in the log as it was read */
    size_t *starts;                     /* where each lifter begins in `sets` */
    struct refusals *refusals;          /* owned by team_refusals.c */
    LIST(struct name_count) names;      /* lifters named in these logs */
    LIST(struct team_lifter *) members; /* in the gym file's order */
    const struct team_lifter *first; /* in the gym file's order: only this one's folder lists the names in the logs */
    bool unreadable;
};

#define TEAM_WEEKS 26u /* weeks that the page shows */

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

struct team_state /* what a lifter's folder holds and was made from: state.json */
{
    const char *lifter;  /* whose folder it is; "": written by a version that did not say */
    const char *key;     /* digest of everything that the folder was made from; "": it must be rebuilt */
    const char *results; /* digest of its tables, to compare with what the store holds */
    week_number last_week;
    bool any_chain;
    LIST(const char *) bands, setups, lifts; /* that were used, by name */
    LIST(struct team_file) files;
    LIST(struct team_output) outputs;
    LIST(struct name_count) names; /* in the logs; those in shared logs only for the first who shares them */
    LIST(struct team_answer) answers;
    LIST(double) volumes_kg; /* of all lifts, at the mean load; one per week, the last of them: */
    week_number volume_week;
    size_t sets, refused, findings[FINDING_FAULT + 1];
    size_t sets_before;       /* the newest day */
    const char *note;         /* what a reader should know about the folder; "" */
    const char *undrawn;      /* why a picture is missing, which the next night tries again; "" */
    const char *next;         /* the next waves, in one line */
    const char *first, *last; /* days; "" */
    const char *report;       /* the report, a file for people */
};

enum team_work
{
    WORK_NONE,      /* this run does not work on the lifter */
    WORK_WANTED,    /* to be checked, and made if it is not up to date */
    WORK_UNCHANGED, /* the folder is up to date */
    WORK_DONE,
    WORK_UNDRAWN, /* done, except for a picture */
    WORK_KEPT,    /* the last good folder was kept, because tonight's logs cannot be trusted */
    WORK_FAILED   /* the last good folder was kept, if there is one */
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
    struct team_state *state;     /* NULL: the folder has no state */
    enum team_work work;
    const struct worker *worker; /* the worker that has this lifter; NULL: none yet */
    const char *message;         /* why it failed, or what to know; "" */
    double seconds;
    size_t new_findings;
};

struct team
{
    struct arena *arena;
    const struct options *options;
    const struct gym *gym;
    const char *into;
    int root, lifters_folder; /* descriptors of DIR and DIR/lifters */
    day_number today;
    struct team_lifter *lifters; /* in the gym file's order */
    size_t count;
    struct map *files; /* by device and inode */
    LIST(struct team_group *) groups;
    double lifter_seconds, picture_seconds; /* time limits */
    bool has_gnuplot;                       /* with gnuplot, a night draws what one without it could not */
    bool only_looks;               /* nothing is made: the run only checks whether the folders match today's logs */
    bool *gnuplot_hangs;           /* shared by all processes of the night: gnuplot once hung and is not tried again */
    bool is_part;                  /* other runs may work on other lifters at the same time */
    LIST(const char *) gym_errors; /* what was refused in the gym file */
};

struct folder; /* one that is being made, next to the real one */
struct gathering;

struct team_finding /* a finding that the night before did not have */
{
    const char *lifter, *lift, *date, *severity, *id, *message;
};

struct team_page
{
    LIST(struct team_finding) fresh;
    LIST(struct name_count) strangers; /* named in the logs, but without a block */
    LIST(const char *) misplaced;      /* sentences about lifters in logs that belong to another lifter */
    LIST(const char *) gone;           /* folders without a block */
    LIST(const char *) left;           /* lifters that the gym file of the last night had */
    LIST(const char *) refusals;       /* the first of the new ones */
    const char *store_trouble, *clock; /* NULL: none */
    bool first_night;
    bool news_from_csv, news_unknown; /* because the store could not be used */
    size_t refused, new_refused, failed, new_said;
    size_t counts[WORKS];
};
enum exit_status run_team(struct arena *arena, const struct options *options);

#endif
