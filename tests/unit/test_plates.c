#include "analysis/plan/plates.h"

#include <check.h>
#include <math.h>
#include <stdint.h>
#include <stdlib.h>

static struct arena *arena;

static void setup(void)
{
    arena = arena_new();
}

static void teardown(void)
{
    arena_free(arena);
}

#define MOST_PLATES 8
#define LB KG_PER_LB

static const struct
{
    const char *what;
    double bar_kg, plates_kg[MOST_PLATES];
    int pairs[MOST_PLATES]; /* 0: as many as wanted; -1: none at hand */
    double target_kg, kg;
    const char *side;
    enum mass_unit unit;
} cases[] = {
    {"exact", 20, {25, 20, 15, 10, 5, 2.5, 1.25}, {0}, 95, 95, "25 + 10 + 2.5", UNIT_KG},
    {"nearest below", 20, {25, 20, 15, 10, 5, 2.5, 1.25}, {0}, 96, 95, "25 + 10 + 2.5", UNIT_KG},
    {"nearest above", 20, {25, 20, 15, 10, 5, 2.5, 1.25}, {0}, 96.5, 97.5, "25 + 10 + 2.5 + 1.25", UNIT_KG},
    {"half way: the lighter", 20, {20, 10}, {0}, 50, 40, "10", UNIT_KG},
    {"below the bar", 20, {20, 10}, {0}, 12, 20, "bar only", UNIT_KG},
    {"no plate fits", 20, {20}, {0}, 35, 20, "bar only", UNIT_KG},
    {"nothing on the rack", 20, {0}, {0}, 35, 20, "bar only", UNIT_KG},
    {"heaviest first would miss it", 20, {25, 20}, {0}, 100, 100, "20 + 20", UNIT_KG},
    {"fewest plates", 20, {15, 10, 5}, {0}, 60, 60, "15 + 5", UNIT_KG},
    {"of as few the heavier", 0, {25, 20, 15, 10}, {0}, 70, 70, "25 + 10", UNIT_KG},
    {"one pair of each", 20, {20, 10, 5}, {1, 1, 1}, 100, 90, "20 + 10 + 5", UNIT_KG},
    {"a counted plate runs out", 20, {20, 10}, {1, 3}, 100, 100, "20 + 10 + 10", UNIT_KG},
    {"none at hand", 20, {20, 10}, {-1, 0}, 60, 60, "10 + 10", UNIT_KG},
    {"counted plates that must be left", 20, {20, 15}, {1, 2}, 80, 80, "15 + 15", UNIT_KG},
    {"many alike are counted", 20, {25, 10}, {0}, 290, 290, "5 x 25 + 10", UNIT_KG},
    {"pounds", 45 * LB, {45 * LB, 25 * LB, 10 * LB, 2.5 * LB}, {0}, 160 * LB, 160 * LB, "45 + 10 + 2.5", UNIT_LB},
    {"both units", 20, {20, 5 * LB}, {0}, 64.5, 60 + 10 * LB, "20 + 5 lb", UNIT_KG},
    {"both units, lb gym", 20, {20, 5 * LB}, {0}, 64.5, 60 + 10 * LB, "20 kg + 5", UNIT_LB},
    {"odd plates", 20, {1.024, 0.333}, {0}, 20 + 2 * 1.357, 20 + 2 * 1.357, "1.024 + 0.333", UNIT_KG},
};

static struct rack rack_of_case(int i)
{
    struct rack rack = {.bar_kg = cases[i].bar_kg, .plates_kg = cases[i].plates_kg, .unit = cases[i].unit};
    int *pairs = ARENA_ARRAY(arena, int, MOST_PLATES);
    while (rack.count < MOST_PLATES && cases[i].plates_kg[rack.count] > 0) {
        int at_hand = cases[i].pairs[rack.count];
        pairs[rack.count++] = at_hand == 0 ? -1 : at_hand < 0 ? 0 : at_hand;
    }
    rack.pairs = pairs;
    return rack;
}

START_TEST(nearest_load)
{
    struct rack rack = rack_of_case(_i);
    struct plate_choice choice;
    ck_assert(plates_nearest(arena, &rack, cases[_i].target_kg, &choice));
    ck_assert_msg(fabs(choice.kg - cases[_i].kg) < 1e-9, "%s: %g kg", cases[_i].what, choice.kg);
    ck_assert_double_eq_tol(choice.error_kg, cases[_i].kg - cases[_i].target_kg, 1e-9);
    ck_assert_str_eq(plates_print(arena, &rack, &choice), cases[_i].side);
}
END_TEST

