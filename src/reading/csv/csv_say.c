#include "reading/csv/csv_say.h"

#include "reading/csv/csv_log.h"

#include "base/text.h"

#include <stdarg.h>
#include <string.h>

struct log_file *csv_file(struct csv_log *log)
{
    return &log->reading->log->files.items[log->file];
}

const char *csv_skip_blanks(const char *text)
{
    while (*text == ' ' || *text == '\t' || *text == '\n' || (*text == '\xC2' && text[1] == '\xA0'))
        text += *text == '\xC2' ? 2 : 1;
    return text;
}

bool csv_is_empty(const char *text)
{
    static const char *const dashes[] = {"-", "\xE2\x80\x93", "\xE2\x80\x94"};
    text = csv_skip_blanks(text);
    if (!*text)
        return true;
    for (size_t i = 0; i < sizeof dashes / sizeof *dashes; i++)
        if (text_starts(text, dashes[i]) && !*csv_skip_blanks(text + strlen(dashes[i])))
            return true;
    return false;
}

bool csv_find_cell(const struct csv_log *log, enum log_field field, struct csv_cell *cell)
{
    const struct csv_row *row = log->row;
    for (size_t i = 0; i < log->map.of[field].count; i++) {
        const struct column_use *use = &log->map.of[field].items[i];
        if (use->index >= row->count || !*row->cells[use->index])
            continue;
        const char *text = row->cells[use->index];
        bool may_be_empty = *text == '-' || *text == ' ' || *text == '\t' || *text == '\n' || *text == '\xC2' ||
                            *text == '\xE2';
        if (may_be_empty && csv_is_empty(text))
            continue;
        *cell = (struct csv_cell){text, strlen(text), use->index, use};
        return true;
    }
    return false;
}

void csv_memo_fill(struct csv_memo *memo, const struct csv_cell *cell)
{
    memo->length = cell->length <= sizeof memo->text ? cell->length : 0;
    memmove(memo->text, cell->text,
            memo->length); /* memcpy of so few bytes compiles to an instruction that is slow to start */
}

struct csv_lift *csv_new_lift(struct csv_log *log, uint32_t number)
{
    while (log->lifts.count <= number)
        (void)LIST_ADD(log->own, &log->lifts);
    struct csv_lift *lift = &log->lifts.items[number];
    lift->asked = true;
    lift->bodyweight = lift_is_bodyweight(log->reading->log->lift_names.items[number].name, log->reading->gym);
    return lift;
}

struct csv_lifter *csv_lifter(struct csv_log *log, uint32_t number)
{
    while (log->lifters.count <= number)
        (void)LIST_ADD(log->own, &log->lifters);
    struct csv_lifter *lifter = &log->lifters.items[number];
    if (!lifter->asked) {
        const struct lifter *known = gym_lifter(log->reading->gym, names_text(log->reading->log->lifters, number));
        lifter->asked = true;
        lifter->bodyweight_known = known && known->bodyweight_kg > 0;
    }
    return lifter;
}

/* --- what is said
 * ---------------------------------------------------------------------------------------------------------- */

struct span /* within a cell, in characters from 0; length 0: the whole cell */
{
    size_t column, length;
};

static const char *next_character(const char *at)
{
    at++;
    while ((*at & 0xC0) == 0x80)
        at++;
    return at;
}

/* Converts a span to the line's own text: within quotes, each quote is doubled there. A span on a later line of the
 * record cannot be shown, so it becomes the whole cell. */
static struct span span_in_line(const char *line, uint32_t column, const char *cell, struct span span)
{
    const char *at = line;
    for (uint32_t i = 1; i < column - 1 && *at; i++)
        at = next_character(at);
    bool quoted = column > 1 && *at == '"';
    struct span shown = span;
    for (size_t i = 0; i < span.column + span.length && *cell; i++, cell = next_character(cell)) {
        if (*cell == '\n')
            return (struct span){0};
        if (quoted && *cell == '"')
            ++*(i < span.column ? &shown.column : &shown.length);
    }
    return shown;
}

const char *csv_record_text(struct input *input, struct arena *scratch, const struct csv_row *row)
{
    const char *line = input_line(input, scratch, row->line);
    if (!line || (row->lines < 2 && !row->open_quote))
        return line;
    LIST(const char *) lines = {0};
    size_t length = 0;
    for (uint32_t i = 0; line && (i < row->lines || row->open_quote);
         line = input_line(input, scratch, row->line + ++i)) {
        *LIST_ADD(scratch, &lines) = line;
        length += strlen(line) + 1;
    }
    char *record = arena_alloc(scratch, length), *to = record;
    for (size_t i = 0; i < lines.count; i++)
        to = stpcpy(i ? (*to = '\n', to + 1) : to, lines.items[i]);
    return record;
}

