#include "reading/csv/csv_loads.h"

#include "reading/csv/csv_log.h"

#include "base/number.h"
#include "base/text.h"
#include "reading/csv/csv_cells.h"
#include "reading/csv/csv_say.h"
#include "reading/load/load_combine.h"
#include "reading/load/note_reader.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

#define WEIGHT_LIMIT_KG 1500 /* the same as for a load expression */

struct csv_note /* a note's text and the AR in it; the requests of one record are adjacent */
{
    const char *text; /* as returned by kept_note() */
    size_t length;
    const struct note_ar *ar;  /* NULL: refused */
    const struct load *pieces; /* ar->ar; NULL: none */
    bool unit_matters;
    bool says_ar; /* some AR, or that there was none */
    enum ar_said said;
    enum ar_limit limit;
    struct focus_said focus;
    bool has_unread;
    uint32_t said_in; /* number + 1 of the file for which a clause was last reported as unread */
    struct load_fault fault;
};

static struct load_style style_of(const struct csv_log *log, enum mass_unit unit)
{
    return (struct load_style){.unit = unit, .decimal = log->decimal};
}

static enum mass_unit other_unit(enum mass_unit unit)
{
    return unit == UNIT_KG ? UNIT_LB : UNIT_KG;
}

const struct load *csv_on_body(struct csv_log *log, const struct load *weight)
{
    struct load like = *weight;
    like.straight = STRAIGHT_BODYWEIGHT;
    return load_intern(log->reading->log->loads, &like);
}

/* --- weight
 * ---------------------------------------------------------------------------------------------------------------- */

/* "-20" for a bodyweight lift means help from a machine or a band, "+25 kg" is added weight; with or without BW. */
static const struct load *signed_load(struct csv_log *log, const struct csv_entry *entry, const struct csv_cell *cell,
                                      struct load_fault *fault)
{
    if (!csv_lift(log, entry->lift)->bodyweight) {
        *fault = (struct load_fault){
            .id = DIAG_BAD_LOAD,
            .message = *cell->text == '+'
                           ? "a weight with a sign is added to bodyweight, but this is not a bodyweight lift"
                           : "a negative weight means assistance, but this is not a bodyweight lift",
            .hint = "write the weight without the sign, or bodyweight = yes in the lift's block of the gym file"};
        return NULL;
    }
    enum mass_unit unit = cell->use->unit_said ? cell->use->unit : entry->unit;
    const struct load *load = load_read(log->reading->loads, arena_printf(log->reading->scratch, "BW%s", cell->text),
                                        style_of(log, unit), fault);
    fault->column -= fault->column < 2 ? fault->column : 2;
    return load;
}

/* A whole load expression; marks a bare number that was read in an assumed unit. */
static const struct load *written_load(struct csv_log *log, struct csv_entry *entry, const char *text,
                                       enum mass_unit unit, bool unit_said, struct load_fault *fault)
{
    struct load_fault unused;
    const struct load *load = load_read(log->reading->loads, text, style_of(log, unit), fault);
    if (load && !unit_said && load != load_read(log->reading->loads, text, style_of(log, other_unit(unit)), &unused))
        entry->unit_assumed = true;
    return load;
}

/* A load of 0 is not a weight; the chains and bands stay. */
static const struct load *without_zero(struct csv_log *log, const struct load *load)
{
    if (load->straight != STRAIGHT_MASS || load->kg != 0 || load->bars) /* a bare bar has a weight */
        return load;
    struct load like = *load;
    like.straight = STRAIGHT_NONE;
    like.decimals = 0;
    return load_intern(log->reading->log->loads, &like);
}

static uint64_t weight_text(const struct csv_log *log, const struct csv_cell *cell, enum mass_unit unit)
{
    uint64_t manner = 1 + 2 * (uint64_t)unit + (log->decimal == ',') + 8 * cell->use->per_side;
    return cell->length > 7 ? 0 : csv_short_text(cell) | manner << 56;
}

