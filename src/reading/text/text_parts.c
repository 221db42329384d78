#include "reading/text/text_parts.h"

#include "reading/text/text_line.h"

#include "base/number.h"
#include "base/text.h"
#include "reading/text/text_patterns.h"

#include <math.h>
#include <string.h>

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

/* "pull-up + band b11: 3x5" names gear where a lift's name ends; "clean + jerk" does not. */
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
                        "chains or bands without a load before them");
}

/* "100 kg bench 5x5": a load in front of the lift is not part of its name. */
static bool begins_with_mass(const char *name)
{
    double number;
    enum mass_unit unit;
    size_t used = number_prefix(name, strlen(name), '.', &number);
    const char *word = name + used + strspn(name + used, " \t");
    return used && mass_unit_read(word, strcspn(word, " \t"), &unit);
}

/* "100 kg bench 5x5" in the proper order; NULL: use the usual hint. */
static const char *hint_with_lift_first(const struct line *line)
{
    struct text_span lift = line->work->lift;
    const char *name = line_text(line, lift);
    double number;
    size_t mass = number_prefix(name, strlen(name), '.', &number);
    mass += strspn(name + mass, " \t");
    mass += strcspn(name + mass, " \t");
    const char *rest = line_text(line, line_rest(line, line_skip(line, lift.at + lift.length)));
    const char *word = name + mass + strspn(name + mass, " \t");
    if (!*word || strspn(rest, "0123456789x*, ") != strlen(rest) || !*rest)
        return NULL;
    return arena_printf(line->log->reading->scratch, "write %s %.*s: %s", word, (int)mass, name, rest);
}

/* The name, without dashes and other marks between it and the load. False: there is none, already reported. */
bool line_take_lift(struct line *line, size_t from, size_t to)
{
    const char *text = line->log->text;
    static const char *const marks[] = {" ", "\t", ",", ":", "-", "=", "@", "\xE2\x80\x93", "\xE2\x80\x94", "\xC2\xA0"};
    for (size_t i = 0; i < sizeof marks / sizeof *marks; i++) {
        size_t length = strlen(marks[i]);
        if (to >= from + length && !memcmp(text + to - length, marks[i], length)) {
            to -= length;
            i = SIZE_MAX; /* start again with the first mark */
        }
    }
    line->work->lift = (struct text_span){from, to - from};
    if (to > from && strchr("+&~*", text[to - 1]))
        return line_refuse(line, DIAG_BAD_LOAD, (struct text_span){to - 1, 1},
                           "write ~ at the line's start for a warm-up", "there is no load before this mark");
    if (!has_letter(text + from, to - from))
        return line_refuse(line, DIAG_MISSING_LIFT, line->work->lift, NULL, "no lift is named");
    if (begins_with_mass(line_text(line, line->work->lift)))
        return line_refuse(line, DIAG_BAD_LINE, line->work->lift, hint_with_lift_first(line),
                           "the load comes before the lift");
    if (refuse_gear_in_name(line, from, to))
        return false;
    line->work->lift_number = lift_number(line->log->reading->lifts, text + from, to - from);
    const char *name = line->log->reading->log->lift_names.items[line->work->lift_number].name;
    line->work->is_body = lift_is_bodyweight(name, line->log->reading->gym);
    return true;
}

void line_use_lift(struct line *line, uint32_t number, size_t at)
{
    line->work->lift = (struct text_span){at, 0};
    line->work->lift_number = number;
    line->work->is_body = lift_is_bodyweight(line->log->reading->log->lift_names.items[number].name,
                                             line->log->reading->gym);
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

bool line_takes_sets(const struct line *line, const struct text_match *match, struct text_item *item)
{
    struct line copy = *line;
    return match->group[1].at == SIZE_MAX && line_take_scheme(&copy, match, item) && item->reps.sets_said;
}

unsigned line_sets(const struct text_item *item)
{
    unsigned sets = 0;
    for (size_t i = 0; i < item->reps.count; i++)
        sets += item->reps.groups[i].sets;
    return sets;
}

/* --- load -------------------------------------------------------------------------------------------------------- */

bool line_is_load(const struct line *line, size_t from, size_t to)
{
    struct load_fault fault;
    struct load_style style = {line->log->unit, line->log->decimal};
    return load_read(line->log->reading->loads, line_text(line, (struct text_span){from, to - from}), style, &fault);
}

#define CUTS 16

/* The possible ends of a load that begins at `from`: at the latest where an effort or a speed begins. */
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

/* The longest load that begins at `from`; if there is none, a straight weight before free words. A fault is that of
 * the longest reading. */
bool line_take_load(struct line *line, size_t from, struct text_item *item)
{
    struct text_match match;
    struct load_fault fault;
    struct load_style style = {line->log->unit, line->log->decimal};
    size_t cuts[CUTS], count = find_cuts(line, from, cuts), cut = 0, end = 0;
    while (cut < count && !line_is_load(line, from, cuts[cut]))
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
