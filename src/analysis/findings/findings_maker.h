/* What the files of findings share: what is known of a lift, and findings as they grow. For findings*.c only. */
#ifndef TAUTLINE_ANALYSIS_FINDINGS_MAKER_H
#define TAUTLINE_ANALYSIS_FINDINGS_MAKER_H

#include "analysis/findings/findings.h"
#include "analysis/waves.h"

struct findings_maker
{
    struct arena *arena;   /* of the findings */
    struct arena *scratch; /* emptied at the end */
    const struct training *training;
    const struct findings_options *options;
    double limits[LIMIT_COUNT]; /* NAN: off; nothing is beyond it */
    bool off[FINDING_COUNT];
    const week_number *first_weeks; /* see first_weeks_with_ar() */
    const struct map *slips;        /* see slips_by_set() */
    LIST(struct finding *) list;
};

struct lift_review /* one lift of one lifter, with all that is known of it */
{
    struct lift_sets sets;       /* never empty; by day and place */
    const struct lifter *lifter; /* of the gym file; NULL: not in it */
    const struct wave *waves;
    size_t wave_count;
    const struct wave_week *weeks; /* light and lone ones too, by focus and week */
    size_t week_count;
};

/* Are there chains or bands? Releasers are off the bar before it is lifted. */
bool bears_ar(const struct load *load);

/* Beyond a limit by more than the last bits; false for NAN, which is a limit that is off or a number that nobody knows.
 */
bool is_above(double value, double limit);
bool is_below(double value, double limit);

bool comes_before(const struct evaluated_set *a, const struct evaluated_set *b); /* by day and place */

struct finding *finding_new(struct findings_maker *maker, enum finding_id id);
void finding_add(struct finding *finding, const struct evaluated_set *set);
/* The work sets of a week; those of a focus at its working load and AR. */
void finding_add_all(struct finding *finding, const struct lift_review *review, week_number week);
void finding_add_week(struct finding *finding, const struct lift_review *review, const struct wave_week *week);
/* True where the value is further beyond its limit than the finding's; then it is the finding's, and the fact is due.
 */
bool finding_update_worst(struct finding *finding, double value, double limit);

/* Runs of sessions with one cause. `key` tells causes of one id apart and is borrowed. Sessions are numbered by the
 * caller, who leaves out those in which the cause could not have been. */
struct episode
{
    enum finding_id id;
    const char *key;
    size_t session; /* the last that had it */
    struct finding *finding;
};

struct episodes
{
    LIST(struct episode) list;
};

/* The finding that runs through this session or the one before; else a new one. */
struct finding *episode_finding(struct findings_maker *maker, struct episodes *episodes, enum finding_id id,
                                const char *key, size_t session);

/* Words of facts, the scratch arena's. */
const char *percent_words(struct findings_maker *maker, double share);  /* 34.2 % */
const char *load_words(struct findings_maker *maker, double kg);        /* 14.0 kg */
const char *change_words(struct findings_maker *maker, double kg);      /* +14.0 kg; "an unknown amount" */
const char *length_words(struct findings_maker *maker, double metres);  /* 4.0 cm */
const char *day_words(struct findings_maker *maker, day_number day);    /* 2026-01-12 */
const char *week_words(struct findings_maker *maker, week_number week); /* 2026-W03 */
const char *weeks_words(struct findings_maker *maker,
                        const struct wave *wave); /* wave 4 of speed work (2026-W03 to 2026-W05) */

#endif
