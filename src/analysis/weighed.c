#include "analysis/weighed.h"

#include "base/number.h"
#include "base/text.h"
#include "model/loading.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define RECENT_BITS 10

struct weigh_key /* everything a load's weight may depend on, of one lifter */
{
    double tested_kg, bodyweight_kg; /* -1 instead of NAN */
    const struct load *weight;
    const struct hanging *hanging;
    uint32_t lift; /* NO_LIFT: the same for all */
};

#define NO_LIFT UINT32_MAX

struct known /* what a weight and its AR weigh */
{
    struct weighed weighed;
    struct weigh_key key;
};

struct weighing
{
    struct arena *arena, *of_lifter;
    const struct log *log;
    const struct gym *gym;
    struct hanging **plain_hanging; /* by ar_id: AR that hangs the same for everyone on every day */
    struct map *other_hanging;      /* of the current lifter */
    const struct lift **lifts;      /* by lift number: in the gym file; NULL: not in it */
    day_number *changes;            /* days on which a newer calibration takes effect, rising */
    size_t change_count;
    /* Of the current lifter, by a hash of the key; one that another took the place of is made again. A table of all
     * loads of the log does not fit into the processor's cache. */
    struct known *recent[1 << RECENT_BITS];
};

struct hanging /* AR as it hangs for a lifter, lift and day: independent of what else is on the bar */
{
    struct loading *loading; /* without straight weight */
    const struct ar_effect *effect;
    const char *ar_key;
};

static int by_day(const void *a, const void *b)
{
    const day_number *left = a, *right = b;
    return (*left > *right) - (*left < *right);
}

static void find_calibration_changes(struct weighing *weighing)
{
    const struct gym *gym = weighing->gym;
    size_t most = 0;
    for (size_t i = 0; i < gym->band_count; i++)
        most += gym->bands[i].calibration_count;
    weighing->changes = ARENA_ARRAY(weighing->arena, day_number, most);
    for (size_t i = 0; i < gym->band_count; i++)
        for (size_t j = 1; j < gym->bands[i].calibration_count; j++)
            weighing->changes[weighing->change_count++] = gym->bands[i].calibrations[j].measured;
    if (weighing->change_count)
        qsort(weighing->changes, weighing->change_count, sizeof *weighing->changes, by_day);
}

void weighing_next_lifter(struct weighing *weighing, struct arena *arena)
{
    weighing->of_lifter = arena;
    weighing->other_hanging = map_new(arena);
    memset(weighing->recent, 0, sizeof weighing->recent);
}

struct weighing *weighing_new(struct arena *arena, const struct log *log, const struct gym *gym)
{
    struct weighing *weighing = ARENA_NEW(arena, struct weighing);
    weighing->arena = arena;
    weighing->log = log;
    weighing->gym = gym;
    weighing->plain_hanging = ARENA_ARRAY(arena, struct hanging *, loads_ar_count(log->loads));
    weighing->lifts = ARENA_ARRAY(arena, const struct lift *, names_count(log->lifts));
    for (uint32_t i = 0; i < names_count(log->lifts); i++)
        weighing->lifts[i] = gym_lift(gym, names_text(log->lifts, i));
    find_calibration_changes(weighing);
    return weighing;
}

/* How many calibrations have taken effect by that day. */
static uint32_t changes_by(const struct weighing *weighing, day_number day)
{
    size_t low = 0, high = weighing->change_count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (weighing->changes[middle] <= day)
            low = middle + 1;
        else
            high = middle;
    }
    return (uint32_t)low;
}

static const char *folded(struct arena *arena, const char *text)
{
    return text ? text_fold(arena, text) : "";
}

#define KEY_NUMBERS 512 /* bytes for a dozen numbers and the words between them */

static char *put_whole(char *to, int number)
{
    to += number_print_whole(to, number);
    *to++ = ' ';
    return to;
}

static char *put_number(char *to, double number)
{
    to += isnan(number) ? 0 : number_print(to, number);
    *to++ = ' ';
    return to;
}

static char *put_text(char *to, const char *before, const char *text)
{
    return stpcpy(stpcpy(to, before), text);
}

/* Gear that is not defined in the gym file. */
static char *put_piece(char *to, const struct piece *piece, const char *label, const char *label_right)
{
    to = put_whole(put_whole(to, (int)piece->kind), piece->per_side);
    to = put_number(put_number(to, piece->mass_kg), piece->bottom_kg);
    to = put_number(put_number(to, piece->top_kg), piece->leader_m);
    return put_text(put_text(to, label, "/"), label_right, "");
}

/* A key for one piece as it hangs, equal for equal pieces. Gear of the gym is identified by name, so that an aged
 * band, or a chain written by count here and by mass there, is still the same piece. `lift_setup`: the lift's own.
 * Without printf, since measured: each lifter's heights build the keys of all AR again. */
static char *hung_key(struct arena *arena, const struct hung *hung, const char *lift_setup)
{
    const struct piece *piece = hung->piece;
    bool has_setup = !hung->gym_chain && (hung->gym_band || piece->kind == PIECE_BAND);
    const char *gear = folded(arena, hung->gym_chain  ? hung->gym_chain->label
                                     : hung->gym_band ? hung->gym_band->label
                                                      : piece->label);
    const char *right = hung->gym_chain || hung->gym_band ? "" : folded(arena, piece->label_right);
    const char *setup = has_setup ? folded(arena, piece->setup ? piece->setup : lift_setup) : "";
    char *key = arena_alloc(arena, KEY_NUMBERS + strlen(gear) + strlen(right) + strlen(setup));
    char *to = put_whole(put_whole(key, (int)hung->kind), hung->times);
    to = put_whole(put_whole(to, hung->reverse), (int)piece->rig);
    if (hung->gym_chain)
        to = put_text(put_number(to, hung->chain.leader_m), "chain ", gear);
    else if (hung->gym_band)
        to = put_text(to, "band ", gear);
    else
        to = put_piece(to, piece, gear, right);
    put_text(to, " @ ", setup);
    return key;
}

