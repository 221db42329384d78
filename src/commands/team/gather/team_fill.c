#include "commands/team/gather/team_fill.h"

#include "base/number.h"
#include "commands/team/gather/team_gather.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define MOST_COLUMNS 60
#define MOST_ALIKE 1000 /* at most, in one row of the store: as many as its table of numbers has */
#define FINDING_CELLS 11

struct table_plan /* how the CSV files with one header fill one table */
{
    const char *header;
    size_t chosen[MOST_COLUMNS], count; /* indexes of the file's columns */
    size_t set_column;                  /* index of the set's number; MOST_COLUMNS: there is none */
    struct store_insert *insert;
};

struct filling /* one table from one file */
{
    struct gathering *gathering;
    const char *table, *lifter;          /* whose rows they are; NULL: each row gives the lifter */
    bool has_row, has_lifter, has_count; /* columns that the file does not have */
    struct table_plan *plan;
    size_t rows;
    struct arena *held; /* The next row may be one more set like these: */
    const char **cells;
    size_t cell_count, first, alike;
    const char *file;    /* of the last set */
    struct map *numbers; /* counts findings that are alike */
};

/* --- rows ------------------------------------------------------------------------------------------------------------------- */

static void note_column(void *context, const char *const *cells)
{
    struct map *columns = context;
    map_put(columns, cells[0], strlen(cells[0]), columns);
}

static void choose_columns(const struct filling *filling, struct table_plan *plan, const struct csv_row *row)
{
    struct gathering *gathering = filling->gathering;
    struct map *known = map_new(gathering->arena);
    const char *names[MOST_COLUMNS + 3];
    size_t count = 0;
    store_ask(gathering->store, "SELECT name FROM pragma_table_info(?)", &filling->table, 1, note_column, known);
    plan->set_column = MOST_COLUMNS;
    for (size_t i = 0; i < row->count && i < MOST_COLUMNS; i++) {
        if (!map_get(known, row->cells[i], strlen(row->cells[i])))
            continue;
        if (!strcmp(row->cells[i], "set"))
            plan->set_column = i;
        names[count] = row->cells[i];
        plan->chosen[count++] = i;
    }
    plan->count = count;
    if (filling->has_row)
        names[count++] = "row";
    if (filling->has_lifter)
        names[count++] = "lifter";
    if (filling->has_count)
        names[count++] = "count";
    plan->insert = store_insert_into(gathering->store, filling->table, names, count);
}

/* The plan is kept: the next file with the same header uses it again. */
static struct table_plan *plan_for(const struct filling *filling, const struct csv_row *row)
{
    struct gathering *gathering = filling->gathering;
    struct output *text = output_to_memory(gathering->arena);
    for (size_t i = 0; i < row->count; i++)
        output_printf(text, "%s,", row->cells[i]);
    const char *header = output_memory(text, NULL);
    struct table_plan *plan = map_get(gathering->plans, filling->table, strlen(filling->table));
    if (plan && !strcmp(plan->header, header))
        return plan;
    if (plan)
        store_insert_end(plan->insert);
    plan = ARENA_NEW(gathering->arena, struct table_plan);
    plan->header = header;
    choose_columns(filling, plan, row);
    map_put(gathering->plans, filling->table, strlen(filling->table), plan);
    return plan;
}

void fill_end(struct gathering *gathering)
{
    static const char *const tables[] = {"set_rows", "weeks", "waves", "refused"};
    for (size_t i = 0; i < sizeof tables / sizeof *tables; i++) {
        struct table_plan *plan = map_get(gathering->plans, tables[i], strlen(tables[i]));
        if (plan)
            store_insert_end(plan->insert);
    }
    gathering->plans = map_new(gathering->arena);
}

static bool put_row(const struct filling *filling, const char *const *cells, size_t cell_count, size_t number,
                    size_t alike)
{
    const struct table_plan *plan = filling->plan;
    const char *values[MOST_COLUMNS + 3];
    char number_text[24], count_text[24];
    size_t count = 0;
    for (; count < plan->count; count++)
        values[count] = plan->chosen[count] < cell_count ? cells[plan->chosen[count]] : NULL;
    snprintf(number_text, sizeof number_text, "%zu", number);
    snprintf(count_text, sizeof count_text, "%zu", alike);
    if (filling->has_row)
        values[count++] = number_text;
    if (filling->has_lifter)
        values[count++] = filling->lifter;
    if (filling->has_count)
        values[count++] = count_text;
    return store_insert_row(plan->insert, values);
}

