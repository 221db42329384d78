/* The store: values in and out, transactions, files that are damaged, older or newer. */
#include "commands/loads.h"
#include "commands/trend.h"
#include "commands/waves.h"
#include "writing/store/store.h"
#include "writing/store/store_open.h"
#include "writing/store/store_schema.h"

#include <check.h>
#include <sqlite3.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static char folder[] = "/tmp/tautline-store-XXXXXX";
static struct arena *arena;
static const char *path;

static void set_up(void)
{
    arena = arena_new();
    memcpy(folder + sizeof folder - 7, "XXXXXX", 6);
    ck_assert_ptr_nonnull(mkdtemp(folder));
    path = arena_printf(arena, "%s/team.sqlite", folder);
}

static void tear_down(void)
{
    static const char *const endings[] = {"", "-wal", "-shm", ".damaged-1", ".damaged-2"};
    for (size_t i = 0; i < sizeof endings / sizeof *endings; i++)
        unlink(arena_printf(arena, "%s%s", path, endings[i]));
    rmdir(folder);
    arena_free(arena);
}

static struct store *opened(void)
{
    struct store *store = store_open(arena, path, false);
    ck_assert_msg(store_fault(store) == STORE_SOUND, "%s", store_message(store));
    return store;
}

static void add_lifter(struct store *store, const char *name)
{
    const char *values[] = {name, "folder", "digest", "3", "0", "2026-01-05", ""};
    ck_assert(store_do(
        store, "INSERT INTO lifters(name, folder, results, sets, refused, first, last) VALUES(?, ?, ?, ?, ?, ?, ?)",
        values, 7));
}

static void note_text(void *context, const char *const *cells)
{
    snprintf(context, 64, "%s|%s|%s", cells[0], cells[1], cells[2]);
}

START_TEST(texts_become_what_the_columns_are)
{
    static const char *const names[] = {"'; DROP TABLE lifters; --", "\"quoted\"", "B\xC3\xA5rd"};
    struct store *store = opened();
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        char got[64] = "", wanted[64];
        add_lifter(store, names[i]);
        snprintf(wanted, sizeof wanted, "%s|integer|null", names[i]);
        ck_assert(store_ask(store, "SELECT name, typeof(sets), typeof(last) FROM lifters WHERE name = ?", &names[i], 1,
                            note_text, got));
        ck_assert_str_eq(got, wanted);
    }
    ck_assert_int_eq(store_number(store, "SELECT count(*) FROM lifters", NULL, 0), 3);
    ck_assert_int_eq(store_number(store, "SELECT sets FROM lifters WHERE name = 'nobody'", NULL, 0), 0);
    store_close(store);
}
END_TEST

START_TEST(rows_go_into_columns_by_name)
{
    static const char *const columns[] = {"lifter", "path", "digest", "bytes"};
    static const char *const row[] = {"Una", "logs/a \"b\".csv", "0", "12"}, *const orphan[] = {"Nobody", "c.csv", "0",
                                                                                                "1"};
    struct store *store = opened();
    add_lifter(store, "Una");
    struct store_insert *insert = store_insert_into(store, "files", columns, 4);
    ck_assert(store_insert_row(insert, row));
    ck_assert_int_eq(store_number(store, "SELECT bytes FROM files", NULL, 0), 12);
    ck_assert(!store_insert_row(insert, orphan)); /* foreign keys hold */
    store_insert_end(insert);
    ck_assert_int_eq(store_fault(store), STORE_FAILED);
    ck_assert(!store_do(store, "DELETE FROM files", NULL, 0)); /* nothing is done after an error */
    store_undo(store);
    ck_assert(store_do(store, "DELETE FROM lifters", NULL, 0));
    ck_assert_int_eq(store_number(store, "SELECT count(*) FROM files", NULL, 0), 0); /* gone with their lifter */
    store_close(store);
}
END_TEST

START_TEST(what_is_not_committed_is_not_there)
{
    struct store *store = opened();
    ck_assert(store_begin(store));
    add_lifter(store, "Una");
    store_undo(store);
    ck_assert(store_begin(store));
    add_lifter(store, "Duo");
    ck_assert(store_commit(store));
    ck_assert(store_begin(store));
    add_lifter(store, "Tre");
    store_close(store);
    store = opened();
    ck_assert_int_eq(store_number(store, "SELECT count(*) FROM lifters", NULL, 0), 1);
    ck_assert_int_eq(store_number(store, "SELECT count(*) FROM lifters WHERE name = 'Duo'", NULL, 0), 1);
    store_close(store);
}
END_TEST

static void run(const char *sql)
{
    sqlite3 *database;
    ck_assert_int_eq(sqlite3_open(path, &database), SQLITE_OK);
    ck_assert_int_eq(sqlite3_exec(database, sql, NULL, NULL, NULL), SQLITE_OK);
    sqlite3_close(database);
}

/* SQLite's quick look must find nothing in what we fill in. */
START_TEST(a_filled_file_is_sound_when_it_is_opened_again)
{
    struct store *store = opened();
    add_lifter(store, "Una");
    ck_assert(store_do(store,
                       "INSERT INTO weeks(lifter, lift, all_lifts, week, days, sets, lifts) VALUES('Una', '*', 1, "
                       "'2026-W02', 2, 5, 15),"
                       " ('Una', 'squat', 0, '2026-W02', 2, 5, 15)",
                       NULL, 0));
    store_close(store);
    store_close(opened());
}
END_TEST

