#include "writing/output.h"

#include "writing/unfinished.h"

#include <check.h>
#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

static struct arena *arena;
static char folder[64];

static void set_up(void)
{
    arena = arena_new();
    strcpy(folder, "/tmp/tautline-output-XXXXXX");
    ck_assert_ptr_nonnull(mkdtemp(folder));
    ck_assert_int_eq(chdir(folder), 0);
    umask(022);
    signal(SIGPIPE, SIG_IGN);
}

/* Removes what a test left; each test says itself how many files there should be. */
static size_t files(bool remove_them)
{
    size_t count = 0;
    DIR *dir = opendir(folder);
    ck_assert_ptr_nonnull(dir);
    for (const struct dirent *entry; (entry = readdir(dir));) {
        if (!strcmp(entry->d_name, ".") || !strcmp(entry->d_name, ".."))
            continue;
        count++;
        if (remove_them && unlink(entry->d_name))
            rmdir(entry->d_name);
    }
    closedir(dir);
    return count;
}

static void tear_down(void)
{
    files(true);
    rmdir(folder);
    arena_free(arena);
}

static void make_file(const char *path, const char *text)
{
    FILE *file = fopen(path, "w");
    ck_assert_ptr_nonnull(file);
    fputs(text, file);
    fclose(file);
}

static const char *content(const char *path)
{
    static char text[200];
    FILE *file = fopen(path, "r");
    ck_assert_ptr_nonnull(file);
    text[fread(text, 1, sizeof text - 1, file)] = 0;
    fclose(file);
    return text;
}

static mode_t mode_of(const char *path)
{
    struct stat file;
    ck_assert_int_eq(stat(path, &file), 0);
    return file.st_mode & 0777;
}

START_TEST(memory_grows)
{
    struct output *output = output_to_memory(arena);
    for (int i = 0; i < 5000; i++)
        output_printf(output, "%04d", i);
    size_t length;
    const char *text = output_memory(output, &length);
    ck_assert_uint_eq(length, 20000);
    ck_assert_uint_eq(strlen(text), 20000);
    ck_assert_str_eq(text + 19996, "4999");
    ck_assert(output_commit(output));
}
END_TEST

START_TEST(long_printf_is_whole)
{
    struct output *output = output_to_memory(arena);
    char *text = arena_alloc(arena, 3001);
    memset(text, 'x', 3000);
    output_printf(output, "<%s>", text);
    size_t length;
    ck_assert_int_eq(output_memory(output, &length)[3001], '>');
    ck_assert_uint_eq(length, 3002);
}
END_TEST

START_TEST(new_file_appears_on_commit)
{
    struct output *output = output_open(arena, "out.csv");
    ck_assert_ptr_nonnull(output);
    output_text(output, "a,b\n");
    ck_assert_int_ne(access("out.csv", F_OK), 0);
    ck_assert(output_commit(output));
    ck_assert_str_eq(content("out.csv"), "a,b\n");
    ck_assert_uint_eq(mode_of("out.csv"), 0644);
    ck_assert_uint_eq(files(false), 1);
}
END_TEST

START_TEST(more_than_a_buffer)
{
    struct output *output = output_open(arena, "large");
    char *piece = arena_alloc(arena, 200000);
    memset(piece, 'y', 200000);
    output_text(output, "start");
    output_put(output, piece, 200000);
    output_put(output, piece, 65536);
    output_text(output, "end");
    ck_assert(output_commit(output));
    struct stat file;
    ck_assert_int_eq(stat("large", &file), 0);
    ck_assert_int_eq(file.st_size, 5 + 200000 + 65536 + 3);
}
END_TEST

START_TEST(old_file_stands_until_commit)
{
    make_file("out", "old");
    chmod("out", 0600);
    struct output *output = output_open(arena, "out");
    output_text(output, "new");
    ck_assert_str_eq(content("out"), "old");
    ck_assert(output_commit(output));
    ck_assert_str_eq(content("out"), "new");
    ck_assert_uint_eq(mode_of("out"), 0600); /* a private file stays private */
}
END_TEST

