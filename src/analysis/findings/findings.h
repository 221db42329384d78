/* What a coach would point out in a log: each finding with the sets it is based on, its number and its limit, why it
 * matters and the source. One finding for each lifter, lift and episode: a wave, or an unbroken run of sessions with
 * the same cause. Pure.
 *
 * Nothing here is medical advice; code that prints findings must say so. */
#ifndef TAUTLINE_ANALYSIS_FINDINGS_H
#define TAUTLINE_ANALYSIS_FINDINGS_H

#include "analysis/training.h"
#include "base/unit.h"

enum finding_id
{
#define FINDING(id, ...) FINDING_##id,
#include "findings.def"
    FINDING_COUNT
};

enum finding_severity
{
    FINDING_NOTE,
    FINDING_CAUTION,
    FINDING_FAULT
};

enum finding_unit /* of value and limit */
{
    FINDING_PLAIN, /* a count, a ratio */
    FINDING_KG,
    FINDING_SHARE, /* a fraction */
    FINDING_DAYS,
    FINDING_LINKS /* of a chain */
};

enum finding_advice /* what to do about it; the most important first */
{
    ADVICE_MEND_GEAR,
    ADVICE_KEEP_SETUP,
    ADVICE_CHOOSE_LOADS,
    ADVICE_MEASURE,
    ADVICE_COUNT
};

struct finding_kind
{
    const char *id;
    enum finding_severity severity;
    enum finding_unit unit;
    enum finding_advice advice;
    const char *why;    /* ends the message's sentence */
    const char *source; /* a published source, or "common practice" */
};

extern const struct finding_kind finding_kinds[FINDING_COUNT];
const char *finding_severity_name(enum finding_severity severity); /* note, caution, fault */
bool finding_severity_read(const char *name, enum finding_severity *severity);
const char *finding_advice_words(enum finding_advice advice); /* as a heading */

/* Limits: one for each finding's own id, then the further limits of findings that have several. [limits] of a gym
 * file changes each by its name or switches it off; off for a finding's own id switches off the whole finding. A
 * limit that is a fraction may be given as a fraction or in per cent, 0.05 or 5: a number of 1 or more is read as per
 * cent. */
enum finding_limit_id
{
    LIMIT_BEFORE = FINDING_COUNT - 1, /* so that the first one is FINDING_COUNT */
#define LIMIT(id, ...) LIMIT_##id,
#include "findings.def"
    LIMIT_COUNT
};

struct limit_row
{
    const char *id; /* as in [limits] */
    enum finding_unit unit;
    double number; /* the default */
};

extern const struct limit_row limit_rows[LIMIT_COUNT];

struct finding_lines /* of one file, first to last */
{
    uint32_t file, first, last;
};

#define FINDING_LINES 8 /* runs that are kept; the rest are counted */

struct finding
{
    enum finding_id id;
    const struct evaluated_set *first; /* gives the finding its lifter, lift, day and line */
    const struct evaluated_set *last;
    size_t sets;
    enum finding_unit unit; /* of value and limit: that of the kind, except for what a band lost */
    double value, limit; /* the worst of the episode; in kg whatever unit the messages use; NAN: there is no number */
    const char *what;    /* "chain long hangs 4.0 cm clear of the floor at the top" */
    const char *fact;    /* the same, with the number of sets and the last day */
    const char *message; /* one sentence: the fact, the number of sets, and why it matters */
    const char *source;
    const char *subject;                           /* the chain or band concerned: "band b48 @ floor"; "": none */
    struct finding_lines lines[FINDING_LINES + 1]; /* the first FINDING_LINES runs; the element after them is scratch */
    size_t runs;                                   /* of lines, in total */
};

struct findings
{
    const struct finding *const *items; /* sorted by lifter, lift, day, place, id */
    size_t count;
    const struct log *log; /* the lines are in its files */
};

struct findings_options
{
    uint32_t ids; /* the findings that were asked for, one bit each */
    enum finding_severity least;
    enum mass_unit unit; /* of the messages */
};

#define ALL_FINDINGS ((UINT32_C(1) << FINDING_COUNT) - 1)

const struct findings *findings_make(struct arena *arena, const struct training *training,
                                     const struct findings_options *options);

/* The same from the training's waves, if they have been made. */
struct waves;
const struct findings *findings_from_waves(struct arena *arena, const struct training *training,
                                           const struct waves *waves, const struct findings_options *options);
/* Does step-uneven find this wave? */
struct wave;
bool wave_steps_uneven(const struct gym *gym, const struct wave *wave);

bool findings_have(const struct findings *findings, enum finding_severity severity); /* any of this severity or above */

#endif