/* The place of a made row's cell, in the original row. */
static struct place place_in_source(const struct csv_log *log, size_t cell, struct span span)
{
    const struct csv_source *source = log->source;
    struct place at = {.file = log->path, .line = source->line, .sheet = source->sheet};
    if (cell == CSV_WHOLE_ROW)
        return at;
    const struct csv_origin *origin = &source->origins[cell];
    const char *text = origin->cell < source->count ? source->cells[origin->cell] : "";
    if (source->sheet) {
        at.column = (uint32_t)origin->cell + 1;
        return at;
    }
    const char *line = arena_text(log->reading->scratch, source->record, strcspn(source->record, "\n"));
    span = !origin->length ? (struct span){0, text_characters(text, strlen(text))}
           : span.length   ? (struct span){origin->at + span.column, span.length}
                           : (struct span){origin->at, origin->length};
    at.column = csv_column_in_line(line, origin->cell, log->delimiter);
    if (at.column > 1 || !origin->cell) {
        span = span_in_line(line, at.column, text, span);
        at.column += (uint32_t)span.column;
        at.length = (uint32_t)span.length;
    }
    return at;
}

struct place csv_place(const struct csv_log *log, size_t cell)
{
    return place_in_source(log, cell, (struct span){0});
}

/* A row of a table gives each of its sets the same chains and bands, so an error in their cell is reported once.
 * Returns the key; NULL: it is another cell, or its place is not known. */
static const char *once_a_cell(struct csv_log *log, enum diag_id id, size_t cell, struct place at, const char *message)
{
    if ((cell != FIELD_CHAIN && cell != FIELD_BAND && cell != FIELD_AR) || !at.column)
        return NULL;
    return arena_printf(log->reading->scratch, "%d %s %u %u %u %s", (int)id, log->path, at.line, at.column, at.length,
                        message);
}

/* `once`: a key, under which the message is reported once; NULL: it may be repeated. */
static void say_at(struct csv_log *log, enum diag_id id, size_t cell, struct span span, const char *once,
                   const char *hint, const char *message)
{
    struct arena *scratch = log->reading->scratch;
    if (log->source) {
        struct place at = place_in_source(log, cell, span);
        diag_add_once(log->reading->diags, once ? once : once_a_cell(log, id, cell, at, message), id, at,
                      log->source->record, hint, "%s", message);
        return;
    }
    struct place at = {.file = log->path, .line = log->row->line, .sheet = input_is_sheet(log->input)};
    const char *line = input_line(log->input, scratch, log->row->line);
    if (at.sheet && cell != CSV_WHOLE_ROW) {
        at.column = (uint32_t)cell + 1;
    } else if (cell != CSV_WHOLE_ROW) {
        const char *text = cell < log->row->count ? log->row->cells[cell] : "";
        at.column = csv_cell_column(log->input, scratch, log->row, cell, log->delimiter);
        if (!span.length)
            span = (struct span){0, text_characters(text, strlen(text))};
        if (at.column > 1 || !cell) {
            span = span_in_line(line ? line : "", at.column, text, span);
            at.column += (uint32_t)span.column;
            at.length = (uint32_t)span.length;
        }
    }
    diag_add_once(log->reading->diags, once, id, at, csv_record_text(log->input, scratch, log->row), hint, "%s",
                  message);
}

void csv_say_once(struct csv_log *log, const char *text, enum diag_id id, size_t cell, const char *format, ...)
{
    struct arena *scratch = log->reading->scratch;
    va_list arguments;
    va_start(arguments, format);
    say_at(log, id, cell, (struct span){0}, arena_printf(scratch, "%d %s %s", (int)id, log->path, text), NULL,
           arena_vprintf(scratch, format, arguments));
    va_end(arguments);
}

void csv_say(struct csv_log *log, enum diag_id id, size_t cell, const char *hint, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    say_at(log, id, cell, (struct span){0}, NULL, hint, arena_vprintf(log->reading->scratch, format, arguments));
    va_end(arguments);
}

bool csv_refuse(struct csv_log *log, enum diag_id id, size_t cell, const char *hint, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    say_at(log, id, cell, (struct span){0}, NULL, hint, arena_vprintf(log->reading->scratch, format, arguments));
    va_end(arguments);
    return false;
}

bool csv_refuse_fault(struct csv_log *log, size_t cell, const struct load_fault *fault)
{
    say_at(log, fault->id, cell, (struct span){fault->column, fault->length}, NULL, fault->hint, fault->message);
    return false;
}

void csv_fail(struct csv_log *log, enum diag_id id, uint32_t line, const char *format, ...)
{
    struct arena *scratch = log->reading->scratch;
    va_list arguments;
    va_start(arguments, format);
    diag_add(log->reading->diags, id,
             (struct place){.file = log->path, .line = line, .sheet = log->input && input_is_sheet(log->input)},
             log->input ? input_line(log->input, scratch, line) : NULL, NULL, "%s",
             arena_vprintf(scratch, format, arguments));
    va_end(arguments);
    log->failed = true;
}
