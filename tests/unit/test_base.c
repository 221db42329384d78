/* Arenas, names, text and diagnostics: what everything stands on. */
#include "base/arena.h"
#include "base/diag.h"
#include "base/names.h"
#include "base/text.h"

#include <check.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

static struct arena *arena;

static void begin(void)
{
    arena = arena_new();
}

static void end(void)
{
    arena_free(arena);
}

START_TEST(memory_is_zeroed_aligned_and_apart)
{
    unsigned char *before = NULL;
    for (size_t size = 0; size < 100000; size = size * 3 + 1) {
        unsigned char *piece = arena_alloc(arena, size);
        ck_assert_uint_eq((uintptr_t)piece % _Alignof(max_align_t), 0);
        for (size_t i = 0; i < size; i++)
            ck_assert_uint_eq(piece[i], 0);
        memset(piece, 0xA5, size);
        ck_assert_ptr_ne(piece, before);
        before = piece;
    }
}
END_TEST

START_TEST(a_list_grows_and_keeps_what_it_holds)
{
    LIST(size_t) list = {0};
    for (size_t i = 0; i < 100000; i++) {
        *LIST_ADD(arena, &list) = i;
        if (i % 1000 == 0)
            arena_alloc(arena, 40); /* others allocate in between */
    }
    for (size_t i = 0; i < list.count; i++)
        ck_assert_uint_eq(list.items[i], i);
}
END_TEST

START_TEST(a_reset_arena_serves_again_zeroed)
{
    for (int round = 0; round < 100; round++) {
        char *text = arena_alloc(arena, 100);
        for (int i = 0; i < 100; i++)
            ck_assert_int_eq(text[i], 0);
        memset(text, 'x', 100);
        arena_alloc(arena, 200000);
        arena_reset(arena);
    }
}
END_TEST

START_TEST(names_are_numbered_in_order_of_sight)
{
    struct names *names = names_new(arena);
    ck_assert_uint_eq(names_add(names, "squat", 5), 0);
    ck_assert_uint_eq(names_add(names, "bench", 5), 1);
    ck_assert_uint_eq(names_add(names, "squat", 5), 0);
    ck_assert_uint_eq(names_add(names, "", 0), 2);
    ck_assert_uint_eq(names_add(names, "a\0b", 3), 3);
    ck_assert_uint_eq(names_count(names), 4);
    ck_assert_str_eq(names_text(names, 1), "bench");
    uint32_t number;
    ck_assert(names_find(names, "bench press", 5, &number) && number == 1);
    ck_assert(!names_find(names, "deadlift", 8, &number));
}
END_TEST

static const struct
{
    const char *text, *folded;
} folds[] = {
    {"  Back   Squat ", "back squat"},
    {"B\xC3\x84NK\xC2\xA0"
     "1",
     "b\xC3\xA4nk 1"}, /* no-break space, capital umlaut */
    {"Stra\xC3\x9F"
     "e",
     "strasse"},
    {"a\xCC\x8A", "\xC3\xA5"}, /* a + ring composes */
    {"\t\n", ""},
    {"\xFF\xFE", "\xFF\xFE"}, /* no UTF-8: as it is */
};

START_TEST(names_fold_to_compare)
{
    ck_assert_str_eq(text_fold(arena, folds[_i].text), folds[_i].folded);
    ck_assert(text_same_name(folds[_i].text, folds[_i].folded));
}
END_TEST

static const struct
{
    const char *a, *b;
    bool same;
} names_compared[] = {
    {"back squat", "Back Squat", true},
    {"back squat", "back  squat", true},
    {"back squat", " back squat ", true},
    {"back squat", "back\tsquat", true},
    {"back squat", "back\xC2\xA0squat", true}, /* no-break space */
    {"back squat", "backsquat", false},
    {"back squat", "back squats", false},
    {"back squat", "back", false},
    {"back ", "back", true},
    {"back ", "backs", false},
    {"", " ", true},
    {"", "a", false},
    {"ab", " ab", true},
    {"a b", "a \xC3\xA9", false},
    {"a e\xCC\x81", "A \xC3\x89", true}, /* e + acute composes */
    {"a e", "a e\xCC\x81", false},
    {"a b", "a\xC2\xAD b", true}, /* a soft hyphen is ignored */
};

START_TEST(names_compare_as_they_fold)
{
    ck_assert(text_same_name(names_compared[_i].a, names_compared[_i].b) == names_compared[_i].same);
    ck_assert(text_same_name(names_compared[_i].b, names_compared[_i].a) == names_compared[_i].same);
    ck_assert(!strcmp(text_fold(arena, names_compared[_i].a), text_fold(arena, names_compared[_i].b)) ==
              names_compared[_i].same);
}
END_TEST