/* A weight cell that is not in the table yet. */
static bool read_new_weight(struct csv_log *log, struct csv_entry *entry, const struct csv_cell *cell,
                            const struct load **base)
{
    struct load_fault fault;
    double value;
    enum mass_unit unit = cell->use->unit_said ? cell->use->unit : entry->unit;
    bool unit_said = cell->use->unit_said || entry->unit_said;
    bool plain = csv_cell_number(log, cell, &value);
    bool is_signed = *cell->text == '-' || text_starts(cell->text, "\xE2\x88\x92") ||
                     (*cell->text == '+' && (!plain || csv_lift(log, entry->lift)->bodyweight));
    bool per_side = cell->use->per_side && plain && value > 0; /* with or without the bar? The load reader decides */
    if (!per_side && !is_signed && plain && value >= 0 && kg_from(value, unit) <= WEIGHT_LIMIT_KG) {
        int decimals = number_decimals(cell->text, cell->length, log->decimal);
        struct load like = {.straight = STRAIGHT_MASS, .kg = kg_from(value, unit), .decimals = decimals};
        *base = without_zero(log, load_intern(log->reading->log->loads, &like));
        uint64_t text = weight_text(log, cell, unit);
        log->memory->weights[csv_short_slot(text, CSV_WEIGHT_BITS)] = (struct csv_weight){text, *base};
        entry->unit_assumed |= !unit_said && value > 0;
        return true;
    }
    if (is_signed) {
        *base = signed_load(log, entry, cell, &fault);
        entry->unit_assumed |= !unit_said && plain;
    } else if (!per_side && plain && value > 0) {
        return csv_refuse(log, DIAG_ABSURD_NUMBER, cell->index, NULL, "more than %d kg looks mistyped",
                          WEIGHT_LIMIT_KG);
    } else {
        const char *text = per_side ? arena_printf(log->own, "%s/side", cell->text) : cell->text;
        *base = written_load(log, entry, text, unit, unit_said, &fault);
    }
    if (!*base)
        return csv_refuse_fault(log, cell->index, &fault);
    *base = without_zero(log, *base);
    return true;
}

/* The weight cell; *base NULL: empty. Logs repeat their weights: a lookup table by text saves parsing and interning
 * most of them. */
static bool read_weight(struct csv_log *log, struct csv_entry *entry, const struct load **base)
{
    struct csv_cell cell;
    *base = NULL;
    entry->weight_cell = CSV_WHOLE_ROW;
    if (!csv_cell(log, FIELD_WEIGHT, &cell))
        return true;
    entry->weight_cell = cell.index;
    enum mass_unit unit = cell.use->unit_said ? cell.use->unit : entry->unit;
    uint64_t text = weight_text(log, &cell, unit);
    const struct csv_weight *slot = &log->memory->weights[csv_short_slot(text, CSV_WEIGHT_BITS)];
    if (!text || slot->text != text)
        return read_new_weight(log, entry, &cell, base);
    *base = slot->load;
    entry->unit_assumed |= slot->load->straight != STRAIGHT_NONE && !cell.use->unit_said && !entry->unit_said;
    return true;
}

/* --- AR cells and note
 * ----------------------------------------------------------------------------------------------------- */

static unsigned header_of(const struct column_use *use)
{
    return (use->unit_said ? AR_HEADER_UNIT : 0u) | (use->per_side ? AR_HEADER_SIDE : 0u) |
           (use->plural ? AR_HEADER_PLURAL : 0u);
}

static bool read_ar_text(struct csv_log *log, struct csv_entry *entry, const struct csv_cell *cell,
                         enum ar_column column, const struct load **ar)
{
    struct load_fault fault, unused;
    struct load_reader *reader = log->reading->loads;
    bool header_says = cell->use->unit_said;
    enum mass_unit unit = header_says ? cell->use->unit : entry->unit;
    unsigned header = header_of(cell->use);
    *ar = ar_cell_read(reader, cell->text, column, header, style_of(log, unit), &fault);
    if (!*ar)
        return csv_refuse_fault(log, cell->index, &fault);
    if (!header_says && !entry->unit_said &&
        *ar != ar_cell_read(reader, cell->text, column, header, style_of(log, other_unit(unit)), &unused))
        entry->unit_assumed = true;
    return true;
}

/* The cell of one AR column; *ar is unchanged if it is empty. */
static inline bool read_ar_cell(struct csv_log *log, struct csv_entry *entry, enum log_field field,
                                enum ar_column column, const struct load **ar)
{
    struct csv_cell cell;
    return !csv_cell(log, field, &cell) || read_ar_text(log, entry, &cell, column, ar);
}

static const char *kept_note(struct csv_log *log, const char *text)
{
    size_t length = strlen(text);
    char *kept = map_get(log->memory->kept_notes, text, length);
    if (!kept) {
        kept = arena_text(log->reading->notes_go ? log->memory->own : log->reading->log->arena, text, length);
        map_put(log->memory->kept_notes, text, length, kept);
    }
    return kept;
}

