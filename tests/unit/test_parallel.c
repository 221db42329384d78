/* Each piece of work is done once, and what is put is put in order, however the threads fall. */
#include "base/parallel.h"

#include <check.h>
#include <sched.h>
#include <stdatomic.h>
#include <stdbool.h>
#include <stdlib.h>

#define MOST 500

struct tried
{
    atomic_int done[MOST];
    atomic_int holders[16];  /* of a worker's number */
    atomic_size_t put_count; /* and the next to put */
    size_t ahead;
    atomic_bool too_early, out_of_order, together, putting;
};

static void work(void *context, unsigned worker, size_t index)
{
    struct tried *tried = context;
    if (atomic_fetch_add(&tried->holders[worker], 1))
        tried->together = true;
    if (tried->ahead && index >= tried->put_count + tried->ahead)
        tried->too_early = true;
    for (size_t i = 0; i < index % 7; i++)
        sched_yield();
    tried->done[index]++;
    tried->holders[worker]--;
}

static void put(void *context, size_t index)
{
    struct tried *tried = context;
    if (atomic_exchange(&tried->putting, true))
        tried->together = true;
    if (index != tried->put_count || !tried->done[index])
        tried->out_of_order = true;
    for (size_t i = 0; i < index % 5; i++)
        sched_yield();
    tried->putting = false;
    tried->put_count++;
}

static const struct
{
    unsigned workers;
    size_t count, ahead;
} crews[] = {{0, 0, 1},    {0, 3, 1},     {1, 0, 1},    {1, 3, 1},    {4, 0, 4},     {4, 2, 8},
             {2, MOST, 8}, {8, MOST, 32}, {8, MOST, 1}, {3, MOST, 2}, {16, MOST, 16}};

static void check(const struct tried *tried, size_t count)
{
    for (size_t i = 0; i < MOST; i++)
        ck_assert_int_eq(tried->done[i], i < count);
    ck_assert(!tried->too_early && !tried->out_of_order && !tried->together);
}

START_TEST(each_once)
{
    struct tried tried = {0};
    in_parallel(crews[_i].workers, crews[_i].count, work, &tried);
    check(&tried, crews[_i].count);
}
END_TEST

START_TEST(put_in_order)
{
    struct tried tried = {.ahead = crews[_i].ahead};
    in_parallel_in_order(crews[_i].workers, crews[_i].count, crews[_i].ahead, work, put, &tried);
    check(&tried, crews[_i].count);
    ck_assert_uint_eq(tried.put_count, crews[_i].count);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("parallel");
    TCase *cases = tcase_create("parallel");
    tcase_add_loop_test(cases, each_once, 0, sizeof crews / sizeof *crews);
    tcase_add_loop_test(cases, put_in_order, 0, sizeof crews / sizeof *crews);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
