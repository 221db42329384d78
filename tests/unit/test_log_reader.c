/* LOG arguments: files, folders, whose log it is, and the same history twice. */
#include "reading/log_lifters.h"
#include "reading/log_reader.h"
#include "reading/same_history.h"

#include <check.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static struct arena *arena;
static struct diags *diags;
static struct gym *gym;
static struct reading *reading;
static char folder[64];

static void begin(void)
{
    static const struct reading_options options = {.unit_said = true};
    strcpy(folder, "/tmp/tautline-test-XXXXXX");
    ck_assert_ptr_nonnull(mkdtemp(folder));
    arena = arena_new();
    diags = diags_new(arena);
    gym = gym_new(arena);
    reading = reading_new(arena, gym, diags, &options);
}

static void end(void)
{
    reading_free(reading);
    arena_free(arena);
    char command[128];
    snprintf(command, sizeof command, "rm -r '%s'", folder);
    ck_assert_int_eq(system(command), 0);
}

static const char *path_of(const char *name)
{
    return arena_printf(arena, "%s/%s", folder, name);
}

static void make_folder(const char *name)
{
    ck_assert_int_eq(mkdir(path_of(name), 0700), 0);
}

/* A file that was modified `age` seconds before a fixed time. */
static const char *make_file(const char *name, const char *text, int age)
{
    const char *path = path_of(name);
    FILE *file = fopen(path, "w");
    ck_assert_ptr_nonnull(file);
    fputs(text, file);
    fclose(file);
    struct timespec times[2] = {{.tv_sec = 1700000000 - age}, {.tv_sec = 1700000000 - age}};
    ck_assert_int_eq(utimensat(AT_FDCWD, path, times, 0), 0);
    return path;
}

static size_t count_said(enum diag_id id)
{
    size_t count = 0;
    for (const struct diag *diag = diags_first(diags); diag; diag = diag->next)
        count += diag->id == id;
    return count;
}

static size_t sets(void)
{
    return reading->log->sets.count;
}

#define TEXT_LOG "2026-01-12\nsquat 100: 2x5\nbench press 60: 1x5\n"
#define CSV_LOG "Date,Exercise,Weight,Reps\n2026-01-12,Squat,100,5\n2026-01-12,Squat,100,5\n"

START_TEST(test_kinds_of_file)
{
    ck_assert(read_log(reading, make_file("a.log", CSV_LOG, 0))); /* by content, not by name */
    ck_assert_uint_eq(sets(), 2);
    ck_assert(read_log(reading, make_file("b.csv", TEXT_LOG, 0)));
    ck_assert_uint_eq(sets(), 5);
    ck_assert(reading->log->files.items[0].is_csv && !reading->log->files.items[1].is_csv);
    ck_assert_uint_eq(diags_total(diags, SEVERITY_FAILURE), 0);
    ck_assert(read_log(reading, make_file("letter", "Dear all,\nsee you.\n", 0))); /* it was read, and is no log */
    ck_assert_uint_eq(count_said(DIAG_NOT_A_LOG), 1);
    ck_assert(!read_log(reading, path_of("nowhere")));
    ck_assert_uint_eq(count_said(DIAG_CANNOT_READ), 1);
    ck_assert_uint_eq(reading->log->files.count, 2);
}
END_TEST

START_TEST(test_empty_files)
{
    ck_assert(read_log(reading, make_file("empty", "", 0)));
    ck_assert(read_log(reading, make_file("comments", "# nothing yet\nlifter: Oda Brandvik\n", 0)));
    ck_assert(read_log(reading, make_file("header", "Date,Exercise,Weight,Reps\n", 0)));
    ck_assert_uint_eq(count_said(DIAG_EMPTY_LOG), 3);
    ck_assert_uint_eq(diags_total(diags, SEVERITY_ERROR) + diags_total(diags, SEVERITY_FAILURE), 0);
}
END_TEST

START_TEST(test_folder)
{
    make_folder("logs");
    make_folder("logs/B");
    make_folder("logs/.old");
    make_file("logs/a.txt", TEXT_LOG, 0);
    make_file("logs/B/z.txt", "2026-02-01\nsquat 90: 1x5\n", 0);
    make_file("logs/.hidden.txt", TEXT_LOG, 0);
    make_file("logs/.old/x.txt", TEXT_LOG, 0);
    make_file("logs/gym.ini", "[gym]\n", 0);
    make_file("logs/letter", "2026-02-01 a letter\nDear all.\n", 0);
    make_file("logs/readme", "nothing\n", 0);
    ck_assert_int_eq(symlink("..", path_of("logs/B/back")), 0);
    ck_assert_int_eq(symlink("../a.txt", path_of("logs/B/again")), 0);
    ck_assert(read_log(reading, path_of("logs/")));
    ck_assert_uint_eq(reading->log->files.count, 2);
    ck_assert_str_eq(reading->log->files.items[0].path, path_of("logs/B/again")); /* B before a, in byte order */
    ck_assert_str_eq(reading->log->files.items[1].path, path_of("logs/B/z.txt"));
    ck_assert_uint_eq(sets(), 4);
    ck_assert_uint_eq(count_said(DIAG_SKIPPED_FILE), 2); /* a.txt, read by its other name; two files that are no log */
    ck_assert_uint_eq(diags_total(diags, SEVERITY_ERROR) + diags_total(diags, SEVERITY_FAILURE), 0);
    ck_assert(read_log(reading, path_of("logs")));
    ck_assert_uint_eq(sets(), 4);
}
END_TEST

