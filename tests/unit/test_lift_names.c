/* Spellings of lifts: which are one, which name gear, which are lifts of the body. */
#include "reading/lift_names.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>

static struct arena *arena;
static struct log *lift_log;
static struct gym *gym;
static struct lift_names *names;

static void begin(void)
{
    static const char *aliases[] = {"comp squat", "sq"};
    static struct lift lifts[] = {{.name = "Back Squat", .aliases = aliases, .alias_count = 2},
                                  {.name = "ring row", .bodyweight = true},
                                  {.name = "squat (barbell) pause"}};
    arena = arena_new();
    lift_log = log_new(arena);
    gym = gym_new(arena);
    gym->lifts = lifts;
    gym->lift_count = 3;
    names = lift_names_new(arena, lift_log, gym);
}

static void end(void)
{
    arena_free(arena);
}

static const struct
{
    const char *written, *name;
} spellings[] = {
    {"Back Squat", "Back Squat"}, /* the gym file's own word */
    {"back  squat", "Back Squat"},
    {"comp squat", "Back Squat"},
    {"comp-squat", "Back Squat"},
    {"squat", "Back Squat"}, /* a synonym of the gym's only squat of that kind */
    {"Squat (Barbell)", "Back Squat"},
    {"front squat", "front squat"},
    {"low-bar squat", "low-bar squat"},
    {"bench", "bench press"}, /* built in */
    {"Barbell Bench Press", "bench press"},
    {"Bench Press (Barbell)", "bench press"},
    {"Bench Press (Dumbbell)", "Bench Press (Dumbbell)"}, /* another bracket, another lift */
    {"close-grip bench press", "close-grip bench press"},
    {"conventional deadlift", "deadlift"},
    {"sumo deadlift", "sumo deadlift"},
    {"OHP", "overhead press"},
    {"military press", "overhead press"},
    {"RDL", "romanian deadlift"},
    {"pullups", "pull-up"},
    {"Pull Up", "pull-up"},
    {"chin-ups", "chin-up"},
    {"Zercher Squat", "Zercher Squat"}, /* the first spelling seen */
    {"zercher  squat", "Zercher Squat"},
    {"ZERCHER-SQUAT", "Zercher Squat"},
    {"(barbell)", "(barbell)"},
};

START_TEST(test_spellings)
{
    for (size_t i = 0; i < sizeof spellings / sizeof *spellings; i++) {
        uint32_t number = lift_number(names, spellings[i].written, strlen(spellings[i].written));
        ck_assert_str_eq(names_text(lift_log->lifts, number), spellings[i].name);
        ck_assert_str_eq(lift_log->lift_names.items[number].name, spellings[i].name);
        ck_assert_uint_eq(lift_number(names, spellings[i].written, strlen(spellings[i].written)), number);
    }
    ck_assert_uint_eq(names_count(lift_log->lifts), lift_log->lift_names.count);
}
END_TEST

/* A gym that tells two squats apart keeps them apart. */
START_TEST(test_two_squats)
{
    static struct lift lifts[] = {{.name = "back squat"}, {.name = "barbell squat"}};
    gym->lifts = lifts;
    gym->lift_count = 2;
    ck_assert_str_eq(lift_main_name(arena, gym, "squat"), "squat");
    ck_assert_str_eq(lift_main_name(arena, gym, "Barbell Squat"), "barbell squat");
}
END_TEST

START_TEST(test_builtin)
{
    size_t count;
    const char *const *mains = builtin_lifts(&count);
    ck_assert_uint_gt(count, 10);
    for (size_t i = 0; i < count; i++) {
        ck_assert_str_eq(builtin_lift(mains[i]), mains[i]);
        for (size_t k = 0; k < i; k++)
            ck_assert_str_ne(mains[i], mains[k]);
    }
    ck_assert_ptr_null(builtin_lift("anvil toss"));
    ck_assert_ptr_null(builtin_lift(""));
}
END_TEST

enum named
{
    NOTHING = 0,
    CHAIN = 1,
    BAND = 2,
    REVERSE = 4
};

static const struct
{
    const char *written;
    int named;
} gear[] = {
    {"banded squat", BAND},
    {"Squat (bands)", BAND},
    {"bench press (chains)", CHAIN},
    {"chain squat", CHAIN},
    {"deadlift with chains and bands", CHAIN | BAND},
    {"reverse band bench", REVERSE},
    {"Rev Band Deadlift", REVERSE},
    {"banded good morning", BAND},
    {"band pull-apart", NOTHING},
    {"banded walk", NOTHING},
    {"band curl", NOTHING},
    {"banded side step", NOTHING},
    {"band face pull", NOTHING},
    {"banded pull-up", NOTHING},
    {"band pushdown", NOTHING},
    {"chained squat", NOTHING}, /* notation: names no AR */
    {"broadband press", NOTHING},
    {"posterior chain row", NOTHING},
    {"squat without bands", NOTHING},
    {"squat", NOTHING},
    {"chain", NOTHING},
};

START_TEST(test_gear)
{
    for (size_t i = 0; i < sizeof gear / sizeof *gear; i++) {
        uint32_t number = lift_number(names, gear[i].written, strlen(gear[i].written));
        const struct lift_name *lift = &lift_log->lift_names.items[number];
        int named = (lift->names_chain ? CHAIN : 0) | (lift->names_band ? BAND : 0) |
                    (lift->names_reverse_band ? REVERSE : 0);
        ck_assert_msg(named == gear[i].named, "%s: %d", gear[i].written, named);
    }
}
END_TEST

static const struct
{
    const char *name;
    bool is_body;
} bodies[] = {
    {"pull-up", true},           {"weighted pull-ups", true}, {"Chin Up", true}, {"dip", true},
    {"push-up", true},           {"ring row", true},          {"squat", false},  {"bodyweight squat", true},
    {"assisted pull-up", false}, {"dip machine", false},      {"hippo", false},
};

START_TEST(test_body)
{
    for (size_t i = 0; i < sizeof bodies / sizeof *bodies; i++)
        ck_assert_msg(lift_is_bodyweight(bodies[i].name, gym) == bodies[i].is_body, "%s", bodies[i].name);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("lift names");
    TCase *cases = tcase_create("all");
    tcase_add_checked_fixture(cases, begin, end);
    tcase_add_test(cases, test_spellings);
    tcase_add_test(cases, test_two_squats);
    tcase_add_test(cases, test_builtin);
    tcase_add_test(cases, test_gear);
    tcase_add_test(cases, test_body);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
