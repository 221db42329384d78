/* Parses a line of work: lift, load, sets and repetitions, effort and speed, free words.
 *
 *   LIFT LOAD: SCHEME              squat 80 + 2 x 7 kg chain/side: 7x2 @7
 *   LIFT LOAD SETSxREPS            squat 80 7x2
 *   LIFT SETSxREPS LOAD            squat 7x2 80
 *   LIFT SCHEME @ LOAD             squat 5x5 @ 100 kg
 *   LIFT LOADxREPS[xSETS], ...     deadlift 140x3, 150x2, 160x1 @9
 *   LIFT LOAD, N reps, N sets      bench press 80 kg, 5 reps, 5 sets
 *   LIFT SCHEME, LIFT: SCHEME      dip 3x8: a bodyweight lift
 *
 * If the line begins with the load or the sets, the lift is that of the line above. */
#include "reading/text/text_line.h"

#include "base/text.h"
#include "reading/text/text_behind.h"
#include "reading/text/text_headings.h"
#include "reading/text/text_parts.h"
#include "reading/text/text_sets.h"

#include <string.h>

#define SETS_BEFORE_LOAD 10 /* a larger number before a blank is a weight: 20x5 100 */
#define SETS_AT_LIMIT 30    /* a larger number before an @ is a weight: 140x3 @ 11 */

/* --- the forms --------------------------------------------------------------------------------------------------- */

static struct text_item *last_item(const struct line *line)
{
    return &line->work->items.items[line->work->items.count - 1];
}

/* After the sets and repetitions of a line without a load before them: @ 100 kg + 2 chains/side. */
static bool at_load(const struct line *line, size_t at, size_t *load)
{
    struct text_match match;
    at = line_skip(line, at);
    if (!line_fits(line, PATTERN_AT, at, &match))
        return false;
    struct text_span number = match.group[1], unit = match.group[2];
    bool is_effort = number.at != SIZE_MAX && line_is_effort(line, number, unit);
    *load = line_skip(line, at + (line->log->text[at] == '@' ? 1 : strlen("at")));
    return !is_effort;
}

static bool finish_items(struct line *line)
{
    return line_take_annotations(line, last_item(line)) && line_take_note(line);
}

/* 2:30 */
static bool is_time(const char *colon)
{
    const char *digits = "0123456789";
    return strchr(digits, colon[-1]) && strspn(colon + 1, digits) == 2 && !(colon[3] && strchr("x*,+", colon[3]));
}

/* The first colon with sets and repetitions after it. 60:10 may be a time: with `times` it is read as a load and its
 * repetitions. */
static bool find_colon(const struct line *line, size_t from, bool times, size_t *colon, struct text_match *scheme)
{
    const char *text = line->log->text;
    for (const char *at = strchr(text + from, ':'); at; at = strchr(at + 1, ':')) {
        *colon = (size_t)(at - text);
        if (*colon > from && !times && is_time(at))
            continue;
        if (line_fits(line, PATTERN_SCHEME, line_skip(line, *colon + 1), scheme))
            return true;
    }
    return false;
}

/* The load, which may be missing, and the sets after the colon. */
static bool read_sets_behind(struct line *line, size_t load, size_t colon, const struct text_match *scheme)
{
    size_t at;
    struct text_item *item = line_add_item(line);
    if (load < colon)
        item->load = (struct text_span){load, colon - load};
    if (!line_take_scheme(line, scheme, item))
        return line_refuse(line, DIAG_BAD_REPS, scheme->all, NULL, "these sets and repetitions are out of range");
    line->at = scheme->all.at + scheme->all.length;
    if (item->load.at == SIZE_MAX && at_load(line, line->at, &at) && !line_take_load(line, at, item))
        return false;
    if (!finish_items(line))
        return false;
    item->on_body = item->load.at == SIZE_MAX && line->work->is_body;
    if (item->load.at != SIZE_MAX || item->on_body)
        return true;
    return line_refuse(line, DIAG_BAD_LOAD, line->work->lift, "write LIFT LOAD: SETSxREPS; BW for a bodyweight lift",
                       "no load is given");
}