static int by_text(const void *a, const void *b)
{
    return strcmp(*(char *const *)a, *(char *const *)b);
}

static const char *ar_key(struct arena *arena, const struct loading *loading, const struct lift *lift)
{
    if (!loading->hung_count)
        return "";
    struct arena *scratch = arena_new();
    char **keys = ARENA_ARRAY(scratch, char *, loading->hung_count);
    for (size_t i = 0; i < loading->hung_count; i++)
        keys[i] = hung_key(scratch, &loading->hung[i], lift ? lift->setup : NULL);
    qsort(keys, loading->hung_count, sizeof *keys, by_text);
    size_t room = KEY_NUMBERS;
    for (size_t i = 0; i < loading->hung_count; i++)
        room += strlen(keys[i]) + 1;
    char *key = arena_alloc(arena, room), *end = key;
    if (loading->heights_known)
        end = put_number(put_number(end, loading->bottom_m), loading->top_m);
    for (size_t i = 0; i < loading->hung_count; i++) {
        *end++ = '\n';
        end = stpcpy(end, keys[i]);
    }
    arena_free(scratch);
    return key;
}

static struct hanging *hang(struct arena *arena, const struct load *ar, const struct loading_context *context,
                            const struct lift *lift)
{
    struct hanging *hanging = ARENA_NEW(arena, struct hanging);
    hanging->loading = loading_make(arena, ar, context);
    hanging->effect = ar_effect_make(arena, hanging->loading, context->gym);
    hanging->ar_key = ar_key(arena, hanging->loading, lift);
    if (!ar->piece_count) { /* shared by all: nothing depends on heights */
        hanging->loading->heights_known = false;
        hanging->loading->bottom_m = hanging->loading->top_m = NAN;
    }
    return hanging;
}

/* Unless a lifter or lift has heights and set-ups of its own, AR hangs the same for everyone. */
static const struct hanging *hanging_of(struct weighing *weighing, const struct set *set,
                                        const struct loading_context *context)
{
    const struct lift *lift = weighing->lifts[set->lift];
    uint32_t changes = set->ar->ar_id && weighing->change_count ? changes_by(weighing, set->day) : 0;
    if (!set->ar->ar_id || (!context->lifter && !lift && !changes)) {
        struct hanging **slot = &weighing->plain_hanging[set->ar->ar_id];
        if (!*slot)
            *slot = hang(weighing->arena, set->ar, context, lift);
        return *slot;
    }
    uint32_t key[3] = {set->ar->ar_id, set->lift, changes};
    struct hanging *known = map_get(weighing->other_hanging, (const char *)key, sizeof key);
    if (!known) {
        known = hang(weighing->of_lifter, set->ar, context, lift);
        map_put(weighing->other_hanging, (const char *)key, sizeof key, known);
    }
    return known;
}

static bool same_key(const struct weigh_key *a, const struct weigh_key *b)
{
    return a->weight == b->weight && a->hanging == b->hanging && a->lift == b->lift && a->tested_kg == b->tested_kg &&
           a->bodyweight_kg == b->bodyweight_kg;
}

/* Its place among the recent ones: the golden ratio spreads adjacent values (Knuth, TAOCP 3, 6.4). */
static struct known **slot_of(struct weighing *weighing, const struct set *set, uint32_t lift)
{
    uint64_t mix = (uint64_t)set->weight->straight_id << 32 ^ (uint64_t)set->ar->ar_id << 16 ^ lift;
    return &weighing->recent[(mix * UINT64_C(0x9E3779B97F4A7C15)) >> (64 - RECENT_BITS)];
}

const struct weighed *weigh(struct weighing *weighing, const struct set *set, const struct lifter *lifter,
                            double tested_kg)
{
    const struct load *weight = set->weight;
    const struct lift *lift = weighing->lifts[set->lift];
    bool of_body = weight->straight == STRAIGHT_BODYWEIGHT || (lift && (lift->bodyweight || lift->per_hand));
    struct loading_context context = {
        .gym = weighing->gym,
        .lifter = lifter,
        .lift = names_text(weighing->log->lifts, set->lift),
        .day = set->day,
        .one_rm_kg = tested_kg,
        .bodyweight_kg = !isnan(set->bodyweight_kg) ? set->bodyweight_kg
                         : lifter                   ? lifter->bodyweight_kg
                                                    : NAN,
    };
    const struct hanging *hanging = hanging_of(weighing, set, &context);
    const struct weigh_key key = {
        weight->straight == STRAIGHT_PERCENT && !isnan(tested_kg) ? tested_kg : -1,
        of_body && !isnan(context.bodyweight_kg) ? context.bodyweight_kg : -1,
        weight,
        hanging,
        of_body ? set->lift : NO_LIFT,
    };
    struct known **slot = slot_of(weighing, set, key.lift), *known = *slot;
    if (known && same_key(&known->key, &key))
        return &known->weighed;
    known = *slot = arena_room(weighing->of_lifter, sizeof *known);
    known->key = key;
    known->weighed.loading = loading_under(weight, &context, lift, hanging->loading);
    known->weighed.effect = loading_effect_with(&known->weighed.loading, hanging->effect);
    known->weighed.ar_key = hanging->ar_key;
    return &known->weighed;
}