START_TEST(discard_leaves_nothing)
{
    make_file("out", "old");
    struct output *output = output_open(arena, "out");
    output_text(output, "new");
    output_discard(output);
    ck_assert_str_eq(content("out"), "old");
    ck_assert_uint_eq(files(false), 1);
    ck_assert(!output_commit(output));
}
END_TEST

START_TEST(link_is_followed)
{
    mkdir("real", 0755);
    make_file("real/out", "old");
    ck_assert_int_eq(symlink("real/out", "link"), 0);
    struct output *output = output_open(arena, "link");
    output_text(output, "new");
    ck_assert(output_commit(output));
    struct stat file;
    ck_assert_int_eq(lstat("link", &file), 0);
    ck_assert(S_ISLNK(file.st_mode));
    ck_assert_str_eq(content("real/out"), "new");
    ck_assert_int_eq(unlink("real/out"), 0);
}
END_TEST

static const struct
{
    const char *path;
    int error;
} refused[] = {
    {"nowhere", ENOENT}, /* a link to nothing */
    {".", EISDIR},       {"missing/out", ENOENT}, {"file/out", ENOTDIR}, {"loop", ELOOP},
};

START_TEST(refused_with_reason)
{
    ck_assert_int_eq(symlink("nothing-here", "nowhere"), 0);
    ck_assert_int_eq(symlink("loop", "loop"), 0);
    make_file("file", "");
    errno = 0;
    ck_assert_ptr_null(output_open(arena, refused[_i].path));
    ck_assert_int_eq(errno, refused[_i].error);
    ck_assert_uint_eq(files(false), 3);
}
END_TEST

START_TEST(read_only_file_is_not_replaced)
{
    if (!geteuid())
        return; /* root may write everything */
    make_file("out", "old");
    chmod("out", 0444);
    ck_assert_ptr_null(output_open(arena, "out"));
    ck_assert_int_eq(errno, EACCES);
}
END_TEST

START_TEST(taken_temporary_name_is_left_alone)
{
    char *taken = arena_printf(arena, ".out.%ld-0.tmp", (long)getpid());
    make_file("canary", "untouched");
    ck_assert_int_eq(symlink("canary", taken), 0);
    struct output *output = output_open(arena, "out");
    output_text(output, "new");
    ck_assert(output_commit(output));
    ck_assert_str_eq(content("canary"), "untouched");
    ck_assert_str_eq(content("out"), "new");
}
END_TEST

START_TEST(device_is_written_in_place)
{
    struct output *output = output_open(arena, "/dev/null");
    ck_assert_ptr_nonnull(output);
    output_text(output, "gone");
    ck_assert(output_commit(output));
}
END_TEST

START_TEST(full_disk_shows_at_commit)
{
    struct output *output = output_open(arena, "/dev/full");
    if (!output)
        return; /* no such device here */
    output_text(output, "does not fit");
    ck_assert(!output_commit(output));
    ck_assert_int_eq(errno, ENOSPC);
}
END_TEST

/* What main's handlers call: nothing that is not whole stays, and what is whole does. */
START_TEST(unfinished_is_removed)
{
    make_file("old", "old");
    struct output *old = output_open(arena, "old"), *new = output_open(arena, "new"),
                  *done = output_open(arena, "done"), *given_up = output_open(arena, "given up");
    output_text(done, "done");
    ck_assert(output_commit(done));
    output_discard(given_up);
    ck_assert_uint_eq(files(false), 4); /* old and done; the two in the making */
    unfinished_remove();
    ck_assert_uint_eq(files(false), 2);
    ck_assert_str_eq(content("old"), "old");
    ck_assert_str_eq(content("done"), "done");
    output_discard(old);
    output_discard(new);
}
END_TEST

