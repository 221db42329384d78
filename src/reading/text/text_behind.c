/* What follows the sets of a line of work: efforts, speeds, a second load, free words. */
#include "reading/text/text_behind.h"

#include "reading/text/text_parts.h"
#include "reading/text/text_patterns.h"

#include "base/text.h"

#include <math.h>
#include <string.h>
#include <strings.h>

#define MOST_EFFORT 10 /* a larger bare number after an @ is a load */

static bool take_effort(struct line *line, struct text_item *item, struct text_span number)
{
    double value = text_number(line->log, number);
    if (value < 1 || value > MOST_EFFORT)
        return line_refuse(line, DIAG_BAD_EFFORT, number, NULL, "an RPE goes from 1 to 10");
    item->rpe = value;
    return true;
}

static bool take_reserve(struct line *line, struct text_item *item, struct text_span number)
{
    double value = text_number(line->log, number);
    if (value > REPS_LIMIT)
        return line_refuse(line, DIAG_BAD_EFFORT, number, NULL, "that many repetitions in reserve look mistyped");
    item->rir = value;
    return true;
}

static bool take_velocity(struct line *line, struct text_item *item, struct text_span number)
{
    double value = text_number(line->log, number);
    if (value > 0 && value <= 10)
        item->velocity_ms = value;
    else
        text_say(line->log, DIAG_VELOCITY_IGNORED, number, NULL,
                 "this is not a mean velocity of a bar: it is left out");
    return true;
}

static bool take_miss(struct line *line, struct text_item *item, struct text_span word)
{
    if (line_sets(item) != 1)
        return line_refuse(line, DIAG_BAD_REPS, word, "write 3,3,0 where the third was missed",
                           "which of the sets was missed?");
    item->missed = true;
    return true;
}

/* A second weight on the line: allowed if it is the same. */
static bool take_second_load(struct line *line, struct text_item *item, struct text_span load)
{
    if (item->load.at == SIZE_MAX) {
        item->load = load;
        return true;
    }
    struct load_fault fault;
    struct load_style style = {line->log->unit, line->log->decimal};
    struct load_reader *loads = line->log->reading->loads;
    const struct load *first = load_read(loads, line_text(line, item->load), style, &fault);
    const struct load *second = load_read(loads, line_text(line, load), style, &fault);
    return (first && first == second) ||
           line_refuse(line, DIAG_CONTRADICTION, load, "write the weight once; an RPE goes from 1 to 10",
                       "this weight differs from the one before");
}

bool line_is_effort(const struct line *line, struct text_span number, struct text_span unit)
{
    return unit.at == SIZE_MAX && text_number(line->log, number) <= MOST_EFFORT;
}

/* "@ 7" is an effort, "@ 11" and "@ 100 kg" a load, "@ 75%" an intensity. */
static bool take_at(struct line *line, struct text_item *item, const struct text_match *match)
{
    struct text_span number = match->group[ANNOTATION_AT], unit = match->group[ANNOTATION_AT_UNIT];
    struct text_span whole = number;
    if (unit.at == SIZE_MAX)
        return line_is_effort(line, number, unit) ? take_effort(line, item, number)
                                                  : take_second_load(line, item, number);
    whole.length = unit.at + unit.length - number.at;
    if (line->log->text[unit.at] != '%' || item->load.at == SIZE_MAX)
        return take_second_load(line, item, whole);
    line->work->percent_note = line_text(line, whole);
    return true;
}

static bool take_annotation(struct line *line, struct text_item *item, const struct text_match *match)
{
    static bool (*const takes[ANNOTATION_GROUPS])(struct line *, struct text_item *, struct text_span) = {
        [ANNOTATION_RPE] = take_effort,  [ANNOTATION_RPE_AFTER] = take_effort,
        [ANNOTATION_RIR] = take_reserve, [ANNOTATION_RIR_AFTER] = take_reserve,
        [ANNOTATION_MISS] = take_miss,   [ANNOTATION_VELOCITY] = take_velocity,
    };
    if (match->group[ANNOTATION_AT].at != SIZE_MAX)
        return take_at(line, item, match);
    for (int i = 0; i < ANNOTATION_GROUPS; i++)
        if (takes[i] && match->group[i].at != SIZE_MAX)
            return takes[i](line, item, match->group[i]);
    if (match->group[ANNOTATION_FAILURE].at != SIZE_MAX)
        item->to_failure = true;
    else if (match->group[ANNOTATION_WARM_UP].at != SIZE_MAX)
        line->work->warm_up = true;
    else
        line->work->percent_note = line_text(line, match->all);
    return true;
}

