/* Digests: published values of XXH3, what must differ, what must not, and files that are none. */
#include "base/digest.h"

#include <check.h>
#include <errno.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static char folder[] = "/tmp/tautline-digest-XXXXXX";

static const char *path_of(const char *name)
{
    static char path[128];
    snprintf(path, sizeof path, "%s/%s", folder, name);
    return path;
}

static void write_file(const char *name, const char *bytes, size_t length)
{
    FILE *file = fopen(path_of(name), "wb");
    ck_assert_ptr_nonnull(file);
    ck_assert_uint_eq(fwrite(bytes, 1, length, file), length);
    ck_assert_int_eq(fclose(file), 0);
}

/* XXH3 128 bits, seed 0, of nothing: the value that xxhsum -H128 gives for an empty file. */
START_TEST(an_empty_file_has_the_published_digest)
{
    char text[DIGEST_TEXT];
    write_file("empty", "", 0);
    ck_assert(digest_file(path_of("empty"), text));
    ck_assert_str_eq(text, "99aa06d3014798d86001c324468d497f");
}
END_TEST

static void digest_of(char text[DIGEST_TEXT], const char *first, const char *second)
{
    struct digester *digester = digester_new();
    digest_text(digester, first);
    digest_text(digester, second);
    digester_end(digester, text);
}

START_TEST(texts_keep_their_borders)
{
    static const char *const pairs[][2] = {{"ab", "c"},   {"a", "bc"},   {"abc", ""}, {"", "abc"},
                                           {"abc", NULL}, {NULL, "abc"}, {"", ""},    {NULL, NULL}};
    const size_t count = sizeof pairs / sizeof *pairs;
    for (size_t i = 0; i < count; i++)
        for (size_t j = 0; j < count; j++) {
            char one[DIGEST_TEXT], other[DIGEST_TEXT];
            digest_of(one, pairs[i][0], pairs[i][1]);
            digest_of(other, pairs[j][0], pairs[j][1]);
            ck_assert_msg((strcmp(one, other) == 0) == (i == j), "pairs %zu and %zu", i, j);
        }
}
END_TEST

START_TEST(numbers_differ_by_their_last_bit_and_not_by_the_kind_of_nan)
{
    static const struct
    {
        double one, other;
        bool same;
    } cases[] = {{1, 1, true},   {1, 1 + 2.3e-16, false}, {0.1, 0.1, true},
                 {0, -1, false}, {NAN, -NAN, true},       {NAN, 0, false}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char one[DIGEST_TEXT], other[DIGEST_TEXT];
        struct digester *digester = digester_new();
        digest_number(digester, cases[i].one);
        digester_end(digester, one);
        digester = digester_new();
        digest_number(digester, cases[i].other);
        digester_end(digester, other);
        ck_assert_msg((strcmp(one, other) == 0) == cases[i].same, "case %zu", i);
    }
}
END_TEST

START_TEST(a_file_is_its_bytes)
{
    static char bytes[200000]; /* more than a block */
    char one[DIGEST_TEXT], other[DIGEST_TEXT];
    write_file("one", bytes, sizeof bytes);
    write_file("two", bytes, sizeof bytes);
    ck_assert(digest_file(path_of("one"), one));
    ck_assert(digest_file(path_of("two"), other));
    ck_assert_str_eq(one, other);
    bytes[150000] = 1;
    write_file("two", bytes, sizeof bytes);
    bytes[150000] = 0;
    ck_assert(digest_file(path_of("two"), other));
    ck_assert_str_ne(one, other);
}
END_TEST

START_TEST(what_is_no_file_is_refused_at_once)
{
    char text[DIGEST_TEXT];
    ck_assert_int_eq(mkfifo(path_of("pipe"), 0600), 0);
    ck_assert(!digest_file(path_of("pipe"), text));
    ck_assert_int_eq(errno, EINVAL);
    ck_assert(!digest_file(folder, text));
    ck_assert_int_eq(errno, EINVAL);
    ck_assert(!digest_file(path_of("missing"), text));
    ck_assert_int_eq(errno, ENOENT);
}
END_TEST

static void make_folder(void)
{
    ck_assert_ptr_nonnull(mkdtemp(folder));
}

static void remove_folder(void)
{
    static const char *const names[] = {"empty", "one", "two", "pipe"};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++)
        unlink(path_of(names[i]));
    rmdir(folder);
}

int main(void)
{
    Suite *suite = suite_create("digest");
    TCase *cases = tcase_create("digest");
    tcase_add_unchecked_fixture(cases, make_folder, remove_folder);
    tcase_add_test(cases, an_empty_file_has_the_published_digest);
    tcase_add_test(cases, texts_keep_their_borders);
    tcase_add_test(cases, numbers_differ_by_their_last_bit_and_not_by_the_kind_of_nan);
    tcase_add_test(cases, a_file_is_its_bytes);
    tcase_add_test(cases, what_is_no_file_is_refused_at_once);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed != 0;
}
