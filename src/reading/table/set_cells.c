/* Turns cells that hold sets, or whole sessions, into rows of one set each. */
#include "reading/table/set_cells.h"

#include "base/number.h"
#include "base/text.h"
#include "reading/csv/csv_say.h"
#include "reading/text/text_line.h"
#include "reading/text/text_patterns.h"

#include <math.h>
#include <string.h>

static const struct text_span no_part = {SIZE_MAX, 0};

/* --- the reader of sets -------------------------------------------------------------------------------------------- */

/* Reports what is wrong with the current piece, at its place in the cell. */
static void say_of_piece(void *context, enum diag_id id, size_t column, size_t length, const char *hint,
                         const char *message)
{
    struct maker *maker = context;
    const char *cell = maker->row->cells[maker->piece_column];
    struct csv_origin *origin = &maker->origins[FIELD_COUNT];
    *origin = (struct csv_origin){.cell = maker->piece_column, .at = (uint32_t)text_characters(cell, maker->piece.at)};
    origin->length = (uint32_t)text_characters(cell + maker->piece.at, maker->piece.length);
    if (length && length <= origin->length) {
        origin->at += (uint32_t)column;
        origin->length = (uint32_t)length;
    }
    maker->log->source = &maker->source;
    csv_say(maker->log, id, FIELD_COUNT, hint, "%s", message);
}

void set_cells_begin(struct maker *maker)
{
    struct table *table = maker->table;
    maker->text = (struct text_log){.reading = table->reading,
                                    .say = say_of_piece,
                                    .say_context = maker,
                                    .own = table->own,
                                    .patterns = table->manner.patterns,
                                    .path = table->origin.path,
                                    .file = maker->log->file,
                                    .decimal = table->decimal,
                                    .unit = maker->log->unit,
                                    .unit_said = maker->log->unit_said,
                                    .bodyweight_kg = NAN,
                                    .bare_bodyweight = NAN,
                                    .state = SESSION_GOOD};
}

/* Runs and planks in sessions are added to the table's counts. */
void set_cells_end(struct maker *maker)
{
    for (uint32_t i = 0; i < maker->text.lifts.count; i++)
        if (maker->text.lifts.items[i].aside.count)
            csv_lift(maker->log, i)->tally.aside = maker->text.lifts.items[i].aside;
}

static void set_piece(struct maker *maker, size_t column, struct text_span piece)
{
    const char *cell = maker->row->cells[column];
    maker->piece_column = column;
    maker->piece = piece;
    char *text = arena_text(maker->scratch, cell + piece.at, piece.length);
    for (char *c = text; *c; c++)
        if (*c == '\n')
            *c = ' ';
    maker->text.text = text;
    maker->text.length = piece.length;
    maker->text.line = maker->row->line;
}

/* --- one set ------------------------------------------------------------------------------------------------------- */

/* 3x5, 10+ and the like, in the form of a repetitions cell. */
static const char *reps_text(struct arena *scratch, const struct text_item *item)
{
    const char *said = "";
    for (size_t i = 0; i < item->reps.count; i++) {
        const struct reps_group *group = &item->reps.groups[i];
        bool failure = group->to_failure || (item->to_failure && i + 1 == item->reps.count);
        said = arena_printf(scratch, "%s%s%ux%u%s", said, i ? ", " : "", group->sets, item->missed ? 0 : group->reps,
                            failure ? "+" : "");
    }
    return said;
}

static void put_number(struct maker *maker, enum log_field field, double value, size_t column)
{
    char text[32];
    if (isnan(value))
        return;
    number_print(text, value);
    for (char *c = text; maker->table->decimal == ',' && *c; c++)
        if (*c == '.')
            *c = ',';
    maker_put(maker, field, arena_copy(maker->scratch, text), column, no_part);
}

static void put_note(struct maker *maker, const struct text_work *work, size_t column, bool last)
{
    const char *row_note = maker->cells[FIELD_NOTE], *note = "";
    struct arena *scratch = maker->scratch;
    if (work->percent_note)
        note = arena_copy(scratch, work->percent_note);
    if (work->note.at != SIZE_MAX && last)
        note = arena_printf(scratch, "%s%s%.*s", note, *note ? "; " : "", (int)work->note.length,
                            maker->text.text + work->note.at);
    if (*note)
        maker_put(maker, FIELD_NOTE, *row_note ? arena_printf(scratch, "%s; %s", row_note, note) : note, column,
                  no_part);
}

