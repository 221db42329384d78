/* Reads a plain-text log line by line. */
#include "reading/text/text_log.h"

#include "base/number.h"
#include "base/text.h"
#include "reading/load/note_reader.h"
#include "reading/log_lifters.h"
#include "reading/text/text_headings.h"
#include "reading/text/text_line.h"
#include "reading/text/text_patterns.h"
#include "reading/text/text_session.h"
#include "reading/years.h"

#include <math.h>
#include <stdarg.h>
#include <string.h>

/* --- messages ---------------------------------------------------------------------------------------------------- */

static void say_at(struct text_log *log, enum diag_id id, size_t column, size_t length, bool placed, const char *hint,
                   const char *message)
{
    struct place at = {.file = log->path, .line = log->line};
    if (log->say) {
        log->say(log->say_context, id, column, length, hint, message);
        return;
    }
    if (placed) {
        at.column = (uint32_t)column + 1;
        at.length = (uint32_t)length;
    }
    diag_add(log->reading->diags, id, at, log->line_text, hint, "%s", message);
}

bool text_say(struct text_log *log, enum diag_id id, struct text_span span, const char *hint, const char *format, ...)
{
    size_t column = 0, length = 0;
    if (span.at != SIZE_MAX) {
        column = text_characters(log->text, span.at);
        length = text_characters(log->text + span.at, span.length);
    }
    va_list arguments;
    va_start(arguments, format);
    say_at(log, id, column, length, span.at != SIZE_MAX, hint, arena_vprintf(log->reading->scratch, format, arguments));
    va_end(arguments);
    return false;
}

bool text_say_fault(struct text_log *log, size_t at, const struct load_fault *fault)
{
    say_at(log, fault->id, text_characters(log->text, at) + fault->column, fault->length, true, fault->hint,
           fault->message);
    return false;
}

static struct text_span whole_line(const struct text_log *log)
{
    size_t at = strspn(log->text, " \t");
    return (struct text_span){at, log->length - at};
}

static struct log_file *file_of(const struct text_log *log)
{
    return &log->reading->log->files.items[log->file];
}

struct lift_tally *text_lift(struct text_log *log, uint32_t number)
{
    while (log->lifts.count <= number)
        (void)LIST_ADD(log->own, &log->lifts);
    return &log->lifts.items[number];
}

uint32_t text_lifter(struct text_log *log)
{
    if (!log->lifter_known)
        log->lifter = lifter_number(log->reading, lifter_of_log(log->reading, log->path));
    log->lifter_known = true;
    return log->lifter;
}

const char *text_join_notes(struct text_log *log, const char *first, const char *second)
{
    struct arena *arena = log->reading->log->arena;
    if (!first || !second)
        return arena_copy(arena, first ? first : second);
    return arena_printf(arena, "%s; %s", first, second);
}

void text_add_note(struct text_log *log, struct notes_together *notes, const char *text)
{
    for (const char *c = notes->text.count ? "; " : ""; *c; c++)
        *LIST_ADD(log->own, &notes->text) = *c;
    for (; *text; text++)
        *LIST_ADD(log->own, &notes->text) = *text;
}

const char *text_take_notes(struct text_log *log, struct notes_together *notes)
{
    if (!notes->text.count)
        return NULL;
    const char *text = arena_text(log->reading->log->arena, notes->text.items, notes->text.count);
    notes->text.count = 0;
    return text;
}

void text_end_notes(struct text_log *log)
{
    const char *notes = text_take_notes(log, &log->behind);
    struct set *sets = log->reading->log->sets.items;
    if (!notes)
        return;
    const char *joined = text_join_notes(log, sets[log->last_first].note, notes);
    for (size_t i = log->last_first; i < log->last_end; i++)
        sets[i].note = joined;
}

/* --- header lines ------------------------------------------------------------------------------------------------ */

/* A "lifter:" line ends what headers said about the lifter before (unit and decimal sign belong to the file and
 * stay). A bodyweight right above it, with neither a set nor another "lifter:" in between, belongs to the new lifter:
 * the order within a header does not matter. */
static bool bodyweight_is_of_next(const struct text_log *log)
{
    size_t sets = log->reading->log->sets.count;
    return log->bodyweight_said_at == sets && !(log->lifter_said && log->lifter_said_at == sets);
}