/* Every choice of up to `most` of each plate, tried. */
struct trial
{
    const struct rack *rack;
    double target_kg, best_kg;
    size_t fewest;
};

static void try_all(struct trial *trial, size_t plate, double kg, size_t plates)
{
    if (plate == trial->rack->count) {
        double nearer = fabs(trial->best_kg - trial->target_kg) - fabs(kg - trial->target_kg);
        bool same = fabs(kg - trial->best_kg) < 1e-7;
        if (nearer > 1e-7 || (same && plates < trial->fewest) ||
            (!same && fabs(nearer) <= 1e-7 && kg < trial->best_kg)) {
            trial->best_kg = kg;
            trial->fewest = plates;
        }
        return;
    }
    for (int i = 0; i <= trial->rack->pairs[plate]; i++)
        try_all(trial, plate + 1, kg + 2 * i * trial->rack->plates_kg[plate], plates + (size_t)i);
}

static uint64_t state = 20260112;

static unsigned draw(unsigned range) /* the same sequence everywhere: Knuth's MMIX constants */
{
    state = state * 6364136223846793005u + 1442695040888963407u;
    return (unsigned)(state >> 33) % range;
}

/* The search against trying everything, on invented racks of both units. */
START_TEST(same_as_trying_all)
{
    for (int round = 0; round < 400; round++) {
        double plates_kg[5];
        int pairs[5];
        struct rack rack = {20, plates_kg, pairs, 1 + draw(5), UNIT_KG, false};
        double heaviest = 30;
        for (size_t i = 0; i < rack.count; i++) {
            double value = 0.25 * (1 + draw(100));
            plates_kg[i] = draw(3) ? value : value * LB;
            pairs[i] = (int)draw(5);
            heaviest = plates_kg[i] > heaviest ? plates_kg[i] : heaviest;
        }
        plates_kg[0] = heaviest; /* heaviest first is all that is asked of the order */
        struct trial trial = {&rack, 0.25 * draw(800), 20, 0};
        try_all(&trial, 0, rack.bar_kg, 0);
        struct plate_choice choice;
        ck_assert(plates_nearest(arena, &rack, trial.target_kg, &choice));
        ck_assert_msg(fabs(choice.kg - trial.best_kg) < 1e-7 && choice.plates == trial.fewest,
                      "round %d: %g kg of %zu plates, not %g kg of %zu", round, choice.kg, choice.plates, trial.best_kg,
                      trial.fewest);
    }
}
END_TEST

START_TEST(no_search_without_end)
{
    const double dust[] = {1.001, 1, 0.001};
    struct rack rack = {.bar_kg = 20, .plates_kg = dust, .count = 3};
    struct plate_choice choice;
    ck_assert(!plates_nearest(arena, &rack, NAN, &choice));
    ck_assert(!plates_nearest(arena, &rack, INFINITY, &choice));
    ck_assert(!plates_nearest(arena, &rack, -1e300, &choice));
    ck_assert(plates_nearest(arena, &rack, 300.25, &choice));
    ck_assert_double_eq_tol(choice.error_kg, 0, 1e-9);
}
END_TEST

START_TEST(a_gym_without_plates)
{
    struct gym *gym = gym_new(arena);
    struct rack rack = rack_of_gym(gym);
    struct plate_choice choice;
    ck_assert(rack.assumed);
    ck_assert_double_eq(rack_step_kg(&rack), 2.5);
    ck_assert(plates_nearest(arena, &rack, 101, &choice));
    ck_assert_double_eq(choice.kg, 100);
    gym->unit = UNIT_LB;
    rack = rack_of_gym(gym);
    ck_assert_double_eq_tol(rack_step_kg(&rack), 5 * LB, 1e-12);
    double plates_kg[] = {10, 5};
    int pairs[] = {-1, 1};
    gym->plates_kg = plates_kg;
    gym->plate_pairs = pairs;
    gym->plate_count = 2;
    rack = rack_of_gym(gym);
    ck_assert(!rack.assumed);
    ck_assert_double_eq(rack_step_kg(&rack), 10);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("plates");
    TCase *group = tcase_create("plates");
    tcase_add_checked_fixture(group, setup, teardown);
    tcase_add_loop_test(group, nearest_load, 0, (int)(sizeof cases / sizeof *cases));
    tcase_add_test(group, same_as_trying_all);
    tcase_add_test(group, no_search_without_end);
    tcase_add_test(group, a_gym_without_plates);
    suite_add_tcase(suite, group);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