static bool is_bare(const struct line *line, struct text_span load)
{
    return strspn(line->log->text + load.at, "0123456789., \t") >= load.length;
}

/* A first number that is not the load of a barbell lift: squat: 5x3 @75%, but squat: 100x5. */
static bool is_light(const struct line *line, struct text_span load)
{
    return is_bare(line, load) &&
           kg_from(text_number(line->log, load), line->log->unit) < line->log->reading->gym->bar_kg;
}

static bool read_list_form(struct line *line, size_t start);

static bool read_colon_form(struct line *line, size_t from, size_t colon, const struct text_match *scheme)
{
    struct text_match match;
    size_t load = colon;
    if (colon > from && line_finds(line, PATTERN_LOAD_START, from + 1, colon, &match))
        load = match.all.at;
    if (!line_take_lift(line, from, load))
        return false;
    bool list = load == colon && line_fits(line, PATTERN_ITEM, scheme->all.at, &match) &&
                !is_light(line, match.group[1]);
    return list ? read_list_form(line, scheme->all.at) : read_sets_behind(line, load, colon, scheme);
}

/* squat 5x5 @ 100 kg. False without a refusal: the line does not have this form. */
static bool read_at_form(struct line *line, size_t start)
{
    struct text_match match;
    struct text_item item = {.load = no_span};
    size_t load;
    if (!line_fits(line, PATTERN_SCHEME, start, &match) || !at_load(line, match.all.at + match.all.length, &load) ||
        !line_take_scheme(line, &match, &item) || line_sets(&item) > SETS_AT_LIMIT)
        return false;
    struct text_item *added = line_add_item(line);
    added->reps = item.reps;
    return line_take_load(line, load, added) && finish_items(line);
}

/* squat 7x2 80: the first number is less than the bar's weight, so it is not a load. */
static bool read_load_behind(struct line *line, size_t start)
{
    struct text_match match, other;
    struct text_item item = {.load = no_span};
    if (line->work->is_body || !line_fits(line, PATTERN_SCHEME, start, &match) ||
        !line_takes_sets(line, &match, &item) || line_sets(&item) > SETS_AT_LIMIT ||
        kg_from(line_sets(&item), line->log->unit) >= line->log->reading->gym->bar_kg)
        return false;
    size_t end = match.all.at + match.all.length, load = line_skip(line, end);
    bool effort = line_fits(line, PATTERN_ANNOTATION, load, &other) && other.group[ANNOTATION_PERCENT].at == SIZE_MAX;
    if (load == end || effort || line_fits(line, PATTERN_TIMED, load, &other) ||
        line_fits(line, PATTERN_ITEM, load, &other) || !line_fits(line, PATTERN_LOAD_START, load, &other))
        return false;
    struct text_item *added = line_add_item(line);
    added->reps = item.reps;
    return line_take_load(line, load, added) && finish_items(line);
}

/* squat 80 + 2 chains/side 7x2: the first blank before sets and repetitions that has a load before it. */
static bool read_load_before(struct line *line, size_t start)
{
    struct text_match blank, scheme;
    struct text_item item = {.load = no_span};
    for (size_t at = start; line_finds(line, PATTERN_SPACED, at, line->log->length, &blank);
         at = blank.all.at + blank.all.length) {
        size_t sets = blank.all.at + blank.all.length;
        if (!line_is_load(line, start, blank.all.at) || !line_fits(line, PATTERN_SCHEME, sets, &scheme) ||
            !line_take_scheme(line, &scheme, &item) || (!item.reps.sets_said && line->log->decimal == ','))
            continue;
        struct text_item *added = line_add_item(line);
        added->reps = item.reps;
        added->load = (struct text_span){start, blank.all.at - start};
        line->at = scheme.all.at + scheme.all.length;
        return finish_items(line);
    }
    return false;
}

