#include "reading/text/text_session.h"

#include "model/focus.h"
#include "reading/text/text_headings.h"
#include "reading/text/text_log.h"
#include "reading/text/text_patterns.h"

#include <string.h>

void text_end_session(struct text_log *log)
{
    if (log->sessions.count)
        log->sessions.items[log->sessions.count - 1].end = log->reading->log->sets.count;
    text_end_notes(log);
    text_end_heading(log);
    log->heading = (struct heading){.after_blank = true};
    log->waiting.text.count = 0;
    log->last_first = log->last_end = 0;
    log->focus = FOCUS_UNSAID;
    log->light = false;
    log->any_session = true;
}

/* The user's word on dates, else the lifter's, else the gym's. */
static enum date_order dates_of(struct text_log *log)
{
    const struct gym *gym = log->reading->gym;
    const struct lifter *lifter = gym_lifter(gym, names_text(log->reading->log->lifters, text_lifter(log)));
    if (log->reading->options.dates != DATES_UNSAID)
        return log->reading->options.dates;
    return lifter && lifter->dates != DATES_UNSAID ? lifter->dates : gym->dates;
}

static bool refuse_date(struct text_log *log, struct text_span span, const char *why)
{
    log->state = SESSION_REFUSED;
    return text_say(log, DIAG_BAD_DATE, span, NULL, "%s", why);
}

static bool read_date(struct text_log *log, struct text_span span)
{
    struct arena *scratch = log->reading->scratch;
    const char *text = arena_text(scratch, log->text + span.at, span.length);
    struct written_day written = day_read(text);
    enum date_order order = dates_of(log);
    if (written.kind == DAY_UNREADABLE)
        return refuse_date(log, span, arena_printf(scratch, "'%s' is not a date", text));
    if (written.kind == DAY_IMPOSSIBLE)
        return refuse_date(log, span, arena_printf(scratch, "there is no day '%s'", text));
    if (written.kind == DAY_FAR)
        return refuse_date(log, span,
                           arena_printf(scratch, "'%s' is not in the years %d to %d", text, FIRST_YEAR, LAST_YEAR));
    if (written.kind != DAY_SURE && order != DATES_UNSAID) {
        written.day = order == DATES_DMY ? written.dmy : order == DATES_MDY ? written.mdy : NO_DAY;
        written.kind = DAY_SURE;
        if (written.day == NO_DAY)
            return refuse_date(log, span,
                               arena_printf(scratch, "'%s' is not a date in the order that was given", text));
    } else {
        day_order_see(&log->order, &written);
    }
    uint32_t *first = written.kind == DAY_DMY_ONLY   ? &log->dmy_line
                      : written.kind == DAY_MDY_ONLY ? &log->mdy_line
                                                     : &log->either_line;
    if (written.kind != DAY_SURE) {
        *first = *first ? *first : log->line;
        size_t begin = log->reading->log->sets.count;
        *LIST_ADD(log->own, &log->sessions) = (struct text_session){begin, begin, written.dmy, written.mdy};
    }
    log->written = written;
    return true;
}

/* Behind the date: a focus, and any other words, which are a note. */
static bool read_session_words(struct text_log *log, struct text_span span)
{
    struct text_match match;
    struct arena *scratch = log->reading->scratch;
    const char *words = arena_text(scratch, log->text + span.at, span.length);
    if (text_finds(log->patterns, PATTERN_WORK, log->decimal, words, strlen(words), 0, &match))
        return text_say(log, DIAG_BAD_LINE, span, "write each lift on a line of its own under the date",
                        "sets on the date's line");
    struct focus_said said;
    size_t length;
    if (focus_at_start(words, &said, &length) && !said.light)
        words += length + strspn(words + length, " \t,;:-");
    else if (!focus_in_name(words, &said)) /* it stays in the note: nothing of the line is lost */
        focus_in_note(words, &said);
    log->focus = said.focus;
    log->light = said.light;
    if (*words)
        text_add_note(log, &log->waiting, words);
    return true;
}

bool text_read_session(struct text_log *log, const struct text_match *match)
{
    text_end_session(log);
    log->state = SESSION_GOOD;
    return read_date(log, match->group[1]) && read_session_words(log, match->group[2]);
}

/* --- the whole file ---------------------------------------------------------------------------------------------- */

static bool refuse_dates(struct text_log *log, enum day_settled settled)
{
    struct place at = {.file = log->path, .line = log->either_line};
    if (settled == SETTLED_BOTH) {
        at.line = log->dmy_line > log->mdy_line ? log->dmy_line : log->mdy_line;
        diag_add(log->reading->diags, DIAG_UNSETTLED_DATES, at, NULL, NULL,
                 "dates are day first on line %u and month first on line %u: nothing in this file was used",
                 log->dmy_line, log->mdy_line);
    } else {
        diag_add(log->reading->diags, DIAG_UNSETTLED_DATES, at, NULL, NULL,
                 "dates may be day first or month first, and no line shows which: nothing in this file was used");
    }
    return false;
}

/* The whole file decides on the order of day and month. */
bool text_settle_dates(struct text_log *log)
{
    enum day_settled settled = day_order_settle(&log->order);
    if (settled == SETTLED_NOT || settled == SETTLED_BOTH)
        return refuse_dates(log, settled);
    bool by_order = settled == SETTLED_DMY_BY_ORDER || settled == SETTLED_MDY_BY_ORDER;
    bool day_first = settled == SETTLED_DMY || settled == SETTLED_DMY_BY_ORDER;
    struct set *sets = log->reading->log->sets.items;
    for (size_t i = 0; i < log->sessions.count; i++)
        for (size_t k = log->sessions.items[i].first; k < log->sessions.items[i].end; k++) {
            if (sets[k].day != NO_DAY)
                continue;
            sets[k].day = day_first ? log->sessions.items[i].dmy : log->sessions.items[i].mdy;
            sets[k].assumed |= (uint16_t)(by_order ? ASSUMED_DATE_ORDER : 0);
        }
    if (by_order)
        diag_add(log->reading->diags, DIAG_ASSUMED_DATE_ORDER,
                 (struct place){.file = log->path, .line = log->either_line}, NULL, NULL,
                 "dates were read %s first, because only then are the sessions in order", day_first ? "day" : "month");
    return true;
}
