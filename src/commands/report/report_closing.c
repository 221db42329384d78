#include "commands/report/report_closing.h"

#include "commands/report/report_text.h"

#include "base/text.h"
#include "commands/session/summary.h"

#define REFUSED_SHOWN 10

void report_refused(const struct report *report)
{
    const struct diags *diags = report->session->diags;
    size_t all = diags_total(diags, SEVERITY_ERROR), shown = 0;
    if (!all)
        return;
    report_heading(report, "Refused");
    for (const struct diag *diag = diags_first(diags); diag && shown < REFUSED_SHOWN; diag = diag->next) {
        if (diag_severity(diag->id) != SEVERITY_ERROR)
            continue;
        struct arena *arena = report->session->arena;
        report_paragraph(report,
                         arena_printf(arena, "%s:%u: %s", text_visible(arena, diag->at.file ? diag->at.file : ""),
                                      diag->at.line, text_visible(arena, diag->message)),
                         2);
        shown++;
    }
    if (all > shown)
        output_printf(report->output, "  and %zu more; `tautline check` lists them all.\n", all - shown);
    output_text(report->output, "\n");
}

static bool any_assumed(const struct report *report, unsigned assumed)
{
    const struct training *training = report->session->training;
    for (size_t i = 0; i < training->count; i++)
        if (training->sets[i].assumed & assumed)
            return true;
    return false;
}

void report_sharpen(const struct report *report)
{
    const struct gym *gym = report->session->gym;
    bool gear = any_assumed(report, ASSUMED_UNKNOWN_GEAR | ASSUMED_CHAIN_MASS | ASSUMED_NO_HEIGHTS);
    if (gym->path && !gear && !any_assumed(report, ASSUMED_ONE_REP_MAX))
        return;
    report_heading(report, "How to improve these numbers");
    if (!gym->path)
        report_paragraph(
            report, "Write a gym file: tautline finds gym.ini in the folder of the log by itself (tautline-gym(5)).",
            2);
    if (gear)
        report_paragraph(report,
                         "Weigh each chain and measure each chain and band once; measure the bar's height at the "
                         "bottom and top of each "
                         "lift. Then the load is "
                         "computed at every height instead of assumed.",
                         2);
    if (any_assumed(report, ASSUMED_ONE_REP_MAX))
        report_paragraph(report,
                         "Give the tested 1RM with its date (max = LIFT LOAD DATE under [lifter]), or name the session "
                         "that tests it \"test\".",
                         2);
    output_text(report->output, "\n");
}

void report_cautions(const struct report *report)
{
    report_heading(report, "Safety");
    report_paragraph(report, words_to_mind, 2);
}