/* squat 100 kg, 5 reps, 3 sets: everything spelt out, as apps print it. */
static bool read_spelled_form(struct line *line, size_t start)
{
    struct text_match match;
    struct reps_cell reps;
    if (!line_fits(line, PATTERN_SPELLED, start, &match))
        return false;
    bool reps_first = match.group[2].at != SIZE_MAX;
    const char *scheme = arena_printf(line->log->reading->scratch, "%sx%s",
                                      line_text(line, match.group[reps_first ? 3 : 4]),
                                      line_text(line, match.group[reps_first ? 2 : 5]));
    if (!reps_read(scheme, '.', &reps))
        return line_refuse(line, DIAG_BAD_REPS, match.all, NULL, "these sets and repetitions are out of range");
    struct text_item *added = line_add_item(line);
    added->reps = reps;
    added->load = match.group[1];
    line->at = match.all.at + match.all.length;
    return finish_items(line);
}

/* dip 3x8: sets and repetitions with bodyweight alone. */
static bool read_body_form(struct line *line, size_t start)
{
    struct text_match match;
    if (!line->work->is_body || !line_fits(line, PATTERN_SCHEME, start, &match) || match.group[1].at != SIZE_MAX)
        return false;
    struct text_item item = {.load = no_span};
    if (!line_take_scheme(line, &match, &item) || !item.reps.sets_said)
        return false;
    struct text_item *added = line_add_item(line);
    added->reps = item.reps;
    added->on_body = true;
    line->at = match.all.at + match.all.length;
    return finish_items(line);
}

/* 5x5x100, squat 5x5: a first number lighter than the bar is not a load, so it is ambiguous which number is. */
static bool check_bar(struct line *line, const struct text_match *match)
{
    const struct gym *gym = line->log->reading->gym;
    struct text_span load = match->group[1];
    bool three = match->group[4].at != SIZE_MAX;
    const char *name = line->log->reading->log->lift_names.items[line->work->lift_number].name;
    if (!is_light(line, load))
        return true;
    if (!three && (line->work->is_body || !builtin_lift(name)))
        return true;
    const char *hint =
        three ? "write 100: 5x5 for five sets of five at 100, or 10 kg x5x3 with the unit for a load below the bar"
              : "write 100: 5x5 for five sets of five at 100";
    if (three && kg_from(text_number(line->log, match->group[4]), line->log->unit) >= gym->bar_kg) /* 5x5x100 */
        hint = arena_printf(line->log->reading->scratch, "write %s %s: %sx%s", name, line_text(line, match->group[4]),
                            line_text(line, load), line_text(line, match->group[2]));
    else if (!three)
        hint = arena_printf(line->log->reading->scratch, "write %s, then the load, then : %s; or correct the weight",
                            name, line_text(line, match->all));
    return line_refuse(line, DIAG_AMBIGUOUS_WEIGHT, match->all, hint, "the first number is less than the bar weighs");
}

static bool read_item(struct line *line, const struct text_match *match)
{
    struct text_item *item = line_add_item(line);
    struct text_span reps = match->group[2], plus = match->group[3], sets = match->group[4];
    item->load = match->group[1];
    line->at = match->all.at + match->all.length;
    if (!check_bar(line, match))
        return false;
    bool missed = match->group[5].at != SIZE_MAX || strchr("mMfFnN", line->log->text[reps.at]);
    const char *count = sets.at != SIZE_MAX ? line_text(line, sets) : "1", *scheme, *done;
    done = missed ? "0" : line_text(line, reps);
    bool amrap = (*done | 0x20) == 'a';
    done += strcspn(done, "0123456789");
    scheme = arena_printf(line->log->reading->scratch, "%sx%s%s", count, done, plus.at != SIZE_MAX || amrap ? "+" : "");
    if (!reps_read(scheme, '.', &item->reps))
        return line_refuse(line, DIAG_BAD_REPS, match->all, NULL, "these sets and repetitions are out of range");
    return line_take_annotations(line, item);
}

/* What follows the sets is a note. A set in it, after chains or bands, or a unit other than the one that was used,
 * would be lost there: squat 80x5 + 2 chains/side, 85x3; squat 80x5 lb. */