static bool fill_row(void *context, const struct csv_row *row)
{
    struct filling *filling = context;
    if (!filling->plan) {
        filling->plan = plan_for(filling, row);
        return true;
    }
    return put_row(filling, row->cells, row->count, filling->rows++, 1);
}

/* --- sets ------------------------------------------------------------------------------------------------------------------- */

/* A set's file is one of the lifter's files even if its name is not UTF-8 and is spelt differently there. */
static void know_file(struct filling *filling, const char *file)
{
    const char *values[] = {filling->lifter, file};
    if (filling->file && !strcmp(filling->file, file))
        return;
    filling->file = arena_copy(filling->gathering->arena, file);
    store_do(filling->gathering->store,
             "INSERT INTO files(lifter, path, digest, bytes) VALUES(?, ?, '-', 0) ON CONFLICT DO NOTHING", values, 2);
}

static bool put_held(struct filling *filling)
{
    bool good = !filling->alike ||
                put_row(filling, filling->cells, filling->cell_count, filling->first, filling->alike);
    filling->alike = 0;
    return good;
}

static bool is_one_more(const struct filling *filling, const struct csv_row *row)
{
    size_t set = filling->plan->set_column;
    if (!filling->alike || filling->alike == MOST_ALIKE || row->count != filling->cell_count || set >= row->count)
        return false;
    for (size_t i = 0; i < row->count; i++)
        if (i != set && strcmp(row->cells[i], filling->cells[i]) != 0)
            return false;
    char next[24];
    double first;
    if (!number_whole(filling->cells[set], '.', &first) || first < 0)
        return false;
    snprintf(next, sizeof next, "%zu", (size_t)first + filling->alike);
    return !strcmp(next, row->cells[set]);
}

static bool fill_set(void *context, const struct csv_row *row)
{
    struct filling *filling = context;
    if (!filling->plan) {
        filling->plan = plan_for(filling, row);
        return true;
    }
    size_t number = filling->rows++;
    if (is_one_more(filling, row)) {
        filling->alike++;
        return true;
    }
    if (!put_held(filling))
        return false;
    know_file(filling, row->cells[0]);
    arena_reset(filling->held);
    filling->cells = ARENA_ARRAY(filling->held, const char *, row->count);
    for (size_t i = 0; i < row->count; i++)
        filling->cells[i] = arena_copy(filling->held, row->cells[i]);
    filling->cell_count = row->count;
    filling->first = number;
    filling->alike = 1;
    return true;
}

/* --- findings --------------------------------------------------------------------------------------------------------------- */

/* A finding that was there already keeps its night. Findings of one day that are alike are told apart by a number. */
static bool fill_finding(void *context, const struct csv_row *row)
{
    struct filling *filling = context;
    struct store *store = filling->gathering->store;
    if (!filling->rows++ || row->count < FINDING_CELLS)
        return true;
    const char *lifter = filling->lifter ? filling->lifter : row->cells[2];
    const char *values[FINDING_CELLS + 2];
    char number[24];
    for (size_t i = 0; i < FINDING_CELLS; i++)
        values[i] = row->cells[i];
    snprintf(number, sizeof number, "%zu", finding_number(filling->held, filling->numbers, lifter, row));
    values[2] = lifter;
    values[FINDING_CELLS] = number;
    values[FINDING_CELLS + 1] = filling->gathering->night;
    if (!filling->lifter)
        store_do(
            store,
            "INSERT INTO lifters(name, folder, results, sets, refused) VALUES(?, '', '', 0, 0) ON CONFLICT DO NOTHING",
            &lifter, 1);
    return store_do(
        store,
        "INSERT INTO findings(id, severity, lifter, lift, date, file, line, value, \"limit\", message, source, number, "
        "night)"
        " VALUES(?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)"
        " ON CONFLICT(lifter, id, lift, date, number) DO UPDATE SET severity = excluded.severity, file = excluded.file,"
        " line = excluded.line, value = excluded.value, \"limit\" = excluded.\"limit\", message = excluded.message,"
        " source = excluded.source",
        values, FINDING_CELLS + 2);
}

size_t finding_number(struct arena *arena, struct map *numbers, const char *lifter, const struct csv_row *row)
{
    const char *key = arena_printf(arena, "%s\n%s\n%s\n%s", lifter, row->cells[0], row->cells[3], row->cells[4]);
    uintptr_t number = (uintptr_t)map_get(numbers, key, strlen(key)) + 1;
    map_put(numbers, key, strlen(key), (void *)number);
    return number;
}