static struct csv_note *new_note(struct csv_log *log, const struct csv_cell *cell, enum mass_unit unit)
{
    struct load_reader *reader = log->reading->loads;
    struct csv_note *note = ARENA_NEW(log->memory->own, struct csv_note);
    struct load_fault unused;
    note->text = kept_note(log, cell->text);
    note->length = cell->length;
    focus_in_note(cell->text, &note->focus);
    note->ar = note_read(reader, cell->text, style_of(log, unit), &note->fault);
    if (!note->ar)
        return note;
    note->pieces = note->ar->ar;
    note->says_ar = note->ar->ar || note->ar->negated;
    note->said = note->pieces ? AR_SAID_IN_NOTE : note->ar->names_gear ? AR_SAID : AR_UNSAID;
    note->limit = (enum ar_limit)note->ar->limit;
    note->has_unread = note->ar->unread;
    if (note->pieces) {
        const struct note_ar *other = note_read(reader, cell->text, style_of(log, other_unit(unit)), &unused);
        note->unit_matters = !other || other->ar != note->ar->ar;
    }
    return note;
}

/* Reported once per file. */
static void say_unread_clause(struct csv_log *log, const struct csv_cell *cell, struct csv_note *note)
{
    if (!note->has_unread || note->said_in == log->file + 1)
        return;
    note->said_in = log->file + 1;
    csv_say_once(log, note->text, DIAG_UNREAD_CLAUSE, cell->index,
                 "'%s' names chains or bands but was not read as part of the load", note->ar->unread);
}

static struct csv_note *note_of(struct csv_log *log, const struct csv_cell *cell, enum mass_unit unit)
{
    struct map *notes = log->memory->notes[unit][log->decimal == ','];
    size_t length = cell->length;
    struct csv_note *note = map_get(notes, cell->text, length);
    if (!note) {
        note = new_note(log, cell, unit);
        log->memory->note_count++;
        map_put(notes, cell->text, length, note);
    }
    say_unread_clause(log, cell, note);
    return note;
}

/* The note cell; *note NULL: empty. Each distinct text is parsed once. */
static bool read_note(struct csv_log *log, struct csv_entry *entry, const struct csv_note **note)
{
    struct csv_cell cell;
    *note = NULL;
    if (!csv_cell(log, FIELD_NOTE, &cell))
        return true;
    const struct csv_note *known = log->note;
    bool same = known && entry->unit == log->note_unit && known->length == cell.length &&
                !memcmp(known->text, cell.text, cell.length);
    if (!same) {
        known = log->note = note_of(log, &cell, entry->unit);
        log->note_unit = entry->unit;
    }
    if (!known->ar)
        return csv_refuse_fault(log, cell.index, &known->fault);
    entry->unit_assumed |= known->unit_matters && !entry->unit_said;
    *note = known;
    return true;
}

/* The name of a workout is not a note: only words for a focus in it count. */
static void read_workout(struct csv_log *log, struct csv_entry *entry)
{
    struct csv_cell cell;
    if (entry->focus != FOCUS_UNSAID || !csv_cell(log, FIELD_WORKOUT, &cell))
        return;
    if (!csv_memo_holds(&log->workout_memo, &cell)) {
        focus_in_name(cell.text, &log->workout_value);
        csv_memo_fill(&log->workout_memo, &cell);
    }
    entry->focus = log->workout_value.focus;
    entry->light |= log->workout_value.light;
}

/* A focus cell, else the workout's name, else a clause of the note. Other words in a focus cell are not lost: they go
 * into the note. */
static void read_focus(struct csv_log *log, struct csv_entry *entry, const struct csv_note *note)
{
    struct csv_cell cell;
    entry->focus = log->above.focus;
    entry->light = false;
    if (csv_cell(log, FIELD_FOCUS, &cell)) {
        if (!csv_memo_holds(&log->focus_memo, &cell)) {
            size_t length = 0;
            log->focus_alone = focus_at_start(cell.text, &log->focus_value, &length) && !log->focus_value.light &&
                               cell.length == length;
            if (!log->focus_alone)
                focus_in_name(cell.text, &log->focus_value);
            csv_memo_fill(&log->focus_memo, &cell);
        }
        entry->focus = log->focus_value.focus;
        entry->light = log->focus_value.light;
        if (!log->focus_alone)
            entry->note = kept_note(
                log, entry->note ? arena_printf(log->reading->scratch, "%s; %s", entry->note, cell.text) : cell.text);
    }
    read_workout(log, entry);
    entry->focus_noted = note && entry->focus == FOCUS_UNSAID &&
                         (note->focus.focus != FOCUS_UNSAID || note->focus.light);
    if (entry->focus_noted) {
        entry->focus = note->focus.focus;
        entry->light |= note->focus.light;
    }
}