static bool note_hides_load(struct line *line)
{
    struct text_match match;
    const struct text_log *log = line->log;
    size_t start = line_skip(line, line->at), length = strcspn(log->text + start, " \t,;.");
    enum mass_unit unit;
    if (length && mass_unit_read(log->text + start, length, &unit) && unit != log->unit)
        return !line_refuse(line, DIAG_AMBIGUOUS_WEIGHT, (struct text_span){start, length},
                            "write it right after the weight: 80 lb x5", "a unit behind the repetitions");
    for (size_t at = start; at < log->length; at++)
        if ((log->text[at] == ',' || log->text[at] == ';') &&
            line_fits(line, PATTERN_ITEM, line_skip(line, at + 1), &match) && !is_light(line, match.group[1]))
            return !line_refuse(line, DIAG_BAD_LINE, match.all,
                                "write each load with its chains or bands on a line of its own",
                                "a set behind chains, bands or a note");
    return false;
}

/* deadlift 140x3, 150x2, 160x1 @9. "warm-up" marks the line; between two loads it is ambiguous. */
static bool read_list_form(struct line *line, size_t start)
{
    struct text_match match;
    bool whole_line = line->work->warm_up;
    if (!line_fits(line, PATTERN_ITEM, start, &match))
        return false;
    do {
        if (line->work->warm_up && !whole_line)
            return line_refuse(line, DIAG_BAD_LINE, match.all, "give the warm-up a line of its own",
                               "which of the sets are the warm-up?");
        if (!read_item(line, &match))
            return false;
    } while (line_fits(line, PATTERN_ITEM, line->at + strspn(line->log->text + line->at, " \t,;"), &match));
    return !note_hides_load(line) && line_take_note(line);
}

/* --- lines of no form -------------------------------------------------------------------------------------------- */

/* plank 3x60 s, run 5 km: read, but not sets. */
static bool set_aside(struct line *line, size_t from)
{
    struct text_match match;
    struct text_log *log = line->log;
    if (!line_finds(line, PATTERN_TIMED, from + 1, log->length, &match))
        return false;
    size_t end = match.all.at;
    if (line_finds(line, PATTERN_LOAD_START, from + 1, end, &match))
        end = match.all.at;
    if (!line_take_lift(line, from, end))
        return false;
    tally_add(&text_lift(log, line->work->lift_number)->aside, 1, log->line);
    log->reading->log->files.items[log->file].aside++;
    return true;
}

/* "squat 100 + 2 chains/side x3" with its colon added: "... : 1x3". */
static const char *hint_with_colon(const struct line *line, size_t from)
{
    const char *written = line_text(line, line_rest(line, from)), *digits = "0123456789";
    size_t end = strlen(written), reps = end;
    while (reps && strchr(digits, written[reps - 1]))
        reps--;
    size_t sign = reps;
    while (sign && written[sign - 1] == ' ')
        sign--;
    size_t load = sign ? sign - 1 : 0;
    while (load && written[load - 1] == ' ')
        load--;
    if (reps == end || !load || !strchr("xX*", written[sign - 1]) || strchr(digits, written[load - 1]))
        return "put a colon between them: squat 100 + 2 chains/side: 1x3";
    return arena_printf(line->log->reading->scratch, "write %.*s: 1x%s", (int)load, written, written + reps);
}

static bool refuse_line(struct line *line, size_t from)
{
    const char *text = line->log->text, *colon = strchr(text + from, ':');
    struct text_match match;
    if (colon)
        return line_refuse(line, DIAG_BAD_REPS, line_rest(line, line_skip(line, (size_t)(colon - text) + 1)),
                           "write SETSxREPS or repetitions: 3x5, or 5,5,4", "no sets and repetitions");
    if (!line_finds(line, PATTERN_LOAD_START, from + 1, line->log->length, &match))
        return line_refuse(line, DIAG_BAD_LINE, line_rest(line, from),
                           text_hint_note(line->log, line_text(line, line_rest(line, from))),
                           "no load, no sets and repetitions");
    size_t start = match.all.at;
    struct load_fault fault;
    struct load_style style = {line->log->unit, line->log->decimal};
    const char *rest = line_text(line, line_rest(line, start));
    if (!load_read(line->log->reading->loads, rest, style, &fault) && fault.id != DIAG_BAD_LOAD) {
        line->refused = true;
        return text_say_fault(line->log, start, &fault);
    }
    if (line_finds(line, PATTERN_WORK, start, line->log->length, &match)) {
        struct load_fault in_load = {0}; /* a colon would not help a load that is not understood */
        const char *before = arena_text(line->log->reading->scratch, text + start, match.all.at - start);
        if (match.all.at > start && text[start] != '+' &&
            !load_read(line->log->reading->loads, before, style, &in_load)) {
            line->refused = true;
            return text_say_fault(line->log, start, &in_load);
        }
        return line_refuse(line, DIAG_BAD_LINE, line_rest(line, start), hint_with_colon(line, from),
                           "there is nothing between the load and its sets and repetitions");
    }
    return line_refuse(line, DIAG_BAD_LINE, line_rest(line, start), NULL, "a load without sets and repetitions");
}

