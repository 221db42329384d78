#include "reading/gym/gym_checks.h"

#include "base/names.h"
#include "base/text.h"
#include "model/band.h"
#include "model/band_fit.h"
#include "reading/gym/gym_file.h"
#include "reading/gym/gym_keys.h"
#include "reading/gym/gym_reader.h"
#include "reading/lift_names.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static struct named_line on_line(uint32_t line)
{
    return (struct named_line){.line = line, .column = 1};
}

/* --- plates ------------------------------------------------------------------------------------------------------ */

struct plate
{
    double kg;
    int pairs;
    const struct plate_draft *draft;
};

static int heaviest_first(const void *left, const void *right)
{
    const struct plate *a = left, *b = right;
    if (a->kg != b->kg)
        return a->kg > b->kg ? -1 : 1;
    return a->draft < b->draft ? -1 : 1;
}

/* Bare plates are in the gym's unit, which may be given further down. */
static void take_plates(struct gym_reader *reader)
{
    struct gym *gym = reader->gym;
    size_t count = reader->plates.count;
    if (!count)
        return;
    struct plate *plates = ARENA_ARRAY(reader->own, struct plate, count);
    for (size_t i = 0; i < count; i++) {
        const struct plate_draft *draft = &reader->plates.items[i];
        plates[i] = (struct plate){kg_from(draft->value, draft->unit_said ? draft->unit : gym->unit), draft->pairs,
                                   draft};
    }
    qsort(plates, count, sizeof *plates, heaviest_first);
    gym->plates_kg = ARENA_ARRAY(reader->arena, double, count);
    gym->plate_pairs = ARENA_ARRAY(reader->arena, int, count);
    gym->plate_count = 0;
    for (size_t i = 0; i < count; i++) {
        if (i && plates[i].kg == plates[i - 1].kg) {
            gym_say(reader, DIAG_GYM_DOUBLED, &plates[i].draft->at, "write 20x2 for two pairs of 20",
                    "this plate is listed twice: the first entry counts");
            continue;
        }
        gym->plates_kg[gym->plate_count] = plates[i].kg;
        gym->plate_pairs[gym->plate_count++] = plates[i].pairs;
    }
}

/* --- chains and bands -------------------------------------------------------------------------------------------- */

static void take_chains(struct gym_reader *reader)
{
    struct gym *gym = reader->gym;
    uint32_t default_line = 0;
    gym->chains = ARENA_ARRAY(reader->arena, struct chain, reader->chains.count);
    gym->chain_count = reader->chains.count;
    for (size_t i = 0; i < reader->chains.count; i++) {
        struct chain *chain = &gym->chains[i];
        *chain = reader->chains.items[i].chain;
        if (chain->is_default && default_line) {
            gym_say(reader, DIAG_GYM_DOUBLED, &reader->chains.items[i].default_at, NULL,
                    "line %u already names a default chain: that one counts", default_line);
            chain->is_default = false;
        } else if (chain->is_default) {
            default_line = reader->chains.items[i].default_at.line;
        }
    }
}

/* Groups the bands by label, with the oldest calibration first; labels are in the order of their first blocks. */
struct ordered_band
{
    struct band_draft *draft;
    size_t label; /* index of the label's first block */
};

static int by_label_and_day(const void *left, const void *right)
{
    const struct ordered_band *a = left, *b = right;
    if (a->label != b->label)
        return a->label < b->label ? -1 : 1;
    if (a->draft->calibration.measured != b->draft->calibration.measured)
        return a->draft->calibration.measured < b->draft->calibration.measured ? -1 : 1;
    return a->draft < b->draft ? -1 : 1;
}

static struct ordered_band *order_bands(struct gym_reader *reader)
{
    size_t count = reader->bands.count;
    struct ordered_band *ordered = ARENA_ARRAY(reader->own, struct ordered_band, count);
    struct map *first_of = map_new(reader->own);
    for (size_t i = 0; i < count; i++) {
        char *folded = text_fold(reader->own, reader->bands.items[i].label);
        uintptr_t first = (uintptr_t)map_get(first_of, folded, strlen(folded));
        if (!first)
            map_put(first_of, folded, strlen(folded), (void *)(first = i + 1));
        ordered[i] = (struct ordered_band){&reader->bands.items[i], first};
    }
    if (count)
        qsort(ordered, count, sizeof *ordered, by_label_and_day);
    return ordered;
}

