/* What goes into the set store comes out of it, but for what it says it leaves out. */
#include "model/set_store.h"

#include <check.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#define SETS 5000
#define LIFTERS 3
#define FAR_LIFT 5000 /* its number does not fit into a short place */

static struct arena *arena;
static struct log *log_;
static struct set made[SETS];
static unsigned seed;

static unsigned next(unsigned below)
{
    seed = seed * 1103515245u + 12345u;
    return (seed >> 16) % below;
}

static const struct load *some_load(void)
{
    struct piece piece = {
        .kind = PIECE_CHAIN, .mass_kg = 5 + next(40), .bottom_kg = NAN, .top_kg = NAN, .leader_m = NAN};
    struct load load = {.straight = next(20) ? STRAIGHT_MASS : STRAIGHT_BODYWEIGHT, .kg = 20 + next(300)};
    load.pieces = next(3) ? NULL : &piece;
    load.piece_count = load.pieces != NULL;
    return load_intern(log_->loads, &load);
}

static struct set some_set(size_t i)
{
    static const double efforts[] = {NAN, 6, 6.5, 7, 8, 9.25, 10};
    if (i % 2000 && !next(3)) { /* sets across, within a file */
        struct set like = made[i - 1];
        like.line++;
        return like;
    }
    const struct load *load = some_load();
    return (struct set){
        .weight = load_weight(log_->loads, load),
        .ar = load_ar(log_->loads, load),
        .rpe = efforts[next(7)],
        .rir = next(10) ? NAN : (double)next(5),
        .velocity_ms = NAN,
        .bodyweight_kg = next(50) ? NAN : 80 + (double)next(10),
        /* now and then anywhere in the years that a log may name, 1900 to 2199: before 1970 a day is negative */
        .day = next(200) ? 20000 + (day_number)(i / 100) - (day_number)(next(100) ? 0 : 500)
                         : -25567 + (day_number)next(10957) * 10,
        .file = (uint32_t)(i / 2000),
        .line = (uint32_t)(i % 2000 + 2),
        .lifter = next(LIFTERS),
        .lift = next(50) ? next(3) : FAR_LIFT + next(3),
        .assumed = next(2) ? ASSUMED_UNIT : 0,
        .reps = (uint16_t)next(1000),
        .kind = (uint8_t)(next(10) ? SET_WORK : SET_WARM_UP),
        .focus = (uint8_t)next(3),
        .to_failure = !next(20),
        .drop = !next(20),
    };
}

static void set_up(void)
{
    arena = arena_new();
    log_ = log_new(arena);
    log_->set_store = set_store_new(arena);
    seed = 1;
    names_add(log_->lifters, "Ada", 3);
    names_add(log_->lifters, "Bo", 2);
    names_add(log_->lifters, "Cy", 2);
    for (size_t i = 0; i < SETS; i++)
        made[i] = some_set(i);
}

static void tear_down(void)
{
    arena_free(arena);
}

static void add(size_t from, size_t to)
{
    for (size_t i = from; i < to; i++) {
        *LIST_ADD(arena, &log_->sets) = made[i];
        if (i % 64 == 0)
            log_compact_sets(log_, 0);
    }
    log_compact_sets(log_, 0);
}

static bool same_number(double a, double b)
{
    return a == b || (isnan(a) && isnan(b));
}

static void check_same(const struct set *got, const struct set *wanted)
{
    ck_assert_ptr_eq(got->weight, wanted->weight);
    ck_assert_ptr_eq(got->ar, wanted->ar);
    ck_assert(same_number(got->rpe, wanted->rpe) && same_number(got->rir, wanted->rir));
    ck_assert(same_number(got->bodyweight_kg, wanted->bodyweight_kg) && isnan(got->velocity_ms) && !got->note);
    ck_assert_int_eq(got->day, wanted->day);
    ck_assert(got->file == wanted->file && got->lifter == wanted->lifter && got->lift == wanted->lift);
    ck_assert(got->assumed == wanted->assumed && got->reps == wanted->reps && got->kind == wanted->kind);
    ck_assert(got->focus == wanted->focus && got->to_failure == wanted->to_failure && got->drop == wanted->drop);
    ck_assert_uint_le(got->line, wanted->line);
    if (wanted->weight->straight == STRAIGHT_BODYWEIGHT)
        ck_assert_uint_eq(got->line, wanted->line);
}

