#include "commands/report/report_verdicts.h"

#include "commands/report/report_text.h"

#include "commands/report/verdict_sentence.h"
#include "commands/session/summary.h"

#include <string.h>

/* This many lifts of a lifter get a paragraph; the rest go into a table, so that the first ones stay visible. */
#define PARAGRAPHS 6

struct answer
{
    const struct report *report;
    const struct verdict *verdict;
};

#define ANSWER(name, ...)                                                                                              \
    static void get_answer_##name(const void *row, struct cell *cell)                                                  \
    {                                                                                                                  \
        const struct answer *answer = row;                                                                             \
        const struct verdict *verdict = answer->verdict;                                                               \
        __VA_ARGS__;                                                                                                   \
    }

ANSWER(lift, cell_text(cell, series_name(answer->report, verdict->lifter, verdict->lift, verdict->focus)))
ANSWER(verdict, cell_text(cell, verdict_words(verdict)))
ANSWER(waves, cell_count(cell, (long)verdict->waves))
ANSWER(bottom, if (verdict->fact.exists) cell_number(cell, verdict->fact.over_kg[LOAD_BOTTOM]))
ANSWER(top, if (verdict->fact.exists) cell_number(cell, verdict->fact.over_kg[LOAD_TOP]))
ANSWER(trend, cell_text(cell, verdict_direction(verdict)))

static const struct column answer_columns[] = {
    {"lift", "lift", QUANTITY_PLAIN, 0, get_answer_lift},
    {"verdict", "verdict", QUANTITY_PLAIN, 0, get_answer_verdict},
    {"over_bottom_kg", "Δ bottom", QUANTITY_LOAD, 1, get_answer_bottom},
    {"over_top_kg", "Δ top", QUANTITY_LOAD, 1, get_answer_top},
    {"waves", "waves", QUANTITY_PLAIN, 0, get_answer_waves},
    {"trend", "long-term", QUANTITY_PLAIN, 0, get_answer_trend},
};

/* Lifts trained only occasionally, without a wave, have no answer. */
static bool has_answer(const struct verdict *verdict)
{
    return verdict->kind != VERDICT_NO_WAVES || verdict->trend.tendency != TENDENCY_TOO_EARLY || verdict->has_ar;
}

/* Writes the lifts of one lifter: [begin, end) of the ordered ones. Returns how many are not in a wave. */
static size_t write_answers(const struct report *report, size_t begin, size_t end)
{
    struct arena *arena = report->session->arena;
    LIST(struct answer) rest = {0};
    size_t written = 0, silent = 0;
    for (size_t i = begin; i < end; i++) {
        const struct verdict *verdict = report->ordered[i];
        if (!has_answer(verdict)) {
            silent++;
        } else if (written < PARAGRAPHS) {
            output_printf(report->output, "  %s\n",
                          series_name(report, verdict->lifter, verdict->lift, verdict->focus));
            report_paragraph(
                report, verdict_sentence(arena, verdict, report->session->unit, report->session->options->verbose), 4);
            if (verdict->fact.exists)
                report_paragraph(report, fact_sentence(arena, verdict, report->session->unit), 4);
            written++;
        } else {
            *LIST_ADD(arena, &rest) = (struct answer){report, verdict};
        }
    }
    if (rest.count) {
        output_text(report->output, "\n");
        report_table(report, &(struct report_rows){answer_columns, sizeof answer_columns / sizeof *answer_columns,
                                                   rest.items, rest.count, sizeof *rest.items});
    }
    return silent;
}

void report_verdicts(const struct report *report)
{
    size_t silent = 0;
    if (!report->verdict_count)
        return;
    report_heading(report, "Each wave in detail");
    for (size_t i = 0, end; i < report->verdict_count; i = end) {
        for (end = i; end < report->verdict_count && !strcmp(report->ordered[end]->lifter, report->ordered[i]->lifter);
             end++)
            ;
        silent += write_answers(report, i, end);
    }
    if (silent == report->verdict_count)
        output_text(report->output,
                    "  No lift has a wave yet: no two weeks in a row hold or raise the working load.\n");
    else if (silent)
        output_printf(report->output, "  %zu more %s no wave.\n", silent,
                      plural(silent, "lift and focus has", "lifts and focuses have"));
    output_text(report->output, "\n");
}
