/* A line of work, taken apart: lift, load, sets and repetitions, effort and speed, free words.
 *
 *   LIFT LOAD: SCHEME              squat 80 + 2 x 7 kg chain/side: 8x2 @7
 *   LIFT SCHEME @ LOAD             squat 5x5 @ 100 kg
 *   LIFT LOADxREPS[xSETS], ...     deadlift 140x3, 150x2, 160x1 @9
 *   LIFT SCHEME, LIFT: SCHEME      dip 3x8: a lift of the body, by itself */
#include "reading/text_log.h"

#include "base/number.h"
#include "base/text.h"

#include <math.h>
#include <string.h>
#include <strings.h>

#define SETS_AT_LIMIT 30 /* more before an @ are kilograms: 140x3 @ 11 */
#define MOST_EFFORT 10

static const struct text_span no_span = {SIZE_MAX, 0};

struct line /* being read: from `at` on nothing has been taken */
{
    struct text_log *log;
    struct text_work *work;
    size_t at;
    bool refused; /* said already */
};

static bool fits(const struct line *line, enum text_pattern pattern, size_t at, struct text_match *match)
{
    return text_fits(line->log->patterns, pattern, line->log->decimal, line->log->text, line->log->length, at, match);
}

static bool finds(const struct line *line, enum text_pattern pattern, size_t at, size_t end, struct text_match *match)
{
    return text_finds(line->log->patterns, pattern, line->log->decimal, line->log->text, end, at, match);
}

static struct text_span span_to_end(const struct line *line, size_t at)
{
    return (struct text_span){at, line->log->length - at};
}

static bool refuse(struct line *line, enum diag_id id, struct text_span span, const char *hint, const char *message)
{
    line->refused = true;
    return text_say(line->log, id, span, hint, "%s", message);
}

static const char *text_of(const struct line *line, struct text_span span)
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

static struct text_item *add_item(struct line *line)
{
    struct text_item *item = LIST_ADD(line->log->reading->scratch, &line->work->items);
    item->load = no_span;
    item->rpe = item->rir = item->velocity_ms = NAN;
    return item;
}

static struct text_item *last_item(const struct line *line)
{
    return &line->work->items.items[line->work->items.count - 1];
}

static size_t skip_blanks(const struct line *line, size_t at)
{
    return at + strspn(line->log->text + at, " \t");
}

/* --- lift -------------------------------------------------------------------------------------------------------- */

/* The name, without dashes and other marks between it and the load. */
static void take_lift(struct line *line, size_t from, size_t to)
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
    line->work->lift_number = lift_number(line->log->reading->lifts, text + from, to - from);
    const char *name = line->log->reading->log->lift_names.items[line->work->lift_number].name;
    line->work->is_body = lift_is_bodyweight(name, line->log->reading->gym);
}

/* --- sets and repetitions ---------------------------------------------------------------------------------------- */

static bool read_scheme(struct line *line, const struct text_match *match, struct text_item *item)
{
    const char *text = text_of(line, match->all);
    if (match->group[1].at != SIZE_MAX) {
        item->reps = (struct reps_cell){.count = 1, .groups = {{.sets = 1}}};
        return true;
    }
    if (strchr("xX*", *text) || text_starts(text, "\xC3\x97"))
        text = arena_printf(line->log->reading->scratch, "1%s", text);
    return reps_read(text, line->log->decimal, &item->reps) && item->reps.count;
}

static unsigned sets_of(const struct text_item *item)
{
    unsigned sets = 0;
    for (size_t i = 0; i < item->reps.count; i++)
        sets += item->reps.groups[i].sets;
    return sets;
}

/* --- what stands behind them ------------------------------------------------------------------------------------- */

static bool take_effort(struct line *line, struct text_item *item, struct text_span number)
{
    double value = text_number(line->log, number);
    if (value < 1 || value > MOST_EFFORT)
        return refuse(line, DIAG_BAD_EFFORT, number, NULL, "an RPE goes from 1 to 10");
    item->rpe = value;
    return true;
}