/* Properties of the band itself are taken from its blocks in order of their dates, so the newest value counts. */
static void describe_band(struct gym_reader *reader, struct band *band, const struct band_draft *draft,
                          const struct band_draft *before)
{
    struct named_line at = on_line(draft->calibration.at.line);
    if (draft->pair_said) {
        bool differs = before && before->pair_said &&
                       (before->pair != draft->pair || !before->partner.text != !draft->partner.text ||
                        (draft->partner.text && !text_same_name(before->partner.text, draft->partner.text)));
        if (differs)
            gym_say(reader, DIAG_GYM_REMARK, &at, NULL,
                    "pair differs from line %u for the same band: the newest block counts",
                    before->calibration.at.line);
        band->pair = draft->pair;
        band->partner = draft->partner.text;
    }
    if (!isnan(draft->hitch_m))
        band->hitch_m = draft->hitch_m;
}

static void add_calibration(struct gym_reader *reader, struct band *band, struct band_draft *draft)
{
    if (draft->calibration.law != LAW_MEASURED && !draft->coefficients_said)
        calibration_fit(&draft->calibration);
    size_t size = sizeof *band->calibrations;
    band->calibrations = arena_grow(reader->arena, band->calibrations, band->calibration_count * size,
                                    (band->calibration_count + 1) * size);
    band->calibrations[band->calibration_count++] = draft->calibration;
}

static void take_bands(struct gym_reader *reader)
{
    struct gym *gym = reader->gym;
    struct ordered_band *ordered = order_bands(reader);
    const struct band_draft *before = NULL;
    gym->bands = ARENA_ARRAY(reader->arena, struct band, reader->bands.count);
    for (size_t i = 0; i < reader->bands.count; i++) {
        struct band_draft *draft = ordered[i].draft;
        if (!i || ordered[i].label != ordered[i - 1].label) {
            before = NULL;
            gym->bands[gym->band_count++] = (struct band){.label = draft->label, .hitch_m = NAN};
        }
        struct band *band = &gym->bands[gym->band_count - 1];
        if (before && before->calibration.measured == draft->calibration.measured) {
            struct named_line at = on_line(draft->calibration.at.line);
            gym_say(reader, DIAG_GYM_DOUBLED, &at,
                    "give a later measurement of the same band its own date: measured = YYYY-MM-DD",
                    "line %u already has band \"%s\" with the same date: this block is left out",
                    before->calibration.at.line, draft->label);
            continue;
        }
        describe_band(reader, band, draft, before);
        add_calibration(reader, band, draft);
        before = draft;
    }
}

static struct map *bands_by_label(struct gym_reader *reader)
{
    struct map *bands = map_new(reader->own);
    for (size_t i = 0; i < reader->gym->band_count; i++) {
        char *folded = text_fold(reader->own, reader->gym->bands[i].label);
        map_put(bands, folded, strlen(folded), &reader->gym->bands[i]);
    }
    return bands;
}

/* A partner without a block of its own is dropped. */
static void check_partners(struct gym_reader *reader)
{
    const struct gym *gym = reader->gym;
    struct map *bands = bands_by_label(reader);
    const char **labels = ARENA_ARRAY(reader->own, const char *, gym->band_count);
    for (size_t i = 0; i < gym->band_count; i++)
        labels[i] = gym->bands[i].label;
    for (size_t i = 0; i < reader->bands.count; i++) {
        const struct band_draft *draft = &reader->bands.items[i];
        const struct named_line *partner = &draft->partner;
        char *folded = text_fold(reader->own, partner->text ? partner->text : "");
        if (!partner->text || map_get(bands, folded, strlen(folded)))
            continue;
        gym_say(reader, DIAG_GYM_VALUE, partner,
                gym_nearest_hint(reader->own, "the bands are", partner->text, labels, gym->band_count),
                "pair: no band is called '%s': the band is treated as not paired", partner->text);
        folded = text_fold(reader->own, draft->label);
        struct band *band = map_get(bands, folded, strlen(folded));
        if (band && band->partner == partner->text)
            band->partner = NULL;
    }
}

