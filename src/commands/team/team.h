/* What the files of the nightly team job share; nobody else includes it.
 *
 * team.c is the command; team_logs.c finds the logs and digests them; team_inputs.c says whether a lifter's folder rests on
 * what is there now; team_state.c keeps that beside the folder's files; team_workers.c runs a process a lifter, and
 * team_lifter.c is what it does; team_publish.c puts a folder's files in place; team_gather.c fills the store and the team's
 * CSV from the folders, team_page.c the page. */
#ifndef TAUTLINE_COMMANDS_TEAM_H
#define TAUTLINE_COMMANDS_TEAM_H

#include "analysis/findings/findings.h"
#include "analysis/overload.h"
#include "base/digest.h"
#include "base/names.h"
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

struct team_group /* lifters with the same shared logs, which are read once, by a process that then forks their workers */
{
    LIST(const struct team_argument *) arguments;
    struct arena *arena; /* NULL: not read yet */
    struct diags *diags;
    struct reading *reading;
    struct set *sets;     /* by lifter, as read within one */
    size_t *places;       /* of each of `sets` in the log as read */
    LIST(struct name_count) names; /* whom these logs name */
    const struct team_lifter *first; /* in the gym file's order: the one whose folder says whom they name */
    bool unreadable;
};

#define TEAM_WEEKS 26u /* that the page shows */

struct team_output
{
    const char *name; /* within the lifter's folder */
    int64_t bytes;
};

struct team_answer /* is it overloading? */
{
    const char *what; /* lift and focus */
    const char *text;
    enum overload_verdict verdict;
};

struct team_state /* what a lifter's folder holds and rests on: state.json */
{
    const char *key;     /* digest of all that the folder rests on; "": it is to be made anew */
    const char *results; /* digest of its tables: what the store holds of it */
    week_number last_week;
    bool any_chain;
    LIST(const char *) bands, setups, lifts; /* used, by name */
    LIST(struct team_file) files;
    LIST(struct team_output) outputs;
    LIST(struct name_count) names; /* whom the logs name; those shared, only for the first who shares them */
    LIST(struct team_answer) answers;
    LIST(double) volumes_kg;  /* of all lifts by the mean load, a week each, the last of them: */
    week_number volume_week;
    size_t sets, refused, findings[FINDING_FAULT + 1];
    const char *note; /* what to know of it; "" */
    const char *first, *last; /* days; "" */
    const char *report;       /* the file for a reader */
};

enum team_work
{
    WORK_UNCHANGED,
    WORK_WANTED,
    WORK_DONE,
    WORK_FAILED /* the last good night stands */
};

struct team_lifter
{
    const struct lifter *block;
    const char *folder; /* its name under lifters/ */
    const char *path;   /* DIR/lifters/FOLDER */
    LIST(struct team_argument *) arguments;
    LIST(const char *) unmatched; /* patterns */
    struct team_group *group;     /* NULL: shares no log */
    struct team_state *state;     /* NULL: the folder has none */
    enum team_work work;
    const char *message; /* of a failure, or what to know; "" */
    double seconds;
    size_t new_findings;
};

struct team
{
    struct arena *arena;
    const struct options *options;
    const struct gym *gym;
    const char *into;
    day_number today;
    struct team_lifter *lifters; /* in the gym file's order */
    size_t count;
    struct map *files; /* by device and inode */
    LIST(struct team_group *) groups;
    double lifter_seconds, picture_seconds; /* time limits */
    bool has_gnuplot; /* a night with it draws what one without it did not */
};

/* team_logs.c */
void team_find_logs(struct team *team);
bool team_argument_shared(const struct team_argument *argument);
void team_read_group(struct team *team, struct team_group *group);
/* Makes the reading's log one of this lifter's sets alone; in the worker, whose copy it is. */
struct log *team_take_sets(struct team_group *group, const char *lifter);

/* team_inputs.c */
void team_note_used(struct arena *arena, const struct log *log, struct team_state *state);
const char *team_key(const struct team *team, const struct team_lifter *lifter, const struct team_state *state);

/* team_state.c: NULL where there is none that can be used. */
struct team_state *team_state_read(struct arena *arena, const char *folder);
bool team_state_write(struct arena *arena, const char *folder, const struct team_state *state);

/* team_lifter.c: one lifter's work, in a process of its own. NULL: all went well; else what to tell, and *status. */
const char *team_lifter_work(struct team *team, struct team_lifter *lifter, enum exit_status *status);

/* team_publish.c */
struct folder; /* being made beside the real one */
struct folder *folder_begin(struct arena *arena, const char *path);
struct output *folder_output(struct folder *folder, const char *name); /* NULL: failed, kept */
void folder_written(struct folder *folder, struct output *output);
const char *folder_path(const struct folder *folder, const char *name); /* of a file being made */
void folder_add(struct folder *folder, const char *name);               /* made by somebody else, if it is there */
/* Puts all in place, the state last. NULL: done; else why not: what was there stands. */
const char *folder_publish(struct folder *folder, struct team_state *state, const struct team_state *before);
void folder_discard(struct folder *folder);
/* What a killed run was writing there: files; folders beside those of lifters, when no other run is at work. */
void folder_sweep(struct arena *arena, const char *path);
void folders_sweep(struct arena *arena, const char *path);

/* team_workers.c: calls `finished` in this process as each lifter ends. */
typedef void lifter_finished(void *context, struct team_lifter *lifter);
void team_run_workers(struct team *team, unsigned jobs, lifter_finished *finished, void *context);

/* team_gather.c */
struct gathering;
struct gathering *gather_begin(struct team *team);
void gather_lifter(struct gathering *gathering, struct team_lifter *lifter); /* its folder into the store, if that is news */
bool gather_end(struct gathering *gathering);                               /* all else; false: something was not written */

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
    bool first_night;
    size_t refused, failed;
};
const struct team_page *gather_page(const struct gathering *gathering);

/* team_page.c */
void team_page_write(const struct team *team, const struct team_page *page, struct output *output);

#endif