struct row_fields /* fields of the whole row, which apply to each of its sets */
{
    const char *cells[FIELD_COUNT];
    struct csv_origin origins[FIELD_COUNT];
};

static void keep_row(const struct maker *maker, struct row_fields *kept)
{
    memcpy(kept->cells, maker->cells, sizeof kept->cells);
    memcpy(kept->origins, maker->origins, sizeof kept->origins);
}

static void take_row(struct maker *maker, const struct row_fields *kept)
{
    for (int field = 0; field < FIELD_COUNT; field++) {
        maker->cells[field] = kept->cells[field];
        maker->lengths[field] = strlen(kept->cells[field]);
    }
    memcpy(maker->origins, kept->origins, sizeof kept->origins);
}

/* Copies the work out of the reading's scratch memory, which each made row empties. */
static void copy_work(struct maker *maker, struct text_work *work)
{
    struct text_item *items = ARENA_ARRAY(maker->scratch, struct text_item, work->items.count);
    if (work->items.count)
        memcpy(items, work->items.items, work->items.count * sizeof *items);
    work->items.items = items;
    work->items.capacity = work->items.count;
    work->percent_note = arena_copy(maker->scratch, work->percent_note);
}

static struct text_span in_cell(const struct maker *maker, struct text_span span)
{
    return (struct text_span){maker->piece.at + span.at, span.length};
}

/* For a column whose header names AR: does the set name AR itself, or say that there was none? */
static bool names_gear(const struct maker *maker, const struct text_work *work, const struct text_item *item)
{
    struct arena *scratch = maker->scratch;
    const char *text = maker->text.text;
    return *maker->cells[FIELD_AR] &&
           ((item->load.at != SIZE_MAX &&
             column_gear(arena_text(scratch, text + item->load.at, item->load.length)).field != FIELD_COUNT) ||
            (work->note.at != SIZE_MAX &&
             column_gear(arena_text(scratch, text + work->note.at, work->note.length)).field != FIELD_COUNT));
}

static void emit_item(struct maker *maker, const struct text_work *work, const struct text_item *item, bool last,
                      size_t column)
{
    struct arena *scratch = maker->scratch;
    if (item->on_body)
        maker_put(maker, FIELD_WEIGHT, "BW", column, in_cell(maker, (struct text_span){0, maker->piece.length}));
    else
        maker_put(maker, FIELD_WEIGHT, arena_text(scratch, maker->text.text + item->load.at, item->load.length), column,
                  in_cell(maker, item->load));
    maker_put(maker, FIELD_REPS, reps_text(scratch, item), column, no_part);
    put_number(maker, FIELD_RPE, item->rpe, column);
    put_number(maker, FIELD_RIR, item->rir, column);
    put_number(maker, FIELD_VELOCITY, item->velocity_ms, column);
    if (work->warm_up || item->missed)
        maker_put(maker, FIELD_KIND, item->missed ? "missed" : "warm-up", column, no_part);
    put_note(maker, work, column, last);
    if (names_gear(maker, work, item)) /* what a set says overrides its header */
        maker_clear(maker, FIELD_AR);
    maker_emit(maker, column);
}

static void emit_work(struct maker *maker, struct text_work *work, const struct row_fields *row, size_t column)
{
    copy_work(maker, work);
    const struct column_use *use = &maker->table->headings[column].use;
    struct column_use *weight = &maker->log->map.of[FIELD_WEIGHT].items[0];
    if (use->unit_said) {
        weight->unit_said = true;
        weight->unit = use->unit;
    }
    for (size_t i = 0; i < work->items.count && maker->goes_on && !maker->row_is_lost; i++) {
        take_row(maker, row);
        emit_item(maker, work, &work->items.items[i], i + 1 == work->items.count, column);
    }
    take_row(maker, row);
}

/* --- cells of sets ------------------------------------------------------------------------------------------------- */