START_TEST(test_named_twice)
{
    const char *path = make_file("a.txt", TEXT_LOG, 0);
    ck_assert_int_eq(link(path, path_of("b.txt")), 0);
    ck_assert(read_log(reading, path) && read_log(reading, path) && read_log(reading, path_of("b.txt")));
    ck_assert_uint_eq(sets(), 3);
    ck_assert_uint_eq(count_said(DIAG_SKIPPED_FILE), 2);
}
END_TEST

/* --- whose log --- */

static const struct
{
    const char *folder, *pattern, *path;
    bool matches;
} patterns[] = {
    {"hall", "logs/oda-*.csv", "hall/logs/oda-2026.csv", true},
    {"hall", "logs/oda-*.csv", "./hall//logs/x/../oda-1.csv", true},
    {"hall", "logs/oda-*.csv", "hall/logs/oda-2026.txt", false},
    {"hall", "logs/oda-*.csv", "logs/oda-2026.csv", false},
    {"hall", "logs/*", "hall/logs/deep/a.csv", true}, /* a folder that the pattern names */
    {"hall", "*.csv", "hall/logs/a.csv", false},
    {"hall", "../*.csv", "a.csv", true},
    {"ha[l]l", "*.csv", "ha[l]l/a.csv", true},
    {"ha[l]l", "*.csv", "hall/a.csv", false},
    {".", "a.csv", "a.csv", true},
    {".", "a.csv", "-", false},
    {"/srv/hall", "a.csv", "/srv/hall/a.csv", true},
    {".", "/srv/a.csv", "/srv/a.csv", true},
};

START_TEST(test_patterns)
{
    for (size_t i = 0; i < sizeof patterns / sizeof *patterns; i++) {
        const char *pattern = patterns[i].pattern;
        struct lifter lifters[] = {{.name = "Oda", .logs = &pattern, .log_count = 1}, {.name = "Ulf"}};
        gym->folder = patterns[i].folder;
        gym->lifters = lifters;
        gym->lifter_count = 2;
        ck_assert_msg(
            !strcmp(lifter_of_log(&(struct reading){.gym = gym}, patterns[i].path), patterns[i].matches ? "Oda" : ""),
            "%s: %s", pattern, patterns[i].path);
        gym->lifter_count = 1; /* the only one */
        ck_assert_str_eq(lifter_of_log(&(struct reading){.gym = gym}, patterns[i].path), "Oda");
    }
}
END_TEST

START_TEST(test_lifter_numbers)
{
    static struct lifter lifters[] = {{.name = "Oda Brandvik"}};
    gym->lifters = lifters;
    gym->lifter_count = 1;
    uint32_t oda = lifter_number(reading, " ODA  brandvik ");
    ck_assert_str_eq(names_text(reading->log->lifters, oda), "Oda Brandvik");
    ck_assert_uint_eq(lifter_number(reading, "Oda Brandvik"), oda);
    ck_assert_uint_eq(count_said(DIAG_UNKNOWN_LIFTER), 0);
    uint32_t ulf = lifter_number(reading, "Ulf  Tamm");
    ck_assert_str_eq(names_text(reading->log->lifters, ulf), "Ulf Tamm");
    ck_assert_uint_eq(lifter_number(reading, "ulf tamm"), ulf);
    ck_assert_uint_eq(count_said(DIAG_UNKNOWN_LIFTER), 1);
}
END_TEST

/* --- the same history twice --- */

START_TEST(test_same_history)
{
    read_log(reading,
             make_file("old.txt", "2026-01-12\nsquat 100: 5,4\nsquat 102.06: 1x1\n2026-01-14\nsquat 90: 1x5\n", 100));
    read_log(reading,
             make_file("new.txt", "2026-01-12\nsquat 225 lb: 1x1\nsquat 100: 4,5\n2026-01-15\nsquat 90: 1x5\n", 0));
    reading_finish(reading);
    ck_assert_uint_eq(sets(), 5);
    ck_assert_uint_eq(reading->log->files.items[0].sets, 1);
    ck_assert_uint_eq(reading->log->files.items[1].sets, 4);
    for (size_t i = 0; i < sets(); i++)
        ck_assert_uint_eq(reading->log->sets.items[i].file, i > 0);
    ck_assert_uint_eq(count_said(DIAG_SAME_HISTORY), 1);
    ck_assert_uint_eq(count_said(DIAG_DIFFERING_HISTORY), 0);
    ck_assert_str_eq(diags_first(diags)->at.file, path_of("old.txt"));
}
END_TEST

