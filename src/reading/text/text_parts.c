#include "reading/text/text_parts.h"

#include "reading/text/text_line.h"

#include "base/number.h"
#include "base/text.h"
#include "reading/text/text_patterns.h"

#include <math.h>
#include <string.h>
#include <strings.h>

#define MOST_EFFORT 10 /* a bare number behind an @ that is more is a load */

const struct text_span no_span = {SIZE_MAX, 0};

bool line_fits(const struct line *line, enum text_pattern pattern, size_t at, struct text_match *match)
{
    return text_fits(line->log->patterns, pattern, line->log->decimal, line->log->text, line->log->length, at, match);
}

bool line_finds(const struct line *line, enum text_pattern pattern, size_t at, size_t end, struct text_match *match)
{
    return text_finds(line->log->patterns, pattern, line->log->decimal, line->log->text, end, at, match);
}

struct text_span line_rest(const struct line *line, size_t at)
{
    return (struct text_span){at, line->log->length - at};
}

bool line_refuse(struct line *line, enum diag_id id, struct text_span span, const char *hint, const char *message)
{
    line->refused = true;
    return text_say(line->log, id, span, hint, "%s", message);
}

const char *line_text(const struct line *line, struct text_span span)
{
    return arena_text(line->log->reading->scratch, line->log->text + span.at, span.length);
}

double text_number(const struct text_log *log, struct text_span span)
{
    double value = NAN;
    char decimal = log->decimal == ',' && memchr(log->text + span.at, ',', span.length) ? ',' : '.';
    number_prefix(log->text + span.at, span.length, decimal, &value);
    return value;
}

struct text_item *line_add_item(struct line *line)
{
    struct text_item *item = LIST_ADD(line->log->reading->scratch, &line->work->items);
    item->load = no_span;
    item->rpe = item->rir = item->velocity_ms = NAN;
    return item;
}

size_t line_skip(const struct line *line, size_t at)
{
    return at + strspn(line->log->text + at, " \t");
}

/* --- lift -------------------------------------------------------------------------------------------------------- */

static bool has_letter(const char *text, size_t length)
{
    for (size_t i = 0; i < length; i++)
        if ((text[i] | 0x20) >= 'a' || (text[i] & 0x80))
            return true;
    return false;
}

/* "pull-up + band b13: 3x5" names gear where a lift's name ends; "clean + jerk" does not. */
static bool refuse_gear_in_name(struct line *line, size_t from, size_t to)
{
    struct load_fault fault;
    struct load_style style = {line->log->unit, line->log->decimal};
    const char *name = line_text(line, (struct text_span){from, to - from}), *plus = strpbrk(name, "+&");
    if (!plus)
        return false;
    const struct load *load = ar_cell_read(line->log->reading->loads, plus, AR_COLUMN_ANY, false, style, &fault);
    if (!load || !load->piece_count)
        return false;
    return !line_refuse(line, DIAG_BAD_LOAD, (struct text_span){from + (size_t)(plus - name), strlen(plus)},
                        "write the load before it: squat 100 + 2 chains/side, or pull-up BW + band NAME",
                        "chains or bands, and no load before them");
}

/* "100 kg bench 5x5": a load in front of the lift is no part of its name. */
static bool begins_with_mass(const char *name)
{
    double number;
    enum mass_unit unit;
    size_t used = number_prefix(name, strlen(name), '.', &number);
    const char *word = name + used + strspn(name + used, " \t");
    return used && mass_unit_read(word, strcspn(word, " \t"), &unit);
}

/* The name, without dashes and other marks between it and the load. False: there is none, said. */
bool line_take_lift(struct line *line, size_t from, size_t to)
{
    const char *text = line->log->text;
    static const char *const marks[] = {" ", "\t", ",", ":", "-", "=", "@", "\xE2\x80\x93", "\xE2\x80\x94", "\xC2\xA0"};
    for (size_t i = 0; i < sizeof marks / sizeof *marks; i++) {
        size_t length = strlen(marks[i]);
        if (to >= from + length && !memcmp(text + to - length, marks[i], length)) {
            to -= length;
            i = SIZE_MAX; /* from the first mark again */
        }
    }
    line->work->lift = (struct text_span){from, to - from};
    if (to > from && strchr("+&~*", text[to - 1]))
        return line_refuse(line, DIAG_BAD_LOAD, (struct text_span){to - 1, 1}, "write ~ at the line's start for a warm-up",
                           "no load stands before this mark");
    if (!has_letter(text + from, to - from))
        return line_refuse(line, DIAG_MISSING_LIFT, line->work->lift, NULL, "no lift is named");
    if (begins_with_mass(line_text(line, line->work->lift)))
        return line_refuse(line, DIAG_BAD_LINE, line->work->lift, NULL, "a load stands before the lift");
    if (refuse_gear_in_name(line, from, to))
        return false;
    line->work->lift_number = lift_number(line->log->reading->lifts, text + from, to - from);
    const char *name = line->log->reading->log->lift_names.items[line->work->lift_number].name;
    line->work->is_body = lift_is_bodyweight(name, line->log->reading->gym);
    return true;
}

/* --- sets and repetitions ---------------------------------------------------------------------------------------- */

bool line_take_scheme(struct line *line, const struct text_match *match, struct text_item *item)
{
    const char *text = line_text(line, match->all);
    if (match->group[1].at != SIZE_MAX) {
        item->reps = (struct reps_cell){.count = 1, .groups = {{.sets = 1}}};
        return true;
    }
    if (strchr("xX*", *text) || text_starts(text, "\xC3\x97"))
        text = arena_printf(line->log->reading->scratch, "1%s", text);
    return reps_read(text, line->log->decimal, &item->reps) && item->reps.count;
}

