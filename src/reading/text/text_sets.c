#include "reading/text/text_sets.h"

#include "reading/text/text_log.h"

#include "base/text.h"
#include "reading/load/load_combine.h"
#include "reading/load/note_reader.h"

#include <math.h>
#include <string.h>

#define LINE_SETS_LIMIT 200 /* more on one line is a typing error */

struct maker
{
    struct text_log *log;
    const struct text_work *work;
    const char *note;    /* as written on the line; NULL: none */
    bool speaks_of_gear; /* the note names gear, in whatever way */
};

static struct load_style style_in(const struct text_log *log, enum mass_unit unit)
{
    return (struct load_style){unit, log->decimal};
}

static bool knows_bodyweight(struct text_log *log)
{
    const struct lifter *lifter = gym_lifter(log->reading->gym,
                                             names_text(log->reading->log->lifters, text_lifter(log)));
    return !isnan(log->bodyweight_kg) || (lifter && lifter->bodyweight_kg > 0);
}

static const struct load *like_with(struct text_log *log, const struct load *load, enum straight_kind straight)
{
    struct load like = *load;
    like.straight = straight;
    return load_intern(log->reading->log->loads, &like);
}

/* The written load of an item; a number with a sign is added to bodyweight, and so is a plain one if the lift is a
 * bodyweight lift. */
static const struct load *written_load(struct maker *maker, const struct text_item *item, enum mass_unit unit,
                                       struct load_fault *fault)
{
    struct text_log *log = maker->log;
    struct load_reader *loads = log->reading->loads;
    if (item->on_body)
        return load_intern(log->reading->log->loads, &(struct load){.straight = STRAIGHT_BODYWEIGHT});
    const char *text = arena_text(log->reading->scratch, log->text + item->load.at, item->load.length);
    bool is_signed = *text == '+' || *text == '-';
    if (is_signed && !maker->work->is_body) {
        *fault = (struct load_fault){
            .id = DIAG_BAD_LOAD,
            .length = text_characters(text, strlen(text)),
            .message = "a weight with a sign is added to bodyweight, but this is not a bodyweight lift",
            .hint = "write the weight without the sign"};
        return NULL;
    }
    const struct load *load = load_read(loads, is_signed ? arena_printf(log->reading->scratch, "BW%s", text) : text,
                                        style_in(log, unit), fault);
    if (!load && is_signed)
        fault->column -= fault->column < 2 ? fault->column : 2;
    if (!load || load->straight != STRAIGHT_MASS || load->bars)
        return load;
    if (maker->work->is_body && knows_bodyweight(log))
        return like_with(log, load, STRAIGHT_BODYWEIGHT);
    return load->kg == 0 ? like_with(log, load, STRAIGHT_NONE) : load; /* a load of 0 is not a weight */
}

static struct text_span place_of(const struct maker *maker, const struct text_item *item)
{
    return item->load.at == SIZE_MAX ? maker->work->lift : item->load;
}

/* The load with the AR from the note and the lift's name. `*at`: where a fault is. */
static const struct load *whole_load(struct maker *maker, const struct text_item *item, enum mass_unit unit,
                                     struct load_fault *fault, size_t *at)
{
    struct text_log *log = maker->log;
    const struct lift_name *name = &log->reading->log->lift_names.items[maker->work->lift_number];
    struct load_sources sources = {
        .lift_chain = name->names_chain, .lift_band = name->names_band, .lift_reverse_band = name->names_reverse_band};
    *at = place_of(maker, item).at;
    sources.base = written_load(maker, item, unit, fault);
    if (!sources.base)
        return NULL;
    if (maker->note) {
        const struct note_ar *ar = note_read(log->reading->loads, maker->note, style_in(log, unit), fault);
        if (!ar) {
            *at = maker->work->note.at;
            return NULL;
        }
        sources.note = ar->ar || ar->negated ? ar : NULL;
        maker->speaks_of_gear = ar->names_gear;
    }
    if (log->heading.ar && !sources.base->piece_count && !sources.note)
        sources.ar = ar_cell_read(log->reading->loads, log->heading.ar, AR_COLUMN_ANY, 0, style_in(log, unit), fault);
    bool only_weight = !sources.ar && !sources.note && !sources.lift_chain && !sources.lift_band &&
                       !sources.lift_reverse_band;
    return only_weight ? sources.base : load_combine(log->reading->loads, &sources, fault);
}

/* --- sets -------------------------------------------------------------------------------------------------------- */

static void keep_percents(struct maker *maker, const struct text_item *item, size_t first)
{
    struct text_log *log = maker->log;
    struct log *all = log->reading->log;
    const char *excerpt = arena_copy(all->arena, log->text);
    for (size_t set = first; set < all->sets.count; set++)
        *LIST_ADD(all->arena, &all->percents) = (struct percent_use){
            .set = set,
            .column = (uint32_t)text_characters(log->text, item->load.at) + 1,
            .length = (uint32_t)text_characters(log->text + item->load.at, item->load.length),
            .excerpt = excerpt};
}