static bool take_lifter(struct text_log *log, struct text_span value, const char *text)
{
    if (!*text)
        return text_say(log, DIAG_BAD_LINE, value, "write lifter: NAME", "lifter: gives no name");
    if (!bodyweight_is_of_next(log))
        log->bodyweight_kg = log->bare_bodyweight = NAN;
    log->lifter_said_at = log->reading->log->sets.count;
    log->lifter_said = true;
    log->lifter = lifter_number(log->reading, text);
    return log->lifter_known = true;
}

static bool take_unit(struct text_log *log, struct text_span value, const char *text)
{
    if (!mass_unit_read(text, strlen(text), &log->unit))
        return text_say(log, DIAG_BAD_LINE, value, "write unit: kg or unit: lb", "'%s' is not a unit of mass", text);
    if (!log->any_session && !isnan(log->bare_bodyweight))
        log->bodyweight_kg = kg_from(log->bare_bodyweight, log->unit); /* order within the header does not matter */
    return log->unit_said = true;
}

static bool take_bodyweight(struct text_log *log, struct text_span value, const char *text)
{
    bool bare = false;
    double kg, number = NAN;
    char *plain = arena_copy(log->reading->scratch, text);
    for (char *comma = plain; log->decimal == ',' && (comma = strchr(comma, ','));)
        *comma = '.';
    if (!mass_read(plain, &kg, &bare)) {
        if (!bare || !number_whole(plain, '.', &number))
            return text_say(log, DIAG_BAD_LINE, value, "write bodyweight: 78.5", "'%s' is not a weight", text);
        kg = kg_from(number, log->unit);
    }
    if (!(kg >= 20 && kg <= 400))
        return text_say(log, DIAG_ABSURD_NUMBER, value, NULL, "'%s' is not a bodyweight", text);
    log->bodyweight_kg = kg;
    log->bodyweight_said_at = log->reading->log->sets.count;
    log->bare_bodyweight = number;
    return true;
}

static bool take_decimal(struct text_log *log, struct text_span value, const char *text)
{
    if (!text_same_name(text, "comma") && !text_same_name(text, "point"))
        return text_say(log, DIAG_BAD_LINE, value, "write decimal: comma or decimal: point",
                        "'%s' is not a decimal sign", text);
    log->decimal = text_same_name(text, "comma") ? ',' : '.';
    return true;
}

static bool read_header(struct text_log *log, const struct text_match *match)
{
    static const struct
    {
        const char *key;
        bool (*take)(struct text_log *log, struct text_span value, const char *text);
    } keys[] = {
        {"lifter", take_lifter},
        {"unit", take_unit},
        {"bodyweight", take_bodyweight},
        {"decimal", take_decimal},
    };
    struct arena *scratch = log->reading->scratch;
    const char *key = arena_text(scratch, log->text + match->group[1].at, match->group[1].length);
    const char *value = arena_text(scratch, log->text + match->group[2].at, match->group[2].length);
    for (size_t i = 0; i < sizeof keys / sizeof *keys; i++)
        if (text_same_name(keys[i].key, key))
            return keys[i].take(log, match->group[2].length ? match->group[2] : match->group[1], value);
    return false;
}

/* --- notes ------------------------------------------------------------------------------------------------------- */

/* The text after note: is prose. `check` reports it if it names AR. */
static void remark_gear(struct text_log *log, struct text_span span, const char *text)
{
    struct load_fault fault;
    struct load_style style = {log->unit, log->decimal};
    const struct note_ar *ar = note_read(log->reading->loads, text, style, &fault);
    if (!ar || ar->ar || ar->unread)
        text_say(log, DIAG_UNREAD_CLAUSE, span, NULL,
                 "a note names chains or bands but was not read as part of the load");
}

/* It applies to the sets on the line above; before any work of its session, to the first sets that follow. */
static void read_note(struct text_log *log, struct text_span span)
{
    const char *text = arena_text(log->reading->scratch, log->text + span.at, span.length);
    if (!span.length)
        return;
    remark_gear(log, span, text);
    text_add_note(log, log->last_first == log->last_end ? &log->waiting : &log->behind, text);
}

/* Is the line words, with so many digits in all and no mark of a load? Without a digit they are not a set: "felt good".
 */