START_TEST(unfinished_folder_is_removed)
{
    struct unfinished folder_in_making;
    ck_assert_int_eq(mkdir("made", 0777) | mkdir("made/plots", 0777) | mkdir("kept", 0777), 0);
    make_file("made/page", "page");
    for (int i = 0; i < 300; i++) /* more than one look at the folder tells */
        make_file(arena_printf(arena, "made/plots/a-long-name-for-a-picture-%d.svg", i), "");
    unfinished_begin(&folder_in_making, "made", true);
    unfinished_remove();
    unfinished_end(&folder_in_making);
    unfinished_end(&folder_in_making);
    ck_assert_int_ne(access("made", F_OK), 0);
    ck_assert_uint_eq(files(false), 1);
}
END_TEST

START_TEST(unfinished_is_its_own_process_s)
{
    struct output *output = output_open(arena, "page");
    pid_t child = fork();
    if (!child) {
        unfinished_remove();
        _exit(0);
    }
    ck_assert_int_eq(waitpid(child, NULL, 0), child);
    ck_assert_uint_eq(files(false), 1);
    ck_assert(output_commit(output));
}
END_TEST

/* Standard output while a test has it: 0 a file, 1 /dev/full, 2 a pipe nobody reads, 3 closed. */
static int error_of_standard_output(int way)
{
    int kept = dup(STDOUT_FILENO), ends[2];
    fflush(stdout);
    if (way == 3) {
        close(STDOUT_FILENO);
    } else if (way == 2) {
        ck_assert_int_eq(pipe(ends), 0);
        close(ends[0]);
        dup2(ends[1], STDOUT_FILENO);
        close(ends[1]);
    } else {
        int fd = open(way == 1 ? "/dev/full" : "seen", O_WRONLY | O_CREAT, 0666);
        dup2(fd, STDOUT_FILENO);
        close(fd);
    }
    struct output *output = output_open(arena, way == 0 ? "/dev/stdout" : NULL);
    output_text(output, "result\n");
    int error = output_commit(output) ? 0 : errno;
    dup2(kept, STDOUT_FILENO);
    close(kept);
    return error;
}

START_TEST(standard_output)
{
    static const int expected[] = {0, ENOSPC, EPIPE, EBADF};
    ck_assert_int_eq(error_of_standard_output(_i), expected[_i]);
    if (_i == 0)
        ck_assert_str_eq(content("seen"), "result\n");
}
END_TEST

/* A link to nothing is somebody's too. */
START_TEST(new_file_replaces_nothing)
{
    make_file("mine", "mine\n");
    ck_assert_int_eq(symlink("nowhere", "link"), 0);
    static const char *const there[] = {"mine", "link"};
    for (size_t i = 0; i < 2; i++) {
        ck_assert_ptr_null(output_open_new(arena, there[i]));
        ck_assert_int_eq(errno, EEXIST);
    }
    struct output *output = output_open_new(arena, "new");
    ck_assert_ptr_nonnull(output);
    output_text(output, "new\n");
    make_file("new", "came meanwhile\n");
    ck_assert(!output_commit(output));
    ck_assert_int_eq(errno, EEXIST);
    ck_assert_str_eq(content("new"), "came meanwhile\n");
    ck_assert_str_eq(content("mine"), "mine\n");
    unlink("new");
    output = output_open_new(arena, "new");
    output_text(output, "new\n");
    ck_assert(output_commit(output));
    ck_assert_str_eq(content("new"), "new\n");
    ck_assert_uint_eq(files(false), 3);
}
END_TEST

