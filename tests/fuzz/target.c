#include "fuzz/target.h"

#include "analysis/findings/findings.h"
#include "analysis/load_velocity.h"
#include "analysis/records.h"
#include "analysis/statistics/slopes.h"
#include "analysis/trend.h"
#include "analysis/verdict.h"
#include "analysis/waves.h"
#include "reading/gym/gym_file.h"

#include <math.h>
#include <string.h>

static const char gym_text[] =
    "[gym]\nunit = kg\nbar = 20 kg\nplates = 25 20 15 10 5 2.5 1.25\n"
    "[chain \"long\"]\ndefault = yes\nmass = 7 kg\nlength = 1.8 m\nleader = 0.4 m, 0.3 kg\n"
    "[chain \"short\"]\nsize = 10 mm\nstandard = DIN 766\nlength = 1.2 m\n"
    "[band \"b13\"]\nflat = 1.04 m\ntension = 1.5 m : 9 kg\n"
    "[band \"b29\"]\nflat = 1.04 m\npair = yes\ntension = 1.2 m : 12.5 kg\ntension = 1.6 m : 27 kg\ntension = 2 m : "
    "38.5 kg\n"
    "measured = 2025-01-03\n"
    "[band \"b29\"]\nflat = 1.05 m\ntension = 1.2 m : 11 kg\ntension = 1.6 m : 24 kg\ntension = 2 m : 34 kg\nmeasured "
    "= 2026-01-03\n"
    "[band \"b30\"]\nflat = 1 m\nlaw = mooney-rivlin\ntension = 1.2 m : 12 kg\ntension = 1.6 m : 26 kg\ntension = 1.9 "
    "m : 35 kg\n"
    "[band \"b45\"]\nflat = 1.04 m\nlaw = neo-hookean\ntension = 1.4 m : 40 kg\n"
    "[setup \"pegs\"]\nheight = 0.05 m\nspread = 0.1 m\n"
    "[setup \"rack-top\"]\nheight = 2.3 m\n"
    "[lifter \"Ada\"]\nstature = 1.7 m\nbodyweight = 70 kg\nexperience = new\nmax = squat 130 kg 2025-12-20\n"
    "max = bench press 90 kg 2025-12-20\nheights = squat 0.7 m 1.4 m\nheights = bench press 1 m 1.35 m\n"
    "[lifter \"Bo\"]\nstature = 1.8 m\n"
    "[lift \"squat\"]\nalias = back squat\nsetup = pegs\n"
    "[lift \"pull-up\"]\nbodyweight = yes\n";

const struct gym *target_gym(void)
{
    static const struct gym *gym;
    if (!gym) {
        struct arena *arena = arena_new(); /* for the program's life */
        struct diags *diags = diags_new(arena);
        gym = gym_read_memory(arena, "gym.ini", gym_text, sizeof gym_text - 1, diags);
        MUST(gym && !diags_total(diags, SEVERITY_ERROR));
    }
    return gym;
}

#define INPUTS_A_READING 100 /* what is kept for a log's life piles up */

struct reading *target_reading(const struct gym *gym)
{
    static struct arena *arena, *of_input;
    static struct reading *reading;
    static unsigned inputs;
    const struct reading_options options = {.dates = DATES_UNSAID};
    if (inputs++ % INPUTS_A_READING == 0 || reading->gym != gym) {
        if (reading)
            reading_free(reading);
        arena_free(arena);
        arena = arena_new();
        reading = reading_new(arena, gym, diags_new(arena), &options);
    }
    arena_free(of_input);
    of_input = arena_new();
    reading->diags = diags_new(of_input);
    reading->log->files.count = reading->log->sets.count = reading->log->asides.count = reading->log->percents.count =
        0;
    return reading;
}

static void put_nowhere(void *context, const char *text)
{
    (void)context;
    /* What is printed stays visible: nothing that moves a terminal's cursor. */
    for (; *text; text++)
        MUST((unsigned char)*text >= ' ' || *text == '\n' || *text == '\t');
}

void target_print(struct diags *diags)
{
    diags_print(diags, put_nowhere, NULL, false);
}

static bool good_load(double load)
{
    return isnan(load) || (load >= 0 && load < 1e6);
}

static void check_sets(const struct training *training)
{
    for (size_t i = 0; i < training->count; i++) {
        const struct effect *effect = training->sets[i].effect;
        MUST(good_load(effect->straight_kg) && good_load(effect->bottom_kg) && good_load(effect->top_kg));
        MUST(good_load(effect->mean_kg) && good_load(effect->lowering_top_kg));
    }
}

void target_analyse(struct reading *reading)
{
    struct arena *arena = arena_new();
    struct training_options options = {.from = NO_DAY, .to = NO_DAY, .today = NO_DAY};
    const struct training *training = training_make(arena, reading->log, reading->gym, &options);
    struct findings_options asked = {ALL_FINDINGS, FINDING_NOTE, UNIT_LB};
    size_t count;
    check_sets(training);
    trend_make(arena, training, &count);
    records_make(arena, training, &count);
    velocity_profiles(arena, training, &count);
    speed_losses(arena, training, &count);
    const struct waves *waves = waves_make(arena, training);
    wave_slopes(arena, waves, NO_DAY, &count);
    verdicts_make(arena, training, waves, NO_DAY, &count);
    findings_make(arena, training, &asked);
    arena_free(arena);
}