static bool is_words(const struct text_log *log, size_t at, size_t digits)
{
    size_t found = 0;
    for (const char *text = log->text + at; *text; text++)
        found += *text >= '0' && *text <= '9';
    return found == digits && !strpbrk(log->text + at, ":@+&=~");
}

/* A line above the first date that has only words, or words and a year: "Oda's log 2026". */
static bool take_title(struct text_log *log, size_t at)
{
    int year = year_of_names(log->text + at, "");
    bool title = is_words(log, at, year ? 4 : 0);
    if (title && year)
        log->named_year = year;
    return title;
}

/* --- lines ------------------------------------------------------------------------------------------------------- */

/* False: refused. */
static bool read_kind_of_line(struct text_log *log)
{
    struct text_match match;
    size_t at = strspn(log->text, " \t");
    if (at == log->length)
        log->heading.after_blank = true;
    if (at == log->length)
        return true;
    if (log->text[at] == '#')
        return !text_is_marked_date(log->patterns, log->text, log->length, &match) || text_read_session(log, &match);
    if (text_fits(log->patterns, PATTERN_HEADER, log->decimal, log->text, log->length, at, &match))
        return read_header(log, &match);
    if (text_fits(log->patterns, PATTERN_SESSION, log->decimal, log->text, log->length, at, &match))
        return text_read_session(log, &match);
    if (log->state == SESSION_REFUSED)
        return text_say(log, DIAG_UNDER_BAD_DATE, whole_line(log), NULL, "belongs to a date that was refused");
    if (text_fits(log->patterns, PATTERN_NOTE, log->decimal, log->text, log->length, at, &match)) {
        read_note(log, match.group[1]);
        return true;
    }
    if (log->state == SESSION_NONE)
        return take_title(log, at) || text_say(log, DIAG_NO_SESSION, whole_line(log), NULL, "sets without a date");
    if (log->length > WORK_LINE_LIMIT)
        return text_say(log, DIAG_BAD_LINE, (struct text_span){SIZE_MAX, 0}, NULL,
                        "a line of more than 4096 bytes cannot be a set");
    if (text_take_heading(log))
        return true;
    if (is_words(log, at, 0)) {
        text_end_heading(log);
        log->heading = (struct heading){0}; /* may have been a lift: the sets below are not another's */
        read_note(log, whole_line(log));
        return true;
    }
    return text_read_line(log);
}

static size_t no_break_space(const char *text)
{
    static const char *const spaces[] = {"\xC2\xA0", "\xE2\x80\xAF", "\xE2\x80\x87"};
    for (size_t i = 0; (*text & 0x80) && i < sizeof spaces / sizeof *spaces; i++)
        if (text_starts(text, spaces[i]))
            return strlen(spaces[i]);
    return 0;
}

/* The line up to a NUL, with each no-break space as a blank: columns count characters and stay the same. */
static char *with_plain_blanks(struct arena *scratch, const char *line, size_t length)
{
    char *plain = arena_text(scratch, line, length), *to = plain;
    for (const char *from = plain; *from;) {
        size_t space = no_break_space(from);
        *to++ = space ? ' ' : *from;
        from += space ? space : 1;
    }
    *to = 0;
    return plain;
}

static void count_refused(struct text_log *log)
{
    struct log_file *file = file_of(log);
    file->refused++;
    log->given_up = tally_gives_up(log->reading, file, log->reading->log->sets.count - log->first_set, log->line);
}

static void refuse_long_line(struct text_log *log)
{
    log->line_text = NULL;
    text_say(log, DIAG_LONG_LINE, (struct text_span){SIZE_MAX, 0}, NULL,
             "a line of more than 1 MiB cannot be a set: it is left out");
    count_refused(log);
}

static void see_part(struct text_log *log, const char *text, size_t length)
{
    bool has_nul = memchr(text, 0, length);
    char *plain = with_plain_blanks(log->reading->scratch, text, length);
    size_t used = strlen(plain);
    while (!has_nul && used && strchr(" \t", plain[used - 1]))
        used--;
    plain[used] = 0;
    log->text = plain;
    log->line_text = has_nul ? plain : arena_text(log->reading->scratch, text, length);
    log->length = used;
    bool good = has_nul ? text_say(log, DIAG_NUL_BYTE, (struct text_span){log->length, 0}, NULL,
                                   "a NUL byte within the line")
                        : read_kind_of_line(log);
    if (!good)
        count_refused(log);
    arena_reset(log->reading->scratch);
}

