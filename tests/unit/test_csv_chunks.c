/* A big export is read in stretches where it can be, and the sets are those of one reader. That all else comes out the
 * same, too, is tests/jobs.sh's. */
#include "reading/csv/csv_log.h"
#include "reading/log_queue.h"

#include "model/set_store.h"
#include "reading/csv/csv_chunks.h"

#include <check.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

#define ROWS 900

static struct arena *arena;
static struct gym *gym;
static char path[64];
static FILE *file;

static void begin(void)
{
    strcpy(path, "/tmp/tautline-test-XXXXXX");
    int made = mkstemp(path);
    ck_assert_int_ge(made, 0);
    file = fdopen(made, "w");
    arena = arena_new();
    gym = gym_new(arena);
}

static void end(void)
{
    unlink(path);
    arena_free(arena);
}

static void write_rows(int first, int count)
{
    static const char *const lifters[] = {"Oda", "Ilmar", "Vesna"}, *const lifts[] = {"Squat", "Bench Press"};
    for (int i = first; i < first + count; i++)
        fprintf(file, "2026-%02d-%02d,%s,%s,%d,%d,%s\n", i / 28 % 12 + 1, i % 28 + 1, lifters[i % 3], lifts[i % 2],
                60 + i % 40, i % 7 + 1, i % 5 ? "" : "2 chains/side");
}

static struct reading *reading_of(unsigned jobs, bool small)
{
    struct reading_options options = {.unit_said = true, .jobs = jobs, .jobs_said = true};
    struct reading *reading = reading_new(arena, gym, diags_new(arena), &options);
    reading->log->set_store = small ? set_store_new(arena) : NULL;
    return reading;
}

/* Does reading in stretches succeed? */
static bool reads_chunks(void)
{
    struct reading *reading = reading_of(3, false);
    struct input *input = input_open(arena, path, reading->diags);
    *LIST_ADD(arena, &reading->log->files) = (struct log_file){.path = path};
    struct csv_log *log = csv_log_new(reading, input, 0, ',');
    uint32_t header_end = csv_worth_chunks(log) ? csv_read_header_alone(log, 1) : 0;
    bool read = header_end && csv_read_chunks(log, header_end);
    arena_free(log->own);
    input_close(input);
    reading_free(reading);
    return read;
}

static void compare(const struct log *one, const struct log *many)
{
    ck_assert_uint_eq(one->sets.count, many->sets.count);
    for (size_t i = 0; i < one->sets.count; i++) {
        const struct set *a = &one->sets.items[i], *b = &many->sets.items[i];
        ck_assert_uint_eq(a->line, b->line);
        ck_assert_int_eq(a->day, b->day);
        ck_assert_uint_eq(a->reps, b->reps);
        ck_assert_uint_eq(a->file, b->file);
        ck_assert_str_eq(names_text(one->lifters, a->lifter), names_text(many->lifters, b->lifter));
        ck_assert_str_eq(names_text(one->lifts, a->lift), names_text(many->lifts, b->lift));
        ck_assert(a->weight->kg == b->weight->kg);
        ck_assert_str_eq(a->ar->ar, b->ar->ar);
    }
}

static void reads_alike(bool small)
{
    struct reading *one = reading_of(1, small), *many = reading_of(4, small);
    ck_assert(read_log(one, path));
    ck_assert(read_log(many, path));
    log_expand(one->log);
    log_expand(many->log);
    ck_assert_uint_eq(one->log->files.items[0].sets, many->log->files.items[0].sets);
    ck_assert_uint_eq(one->log->files.items[0].lines, many->log->files.items[0].lines);
    compare(one->log, many->log);
    reading_free(one);
    reading_free(many);
}

START_TEST(test_plain)
{
    fputs("Date,Athlete,Exercise,Weight,Reps,Notes\n", file);
    write_rows(0, ROWS);
    fclose(file);
    ck_assert(reads_chunks());
    reads_alike(false);
    reads_alike(true);
}
END_TEST

static const struct
{
    const char *row; /* in the middle of the others */
    bool in_chunks;
} middles[] = {
    {"2026-13-45,Oda,Squat,100,5,\n", true}, /* a refused row tells nothing about others */
    {"2026-01-05,Oda,Squat,60%,5,\n", true},
    {"2026-01-05,Oda,Squat,100,5,\"two\nlines\"\n", true},
    {"\n\n \n", true},
    {"04/03/2026,Oda,Squat,100,5,\n", false},        /* a date that only the whole file settles */
    {"2026-01-05,Oda,Squat,100,5,caf\xE9\n", false}, /* an encoding that holds from here on */
    {"2026-01-05,Oda,Squat,100,5,\"open\n", false},
};

START_TEST(test_middles)
{
    fputs("Date,Athlete,Exercise,Weight,Reps,Notes\n", file);
    write_rows(0, ROWS / 2);
    fputs(middles[_i].row, file);
    write_rows(ROWS / 2, ROWS / 2);
    fclose(file);
    ck_assert_int_eq(reads_chunks(), middles[_i].in_chunks);
    reads_alike(false);
    reads_alike(true);
}
END_TEST

START_TEST(test_bodyweights)
{
    fputs("Date,Athlete,Exercise,Weight,Reps,Bodyweight\n", file);
    write_rows(0, ROWS);
    fclose(file);
    ck_assert(!reads_chunks()); /* a row may tell the bodyweight of its lifter's earlier ones */
    reads_alike(true);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("csv stretches");
    TCase *tests = tcase_create("csv stretches");
    tcase_add_checked_fixture(tests, begin, end);
    tcase_add_test(tests, test_plain);
    tcase_add_loop_test(tests, test_middles, 0, sizeof middles / sizeof *middles);
    tcase_add_test(tests, test_bodyweights);
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