bool fill_recalled(struct gathering *gathering)
{
    struct filling filling = {.gathering = gathering, .held = arena_new()};
    filling.numbers = map_new(filling.held);
    bool good = gather_read(gathering->team, "findings.csv", CELLS_MEANT, fill_finding, &filling);
    arena_free(filling.held);
    return good && store_fault(gathering->store) == STORE_SOUND;
}

/* --- a lifter --------------------------------------------------------------------------------------------------------------- */

static bool fill(struct gathering *gathering, const struct team_lifter *lifter, struct filling filling,
                 const char *file, csv_row_seen *seen)
{
    filling.gathering = gathering;
    filling.lifter = lifter->block->name;
    filling.held = arena_new();
    filling.numbers = map_new(filling.held);
    bool good = gather_read_of(gathering->team, lifter, file, CELLS_MEANT, seen, &filling) &&
                (!filling.plan || put_held(&filling));
    arena_free(filling.held);
    return good && store_fault(gathering->store) == STORE_SOUND;
}

static bool fill_findings(struct gathering *gathering, const struct team_lifter *lifter)
{
    const char *name = lifter->block->name;
    store_do(gathering->store, "UPDATE findings SET line = -1 WHERE lifter = ?", &name, 1);
    bool good = fill(gathering, lifter, (struct filling){0}, "findings.csv", fill_finding);
    store_do(gathering->store, "DELETE FROM findings WHERE lifter = ? AND line = -1", &name, 1);
    return good && store_fault(gathering->store) == STORE_SOUND;
}

void fill_files(struct gathering *gathering, const struct team_lifter *lifter)
{
    const struct team_state *state = lifter->state;
    const char *name = lifter->block->name;
    for (size_t i = 0; i < state->files.count; i++) {
        char bytes[24];
        snprintf(bytes, sizeof bytes, "%lld", (long long)state->files.items[i].bytes);
        const char *file[] = {name, state->files.items[i].path, state->files.items[i].digest, bytes};
        store_do(gathering->store,
                 "INSERT INTO files(lifter, path, digest, bytes) VALUES(?, ?, ?, ?)"
                 " ON CONFLICT(lifter, path) DO UPDATE SET digest = excluded.digest, bytes = excluded.bytes",
                 file, 4);
    }
}

static void clear_lifter(struct gathering *gathering, const struct team_lifter *lifter)
{
    const struct team_state *state = lifter->state;
    const char *name = lifter->block->name;
    char sets[24], refused[24];
    snprintf(sets, sizeof sets, "%zu", state->sets);
    snprintf(refused, sizeof refused, "%zu", state->refused);
    const char *values[] = {name, lifter->folder, state->results, sets, refused, state->first, state->last};
    store_do(
        gathering->store,
        "INSERT INTO lifters(name, folder, results, sets, refused, first, last) VALUES(?, ?, ?, ?, ?, ?, ?)"
        " ON CONFLICT(name) DO UPDATE SET folder = excluded.folder, results = excluded.results, sets = excluded.sets,"
        " refused = excluded.refused, first = excluded.first, last = excluded.last",
        values, 7);
    store_do(gathering->store, "DELETE FROM set_rows WHERE lifter = ?", &name, 1);
    store_do(gathering->store, "DELETE FROM files WHERE lifter = ?", &name, 1);
    store_do(gathering->store, "DELETE FROM weeks WHERE lifter = ?", &name, 1);
    store_do(gathering->store, "DELETE FROM waves WHERE lifter = ?", &name, 1);
    store_do(gathering->store, "DELETE FROM refused WHERE lifter = ?", &name, 1);
}

bool fill_lifter(struct gathering *gathering, const struct team_lifter *lifter)
{
    clear_lifter(gathering, lifter);
    fill_files(gathering, lifter);
    return fill(gathering, lifter, (struct filling){.table = "set_rows", .has_row = true, .has_count = true},
                "loads.csv", fill_set) &&
           fill(gathering, lifter, (struct filling){.table = "weeks"}, "trend.csv", fill_row) &&
           fill(gathering, lifter, (struct filling){.table = "waves"}, "waves.csv", fill_row) &&
           fill(gathering, lifter, (struct filling){.table = "refused", .has_row = true, .has_lifter = true},
                "refused.csv", fill_row) &&
           fill_findings(gathering, lifter);
}
