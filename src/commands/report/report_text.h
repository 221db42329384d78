/* Sections of the report for a terminal; each writes its heading and its text, or nothing if there is nothing to
 * report. */
#ifndef TAUTLINE_COMMANDS_REPORT_TEXT_H
#define TAUTLINE_COMMANDS_REPORT_TEXT_H

#include "analysis/records.h"
#include "analysis/statistics/slopes.h"
#include "analysis/trend.h"
#include "analysis/verdict.h"
#include "analysis/waves.h"
#include "commands/session/session.h"

struct report
{
    struct session *session;
    struct output *output;
    struct table_style style; /* text */
    const struct waves *waves;
    const struct verdict *verdicts;
    size_t verdict_count;
    const struct verdict *const *ordered; /* by lifter; those with chain or band first, then those with waves */
    const struct trend_week *weeks;
    size_t week_count;
    const struct trend_slope *slopes;
    size_t slope_count;
    const struct lift_records *records;
    size_t record_count;
    bool several_lifters;
};

struct report report_make(struct session *session, struct output *output);
/* The same without weeks, slopes and records, for callers that write only findings. */
struct report report_of_findings(struct session *session, struct output *output);

/* A lifter's part of it, made in `arena`; its output is that of the whole. */
struct report report_part(struct arena *arena, const struct report *report, const char *lifter);

struct report_rows /* a table of the report, for all its forms */
{
    const struct column *columns;
    size_t column_count;
    const void *rows;
    size_t count, row_size;
};

void report_table(const struct report *report, const struct report_rows *rows); /* as text */

void report_heading(const struct report *report, const char *title);
/* Breaks a paragraph at blanks to fit the width, each line indented. */
void report_paragraph(const struct report *report, const char *text, size_t indent);

/* "Squat, speed", with the lifter's name before it where there are several. */
char *series_name(const struct report *report, const char *lifter, const char *lift, enum focus focus);

#endif