/* The newer file counts even where it was named first; of files as old as each other, the one read later. */
START_TEST(test_newer_counts)
{
    read_log(reading, make_file("a.txt", "2026-01-12\nsquat 100: 2x5\n2026-02-12\nsquat 100: 2x5\n", 0));
    read_log(reading, make_file("b.txt", "2026-01-12\nsquat 100: 2x5\n", 100));
    read_log(reading, make_file("c.txt", "2026-02-12\nsquat 100: 2x5\n", 0));
    reading_finish(reading);
    ck_assert_uint_eq(sets(), 4);
    ck_assert_uint_eq(reading->log->files.items[0].sets, 2);
    ck_assert_uint_eq(reading->log->files.items[1].sets, 0);
    ck_assert_uint_eq(reading->log->files.items[2].sets, 2);
}
END_TEST

START_TEST(test_differing_history)
{
    read_log(reading,
             make_file("a.txt", "2026-01-12\nsquat 100: 2x5\nbench 50: 1x5\n2026-01-13\nsquat 100: 1x5\n", 100));
    read_log(
        reading,
        make_file("b.txt",
                  "2026-01-12\nsquat 100: 3x5\nbench 50 + 20 kg chain: 1x5\n2026-01-13\nlifter: Ulf\nsquat 100: 1x5\n",
                  0));
    reading_finish(reading);
    ck_assert_uint_eq(sets(), 9);
    ck_assert_uint_eq(count_said(DIAG_SAME_HISTORY), 0); /* another lifter's day is no double */
    ck_assert_uint_eq(count_said(DIAG_DIFFERING_HISTORY), 1);
}
END_TEST

/* The day that differs is named by its own line, though sets before it were dropped. */
START_TEST(test_differing_behind_same)
{
    read_log(reading, make_file("a.txt", "2026-01-12\nsquat 100: 2x5\n2026-01-13\nsquat 100: 1x5\n", 100));
    read_log(reading, make_file("b.txt", "2026-01-12\nsquat 100: 2x5\n2026-01-13\nsquat 105: 1x5\n", 0));
    reading_finish(reading);
    ck_assert_uint_eq(sets(), 4);
    const struct diag *diag = diags_first(diags);
    while (diag && diag->id != DIAG_DIFFERING_HISTORY)
        diag = diag->next;
    ck_assert(diag && diag->at.line == 4 && strstr(diag->message, "2026-01-13"));
}
END_TEST

START_TEST(test_rows_of_one_file)
{
    read_log(reading, make_file("a.txt", "2026-01-12\nsquat 100: 1x5\n2026-01-12\nsquat 100: 1x5\n", 0));
    read_log(reading, make_file("b.txt", "2026-01-12\nbench 60: 1x5\n", 0));
    reading_finish(reading);
    ck_assert_uint_eq(sets(), 3);
    ck_assert_ptr_null(diags_first(diags));
}
END_TEST

/* Places of loads in % follow their sets. */
START_TEST(test_percents_move)
{
    read_log(reading, make_file("a.txt", "2026-01-12\nsquat 60%: 1x5\n2026-01-13\nsquat 70%: 1x5\n", 100));
    read_log(reading, make_file("b.txt", "2026-01-12\nsquat 60%: 1x5\n", 0));
    reading_finish(reading);
    ck_assert_uint_eq(sets(), 2);
    ck_assert_uint_eq(reading->log->percents.count, 2);
    for (size_t i = 0; i < 2; i++)
        ck_assert_uint_eq(reading->log->percents.items[i].set, i);
    ck_assert_str_eq(reading->log->percents.items[0].excerpt, "squat 70%: 1x5");
    ck_assert_uint_eq(reading->log->percents.items[0].column, 7);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("log reader");
    TCase *cases = tcase_create("all");
    tcase_add_checked_fixture(cases, begin, end);
    tcase_add_test(cases, test_kinds_of_file);
    tcase_add_test(cases, test_empty_files);
    tcase_add_test(cases, test_folder);
    tcase_add_test(cases, test_named_twice);
    tcase_add_test(cases, test_patterns);
    tcase_add_test(cases, test_lifter_numbers);
    tcase_add_test(cases, test_same_history);
    tcase_add_test(cases, test_newer_counts);
    tcase_add_test(cases, test_differing_history);
    tcase_add_test(cases, test_differing_behind_same);
    tcase_add_test(cases, test_rows_of_one_file);
    tcase_add_test(cases, test_percents_move);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
