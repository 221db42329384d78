#include "unit/made_log.h"

#include <check.h>
#include <math.h>
#include <string.h>

struct made *made_new(void)
{
    struct arena *arena = arena_new();
    struct made *made = ARENA_NEW(arena, struct made);
    *made = (struct made){arena, log_new(arena), gym_new(arena), {.from = NO_DAY, .to = NO_DAY, .today = NO_DAY}};
    return made;
}

void made_free(struct made *made)
{
    arena_free(made->arena);
}

day_number day_of(const char *iso)
{
    day_number day = NO_DAY;
    ck_assert_msg(date_read_iso(iso, &day), "%s is no day", iso);
    return day;
}

static struct load plain(enum straight_kind straight)
{
    return (struct load){.straight = straight};
}

static struct piece bare(enum piece_kind kind)
{
    return (struct piece){.kind = kind, .mass_kg = NAN, .bottom_kg = NAN, .top_kg = NAN, .leader_m = NAN};
}

static const struct load *hung_with(struct made *made, double kg, const struct piece *piece)
{
    struct load load = plain(STRAIGHT_MASS);
    load.kg = kg;
    load.pieces = piece;
    load.piece_count = 1;
    return load_intern(made->log->loads, &load);
}

const struct load *mass(struct made *made, double kg)
{
    struct load load = plain(STRAIGHT_MASS);
    load.kg = kg;
    return load_intern(made->log->loads, &load);
}

const struct load *percent(struct made *made, double of_max)
{
    struct load load = plain(STRAIGHT_PERCENT);
    load.percent = of_max;
    return load_intern(made->log->loads, &load);
}

const struct load *body_plus(struct made *made, double kg)
{
    struct load load = plain(STRAIGHT_BODYWEIGHT);
    load.kg = kg;
    return load_intern(made->log->loads, &load);
}

const struct load *no_load(struct made *made)
{
    struct load load = plain(STRAIGHT_NONE);
    return load_intern(made->log->loads, &load);
}

const struct load *banded(struct made *made, double kg, double bottom_kg, double top_kg)
{
    struct piece piece = bare(PIECE_BAND);
    piece.bottom_kg = bottom_kg;
    piece.top_kg = top_kg;
    piece.other_end_said = true;
    return hung_with(made, kg, &piece);
}

const struct load *chained(struct made *made, double kg, int per_side, double mass_kg)
{
    struct piece piece = bare(PIECE_CHAIN);
    piece.per_side = per_side;
    piece.mass_kg = mass_kg;
    return hung_with(made, kg, &piece);
}

const struct load *labelled(struct made *made, double kg, const char *band)
{
    struct piece piece = bare(PIECE_BAND);
    piece.per_side = 1;
    piece.label = band;
    return hung_with(made, kg, &piece);
}

struct set *add_sets(struct made *made, const char *lifter, const char *lift, const char *iso, const struct load *load,
                     int sets, int reps)
{
    struct set *set = NULL;
    for (int i = 0; i < sets; i++) {
        set = LIST_ADD(made->arena, &made->log->sets);
        *set = (struct set){
            .weight = load_weight(made->log->loads, load),
            .ar = load_ar(made->log->loads, load),
            .rpe = NAN,
            .rir = NAN,
            .velocity_ms = NAN,
            .bodyweight_kg = NAN,
            .day = day_of(iso),
            .line = (uint32_t)made->log->sets.count,
            .lifter = names_add(made->log->lifters, lifter, strlen(lifter)),
            .lift = names_add(made->log->lifts, lift, strlen(lift)),
            .reps = (uint16_t)reps,
        };
    }
    return set;
}

struct lifter *add_lifter(struct made *made, const char *name)
{
    struct gym *gym = made->gym;
    struct lifter *lifters = ARENA_ARRAY(made->arena, struct lifter, gym->lifter_count + 1);
    for (size_t i = 0; i < gym->lifter_count; i++)
        lifters[i] = gym->lifters[i];
    gym->lifters = lifters;
    lifters[gym->lifter_count] = (struct lifter){.name = name, .stature_m = NAN, .bodyweight_kg = NAN};
    return &lifters[gym->lifter_count++];
}

void add_max(struct made *made, struct lifter *lifter, const char *lift, const char *iso, double kg)
{
    struct tested_max *maxes = ARENA_ARRAY(made->arena, struct tested_max, lifter->max_count + 1);
    for (size_t i = 0; i < lifter->max_count; i++)
        maxes[i] = lifter->maxes[i];
    maxes[lifter->max_count++] = (struct tested_max){lift, kg, day_of(iso)};
    lifter->maxes = maxes;
}

void add_band(struct made *made, const char *label, size_t calibrations, const char *const *days, const double *per_m)
{
    struct band *band = ARENA_NEW(made->arena, struct band);
    ck_assert_uint_eq(made->gym->band_count, 0);
    *band = (struct band){.label = label, .pair = true, .hitch_m = NAN, .calibration_count = calibrations};
    band->calibrations = ARENA_ARRAY(made->arena, struct calibration, calibrations);
    for (size_t i = 0; i < calibrations; i++) {
        struct tension_point *points = ARENA_ARRAY(made->arena, struct tension_point, 3);
        for (int j = 0; j < 3; j++)
            points[j] = (struct tension_point){1.5 + 0.5 * j, per_m[i] * (0.5 + 0.5 * j)};
        band->calibrations[i] = (struct calibration){
            .measured = day_of(days[i]),
            .flat_m = 1,
            .points = points,
            .point_count = 3,
            .law = LAW_MEASURED,
            .c1_kg = NAN,
            .c2_kg = NAN,
            .range_low_m = 1,
            .range_high_m = 2.5,
        };
    }
    made->gym->bands = band;
    made->gym->band_count = 1;
}

void add_heights(struct made *made, struct lifter *lifter, const char *lift, double bottom_m, double top_m)
{
    lifter->heights = ARENA_NEW(made->arena, struct bar_heights);
    *lifter->heights = (struct bar_heights){lift, bottom_m, top_m};
    lifter->height_count = 1;
}

const struct training *train(struct made *made)
{
    return training_make(made->arena, made->log, made->gym, &made->options);
}