/* The part after a lift, without a colon. */
static bool read_sets_forms(struct line *line, size_t start)
{
    static bool (*const forms[])(struct line *, size_t) = {read_spelled_form, read_at_form,     read_body_form,
                                                           read_load_behind,  read_load_before, read_list_form};
    for (size_t i = 0; i < sizeof forms / sizeof *forms && !line->refused; i++)
        if (forms[i](line, start))
            return true;
    return false;
}

/* The forms without a colon: the lift's name ends where a load may begin. */
static bool read_plain_forms(struct line *line, size_t from)
{
    struct text_match match;
    if (!line_finds(line, PATTERN_LOAD_START, from + 1, line->log->length, &match))
        return false;
    return line_take_lift(line, from, match.all.at) && read_sets_forms(line, match.all.at);
}

/* Does the line begin with sets, or with a load followed by sets? A lift's name never begins so. */
static bool begins_with_sets(const struct line *line, size_t from)
{
    struct text_match match;
    struct text_item item = {.load = no_span};
    size_t colon;
    if (!line_fits(line, PATTERN_LOAD_START, from, &match))
        return false;
    if (line_fits(line, PATTERN_ITEM, from, &match))
        return true;
    if (line_fits(line, PATTERN_SCHEME, from, &match) && line_takes_sets(line, &match, &item))
        return true;
    if (line_finds(line, PATTERN_SPACED, from, line->log->length, &match) && line_is_load(line, from, match.all.at))
        return true;
    return find_colon(line, from, false, &colon, &match) && line_is_load(line, from, colon);
}

/* Sets of the lift above. */
static bool read_below_lift(struct line *line, size_t from)
{
    struct text_match match;
    size_t colon;
    if (!line->log->heading.has_lift) {
        const char *written = line_text(line, line_rest(line, from));
        return line_refuse(
            line, DIAG_MISSING_LIFT, line_rest(line, from),
            arena_printf(line->log->reading->scratch, "write LIFT %s, or the lift on a line of its own above", written),
            "sets without a lift above them");
    }
    line_use_lift(line, text_lift_above(line->log), from);
    if (find_colon(line, from, false, &colon, &match))
        return read_sets_behind(line, from, colon, &match);
    return read_sets_forms(line, from) || (!line->refused && refuse_line(line, from));
}

static bool read_forms(struct line *line, size_t from)
{
    if (begins_with_sets(line, from))
        return read_below_lift(line, from);

    struct text_match match;
    size_t colon;
    if (find_colon(line, from, false, &colon, &match))
        return read_colon_form(line, from, colon, &match);
    if (read_plain_forms(line, from) || line->refused)
        return !line->refused;
    if (set_aside(line, from) || line->refused)
        return !line->refused;
    if (find_colon(line, from, true, &colon, &match))
        return read_colon_form(line, from, colon, &match);
    return refuse_line(line, from);
}

bool text_take_line(struct text_log *log, struct text_work *work)
{
    *work = (struct text_work){.note = no_span};
    struct line line = {.log = log, .work = work};
    struct text_match match;
    size_t from = text_line_start(log);
    if (line_fits(&line, PATTERN_WARM_UP, from, &match)) {
        work->warm_up = true;
        from += match.all.length;
    }
    if (from == log->length)
        return text_say(log, DIAG_BAD_LINE, (struct text_span){0, log->length}, NULL, "a warm-up without a set");
    return read_forms(&line, from);
}