/* Each version on the way, with a lifter in it, comes to the newest with that lifter. */
START_TEST(older_files_are_brought_up_to_date)
{
    for (size_t version = 1; version <= store_version(); version++) {
        unlink(path);
        for (size_t i = 1; i <= version; i++)
            run(store_migration(arena, i));
        run(arena_printf(arena,
                         "PRAGMA user_version = %zu; INSERT INTO lifters VALUES('Una', 'Una', '', 0, 0, NULL, NULL)",
                         version));
        struct store *store = opened();
        ck_assert_int_eq(store_number(store, "PRAGMA user_version", NULL, 0), (int64_t)store_version());
        ck_assert_int_eq(store_number(store, "SELECT count(*) FROM lifters", NULL, 0), 1);
        ck_assert_int_eq(store_number(store, "SELECT count(*) FROM sqlite_schema WHERE name = 'sets_by_date'", NULL, 0),
                         1);
        ck_assert_int_eq(store_number(store, "PRAGMA foreign_keys", NULL, 0), 1);
        store_close(store);
    }
}
END_TEST

static const char *columns_of_sets(void)
{
    sqlite3 *database;
    sqlite3_stmt *statement;
    ck_assert_int_eq(sqlite3_open(path, &database), SQLITE_OK);
    sqlite3_prepare_v2(database, "SELECT group_concat(name) FROM pragma_table_info('sets')", -1, &statement, NULL);
    ck_assert_int_eq(sqlite3_step(statement), SQLITE_ROW);
    const char *names = arena_copy(arena, (const char *)sqlite3_column_text(statement, 0));
    sqlite3_finalize(statement);
    sqlite3_close(database);
    return names;
}

/* A version that the lists of columns make has the view made again: nothing may be lost on the way. */
START_TEST(a_view_made_again_has_the_columns_that_it_had)
{
    store_close(opened());
    const char *before = columns_of_sets();
    run(store_migration(arena, store_version() + 1));
    ck_assert_str_eq(columns_of_sets(), before);
}
END_TEST

START_TEST(newer_files_are_left_alone)
{
    run(arena_printf(arena, "PRAGMA user_version = %zu", store_version() + 1));
    struct store *store = store_open(arena, path, false);
    ck_assert_int_eq(store_fault(store), STORE_NEWER);
    ck_assert(!store_begin(store));
    store_close(store);
}
END_TEST

START_TEST(damaged_files_are_told_and_set_aside)
{
    for (int time = 1; time <= 2; time++) {
        FILE *file = fopen(path, "w");
        ck_assert_ptr_nonnull(file);
        fputs("this is no database, however long one looks at it, and it is longer than a header of one hundred bytes "
              "has to be",
              file);
        ck_assert_int_eq(fclose(file), 0);
        struct store *store = store_open(arena, path, false);
        ck_assert_int_eq(store_fault(store), STORE_DAMAGED);
        ck_assert_str_ne(store_message(store), "");
        store_close(store);
        const char *aside = store_set_aside(arena, path);
        ck_assert_str_eq(aside, arena_printf(arena, "%s.damaged-%d", path, time));
        ck_assert_int_eq(access(path, F_OK), -1);
        store_close(opened());
        unlink(path);
    }
    ck_assert_ptr_null(store_set_aside(arena, path)); /* nothing is there */
}
END_TEST

START_TEST(a_folder_that_is_not_there_is_a_failure)
{
    struct store *store = store_open(arena, "/nowhere/at/all/team.sqlite", false);
    ck_assert_int_eq(store_fault(store), STORE_FAILED);
    ck_assert_str_ne(store_message(store), "");
    store_close(store);
}
END_TEST

static void note_name(void *context, const char *const *cells)
{
    struct map *names = context;
    map_put(names, cells[0], strlen(cells[0]), names);
}

static void has_columns(struct store *store, const char *table, struct columns columns)
{
    struct map *names = map_new(arena);
    store_ask(store, "SELECT name FROM pragma_table_info(?)", &table, 1, note_name, names);
    for (size_t i = 0; i < columns.count; i++)
        ck_assert_msg(map_get(names, columns.items[i].name, strlen(columns.items[i].name)),
                      "%s has no column %s: in src/columns/, name the version after the newest", table,
                      columns.items[i].name);
}

/* A column that the store does not know is left out of it, and nobody would notice. */
START_TEST(the_tables_have_the_columns_of_the_commands)
{
    struct options options = {0};
    struct store *store = opened();
    has_columns(store, "set_rows", loads_columns(&options));
    has_columns(store, "sets", loads_columns(&options));
    has_columns(store, "weeks", trend_columns(&options));
    has_columns(store, "waves", waves_columns(&options));
    store_close(store);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("store");
    TCase *cases = tcase_create("store");
    tcase_add_checked_fixture(cases, set_up, tear_down);
    tcase_add_test(cases, the_tables_have_the_columns_of_the_commands);
    tcase_add_test(cases, texts_become_what_the_columns_are);
    tcase_add_test(cases, rows_go_into_columns_by_name);
    tcase_add_test(cases, what_is_not_committed_is_not_there);
    tcase_add_test(cases, a_filled_file_is_sound_when_it_is_opened_again);
    tcase_add_test(cases, older_files_are_brought_up_to_date);
    tcase_add_test(cases, a_view_made_again_has_the_columns_that_it_had);
    tcase_add_test(cases, newer_files_are_left_alone);
    tcase_add_test(cases, damaged_files_are_told_and_set_aside);
    tcase_add_test(cases, a_folder_that_is_not_there_is_a_failure);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed != 0;
}
