#include "commands/report/report_overload.h"

#include "commands/report/report_text.h"

#include "commands/session/summary.h"
#include "commands/report/overload_sentence.h"

#include <string.h>

/* So many lifts of a lifter have a paragraph; the rest stand in a table, or they would drown the first. */
#define PARAGRAPHS 6

struct answer
{
    const struct report *report;
    const struct overload *overload;
};

#define ANSWER(name, ...)                                                                                              \
    static void get_answer_##name(const void *row, struct cell *cell)                                                  \
    {                                                                                                                  \
        const struct answer *answer = row;                                                                             \
        const struct overload *overload = answer->overload;                                                            \
        __VA_ARGS__;                                                                                                   \
    }

ANSWER(lift, cell_text(cell, series_name(answer->report, overload->lifter, overload->lift, overload->focus)))
ANSWER(verdict, cell_text(cell, overload_verdict_words(overload)))
ANSWER(waves, cell_count(cell, (long)overload->waves))
ANSWER(bottom, if (overload->steps) cell_number(cell, overload->over_kg[LOAD_BOTTOM]))
ANSWER(top, if (overload->steps) cell_number(cell, overload->over_kg[LOAD_TOP]))
ANSWER(trend, cell_text(cell, slope_direction(&overload->top)))

static const struct column answer_columns[] = {
    {"lift", "lift", QUANTITY_PLAIN, 0, get_answer_lift},
    {"verdict", "overload", QUANTITY_PLAIN, 0, get_answer_verdict},
    {"over_bottom_kg", "over bot", QUANTITY_LOAD, 1, get_answer_bottom},
    {"over_top_kg", "over top", QUANTITY_LOAD, 1, get_answer_top},
    {"waves", "waves", QUANTITY_PLAIN, 0, get_answer_waves},
    {"trend", "over all", QUANTITY_PLAIN, 0, get_answer_trend},
};

/* Lifts trained now and then, in no wave, have no answer. */
static bool has_answer(const struct overload *overload)
{
    return overload->verdict != OVERLOAD_NO_WAVE || overload->has_ar;
}

/* The lifts of one lifter: [begin, end) of the ordered ones. Returns how many are in no wave. */
static size_t write_answers(const struct report *report, size_t begin, size_t end)
{
    struct arena *arena = report->session->arena;
    LIST(struct answer) rest = {0};
    size_t written = 0, silent = 0;
    for (size_t i = begin; i < end; i++) {
        const struct overload *overload = report->ordered[i];
        if (!has_answer(overload)) {
            silent++;
        } else if (written < PARAGRAPHS) {
            output_printf(report->output, "  %s\n",
                          series_name(report, overload->lifter, overload->lift, overload->focus));
            report_paragraph(report, overload_sentence(arena, overload, report->session->unit), 4);
            written++;
        } else {
            *LIST_ADD(arena, &rest) = (struct answer){report, overload};
        }
    }
    if (rest.count) {
        output_text(report->output, "\n");
        report_table(report, &(struct report_rows){answer_columns, sizeof answer_columns / sizeof *answer_columns,
                                                   rest.items, rest.count, sizeof *rest.items});
    }
    return silent;
}

void report_overload(const struct report *report)
{
    size_t silent = 0;
    if (!report->overload_count)
        return;
    report_heading(report, "Is it overloading?");
    for (size_t i = 0, end; i < report->overload_count; i = end) {
        for (end = i; end < report->overload_count && !strcmp(report->ordered[end]->lifter, report->ordered[i]->lifter);
             end++)
            ;
        silent += write_answers(report, i, end);
    }
    if (silent == report->overload_count)
        output_text(report->output,
                    "  No lift has a wave yet: no two weeks in a row hold or raise the working load.\n");
    else if (silent)
        output_printf(report->output, "  %zu more %s no wave.\n", silent,
                      plural(silent, "lift and focus has", "lifts and focuses have"));
    output_text(report->output, "\n");
}