/* A set line belongs to the lift above it; any other line ends that heading. */
bool text_read_line(struct text_log *log)
{
    struct text_work work = {.note = no_span};
    struct line line = {.log = log, .work = &work};
    struct text_match match;
    size_t from = text_line_start(log);
    if (line_fits(&line, PATTERN_WARM_UP, from, &match))
        from += match.all.length;
    if (from == log->length)
        return text_take_line(log, &work);
    bool set_line = begins_with_sets(&line, from);
    if (!set_line)
        text_end_heading(log);
    bool good = text_take_line(log, &work);
    log->heading.after_blank = false;
    if (!set_line) { /* the refused line may have been a lift's name: the sets below must not go to another lift */
        log->heading = (struct heading){.has_lift = good, .number = work.lift_number};
    }
    return good && (!work.items.count || text_add_sets(log, &work));
}

/* 70 + 12 kg chain/side: 3x2 */
static bool read_load_colon_form(struct line *line, size_t from)
{
    struct text_match match;
    size_t colon;
    if (!find_colon(line, from, true, &colon, &match) || colon == from)
        return false;
    struct text_item *item = line_add_item(line);
    item->load = (struct text_span){from, colon - from};
    if (!line_take_scheme(line, &match, item))
        return line_refuse(line, DIAG_BAD_REPS, match.all, NULL, "these sets and repetitions are out of range");
    line->at = match.all.at + match.all.length;
    return finish_items(line);
}

/* 100 kg 3x5; 3x5 100 kg. The first of two bare numbers is a number of sets if it is at most ten. */
static bool read_spaced_form(struct line *line, size_t from)
{
    struct text_match load, scheme;
    struct text_item item = {.load = no_span};
    bool load_first = line_fits(line, PATTERN_STRAIGHT, from, &load);
    size_t next = load_first ? line_skip(line, load.all.at + load.all.length) : 0;
    if (load_first && next > load.all.at + load.all.length && line_fits(line, PATTERN_SCHEME, next, &scheme) &&
        line_take_scheme(line, &scheme, &item) && item.reps.sets_said) {
        item.load = load.all;
    } else if (line_fits(line, PATTERN_SCHEME, from, &scheme) && line_take_scheme(line, &scheme, &item) &&
               item.reps.sets_said && line_sets(&item) <= SETS_BEFORE_LOAD) {
        next = line_skip(line, scheme.all.at + scheme.all.length);
        if (next == scheme.all.at + scheme.all.length || !line_fits(line, PATTERN_STRAIGHT, next, &load))
            return false;
    } else {
        return false;
    }
    struct text_item *added = line_add_item(line);
    added->reps = item.reps;
    added->load = item.load;
    line->at = scheme.all.at + scheme.all.length;
    return (item.load.at != SIZE_MAX || line_take_load(line, next, added)) && finish_items(line);
}

bool text_take_sets(struct text_log *log, uint32_t lift, struct text_work *work)
{
    *work = (struct text_work){.note = no_span, .lift = no_span, .lift_number = lift};
    work->is_body = lift_is_bodyweight(log->reading->log->lift_names.items[lift].name, log->reading->gym);
    struct line line = {.log = log, .work = work};
    struct text_match match;
    size_t from = strspn(log->text, " \t");
    if (line_fits(&line, PATTERN_WARM_UP, from, &match)) {
        work->warm_up = true;
        from += match.all.length;
    }
    if (read_load_colon_form(&line, from) || (!line.refused && read_at_form(&line, from)) ||
        (!line.refused && read_spaced_form(&line, from)) || (!line.refused && read_load_before(&line, from)) ||
        (!line.refused && read_body_form(&line, from)) || (!line.refused && read_list_form(&line, from)))
        return true;
    return line.refused ? false
                        : text_say(log, DIAG_BAD_LINE, line_rest(&line, from), "write 100x5, or 100 kg x 5 @8",
                                   "there is no load with its repetitions");
}