unsigned line_sets(const struct text_item *item)
{
    unsigned sets = 0;
    for (size_t i = 0; i < item->reps.count; i++)
        sets += item->reps.groups[i].sets;
    return sets;
}

/* --- load -------------------------------------------------------------------------------------------------------- */

static bool is_load(const struct line *line, size_t from, size_t to)
{
    struct load_fault fault;
    struct load_style style = {line->log->unit, line->log->decimal};
    return load_read(line->log->reading->loads, line_text(line, (struct text_span){from, to - from}), style, &fault);
}

#define CUTS 16

/* Where a load that begins at `from` may end: at the latest where an effort or a speed begins. */
static size_t find_cuts(const struct line *line, size_t from, size_t cuts[CUTS])
{
    struct text_match match;
    size_t soft[CUTS], softs = 0, at = from, end = line->log->length;
    while (softs < CUTS - 1 && line_finds(line, PATTERN_CUT, at, line->log->length, &match)) {
        at = match.all.at + (match.all.length ? match.all.length : 1);
        if (match.group[1].at != SIZE_MAX) {
            end = match.all.at;
            break;
        }
        soft[softs++] = match.all.at;
    }
    size_t count = 0;
    cuts[count++] = end;
    while (softs)
        cuts[count++] = soft[--softs];
    return count;
}

/* The longest load that begins at `from`; failing all, a straight weight before free words. Its fault is the longest
 * reading's. */
bool line_take_load(struct line *line, size_t from, struct text_item *item)
{
    struct text_match match;
    struct load_fault fault;
    struct load_style style = {line->log->unit, line->log->decimal};
    size_t cuts[CUTS], count = find_cuts(line, from, cuts), cut = 0, end = 0;
    while (cut < count && !is_load(line, from, cuts[cut]))
        cut++;
    if (cut < count)
        end = cuts[cut];
    else if (line_fits(line, PATTERN_STRAIGHT, from, &match))
        end = from + match.all.length;
    if (!end) {
        load_read(line->log->reading->loads, line_text(line, (struct text_span){from, cuts[0] - from}), style, &fault);
        line->refused = true;
        return text_say_fault(line->log, from, &fault);
    }
    item->load = (struct text_span){from, end - from};
    line->at = end;
    return true;
}

/* --- what stands behind them ------------------------------------------------------------------------------------- */

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
        return line_refuse(line, DIAG_BAD_EFFORT, number, NULL, "that many repetitions in reserve are a slip");
    item->rir = value;
    return true;
}

static bool take_velocity(struct line *line, struct text_item *item, struct text_span number)
{
    double value = text_number(line->log, number);
    if (value > 0 && value <= 10)
        item->velocity_ms = value;
    else
        text_say(line->log, DIAG_VELOCITY_IGNORED, number, NULL, "no mean velocity of a bar: left out");
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

/* A second weight on the line: fine where it is the same. */
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
                       "another weight than before");
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

/* Efforts, speeds and the like, up to something else. */
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

/* Numbers behind sets and repetitions that go on as more of them. */
static bool goes_on(const struct line *line, size_t at)
{
    const char *text = line->log->text;
    struct text_match match;
    size_t marks = strspn(text + at, "x*-+/0123456789.,");
    if (line_fits(line, PATTERN_SCHEME, at, &match) && match.group[1].at == SIZE_MAX)
        return strchr("0123456789,;/@(x*-", text[line_skip(line, match.all.at + match.all.length)]);
    return strcspn(text + at, "0123456789") < marks && (!text[at + marks] || at == line->at);
}

/* "felt strong @8", "paused, RPE 8": an effort or a speed that ends the line behind free words, where none stood before
 * them. Without an @ or a comma it may be prose: "last week was RPE 9". */
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
        bool set_off = log->text[at] == '@' || memchr(log->text + words, ',', at - words) || memchr(log->text + words, ';', at - words);
        bool rpe = match.group[ANNOTATION_RPE].at != SIZE_MAX || match.group[ANNOTATION_RPE_AFTER].at != SIZE_MAX ||
                   (match.group[ANNOTATION_AT].at != SIZE_MAX && line_is_effort(line, match.group[ANNOTATION_AT], match.group[ANNOTATION_AT_UNIT]));
        bool rir = match.group[ANNOTATION_RIR].at != SIZE_MAX || match.group[ANNOTATION_RIR_AFTER].at != SIZE_MAX;
        bool speed = match.group[ANNOTATION_VELOCITY].at != SIZE_MAX;
        if (!set_off || !((rpe && isnan(item->rpe)) || (rir && isnan(item->rir)) || (speed && isnan(item->velocity_ms))))
            return true;
        rest->length = words - rest->at;
        return take_annotation(line, item, &match);
    }
    return true;
}

/* What is left is a note, unless it should have been read. */
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
        return line_refuse(line, DIAG_BAD_LINE, rest, "write each load with a colon on a line of its own, or as 100x5, 110x3",
                           "a second load and its sets");
    if (rest.length && goes_on(line, at))
        return line_refuse(line, DIAG_BAD_REPS, rest, "put commas between repetitions: 5,5,4",
                           "more numbers than sets and repetitions have");
    for (size_t length = 0; rest.length && length != rest.length;) {
        length = rest.length;
        if (!take_last_annotation(line, &rest))
            return false;
    }
    line->work->note = rest.length ? rest : no_span;
    return true;
}
