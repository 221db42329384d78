/* Sections of the report for a terminal; each writes its heading and its text, and nothing where there is nothing to
 * say. */
#ifndef TAUTLINE_COMMANDS_REPORT_TEXT_H
#define TAUTLINE_COMMANDS_REPORT_TEXT_H

#include "analysis/overload.h"
#include "analysis/records.h"
#include "analysis/statistics/slopes.h"
#include "analysis/trend.h"
#include "analysis/waves.h"
#include "commands/session/session.h"

struct report
{
    struct session *session;
    struct output *output;
    struct table_style style; /* text */
    const struct waves *waves;
    const struct overload *overloads;
    size_t overload_count;
    const struct overload *const *ordered; /* by lifter; with chain or band first, then those with waves */
    const struct trend_week *weeks;
    size_t week_count;
    const struct trend_slope *slopes;
    size_t slope_count;
    const struct lift_records *records;
    size_t record_count;
    bool several_lifters;
};

struct report report_make(struct session *session, struct output *output);

struct report_rows /* a table of the report, for all its forms */
{
    const struct column *columns;
    size_t column_count;
    const void *rows;
    size_t count, row_size;
};

/* One lifter's rows, or all of them (NULL). */
struct report_rows report_load_rows(const struct report *report, const char *lifter);
struct report_rows report_week_rows(const struct report *report, const char *lifter);
struct report_rows report_velocity_rows(const struct report *report, const char *lifter);
struct report_rows report_record_rows(const struct report *report, const char *lifter);
void report_table(const struct report *report, const struct report_rows *rows); /* as text */
/* The weeks in waves of a lift and focus. */
const struct wave_week *report_wave_weeks(const struct report *report, const struct overload *overload, size_t *count);

/* All of it, for a terminal or a file. */
void report_write(struct session *session, struct output *output);

void report_heading(const struct report *report, const char *title);
/* Breaks a paragraph at blanks to fit the width, each line indented. */
void report_paragraph(const struct report *report, const char *text, size_t indent);

void report_overload(const struct report *report);
void report_waves(const struct report *report);
void report_findings(const struct report *report); /* the first few of each kind */
void report_every_finding(const struct report *report);
void report_loads(const struct report *report);    /* each set-up used: what it weighed at bottom and top */
void report_weeks(const struct report *report);    /* volume and intensity */
void report_velocity(const struct report *report); /* where velocities were logged */
void report_records(const struct report *report);
void report_refused(const struct report *report);
void report_sharpen(const struct report *report); /* what the reader could supply */
void report_cautions(const struct report *report);

/* "Yes", "At the top only": the answer alone. */
const char *overload_verdict_words(const struct overload *overload);
/* The sentence that says whether a lift is overloading; the arena's. Shared by all forms of the report. */
char *overload_sentence(struct arena *arena, const struct overload *overload, enum mass_unit unit);
/* "Squat, speed", with the lifter's name before it where there are several. */
char *series_name(const struct report *report, const char *lifter, const char *lift, enum focus focus);

#endif
