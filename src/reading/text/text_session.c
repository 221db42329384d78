#include "reading/text/text_session.h"

#include "base/text.h"
#include "model/focus.h"
#include "reading/text/text_headings.h"
#include "reading/text/text_line.h"
#include "reading/text/text_log.h"
#include "reading/text/text_patterns.h"
#include "reading/years.h"

#include <string.h>

#define DATE_LINE_BYTES 400 /* a longer line after # is a comment */

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

/* The order of dates: the user's, else the lifter's, else the gym's. */
static enum date_order dates_of(struct text_log *log)
{
    const struct gym *gym = log->reading->gym;
    const struct lifter *lifter = gym_lifter(gym, names_text(log->reading->log->lifters, text_lifter(log)));
    if (log->reading->options.dates != DATES_UNSAID)
        return log->reading->options.dates;
    return lifter && lifter->dates != DATES_UNSAID ? lifter->dates : gym->dates;
}

static bool refuse_date(struct text_log *log, struct text_span span, const char *hint, const char *why)
{
    log->state = SESSION_REFUSED;
    return text_say(log, DIAG_BAD_DATE, span, hint, "%s", why);
}

/* A date without its year gets that of the session before, or of the file's name. False: there is none, already
 * reported. */
static bool add_year(struct text_log *log, struct text_span span, const char *text, struct written_day *written)
{
    if (written->kind != DAY_UNREADABLE || day_read_in_year(text, 2024).kind == DAY_UNREADABLE) /* a leap year */
        return true;
    int year = year_after(text, log->last_day, log->named_year ? log->named_year : year_of_names(NULL, log->path));
    if (!year)
        return refuse_date(log, span, "write the year too, in a title above it, or into the file's name",
                           arena_printf(log->reading->scratch,
                                        "'%s' has no year, nor has a date or title above it or the file's name", text));
    *written = day_read_in_year(text, year);
    log->year_taken = true;
    tally_add(&log->years, 1, log->line);
    return true;
}

static bool read_date(struct text_log *log, struct text_span span)
{
    struct arena *scratch = log->reading->scratch;
    const char *text = arena_text(scratch, log->text + span.at, span.length);
    struct written_day written = day_read(text);
    enum date_order order = dates_of(log);
    log->year_taken = false;
    if (!add_year(log, span, text, &written))
        return false;
    if (written.kind == DAY_UNREADABLE)
        return refuse_date(log, span, NULL, arena_printf(scratch, "'%s' is not a date", text));
    if (written.kind == DAY_IMPOSSIBLE) {
        log->state = SESSION_REFUSED;
        return text_say(log, DIAG_BAD_DATE, span, "correct the day or the month", "there is no day '%s'", text);
    }
    if (written.kind == DAY_FAR)
        return refuse_date(log, span, NULL,
                           arena_printf(scratch, "'%s' is not in the years %d to %d", text, FIRST_YEAR, LAST_YEAR));
    if (written.kind != DAY_SURE && order != DATES_UNSAID) {
        written.day = order == DATES_DMY ? written.dmy : order == DATES_MDY ? written.mdy : NO_DAY;
        written.kind = DAY_SURE;
        if (written.day == NO_DAY)
            return refuse_date(log, span, NULL,
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
    log->last_day = written_any_day(&written);
    return true;
}

/* 2026-01-05 squat 100x5: the rest of the line is read as a line of its own, but keeps its columns. */
static bool read_work_behind(struct text_log *log, struct text_span span, const char *words)
{
    if (!text_names_lift(log, words) || log->length > WORK_LINE_LIMIT)
        return text_say(log, DIAG_BAD_LINE, span, "write each lift on a line of its own under the date",
                        "sets on the date's line");
    size_t column = text_characters(log->text, span.at + span.length - strlen(words));
    log->text = arena_printf(log->reading->scratch, "%*s%s", (int)column, "", words);
    log->length = strlen(log->text);
    return text_read_line(log);
}

/* After the date: a focus, and any other words, which are a note; or a line of work. */
static bool read_session_words(struct text_log *log, struct text_span span)
{
    struct text_match match;
    struct arena *scratch = log->reading->scratch;
    const char *words = arena_text(scratch, log->text + span.at, span.length);
    bool has_work = text_finds(log->patterns, PATTERN_WORK, log->decimal, words, strlen(words), 0, &match);
    struct focus_said said;
    size_t length;
    if (focus_at_start(words, &said, &length) && !said.light)
        words += length + strspn(words + length, " \t,;:-");
    else if (has_work)
        said = (struct focus_said){0};
    else if (!focus_in_name(words, &said)) /* it stays in the note: nothing on the line is lost */
        focus_in_note(words, &said);
    log->focus = said.focus;
    log->light = said.light;
    if (has_work)
        return read_work_behind(log, span, words);
    text_head_with(log, words);
    if (*words)
        text_add_note(log, &log->waiting, words);
    return true;
}

/* Is there nothing after the date, or only a focus? */
static bool has_no_prose(const char *words)
{
    struct focus_said said;
    size_t length = 0;
    return !*words || (focus_at_start(words, &said, &length) && !words[length]);
}

bool text_is_marked_date(struct text_patterns *patterns, const char *line, size_t length, struct text_match *match)
{
    char text[DATE_LINE_BYTES];
    size_t marks = strspn(line, "#"), at = marks + strspn(line + marks, " \t");
    if (!marks || at == marks || length >= sizeof text ||
        !text_fits(patterns, PATTERN_SESSION, '.', line, length, at, match))
        return false;
    size_t from = match->group[2].at;
    memcpy(text, line + from, length - from);
    text[length - from] = 0;
    return marks > 1 || has_no_prose(text);
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

/* The whole file determines the order of day and month. */
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