static void count_sets(struct maker *maker, const struct load *load, bool unit_assumed, uint32_t count)
{
    struct text_log *log = maker->log;
    struct lift_tally *lift = text_lift(log, maker->work->lift_number);
    if (load->straight == STRAIGHT_NONE)
        tally_add(&lift->unweighed, count, log->line);
    if (unit_assumed)
        tally_add(&log->unit_assumed, 1, log->line);
}

static void add_item_sets(struct maker *maker, const struct text_item *item, const struct load *load, bool unit_assumed,
                          const char *note)
{
    struct text_log *log = maker->log;
    struct log *all = log->reading->log;
    size_t first = all->sets.count;
    struct set set = {.weight = load_weight(all->loads, load),
                      .ar = load_ar(all->loads, load),
                      .note = note,
                      .rpe = item->rpe,
                      .rir = item->rir,
                      .velocity_ms = item->velocity_ms,
                      .bodyweight_kg = log->bodyweight_kg,
                      .day = log->written.kind == DAY_SURE ? log->written.day : NO_DAY,
                      .file = log->file,
                      .line = log->line,
                      .lifter = text_lifter(log),
                      .lift = maker->work->lift_number,
                      .assumed = (uint16_t)((unit_assumed ? ASSUMED_UNIT : 0) | (log->year_taken ? ASSUMED_YEAR : 0)),
                      .ar_said = load->piece_count || maker->speaks_of_gear ? AR_SAID : AR_UNSAID,
                      .focus = (uint8_t)log->focus,
                      .light = log->light};
    for (size_t g = 0; g < item->reps.count; g++) {
        bool last_group = g + 1 == item->reps.count;
        set.reps = item->missed ? 0 : item->reps.groups[g].reps;
        set.kind = (uint8_t)(!set.reps ? SET_MISSED : maker->work->warm_up ? SET_WARM_UP : SET_WORK);
        for (unsigned i = 1; i <= item->reps.groups[g].sets; i++) {
            bool last = last_group && i == item->reps.groups[g].sets;
            set.to_failure = item->reps.groups[g].to_failure || (last && item->to_failure);
            *LIST_ADD(all->arena, &all->sets) = set;
        }
    }
    if (load->straight == STRAIGHT_PERCENT)
        keep_percents(maker, item, first);
    count_sets(maker, load, unit_assumed, (uint32_t)(all->sets.count - first));
}

static bool check_count(struct maker *maker)
{
    size_t count = 0;
    for (size_t i = 0; i < maker->work->items.count; i++)
        for (size_t g = 0; g < maker->work->items.items[i].reps.count; g++)
            count += maker->work->items.items[i].reps.groups[g].sets;
    return count <= LINE_SETS_LIMIT || text_say(maker->log, DIAG_BAD_SETS, (struct text_span){SIZE_MAX, 0}, NULL,
                                                "%zu sets on one line look mistyped", count);
}

static const char *note_of(struct maker *maker)
{
    struct text_log *log = maker->log;
    const char *note = maker->note;
    if (maker->work->percent_note)
        note = text_join_notes(log, maker->work->percent_note, note);
    const char *waiting = text_take_notes(log, &log->waiting);
    return note || waiting ? text_join_notes(log, waiting, note) : NULL;
}

/* Every item is read before a set is added: a line is used as a whole or not at all. */
bool text_add_sets(struct text_log *log, struct text_work *work)
{
    struct arena *scratch = log->reading->scratch;
    struct maker maker = {.log = log, .work = work};
    const struct load **loads = ARENA_ARRAY(scratch, const struct load *, work->items.count);
    bool *unit_assumed = ARENA_ARRAY(scratch, bool, work->items.count);
    enum mass_unit other = log->unit == UNIT_KG ? UNIT_LB : UNIT_KG;
    struct load_fault fault, unused;
    size_t at, nowhere;
    if (work->note.at != SIZE_MAX)
        maker.note = arena_text(scratch, log->text + work->note.at, work->note.length);
    if (!check_count(&maker))
        return false;
    for (size_t i = 0; i < work->items.count; i++) {
        loads[i] = whole_load(&maker, &work->items.items[i], log->unit, &fault, &at);
        if (!loads[i])
            return text_say_fault(log, at, &fault);
        unit_assumed[i] = !log->unit_said &&
                          loads[i] != whole_load(&maker, &work->items.items[i], other, &unused, &nowhere);
    }
    const char *note = note_of(&maker);
    text_end_notes(log);
    log->last_first = log->reading->log->sets.count;
    for (size_t i = 0; i < work->items.count; i++)
        add_item_sets(&maker, &work->items.items[i], loads[i], unit_assumed[i], note);
    log->last_end = log->reading->log->sets.count;
    return true;
}
