/* What the files of findings share: what is known about a lift, and findings while they are being built. Only for
 * findings*.c. */
#ifndef TAUTLINE_ANALYSIS_FINDINGS_MAKER_H
#define TAUTLINE_ANALYSIS_FINDINGS_MAKER_H

#include "analysis/findings/findings.h"
#include "analysis/waves.h"

struct findings_maker
{
    struct arena *arena;   /* that owns the findings */
    struct arena *scratch; /* emptied at the end */
    const struct training *training;
    const struct findings_options *options;
    double limits[LIMIT_COUNT]; /* NAN: off, so that no value is above it */
    bool off[FINDING_COUNT];
    const week_number *first_weeks; /* see first_weeks_with_ar() */
    const struct map *slips;        /* see slips_by_set() */
    LIST(struct finding *) list;
};

struct lift_review /* one lift of one lifter, with everything known about it */
{
    struct lift_sets sets;       /* never empty; by day and place */
    const struct lifter *lifter; /* in the gym file; NULL: not in it */
    const struct wave *waves;
    size_t wave_count;
    const struct wave_week *weeks; /* including light and lone ones, sorted by focus and week */
    size_t week_count;
};

/* The defaults, changed by the gym file's [limits]; `limits` has LIMIT_COUNT elements, `off` FINDING_COUNT. */
void limits_of_gym(const struct gym *gym, double *limits, bool *off);

/* Does the load have chains or bands during the lift? Releasers do not count: they are off the bar before it is
 * lifted. */
bool bears_ar(const struct load *load);

/* Above a limit by more than floating-point error; false if either is NAN: a limit that is off, or an unknown value. */
bool is_above(double value, double limit);
bool is_below(double value, double limit);

bool comes_before(const struct evaluated_set *a, const struct evaluated_set *b); /* by day and place */

struct finding *finding_new(struct findings_maker *maker, enum finding_id id);
void finding_add(struct finding *finding, const struct evaluated_set *set);
/* Adds the work sets of a week; with a focus, only those at its working load and AR. */
void finding_add_all(struct finding *finding, const struct lift_review *review, week_number week);
void finding_add_week(struct finding *finding, const struct lift_review *review, const struct wave_week *week);
/* True if the value is further beyond its limit than the finding's own; it then becomes the finding's value, and the
 * caller must set the fact. */
bool finding_update_worst(struct finding *finding, double value, double limit);

/* Runs of sessions with one cause. `key` distinguishes causes with the same id and is borrowed. The caller numbers
 * the sessions, and leaves out those in which the cause cannot occur. */
struct episode
{
    enum finding_id id;
    const char *key;
    size_t session; /* the last session that had it */
    struct finding *finding;
};

struct episodes
{
    LIST(struct episode) list;
};

/* The finding whose run includes this session or the one before; else a new one. */
struct finding *episode_finding(struct findings_maker *maker, struct episodes *episodes, enum finding_id id,
                                const char *key, size_t session);

/* Words for facts, owned by the scratch arena. */
const char *percent_words(struct findings_maker *maker, double share);  /* 34.2 % */
const char *load_words(struct findings_maker *maker, double kg);        /* 14.0 kg */
const char *change_words(struct findings_maker *maker, double kg);      /* +14.0 kg; "an unknown amount" */
const char *length_words(struct findings_maker *maker, double metres);  /* 4.0 cm */
const char *day_words(struct findings_maker *maker, day_number day);    /* 2026-01-12 */
const char *week_words(struct findings_maker *maker, week_number week); /* 2026-W03 */
const char *weeks_words(struct findings_maker *maker,
                        const struct wave *wave); /* wave 4 of speed work (2026-W03 to 2026-W05) */

#endif