/* Typing errors with only one plausible reading: 8o x 5, 1OOx5, 100 by 5. NULL: there is none. */
static const char *as_it_could_be(struct maker *maker, const char *piece)
{
    struct arena *scratch = maker->scratch;
    static const struct
    {
        char from, to;
    } slips[] = {{'o', '0'}, {'O', '0'}, {'l', '1'}, {'I', '1'}, {'X', 'x'}};
    char *text = arena_copy(scratch, piece);
    for (size_t i = 0; i < sizeof slips / sizeof *slips; i++)
        for (char *c = text; *c; c++)
            if (*c == slips[i].from &&
                ((c > text && strchr("0123456789oOlIx.", c[-1])) || (c[1] && strchr("0123456789oOlIx.", c[1]))))
                *c = slips[i].to;
    char *by = strstr(text, " by ");
    if (by)
        memcpy(by, " x  ", 4);
    return item_looks(&maker->table->manner, text, strlen(text)) ? text_squeeze(scratch, text) : NULL;
}

static void refuse_piece(struct maker *maker, size_t column, struct text_span piece)
{
    const char *text = arena_text(maker->scratch, maker->row->cells[column] + piece.at, piece.length);
    const char *could = as_it_could_be(maker, text);
    maker_refuse(maker, column, piece, DIAG_BAD_SET_CELL,
                 could ? arena_printf(maker->scratch, "write %s, if that is what it means", could) : NULL,
                 arena_printf(maker->scratch, "'%s' is not a set: a load and its repetitions",
                              text_cut(maker->scratch, text, 60)));
}

static uint32_t lift_of_row(struct maker *maker)
{
    const char *lift = *maker->cells[FIELD_LIFT] ? maker->cells[FIELD_LIFT] : maker->lift ? maker->lift : "-";
    return lift_number(maker->table->reading->lifts, lift, strlen(lift));
}

static void count_refused_piece(struct maker *maker, size_t column)
{
    maker->goes_on = csv_count_refused(maker->log, maker->row->line) && maker->goes_on;
    maker->fates[column] = FATE_REFUSED;
}

/* A set with a typing error among the free words would be lost without notice. */
static bool hides_a_set(const struct maker *maker, const struct text_work *work)
{
    return work->note.at != SIZE_MAX && item_hides_garbled(maker->text.text + work->note.at, work->note.length);
}

static void read_sets_of(struct maker *maker, size_t column, struct text_span piece, const struct row_fields *row)
{
    struct text_work work;
    if (!item_looks(&maker->table->manner, maker->row->cells[column] + piece.at, piece.length)) {
        refuse_piece(maker, column, piece);
        return;
    }
    set_piece(maker, column, piece);
    if (!text_take_sets(&maker->text, lift_of_row(maker), &work))
        count_refused_piece(maker, column);
    else if (hides_a_set(maker, &work))
        refuse_piece(maker, column, piece);
    else
        emit_work(maker, &work, row, column);
    arena_reset(maker->table->reading->scratch);
}

void set_cell_read(struct maker *maker, size_t column)
{
    struct items items;
    struct row_fields row;
    items_split(&maker->table->manner, maker->row->cells[column], &items);
    keep_row(maker, &row);
    for (size_t i = 0; i < items.count && maker->goes_on && !maker->row_is_lost; i++)
        read_sets_of(maker, column, items.spans[i], &row);
    take_row(maker, &row);
}

/* --- cells of sessions --------------------------------------------------------------------------------------------- */

/* Squat: 100x5, 110x3: a name, and a list of sets after a colon. */
static void read_named_list(struct maker *maker, size_t column, struct text_span piece, size_t sets,
                            struct row_fields *row)
{
    const char *cell = maker->row->cells[column];
    struct items items;
    const char *name = text_squeeze(maker->scratch, arena_text(maker->scratch, cell + piece.at, sets - 1));
    const char *list = arena_text(maker->scratch, cell + piece.at + sets, piece.length - sets);
    maker->lift = arena_copy(maker->table->own, name);
    maker_put(maker, FIELD_LIFT, maker->lift, column, (struct text_span){piece.at, sets - 1});
    keep_row(maker, row);
    items_split(&maker->table->manner, list, &items);
    for (size_t i = 0; i < items.count && maker->goes_on && !maker->row_is_lost; i++)
        read_sets_of(maker, column, (struct text_span){piece.at + sets + items.spans[i].at, items.spans[i].length},
                     row);
}