/* --- lifts ------------------------------------------------------------------------------------------------------- */

/* The name is the label, or an alias of an earlier lift. */
static const char *lift_named(const struct map *names, struct arena *scratch, const char *name)
{
    char *folded = text_fold(scratch, name);
    return map_get(names, folded, strlen(folded));
}

static void add_aliases(struct gym_reader *reader, struct lift_draft *draft, struct map *names)
{
    struct lift *lift = &draft->lift;
    lift->aliases = ARENA_ARRAY(reader->arena, const char *, draft->aliases.count);
    for (size_t i = 0; i < draft->aliases.count; i++) {
        const struct named_line *alias = &draft->aliases.items[i];
        const char *owner = lift_named(names, reader->own, alias->text);
        if (owner && owner != lift->name) {
            gym_say(reader, DIAG_GYM_DOUBLED, alias, NULL,
                    "'%s' is already a name of the lift \"%s\": the alias is left out", alias->text, owner);
            continue;
        }
        char *folded = text_fold(reader->own, alias->text);
        map_put(names, folded, strlen(folded), (void *)lift->name);
        lift->aliases[lift->alias_count++] = alias->text;
    }
}

static void check_setup(struct gym_reader *reader, struct lift_draft *draft)
{
    const struct gym *gym = reader->gym;
    if (!draft->setup.text)
        return;
    if (gym_setup(gym, draft->setup.text)) {
        draft->lift.setup = draft->setup.text;
        return;
    }
    const char **names = ARENA_ARRAY(reader->own, const char *, gym->setup_count);
    for (size_t i = 0; i < gym->setup_count; i++)
        names[i] = gym->setups[i].name;
    gym_say(reader, DIAG_GYM_VALUE, &draft->setup,
            gym_nearest_hint(reader->own, "the set-ups are", draft->setup.text, names, gym->setup_count),
            "setup: there is no usable [setup] called '%s': it is left out", draft->setup.text);
}

static void take_lifts(struct gym_reader *reader)
{
    struct gym *gym = reader->gym;
    struct map *names = map_new(reader->own);
    gym->lifts = ARENA_ARRAY(reader->arena, struct lift, reader->lifts.count);
    for (size_t i = 0; i < reader->lifts.count; i++) {
        char *folded = text_fold(reader->own, reader->lifts.items[i].lift.name);
        map_put(names, folded, strlen(folded), (void *)reader->lifts.items[i].lift.name);
    }
    for (size_t i = 0; i < reader->lifts.count; i++) {
        add_aliases(reader, &reader->lifts.items[i], names);
        check_setup(reader, &reader->lifts.items[i]);
        gym->lifts[gym->lift_count++] = reader->lifts.items[i].lift;
    }
    gym->lift_keys = lift_keys(reader->arena, gym);
    gym_index_lifts(reader->arena, gym);
}

/* --- lifters ----------------------------------------------------------------------------------------------------- */

/* A name that is one slip away from a known one is reported: it would not match anything. */
static void remark_unknown_lift(struct gym_reader *reader, const struct named_line *written, const char *name)
{
    const struct gym *gym = reader->gym;
    if (gym_lift(gym, name) || builtin_lift(name))
        return;
    size_t count, lifts = gym->lift_count;
    const char *const *builtin = builtin_lifts(&count);
    const char **known = ARENA_ARRAY(reader->own, const char *, count + lifts);
    for (size_t i = 0; i < lifts; i++)
        known[i] = gym->lifts[i].name;
    memcpy(known + lifts, builtin, count * sizeof *known);
    const char *nearest = text_nearest(text_fold(reader->own, name), known, count + lifts);
    if (nearest)
        gym_say(reader, DIAG_GYM_REMARK, written, arena_printf(reader->own, "did you mean '%s'?", nearest),
                "no lift is known as '%s': it counts as a lift of its own", written->text);
}