/* The line of the first set in the file that has the set's AR. */
static uint32_t first_line_of_ar(size_t set)
{
    for (size_t i = 0; i < set; i++)
        if (made[i].file == made[set].file && made[i].ar == made[set].ar)
            return made[i].line;
    return made[set].line;
}

/* Each lifter's sets in the order added, those of `dropped` left out (a file beyond all: none). */
static void check_all(size_t count, uint32_t dropped)
{
    for (uint32_t lifter = 0; lifter < LIFTERS; lifter++) {
        size_t at = 0;
        log_->sets.count = 0;
        set_store_read(log_->set_store, log_, lifter);
        for (size_t i = 0; i < count; i++) {
            if (made[i].lifter != lifter || made[i].file == dropped)
                continue;
            ck_assert_uint_lt(at, log_->sets.count);
            check_same(&log_->sets.items[at], &made[i]);
            if (made[i].ar->piece_count)
                ck_assert_uint_ge(log_->sets.items[at].line, first_line_of_ar(i)); /* so the first's is exact */
            at++;
        }
        ck_assert_uint_eq(at, log_->sets.count);
    }
}

START_TEST(test_comes_back)
{
    add(0, SETS);
    ck_assert_uint_eq(log_->sets.count, 0);
    check_all(SETS, UINT32_MAX);
}
END_TEST

/* The second half of a file, read by another, in its own numbers and lines. */
START_TEST(test_joined)
{
    enum
    {
        HALF = 1000
    };
    struct set_store *part = set_store_new(arena);
    struct set_store_numbers numbers = {0};
    add(0, HALF);
    for (uint32_t i = 0; i < loads_weight_count(log_->loads); i++)
        *LIST_ADD(arena, &numbers.weights) = loads_weights(log_->loads)[i];
    for (uint32_t i = 0; i < loads_ar_count(log_->loads); i++)
        *LIST_ADD(arena, &numbers.ars) = loads_ars(log_->loads)[i];
    for (uint32_t i = 0; i < LIFTERS; i++)
        *LIST_ADD(arena, &numbers.lifters) = LIFTERS - 1 - i;
    for (uint32_t i = 0; i < FAR_LIFT + 3; i++)
        *LIST_ADD(arena, &numbers.lifts) = i;
    for (size_t i = HALF; i < 2 * HALF; i++) {
        struct set set = made[i];
        set.file = 7;
        set.line -= HALF;
        set.lifter = LIFTERS - 1 - set.lifter;
        set_store_add(part, &set);
    }
    set_store_join(log_->set_store, part, &numbers, 0, set_store_file_spans(part), 0, HALF);
    add(2 * HALF, SETS); /* further files go into the same books */
    check_all(SETS, UINT32_MAX);
}
END_TEST

START_TEST(test_dropped_file)
{
    size_t spans;
    add(0, 4000);
    set_store_drop_file(log_->set_store, 1);
    add(4000, SETS);
    check_all(SETS, 1);
    const struct set_store_span *span = set_store_spans(log_->set_store, 0, &spans);
    ck_assert_uint_eq(spans, 2);
    ck_assert(span[0].file == 0 && span[1].file == 2);
    ck_assert(span[0].first < 20000 && span[0].last >= 20018);
}
END_TEST

/* A set that is pointed at by its place stays where it is, and so does all that comes after it. */
START_TEST(test_expanded)
{
    add(0, 1000);
    *LIST_ADD(arena, &log_->percents) = (struct percent_use){.set = 3};
    add(1000, 1010);
    ck_assert_uint_eq(log_->sets.count, 10);
    log_expand(log_);
    ck_assert_ptr_null(log_->set_store);
    ck_assert_uint_eq(log_->sets.count, 1010);
    ck_assert_uint_eq(log_->percents.items[0].set, 1003);
    for (size_t i = 1000; i < 1010; i++)
        ck_assert(!memcmp(&log_->sets.items[i], &made[i], sizeof *made));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("ledger");
    TCase *tests = tcase_create("ledger");
    tcase_add_checked_fixture(tests, set_up, tear_down);
    tcase_add_test(tests, test_comes_back);
    tcase_add_test(tests, test_joined);
    tcase_add_test(tests, test_dropped_file);
    tcase_add_test(tests, test_expanded);
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
