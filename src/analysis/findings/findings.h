/* What a coach would point at in a log: each finding with the sets it rests on, its number and its limit, why it
 * matters and who says so. One finding for each lifter, lift and episode: a wave, or an unbroken run of sessions with
 * the same cause. Pure.
 *
 * Nothing here is medical advice; whoever prints findings says so. */
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

enum finding_advice /* what to do about it; the gravest matters first */
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
    const char *source; /* a published source (README lists them), or "common practice" */
};

extern const struct finding_kind finding_kinds[FINDING_COUNT];
const char *finding_severity_name(enum finding_severity severity); /* note, caution, fault */
bool finding_severity_read(const char *name, enum finding_severity *severity);
const char *finding_advice_words(enum finding_advice advice); /* a heading */

/* Limits: one of each finding's own id, then those of findings that have several. [limits] of a gym file moves each by
 * its name or switches it off; off for a finding's own id switches off all of the finding. A limit that is a fraction
 * may be given as one or in per cent, 0.05 or 5: from 1 up it is taken for per cent. */
enum finding_limit_id
{
    LIMIT_BEFORE = FINDING_COUNT - 1, /* the first one is FINDING_COUNT */
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

#define FINDING_LINES 8 /* runs kept; the rest is counted */

struct finding
{
    enum finding_id id;
    const struct evaluated_set *first; /* whose lifter, lift, day and line stand for the finding */
    const struct evaluated_set *last;
    size_t sets;
    enum finding_unit unit; /* of value and limit: the kind's, but for what a band lost */
    double value, limit;    /* the worst of the episode; kg whatever the messages are in; NAN: there is no number */
    const char *what;       /* "chain long hangs 4.0 cm clear of the floor at the top" */
    const char *fact;       /* that, in how many sets and until when */
    const char *message;    /* one sentence: the fact, in how many sets, and why it matters */
    const char *source;
    const char *subject; /* the chain or band that it is about: "band b48 @ floor"; "": none */
    struct finding_lines lines[FINDING_LINES + 1]; /* the first FINDING_LINES runs; the element after them is scratch */
    size_t runs;                                   /* of lines, in all */
};

struct findings
{
    const struct finding *const *items; /* by lifter, lift, day, place, id */
    size_t count;
    const struct log *log; /* whose files the lines are of */
};

struct findings_options
{
    uint32_t ids; /* bit by bit: those asked for */
    enum finding_severity least;
    enum mass_unit unit; /* of the messages */
};

#define ALL_FINDINGS ((UINT32_C(1) << FINDING_COUNT) - 1)

const struct findings *findings_make(struct arena *arena, const struct training *training,
                                     const struct findings_options *options);

/* The same from the training's waves, where they have been made. */
struct waves;
const struct findings *findings_from_waves(struct arena *arena, const struct training *training,
                                           const struct waves *waves, const struct findings_options *options);
bool findings_have(const struct findings *findings, enum finding_severity severity); /* any that grave */

#endif