static void refuse_session_part(struct maker *maker, size_t column, struct text_span piece)
{
    const char *text = arena_text(maker->scratch, maker->row->cells[column] + piece.at, piece.length);
    maker_refuse(maker, column, piece, DIAG_BAD_SET_CELL,
                 "write each lift with its sets: squat 100x5, 110x3; other words belong in a column of notes",
                 arena_printf(maker->scratch, "'%s' is not a lift with its sets", text_cut(maker->scratch, text, 60)));
}

/* A line like those of a text log. */
static void read_line(struct maker *maker, size_t column, struct text_span piece, struct row_fields *row)
{
    struct text_work work;
    uint32_t aside = csv_file(maker->log)->aside;
    set_piece(maker, column, piece);
    if (!text_take_line(&maker->text, &work)) {
        count_refused_piece(maker, column);
    } else if (hides_a_set(maker, &work)) {
        refuse_session_part(maker, column, piece);
    } else if (work.items.count) {
        maker->lift = arena_text(maker->table->own, maker->text.text + work.lift.at, work.lift.length);
        maker_put(maker, FIELD_LIFT, maker->lift, column, in_cell(maker, work.lift));
        keep_row(maker, row);
        emit_work(maker, &work, row, column);
    } else if (csv_file(maker->log)->aside > aside && maker->fates[column] < FATE_ASIDE) {
        maker->fates[column] = FATE_ASIDE;
    }
    arena_reset(maker->table->reading->scratch);
}

static bool is_body_scheme(struct maker *maker, const char *piece, size_t sets)
{
    const char *name = text_squeeze(maker->scratch, arena_text(maker->scratch, piece, sets - 1));
    uint32_t number = lift_number(maker->table->reading->lifts, name, strlen(name));
    return lift_is_bodyweight(maker->table->reading->log->lift_names.items[number].name, maker->table->reading->gym);
}

static void read_session_part(struct maker *maker, size_t column, struct text_span piece, struct row_fields *row)
{
    const char *text = maker->row->cells[column] + piece.at;
    size_t sets;
    if (session_looks(&maker->table->manner, text, piece.length, &sets)) {
        if (sets && !is_body_scheme(maker, text, sets))
            read_named_list(maker, column, piece, sets, row);
        else
            read_line(maker, column, piece, row);
    } else if (maker->lift && item_looks(&maker->table->manner, text, piece.length)) {
        maker_put(maker, FIELD_LIFT, maker->lift, column, no_part);
        keep_row(maker, row);
        read_sets_of(maker, column, piece, row);
    } else {
        refuse_session_part(maker, column, piece);
    }
}

/* note: words about the session, which apply to the sets after them in the cell. */
static bool take_note(struct maker *maker, size_t column, struct text_span piece, struct row_fields *row)
{
    struct text_match match;
    const char *text = maker->row->cells[column];
    if (!text_fits(maker->table->manner.patterns, PATTERN_NOTE, maker->table->decimal, text, piece.at + piece.length,
                   piece.at, &match))
        return false;
    if (maker->fates[column] == FATE_NONE)
        maker->fates[column] = FATE_READ;
    maker_put(maker, FIELD_NOTE, arena_text(maker->scratch, text + match.group[1].at, match.group[1].length), column,
              no_part);
    keep_row(maker, row);
    return true;
}

void session_cell_read(struct maker *maker, size_t column)
{
    struct items items;
    struct row_fields row;
    maker->lift = NULL;
    items_split_session(&maker->table->manner, maker->row->cells[column], &items);
    keep_row(maker, &row);
    for (size_t i = 0; i < items.count && maker->goes_on && !maker->row_is_lost; i++)
        if (!take_note(maker, column, items.spans[i], &row))
            read_session_part(maker, column, items.spans[i], &row);
    take_row(maker, &row);
    maker_clear(maker, FIELD_LIFT);
}