static const struct
{
    const char *text, *visible;
    size_t width;
} shown[] = {
    {"plain", "plain", 5},
    {"a\x1B[31mb", "a\\x1B[31mb", 10},
    {"line\nbreak", "line\\x0Abreak", 13},
    {"\xE2\x80\xAE"
     "abc",
     "\\u{202E}abc", 11}, /* right-to-left override */
    {"\xC2\x9B"
     "1m",
     "\\u{009B}1m", 10},                                         /* C1 control */
    {"\xE6\xBC\xA2\xE5\xAD\x97", "\xE6\xBC\xA2\xE5\xAD\x97", 4}, /* wide characters */
    {"e\xCC\x81", "e\xCC\x81", 1},                               /* combining accent */
};

START_TEST(control_characters_are_shown_and_width_is_counted)
{
    ck_assert_str_eq(text_visible(arena, shown[_i].text), shown[_i].visible);
    ck_assert_uint_eq(text_width(shown[_i].visible), shown[_i].width);
    for (size_t width = 1; width < 12; width++)
        ck_assert_uint_le(text_width(text_cut(arena, shown[_i].text, width)), width);
}
END_TEST

START_TEST(the_nearest_word_is_near)
{
    static const char *const words[] = {"check", "loads", "trend", "waves"};
    ck_assert_str_eq(text_nearest("laods", words, 4), "loads");
    ck_assert_str_eq(text_nearest("wave", words, 4), "waves");
    ck_assert_ptr_null(text_nearest("spreadsheet", words, 4));
    ck_assert_ptr_null(text_nearest("xx", words, 4));
}
END_TEST

static void collect(void *context, const char *text)
{
    char **all = context;
    *all = arena_printf(arena, "%s%s", *all, text);
}

START_TEST(diagnostics_are_sorted_marked_and_limited)
{
    struct diags *diags = diags_new(arena);
    char *printed = arena_copy(arena, "");
    diag_add(diags, DIAG_BAD_LOAD, (struct place){.file = "b.csv", .line = 7, .column = 3, .length = 5}, "1,heavy,2",
             NULL, "'%s' is no load", "heavy");
    diag_add(diags, DIAG_EMPTY_LOG, (struct place){.file = "b.csv"}, NULL, NULL, "no sets");
    for (unsigned i = 0; i < DIAGS_SHOWN + 5; i++)
        diag_add(diags, DIAG_BAD_REPS, (struct place){.file = "a.csv", .line = 100 - i, .column = 1, .length = 1}, NULL,
                 "a\nb", "bad");
    ck_assert_uint_eq(diags_total(diags, SEVERITY_ERROR), DIAGS_SHOWN + 6);
    ck_assert_uint_eq(diags_total(diags, SEVERITY_NOTE), 1);
    ck_assert_uint_eq(diags_hidden(diags, DIAG_BAD_REPS, "a.csv"), 5);
    diags_print(diags, collect, &printed, false);
    ck_assert_ptr_nonnull(
        strstr(printed, "b.csv: note: no sets\nb.csv:7:3: error: 'heavy' is no load\n  1,heavy,2\n    ^~~~~\n"));
    ck_assert_ptr_nonnull(strstr(printed, "  hint: a\n        b\n"));
    ck_assert_ptr_nonnull(strstr(printed, "5 more of this kind (bad-reps)"));
    ck_assert_int_eq(strstr(printed, "a.csv:81:1") < strstr(printed, "a.csv:82:1"), 1);
}
END_TEST

START_TEST(what_is_left_out_is_not_counted)
{
    struct diags *diags = diags_new(arena);
    diags_leave_out(diags, DIAG_UNREAD_CLAUSE);
    diag_add(diags, DIAG_UNREAD_CLAUSE, (struct place){.file = "a"}, NULL, NULL, "x");
    ck_assert_ptr_null(diags_first(diags));
    ck_assert_uint_eq(diags_total(diags, SEVERITY_NOTE), 0);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("base");
    TCase *tests = tcase_create("base");
    tcase_add_checked_fixture(tests, begin, end);
    tcase_add_test(tests, memory_is_zeroed_aligned_and_apart);
    tcase_add_test(tests, a_list_grows_and_keeps_what_it_holds);
    tcase_add_test(tests, a_reset_arena_serves_again_zeroed);
    tcase_add_test(tests, names_are_numbered_in_order_of_sight);
    tcase_add_loop_test(tests, names_compare_as_they_fold, 0, sizeof names_compared / sizeof *names_compared);
    tcase_add_loop_test(tests, names_fold_to_compare, 0, sizeof folds / sizeof *folds);
    tcase_add_loop_test(tests, control_characters_are_shown_and_width_is_counted, 0, sizeof shown / sizeof *shown);
    tcase_add_test(tests, the_nearest_word_is_near);
    tcase_add_test(tests, diagnostics_are_sorted_marked_and_limited);
    tcase_add_test(tests, what_is_left_out_is_not_counted);
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_ENV);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