/* U+2028 (LINE SEPARATOR) separates what is on one line of the file, as in the cells of a sheet. */
static void see_line(struct text_log *log, const char *text, size_t length)
{
    static const char separator[] = "\xE2\x80\xA8";
    log->line++;
    if (length > INPUT_LINE_LIMIT) {
        refuse_long_line(log);
        return;
    }
    for (const char *end; !log->given_up && (end = memmem(text, length, separator, sizeof separator - 1));) {
        const char *next = end + sizeof separator - 1;
        see_part(log, text, (size_t)(end - text));
        length -= (size_t)(next - text);
        text = next;
    }
    if (!log->given_up)
        see_part(log, text, length);
}

/* Joins lines from blocks, which may end anywhere. */
static void read_lines(struct text_log *log)
{
    struct arena *carry_arena = arena_new();
    const char *block;
    char *carry = NULL;
    size_t carried = 0, length;
    while (!log->given_up && (length = input_read(log->input, &block))) {
        for (const char *end; !log->given_up && (end = memchr(block, '\n', length));
             length -= (size_t)(end + 1 - block), block = end + 1) {
            size_t bytes = (size_t)(end - block);
            if (carried) {
                carry = arena_grow(carry_arena, carry, carried, carried + bytes);
                memcpy(carry + carried, block, bytes);
                see_line(log, carry, carried + bytes);
            } else {
                see_line(log, block, bytes);
            }
            carried = 0;
        }
        if (!carried) {
            arena_reset(carry_arena);
            carry = NULL;
        }
        carry = arena_grow(carry_arena, carry, carried, carried + length);
        memcpy(carry + carried, block, length);
        carried += length;
    }
    if (carried && !log->given_up)
        see_line(log, carry, carried);
    arena_free(carry_arena);
}

/* --- the end of the file ----------------------------------------------------------------------------------------- */

static void sum_up(struct text_log *log)
{
    struct log_file *file = file_of(log);
    tally_sets(log->reading->log, file, log->first_set);
    file->unit = log->unit;
    file->unit_assumed = log->unit_assumed.count;
    tally_say_unit(log->reading, log->path, log->unit, &log->unit_assumed);
    if (log->years.count)
        diag_add(log->reading->diags, DIAG_ASSUMED_YEAR, (struct place){.file = log->path, .line = log->years.line},
                 NULL, NULL, "%u %s without a year: that of the date above or of the file's name was used",
                 log->years.count, log->years.count == 1 ? "date" : "dates");
    if (!file->sets && !file->refused && !file->aside)
        diag_add(log->reading->diags, DIAG_EMPTY_LOG, (struct place){.file = log->path}, NULL, NULL, "no sets in it");
}

static bool finish(struct text_log *log)
{
    struct log_file *file = file_of(log);
    text_end_session(log);
    file->lines = log->line;
    file->encoding = input_encoding(log->input);
    if (input_failed(log->input) || !text_settle_dates(log)) {
        log->reading->log->sets.count = log->first_set;
        log->reading->log->percents.count = log->first_percent;
        file->sets = file->aside = 0;
        return false;
    }
    sum_up(log);
    for (uint32_t i = 0; i < log->lifts.count; i++)
        tally_say_lift(log->reading, log->path, i, &log->lifts.items[i]);
    return true;
}

bool read_text_log(struct reading *reading, struct input *input, uint32_t file)
{
    struct arena *own = arena_new();
    struct text_log log = {.reading = reading, .input = input, .own = own, .file = file, .path = input_name(input)};
    log.patterns = text_patterns_of(reading);
    log.decimal = '.';
    log.unit_said = reading->options.unit_said || reading->gym->unit_said;
    log.unit = reading->options.unit_said ? reading->options.unit
               : reading->gym->unit_said  ? reading->gym->unit
                                          : UNIT_KG;
    log.bodyweight_kg = log.bare_bodyweight = NAN;
    log.first_set = reading->log->sets.count;
    log.first_percent = reading->log->percents.count;
    log.last_day = NO_DAY;
    day_order_begin(&log.order);
    file_of(&log)->first = file_of(&log)->last = NO_DAY;
    read_lines(&log);
    bool good = finish(&log);
    arena_free(own);
    return good;
}