/* Efforts, speeds and the like, up to anything else. */
bool line_take_annotations(struct line *line, struct text_item *item)
{
    struct text_match match;
    for (;;) {
        size_t at = line->at + strspn(line->log->text + line->at, " \t,;");
        bool bracket = line->log->text[at] == '(';
        if (!line_fits(line, PATTERN_ANNOTATION, at + bracket, &match))
            return true;
        size_t end = match.all.at + match.all.length;
        if (bracket && line->log->text[line_skip(line, end)] != ')')
            return true; /* free words in brackets */
        if (!take_annotation(line, item, &match))
            return false;
        line->at = bracket ? line_skip(line, end) + 1 : end;
    }
}

/* Numbers after sets and repetitions that continue as more of them. */
static bool goes_on(const struct line *line, size_t at)
{
    const char *text = line->log->text;
    struct text_match match;
    size_t marks = strspn(text + at, "x*-+/0123456789.,");
    if (line_fits(line, PATTERN_SCHEME, at, &match) && match.group[1].at == SIZE_MAX)
        return strchr("0123456789,;/@(x*-", text[line_skip(line, match.all.at + match.all.length)]);
    return strcspn(text + at, "0123456789") < marks && (!text[at + marks] || at == line->at);
}

/* "felt strong @8", "paused, RPE 8": an effort or a speed that ends the line after free words, if there was none
 * before them. Without an @ or a comma it may be prose: "last week was RPE 9". */
static bool take_last_annotation(struct line *line, struct text_span *rest)
{
    const struct text_log *log = line->log;
    struct text_item *item = &line->work->items.items[line->work->items.count - 1];
    struct text_match match;
    size_t end = rest->at + rest->length;
    for (size_t at = end; at > rest->at + 1; at--) {
        char before = log->text[at - 1];
        bool begins = strchr(" \t,;", before) && log->text[at] != ' ';
        if (!begins || !text_fits(log->patterns, PATTERN_ANNOTATION, log->decimal, log->text, end, at, &match) ||
            match.all.length != end - at)
            continue;
        size_t words = at;
        while (words > rest->at && strchr(" \t,;", log->text[words - 1]))
            words--;
        bool set_off = log->text[at] == '@' || memchr(log->text + words, ',', at - words) ||
                       memchr(log->text + words, ';', at - words);
        bool rpe = match.group[ANNOTATION_RPE].at != SIZE_MAX || match.group[ANNOTATION_RPE_AFTER].at != SIZE_MAX ||
                   (match.group[ANNOTATION_AT].at != SIZE_MAX &&
                    line_is_effort(line, match.group[ANNOTATION_AT], match.group[ANNOTATION_AT_UNIT]));
        bool rir = match.group[ANNOTATION_RIR].at != SIZE_MAX || match.group[ANNOTATION_RIR_AFTER].at != SIZE_MAX;
        bool speed = match.group[ANNOTATION_VELOCITY].at != SIZE_MAX;
        if (!set_off ||
            !((rpe && isnan(item->rpe)) || (rir && isnan(item->rir)) || (speed && isnan(item->velocity_ms))))
            return true;
        rest->length = words - rest->at;
        return take_annotation(line, item, &match);
    }
    return true;
}

/* The rest is a note, unless it should have been read. */
bool line_take_note(struct line *line)
{
    const char *text = line->log->text;
    size_t at = line->at + strspn(text + line->at, " \t,;");
    struct text_span rest = line_rest(line, at);
    if (text[at] == '@')
        return line_refuse(line, DIAG_BAD_EFFORT, rest, "write @7 for an RPE, @ 100 kg for a load",
                           "neither an effort nor a load");
    if (!strncasecmp(text + at, "RPE", 3) || !strncasecmp(text + at, "RIR", 3))
        return line_refuse(line, DIAG_BAD_EFFORT, rest, NULL, "an effort that cannot be read");
    struct text_match match;
    if (line_fits(line, PATTERN_NEXT_LOAD, at, &match))
        return line_refuse(line, DIAG_BAD_LINE, rest,
                           "write each load with a colon on a line of its own, or as 100x5, 110x3",
                           "a second load and its sets");
    if (rest.length && goes_on(line, at))
        return line_refuse(line, DIAG_BAD_REPS, rest, "put commas between repetitions: 5,5,4",
                           "more numbers than sets and repetitions need");
    for (size_t length = 0; rest.length && length != rest.length;) {
        length = rest.length;
        if (!take_last_annotation(line, &rest))
            return false;
    }
    line->work->note = rest.length ? rest : no_span;
    return true;
}
