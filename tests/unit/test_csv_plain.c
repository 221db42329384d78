/* What csv_plain_split takes it splits as libcsv does; what it must not take it leaves. */
#include "reading/csv/csv_plain.h"

#include <check.h>
#include <csv.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Records as text: "cell|cell" and a line break. */
struct shown
{
    char text[4096];
    size_t used;
    bool cells;
};

static void show_cell(void *cell, size_t length, void *context)
{
    struct shown *shown = context;
    if (shown->cells)
        shown->text[shown->used++] = '|';
    memcpy(shown->text + shown->used, cell, length);
    shown->used += length;
    shown->cells = true;
}

static void end_record(int by, void *context)
{
    struct shown *shown = context;
    (void)by;
    shown->text[shown->used++] = '\n';
    shown->cells = false;
}

static void by_libcsv(struct shown *shown, const char *text, size_t length, char delimiter)
{
    struct csv_parser parser;
    csv_init(&parser, CSV_APPEND_NULL | CSV_REPALL_NL);
    csv_set_delim(&parser, (unsigned char)delimiter);
    *shown = (struct shown){.used = 0};
    csv_parse(&parser, text, length, show_cell, end_record, shown);
    csv_free(&parser);
}

static void by_plain(struct shown *shown, const struct csv_plain *plain)
{
    *shown = (struct shown){.used = 0};
    for (size_t i = 0; i < plain->count; i++) {
        char cell[4096];
        memcpy(cell, plain->cells[i], plain->lengths[i]);
        ck_assert_int_eq(plain->cells[i][plain->lengths[i]], 0);
        show_cell(cell, plain->lengths[i], shown);
    }
    end_record('\n', shown);
}

static const struct
{
    const char *text;
    char delimiter;
    size_t used; /* 0: left to libcsv */
    size_t cells;
} records[] = {
    {"a,b\nthe rest of it, and more", ',', 4, 2},
    {"2026-01-05,Back Squat,100,5,\"felt \"\"fast\"\", really\"\nthe rest of it, and more", ',', 52, 5},
    {",,\nthe rest of it, and more", ',', 3, 3},
    {"\"\"\nthe rest of it, and more", ',', 3, 1},
    {"\"a\nb\",c\nthe rest of it, and more", ',', 8, 2},
    {"a;b\nthe rest of it, and more", ';', 4, 2},
    {"a,b", ',', 0, 0},                            /* no line end: more may come */
    {"\nthe rest of it, and more", ',', 0, 0},     /* a blank line */
    {" a,b\nthe rest of it, and more", ',', 0, 0}, /* blanks to strip */
    {"a ,b\nthe rest of it, and more", ',', 0, 0},
    {"\"a\" ,b\nthe rest of it, and more", ',', 0, 0},
    {"\"a\"b,c\nthe rest of it, and more", ',', 0, 0},
    {"2\" box,b\nthe rest of it, and more", ',', 0,
     0}, /* a quote that is text: it may seem to open here and close there */
    {"a,\"b\"\"c\"d\"\nthe rest of it, and more", ',', 0, 0},
    {"a,b\r\nthe rest of it, and more", ',', 0, 0},
    {"\"a,b\nthe rest of it, and more", ',', 0, 0}, /* a quote that stays open */
};

START_TEST(test_records)
{
    struct csv_plain plain = {.delimiter = records[_i].delimiter};
    ck_assert_uint_eq(csv_plain_split(&plain, records[_i].text, strlen(records[_i].text)), records[_i].used);
    if (records[_i].used)
        ck_assert_uint_eq(plain.count, records[_i].cells);
}
END_TEST

/* Texts made of what matters to a splitter, and little else. */
START_TEST(test_as_libcsv)
{
    static const char letters[] = ",,;\t\"\"\"\n\n ab\xC3\xA9"
                                  "0123456789abcdef";
    static const char delimiters[] = ",;";
    unsigned seed = 1;
    size_t taken = 0;
    for (int round = 0; round < 200000; round++) {
        char text[64];
        for (size_t i = 0; i < sizeof text; i++) {
            seed = seed * 1103515245u + 12345u;
            text[i] = letters[(seed >> 16) % (sizeof letters - 1)];
        }
        struct csv_plain plain = {.delimiter = delimiters[round % 2]};
        size_t used = csv_plain_split(&plain, text, sizeof text);
        if (!used)
            continue;
        struct shown ours, theirs;
        uint32_t ends = 0;
        for (size_t i = 0; i < used; i++)
            ends += text[i] == '\n';
        by_plain(&ours, &plain);
        by_libcsv(&theirs, text, used, plain.delimiter);
        ck_assert_uint_eq(ours.used, theirs.used);
        ck_assert(!memcmp(ours.text, theirs.text, ours.used));
        ck_assert_uint_eq(plain.inner_ends + 1, ends);
        taken++;
    }
    ck_assert_uint_gt(taken, 20000);
}
END_TEST

START_TEST(test_too_long)
{
    static char text[2 * CSV_PLAIN_BYTES];
    struct csv_plain plain = {.delimiter = ','};
    memset(text, 'a', sizeof text);
    text[CSV_PLAIN_BYTES] = '\n';
    ck_assert_uint_eq(csv_plain_split(&plain, text, sizeof text), 0);
    memset(text, ',', sizeof text);
    text[CSV_PLAIN_CELLS] = '\n';
    ck_assert_uint_eq(csv_plain_split(&plain, text, sizeof text), 0);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("csv plain");
    TCase *tests = tcase_create("csv plain");
    tcase_add_loop_test(tests, test_records, 0, sizeof records / sizeof *records);
    tcase_add_test(tests, test_as_libcsv);
    tcase_add_test(tests, test_too_long);
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
