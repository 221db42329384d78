/* Words for causes of findings, shared by the text report and the page. Strings are owned by the arena. */
#ifndef TAUTLINE_COMMANDS_REPORT_CAUSE_TEXT_H
#define TAUTLINE_COMMANDS_REPORT_CAUSE_TEXT_H

#include "commands/report/report_text.h"

/* "squat, speed", "3 lifts"; with the lifter where there are several. */
const char *cause_of_what(const struct report *report, const struct cause *cause);
/* "once, on 9 Sep 2026"; "in 7 waves since 3 Mar 2026, newest 9 Sep" */
/* The same text with its days and weeks written as the sentence around it writes them: "9 Sep 2026", not "2026-09-09".
 */
const char *with_day_words(struct arena *arena, const char *text);
const char *cause_when(struct arena *arena, const struct cause *cause);
/* "share-jump twice and volume-jump once": findings that follow from the cause; "": none. */
const char *cause_effects(struct arena *arena, const struct cause *cause);
/* "log.csv:44": where the newest of its findings begins. */
const char *cause_place(const struct report *report, const struct cause *cause);
/* What happened, how often and since when, what to do, where: for readers who read a single sentence. */
const char *cause_sentence(const struct report *report, const struct cause *cause);

/* "Found 62.5 %, limit 5.0 %." where both are quantities that a reader knows; else "". */
const char *finding_limit_words(const struct report *report, const struct finding *finding);
/* "log.csv:44, 52, 61-68 and 3 more places" */
const char *finding_lines_words(const struct report *report, const struct finding *finding);

#endif