/* What is written before the place where it belongs comes out whole, from memory and from the file without a name. */
START_TEST(a_spool_is_copied_whole)
{
    static const size_t lines[] = {0, 10, 30000, 300000}; /* up to 2 MB, of which one is kept in memory */
    for (size_t i = 0; i < sizeof lines / sizeof *lines; i++) {
        struct output *spool = output_to_spool(arena), *whole = output_to_memory(arena);
        output_text(whole, "head\n");
        for (size_t line = 0; line < lines[i]; line++)
            output_printf(spool, "%06zu\n", line);
        output_copy(spool, whole);
        size_t length;
        const char *text = output_memory(whole, &length);
        ck_assert_uint_eq(length, 5 + 7 * lines[i]);
        for (size_t line = 0; line < lines[i]; line++)
            ck_assert_uint_eq(strtoul(text + 5 + 7 * line, NULL, 10), line);
    }
    ck_assert_uint_eq(files(false), 0);
}
END_TEST

START_TEST(a_spool_leaves_no_file)
{
    setenv("TMPDIR", folder, 1);
    struct output *spool = output_to_spool(arena);
    for (int line = 0; line < 300000; line++)
        output_text(spool, "line\n");
    ck_assert_uint_eq(files(false), 0);
    output_copy(spool, output_to_memory(arena));

    setenv("TMPDIR", "/nowhere", 1); /* memory has to do */
    struct output *held = output_to_spool(arena), *whole = output_to_memory(arena);
    for (int line = 0; line < 300000; line++)
        output_text(held, "line\n");
    output_copy(held, whole);
    size_t length;
    output_memory(whole, &length);
    ck_assert_uint_eq(length, 1500000);
    unsetenv("TMPDIR");
}
END_TEST

/* A disk that fills up while the spool is written: what the spool was for is not written either. */
START_TEST(a_spool_that_fails_fails_all)
{
    struct output *spool = output_to_spool(arena), *whole = output_open(arena, "whole");
    struct rlimit old, most = {1024 * 1024 + 100000, RLIM_INFINITY};
    ck_assert_int_eq(getrlimit(RLIMIT_FSIZE, &old), 0);
    signal(SIGXFSZ, SIG_IGN);
    most.rlim_max = old.rlim_max;
    ck_assert_int_eq(setrlimit(RLIMIT_FSIZE, &most), 0);
    for (int line = 0; line < 600000; line++)
        output_text(spool, "line\n");
    ck_assert_int_eq(setrlimit(RLIMIT_FSIZE, &old), 0);
    output_copy(spool, whole);
    ck_assert(!output_commit(whole));
    ck_assert_int_eq(errno, EFBIG);
    ck_assert_uint_eq(files(false), 0);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("output");
    TCase *cases = tcase_create("output");
    tcase_add_checked_fixture(cases, set_up, tear_down);
    tcase_add_test(cases, memory_grows);
    tcase_add_test(cases, long_printf_is_whole);
    tcase_add_test(cases, new_file_appears_on_commit);
    tcase_add_test(cases, more_than_a_buffer);
    tcase_add_test(cases, old_file_stands_until_commit);
    tcase_add_test(cases, discard_leaves_nothing);
    tcase_add_test(cases, link_is_followed);
    tcase_add_loop_test(cases, refused_with_reason, 0, sizeof refused / sizeof *refused);
    tcase_add_test(cases, read_only_file_is_not_replaced);
    tcase_add_test(cases, taken_temporary_name_is_left_alone);
    tcase_add_test(cases, device_is_written_in_place);
    tcase_add_test(cases, new_file_replaces_nothing);
    tcase_add_test(cases, full_disk_shows_at_commit);
    tcase_add_test(cases, a_spool_is_copied_whole);
    tcase_add_test(cases, a_spool_leaves_no_file);
    tcase_add_test(cases, a_spool_that_fails_fails_all);
    tcase_add_test(cases, unfinished_is_removed);
    tcase_add_test(cases, unfinished_folder_is_removed);
    tcase_add_test(cases, unfinished_is_its_own_process_s);
    tcase_add_loop_test(cases, standard_output, 0, 4);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_ENV);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed != 0;
}