/* --- one load
 * -------------------------------------------------------------------------------------------------------------- */

static const struct load *combined(struct csv_log *log, const struct load_sources *sources, struct load_fault *fault)
{
    uintptr_t mix = (uintptr_t)sources->base >> 4;
    mix = mix * 31 + ((uintptr_t)sources->note >> 4);
    mix = mix * 31 + ((uintptr_t)sources->chain >> 4) + ((uintptr_t)sources->band >> 5) + ((uintptr_t)sources->ar >> 6);
    struct csv_combination *slot = &log->memory->combinations[(mix ^ mix >> 8) & (CSV_COMBINATIONS - 1)];
    if (!slot->load || memcmp(&slot->sources, sources, sizeof *sources)) {
        slot->load = load_combine(log->reading->loads, sources, fault);
        memcpy(&slot->sources, sources, sizeof *sources);
    }
    return slot->load;
}

/* If cells contradict each other, the last of them is shown. */
static size_t last_cell_of_load(const struct csv_log *log)
{
    static const enum log_field fields[] = {FIELD_WEIGHT, FIELD_CHAIN, FIELD_BAND, FIELD_AR, FIELD_NOTE};
    struct csv_cell cell;
    size_t last = CSV_WHOLE_ROW;
    for (size_t i = 0; i < sizeof fields / sizeof *fields; i++)
        if (csv_cell(log, fields[i], &cell) && (last == CSV_WHOLE_ROW || cell.index > last))
            last = cell.index;
    return last;
}

/* In a bodyweight lift a weight is added to the body, and no weight means the body alone. */
static void add_body(struct csv_log *log, struct csv_entry *entry)
{
    const struct load *weight = entry->weight;
    if ((weight->straight != STRAIGHT_MASS && weight->straight != STRAIGHT_NONE) || weight->bars ||
        !csv_lift(log, entry->lift)->bodyweight)
        return;
    if (weight->straight == STRAIGHT_NONE || csv_lifter(log, entry->lifter)->bodyweight_known)
        entry->weight = csv_on_body(log, weight);
    else
        entry->added_weight = log->map.of[FIELD_BODYWEIGHT].count; /* a later record may give the bodyweight */
}

bool csv_read_load(struct csv_log *log, struct csv_entry *entry)
{
    const struct lift_name *name = &log->reading->log->lift_names.items[entry->lift];
    const struct loads *loads = log->reading->log->loads;
    const struct csv_note *note;
    struct load_sources sources;
    struct load_fault fault;
    memset(&sources, 0, sizeof sources); /* compared byte by byte */
    if (!read_weight(log, entry, &sources.base) ||
        !read_ar_cell(log, entry, FIELD_CHAIN, AR_COLUMN_CHAIN, &sources.chain) ||
        !read_ar_cell(log, entry, FIELD_BAND, AR_COLUMN_BAND, &sources.band) ||
        !read_ar_cell(log, entry, FIELD_AR, AR_COLUMN_ANY, &sources.ar) || !read_note(log, entry, &note))
        return false;
    if (note && note->says_ar)
        sources.note = note->ar;
    sources.lift_chain = name->names_chain;
    sources.lift_band = name->names_band;
    sources.lift_reverse_band = name->names_reverse_band;
    entry->weight = !sources.base         ? log->memory->no_load
                    : sources.base->ar_id ? load_weight(loads, sources.base)
                                          : sources.base;
    entry->ar = sources.base && sources.base->ar_id ? load_ar(loads, sources.base) : log->memory->no_load;
    entry->ar_said = note ? note->said : AR_UNSAID;
    entry->ar_limit = note ? note->limit : AR_LIMIT_NONE;
    bool only_note = !sources.chain && !sources.band && !sources.ar && !sources.lift_chain && !sources.lift_band &&
                     !sources.lift_reverse_band;
    if (only_note && sources.note && note->pieces && !entry->ar->ar_id) {
        entry->ar = note->pieces; /* nothing can contradict */
    } else if (!only_note || sources.note) {
        const struct load *whole = combined(log, &sources, &fault);
        if (!whole)
            return csv_refuse_fault(log, last_cell_of_load(log), &fault);
        entry->ar = load_ar(loads, whole);
    }
    if (!only_note || (sources.base && sources.base->piece_count))
        entry->ar_said = AR_SAID;
    add_body(log, entry);
    entry->note = note ? note->text : NULL;
    read_focus(log, entry, note);
    return true;
}
