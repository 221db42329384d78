/* What findings have in common: one cause may raise many findings, wave after wave and under several ids (a band that
 * is too stiff is stretched over its range, and also makes the share jump and the week's volume). A cause gathers
 * them, with its episodes, so that a reader is told what to change only once. Pure. */
#ifndef TAUTLINE_ANALYSIS_FINDINGS_CAUSES_H
#define TAUTLINE_ANALYSIS_FINDINGS_CAUSES_H

#include "analysis/findings/findings.h"

/* A cause that did not recur in the last weeks of the lifter's log is history: it is counted, but not listed first. */
#define CAUSE_HISTORY_DAYS (8 * 7)

struct cause
{
    const char *name;   /* for scripts: equal for findings of one cause, different for other causes of the same lifter:
                           "squat: band-over-range: band b48 @ floor" */
    enum finding_id id; /* of the findings that define the cause; all others are its effects */
    enum finding_severity severity; /* the highest of all its findings */
    const struct finding *newest;   /* of id, with the latest last set; gives the cause its lifter, lift and focus */
    const struct finding *const *findings; /* all, newest first */
    size_t count;
    size_t episodes;          /* findings of id */
    day_number first, last;   /* of all sets that are affected */
    day_number log_end;       /* the lifter's last day with a set: "now" in sentences about the cause */
    const char *const *lifts; /* affected lifts, sorted by name; owned by the arena */
    size_t lift_count;
    double kg; /* load at stake, the largest of its findings: the change, or the share of the 1RM; 0: unknown */
    bool history;
};

struct causes
{
    const struct cause *items; /* by lifter; what to change first: not history, then severity, newest week, kg */
    size_t count;
    const struct map *of_finding; /* for cause_of() */
};

/* The causes of findings that were made from this training. */
const struct causes *causes_make(struct arena *arena, const struct findings *findings, const struct training *training);

/* NULL: a finding of another training. */
const struct cause *cause_of(const struct causes *causes, const struct finding *finding);
/* What to do about it, as a sentence without its full stop: "Use a longer or a lighter band". */
const char *cause_remedy(const struct cause *cause);
/* Counts the causes of a severity, of one lifter or of all (NULL). */
size_t causes_count(const struct causes *causes, const char *lifter, enum finding_severity severity);

#endif