static bool take_reserve(struct line *line, struct text_item *item, struct text_span number)
{
    double value = text_number(line->log, number);
    if (value > REPS_LIMIT)
        return refuse(line, DIAG_BAD_EFFORT, number, NULL, "that many repetitions in reserve are a slip");
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
    if (sets_of(item) != 1)
        return refuse(line, DIAG_BAD_REPS, word, "write 3,3,0 where the third was missed",
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
    const struct load *first = load_read(loads, text_of(line, item->load), style, &fault);
    const struct load *second = load_read(loads, text_of(line, load), style, &fault);
    return (first && first == second) ||
           refuse(line, DIAG_CONTRADICTION, load, "write the weight once; an RPE goes from 1 to 10",
                  "another weight than before");
}

/* "@ 7" is an effort, "@ 11" and "@ 100 kg" a load, "@ 75%" an intensity. */
static bool take_at(struct line *line, struct text_item *item, const struct text_match *match)
{
    struct text_span number = match->group[ANNOTATION_AT], unit = match->group[ANNOTATION_AT_UNIT];
    struct text_span whole = number;
    if (unit.at == SIZE_MAX)
        return text_number(line->log, number) <= MOST_EFFORT ? take_effort(line, item, number)
                                                             : take_second_load(line, item, number);
    whole.length = unit.at + unit.length - number.at;
    if (line->log->text[unit.at] != '%' || item->load.at == SIZE_MAX)
        return take_second_load(line, item, whole);
    line->work->percent_note = text_of(line, whole);
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
        line->work->percent_note = text_of(line, match->all);
    return true;
}

/* Efforts, speeds and the like, up to something else. */
static bool take_annotations(struct line *line, struct text_item *item)
{
    struct text_match match;
    for (;;) {
        size_t at = line->at + strspn(line->log->text + line->at, " \t,;");
        bool bracket = line->log->text[at] == '(';
        if (!fits(line, PATTERN_ANNOTATION, at + bracket, &match))
            return true;
        size_t end = match.all.at + match.all.length;
        if (bracket && line->log->text[skip_blanks(line, end)] != ')')
            return true; /* free words in brackets */
        if (!take_annotation(line, item, &match))
            return false;
        line->at = bracket ? skip_blanks(line, end) + 1 : end;
    }
}

/* What is left is a note, unless it goes on as something that should have been read. */
static bool take_note(struct line *line)
{
    const char *text = line->log->text;
    size_t at = line->at + strspn(text + line->at, " \t,;"), digits = strspn(text + at, "x*-+/0123456789.,");
    struct text_match match;
    if (text[at] == '@' || fits(line, PATTERN_SCHEME, at, &match)) {
        size_t next = text[at] == '@' ? at : skip_blanks(line, match.all.at + match.all.length);
        if (text[at] == '@')
            return refuse(line, DIAG_BAD_EFFORT, span_to_end(line, at), "write @7 for an RPE, @ 100 kg for a load",
                          "neither an effort nor a load");
        if (!text[next] || strchr(",;/@(x*-", text[next]))
            return refuse(line, DIAG_BAD_REPS, span_to_end(line, at), "put commas between repetitions: 5,5,4",
                          "more numbers than sets and repetitions have");
    } else if (digits && text[at] != '.' && (!text[at + digits] || at == line->at)) {
        return refuse(line, DIAG_BAD_REPS, span_to_end(line, at), NULL, "sets and repetitions that cannot be read");
    } else if (!strncasecmp(text + at, "RPE", 3) || !strncasecmp(text + at, "RIR", 3)) {
        return refuse(line, DIAG_BAD_EFFORT, span_to_end(line, at), NULL, "an effort that cannot be read");
    }
    line->work->note = at < line->log->length ? span_to_end(line, at) : no_span;
    return true;
}

/* --- the forms --------------------------------------------------------------------------------------------------- */

static bool is_load(const struct line *line, size_t from, size_t to)
{
    struct load_fault fault;
    struct load_style style = {line->log->unit, line->log->decimal};
    return load_read(line->log->reading->loads, text_of(line, (struct text_span){from, to - from}), style, &fault);
}

/* A load that begins at `from` and ends where the line does, or where something else begins. Its fault is the longest
 * reading's. */
static bool take_load(struct line *line, size_t from, struct text_item *item)
{
    struct text_match match;
    size_t end = line->log->length, cuts[16], count = 0;
    struct load_fault fault;
    struct load_style style = {line->log->unit, line->log->decimal};
    for (size_t at = from; count < 16 && finds(line, PATTERN_CUT, at, line->log->length, &match);
         at = match.all.at + match.all.length)
        cuts[count++] = match.all.at;
    if (!is_load(line, from, end))
        do
            end = count ? cuts[--count] : 0;
        while (end && !is_load(line, from, end));
    if (!end && fits(line, PATTERN_STRAIGHT, from, &match))
        end = from + match.all.length;
    if (!end) {
        load_read(line->log->reading->loads, text_of(line, span_to_end(line, from)), style, &fault);
        line->refused = true;
        return text_say_fault(line->log, from, &fault);
    }
    item->load = (struct text_span){from, end - from};
    line->at = end;
    return true;
}

/* Behind the sets and repetitions of a line that names no load before them: @ 100 kg + 2 chains/side. */
static bool at_load(const struct line *line, size_t at, size_t *load)
{
    struct text_match match;
    at = skip_blanks(line, at);
    if (!fits(line, PATTERN_AT, at, &match))
        return false;
    struct text_span number = match.group[1], unit = match.group[2];
    bool is_effort = number.at != SIZE_MAX && unit.at == SIZE_MAX && text_number(line->log, number) <= MOST_EFFORT;
    *load = skip_blanks(line, at + 1);
    return !is_effort;
}

static bool finish_items(struct line *line)
{
    return take_annotations(line, last_item(line)) && take_note(line);
}

/* The first colon with sets and repetitions behind it. */
static bool find_colon(const struct line *line, size_t from, size_t *colon, struct text_match *scheme)
{
    const char *text = line->log->text;
    for (const char *at = strchr(text + from, ':'); at; at = strchr(at + 1, ':')) {
        *colon = (size_t)(at - text);
        if (fits(line, PATTERN_SCHEME, skip_blanks(line, *colon + 1), scheme))
            return true;
    }
    return false;
}

static bool read_colon_form(struct line *line, size_t from, size_t colon, const struct text_match *scheme)
{
    struct text_match match;
    size_t load = colon, at;
    if (finds(line, PATTERN_LOAD_START, from + 1, colon, &match))
        load = match.all.at;
    take_lift(line, from, load);
    struct text_item *item = add_item(line);
    if (load < colon)
        item->load = (struct text_span){load, colon - load};
    if (!read_scheme(line, scheme, item))
        return refuse(line, DIAG_BAD_REPS, scheme->all, NULL, "sets and repetitions out of reason");
    line->at = scheme->all.at + scheme->all.length;
    if (item->load.at == SIZE_MAX && at_load(line, line->at, &at) && !take_load(line, at, item))
        return false;
    if (!finish_items(line))
        return false;
    item->on_body = item->load.at == SIZE_MAX && line->work->is_body;
    if (item->load.at != SIZE_MAX || item->on_body)
        return true;
    return refuse(line, DIAG_BAD_LOAD, line->work->lift, "write LIFT LOAD: SETSxREPS; BW for a lift of the body",
                  "no load is written");
}

/* squat 5x5 @ 100 kg. False without a refusal: the line is not of this form. */
static bool read_at_form(struct line *line, size_t from, size_t start)
{
    struct text_match match;
    struct text_item item = {.load = no_span};
    size_t load;
    if (!fits(line, PATTERN_SCHEME, start, &match) || !at_load(line, match.all.at + match.all.length, &load) ||
        !read_scheme(line, &match, &item) || sets_of(&item) > SETS_AT_LIMIT)
        return false;
    take_lift(line, from, start);
    struct text_item *added = add_item(line);
    added->reps = item.reps;
    return take_load(line, load, added) && finish_items(line);
}

/* dip 3x8: sets and repetitions of the body alone. */
static bool read_body_form(struct line *line, size_t from, size_t start)
{
    struct text_match match;
    if (!line->work->is_body || !fits(line, PATTERN_SCHEME, start, &match) || match.group[1].at != SIZE_MAX)
        return false;
    struct text_item item = {.load = no_span};
    if (!read_scheme(line, &match, &item) || !item.reps.sets_said)
        return false;
    take_lift(line, from, start);
    struct text_item *added = add_item(line);
    added->reps = item.reps;
    added->on_body = true;
    line->at = match.all.at + match.all.length;
    return finish_items(line);
}

static bool is_bare(const struct line *line, struct text_span load)
{
    return strspn(line->log->text + load.at, "0123456789.,") >= load.length;
}

/* 5x5x100, squat 5x5: a first number lighter than the bar is no load, and which number is one stays open. */
static bool check_bar(struct line *line, const struct text_match *match)
{
    const struct gym *gym = line->log->reading->gym;
    struct text_span load = match->group[1];
    bool three = match->group[4].at != SIZE_MAX;
    const char *name = line->log->reading->log->lift_names.items[line->work->lift_number].name;
    if (!is_bare(line, load) || kg_from(text_number(line->log, load), line->log->unit) >= gym->bar_kg)
        return true;
    if (!three && (line->work->is_body || !builtin_lift(name)))
        return true;
    const char *hint =
        three ? "write 100: 5x5 for five sets of five at 100, or 10 kg x5x3 with the unit for a load below the bar"
              : "write 100: 5x5 for five sets of five at 100";
    return refuse(line, DIAG_AMBIGUOUS_WEIGHT, match->all, hint, "the first number is less than the bar weighs");
}

static bool read_item(struct line *line, const struct text_match *match)
{
    struct text_item *item = add_item(line);
    struct text_span reps = match->group[2], plus = match->group[3], sets = match->group[4];
    item->load = match->group[1];
    line->at = match->all.at + match->all.length;
    if (!check_bar(line, match))
        return false;
    bool missed = match->group[5].at != SIZE_MAX || strchr("mMfFnN", line->log->text[reps.at]);
    const char *count = sets.at != SIZE_MAX ? text_of(line, sets) : "1", *scheme;
    scheme = arena_printf(line->log->reading->scratch, "%sx%s%s", count, missed ? "0" : text_of(line, reps),
                          plus.at != SIZE_MAX ? "+" : "");
    if (!reps_read(scheme, '.', &item->reps))
        return refuse(line, DIAG_BAD_REPS, match->all, NULL, "sets and repetitions out of reason");
    return take_annotations(line, item);
}

/* deadlift 140x3, 150x2, 160x1 @9 */
static bool read_list_form(struct line *line, size_t from, size_t start)
{
    struct text_match match;
    if (!fits(line, PATTERN_ITEM, start, &match))
        return false;
    take_lift(line, from, start);
    do
        if (!read_item(line, &match))
            return false;
    while (fits(line, PATTERN_ITEM, line->at + strspn(line->log->text + line->at, " \t,;"), &match));
    return take_note(line);
}

/* --- what is none of them ---------------------------------------------------------------------------------------- */

/* plank 3x60 s, run 5 km: read, and no sets. */
static bool set_aside(struct line *line, size_t from)
{
    struct text_match match;
    struct text_log *log = line->log;
    if (!finds(line, PATTERN_TIMED, from + 1, log->length, &match))
        return false;
    size_t end = match.all.at;
    if (finds(line, PATTERN_LOAD_START, from + 1, end, &match))
        end = match.all.at;
    take_lift(line, from, end);
    struct text_lift *lift = text_lift(log, line->work->lift_number);
    lift->aside_line = lift->aside ? lift->aside_line : log->line;
    lift->aside++;
    log->reading->log->files.items[log->file].aside++;
    return true;
}

static bool refuse_line(struct line *line, size_t from)
{
    const char *text = line->log->text, *colon = strchr(text + from, ':');
    struct text_match match;
    if (colon)
        return refuse(line, DIAG_BAD_REPS, span_to_end(line, skip_blanks(line, (size_t)(colon - text) + 1)),
                      "write SETSxREPS or repetitions: 3x5, or 5,5,4", "no sets and repetitions");
    if (!finds(line, PATTERN_LOAD_START, from + 1, line->log->length, &match))
        return refuse(line, DIAG_BAD_LINE, span_to_end(line, from), NULL, "no load, no sets and repetitions");
    size_t start = match.all.at;
    struct load_fault fault;
    struct load_style style = {line->log->unit, line->log->decimal};
    struct load_reader *loads = line->log->reading->loads;
    if (finds(line, PATTERN_WORK, start, line->log->length, &match))
        return refuse(line, DIAG_BAD_LINE, span_to_end(line, start),
                      "put a colon between them: squat 100 + 2 chains/side: 1x3",
                      "a load and its sets and repetitions run into each other");
    if (!load_read(loads, text_of(line, span_to_end(line, start)), style, &fault) && fault.id != DIAG_BAD_LOAD) {
        line->refused = true;
        return text_say_fault(line->log, start, &fault);
    }
    return refuse(line, DIAG_BAD_LINE, span_to_end(line, start), NULL, "a load, and no sets and repetitions");
}

static bool read_forms(struct line *line, size_t from)
{
    struct text_match match;
    size_t colon;
    if (find_colon(line, from, &colon, &match) && colon > from)
        return read_colon_form(line, from, colon, &match);
    if (finds(line, PATTERN_LOAD_START, from + 1, line->log->length, &match)) {
        size_t start = match.all.at;
        take_lift(line, from, start);
        if (read_at_form(line, from, start) || line->refused)
            return !line->refused;
        if (read_body_form(line, from, start) || line->refused)
            return !line->refused;
        if (read_list_form(line, from, start) || line->refused)
            return !line->refused;
    }
    return set_aside(line, from) || refuse_line(line, from);
}

bool text_read_line(struct text_log *log)
{
    struct text_work work = {.note = no_span};
    struct line line = {.log = log, .work = &work};
    struct text_match match;
    size_t from = strspn(log->text, " \t");
    if (fits(&line, PATTERN_WARM_UP, from, &match)) {
        work.warm_up = true;
        from += match.all.length;
    }
    if (from == log->length)
        return text_say(log, DIAG_BAD_LINE, (struct text_span){0, log->length}, NULL, "a warm-up of nothing");
    if (!read_forms(&line, from))
        return false;
    return !work.items.count || text_add_sets(log, &work);
}