/* The name that the lift has in logs. The lifters of a team name the same few lifts, so each spelling is looked up
 * once. */
static const char *resolve_lift(struct gym_reader *reader, const struct named_line *written)
{
    size_t length = strlen(written->text);
    const char *name = map_get(reader->lift_spellings, written->text, length);
    if (name)
        return name;
    struct arena *scratch = arena_new();
    name = arena_copy(reader->arena, lift_main_name(scratch, reader->gym, written->text));
    arena_free(scratch);
    map_put(reader->lift_spellings, written->text, length, (void *)name);
    remark_unknown_lift(reader, written, name);
    return name;
}

static void take_maxes(struct gym_reader *reader, const struct lifter_draft *draft, struct lifter *lifter)
{
    lifter->maxes = ARENA_ARRAY(reader->arena, struct tested_max, draft->maxes.count);
    for (size_t i = 0; i < draft->maxes.count; i++) {
        struct tested_max *max = &lifter->maxes[lifter->max_count++];
        *max = draft->maxes.items[i].max;
        max->lift = resolve_lift(reader, &draft->maxes.items[i].lift);
    }
}

static void take_heights(struct gym_reader *reader, const struct lifter_draft *draft, struct lifter *lifter)
{
    lifter->heights = ARENA_ARRAY(reader->arena, struct bar_heights, draft->heights.count);
    for (size_t i = 0; i < draft->heights.count; i++) {
        const struct named_line *written = &draft->heights.items[i].lift;
        const char *lift = resolve_lift(reader, written);
        if (lifter_heights(lifter, lift)) {
            gym_say(reader, DIAG_GYM_DOUBLED, written, NULL, "heights of %s were given above: those count", lift);
            continue;
        }
        lifter->heights[lifter->height_count] = draft->heights.items[i].heights;
        lifter->heights[lifter->height_count++].lift = lift;
    }
}

static void take_ar_lines(struct gym_reader *reader, const struct lifter_draft *draft, struct lifter *lifter)
{
    lifter->ar_lines = ARENA_ARRAY(reader->arena, struct ar_line, draft->ar_lines.count);
    for (size_t i = 0; i < draft->ar_lines.count; i++) {
        struct ar_line *line = &lifter->ar_lines[lifter->ar_line_count++];
        *line = draft->ar_lines.items[i].line;
        line->lift = resolve_lift(reader, &draft->ar_lines.items[i].lift);
    }
}

static void take_lifters(struct gym_reader *reader)
{
    struct gym *gym = reader->gym;
    reader->lift_spellings = map_new(reader->own);
    gym->lifters = ARENA_ARRAY(reader->arena, struct lifter, reader->lifters.count);
    for (size_t i = 0; i < reader->lifters.count; i++) {
        const struct lifter_draft *draft = &reader->lifters.items[i];
        struct lifter *lifter = &gym->lifters[gym->lifter_count++];
        *lifter = draft->lifter;
        lifter->logs = draft->logs.items;
        lifter->log_count = draft->logs.count;
        take_maxes(reader, draft, lifter);
        take_heights(reader, draft, lifter);
        take_ar_lines(reader, draft, lifter);
    }
}

void gym_checks(struct gym_reader *reader)
{
    struct gym *gym = reader->gym;
    take_plates(reader);
    take_chains(reader);
    take_bands(reader);
    check_partners(reader);
    gym->setups = reader->setups.items;
    gym->setup_count = reader->setups.count;
    take_lifts(reader);
    take_lifters(reader);
    gym->limits = reader->limits.items;
    gym->limit_count = reader->limits.count;
    gym->columns = reader->columns.items;
    gym->column_count = reader->columns.count;
    gym->confirmed = reader->confirmed.items;
    gym->confirmed_count = reader->confirmed.count;
}
