#include "commands/team/gather/team_gather.h"

#include "base/text.h"
#include "commands/team/gather/team_names.h"
#include "commands/team/gather/team_page.h"
#include "commands/team/gather/team_store.h"
#include "commands/team/gather/team_tables.h"
#include "commands/team/gather/team_told.h"
#include "commands/team/team_below.h"
#include "commands/team/team_publish.h"
#include "writing/escape.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#define STORE_NAME "team.sqlite"

void gather_say(struct gathering *gathering, const char *path, const char *message)
{
    fprintf(stderr, "tautline: %s: %s\n", text_visible(gathering->arena, path),
            text_visible(gathering->arena, message));
    gathering->good = false;
}

/* The CSV reader takes a path. A path through the descriptor leads to the file that was checked, even if its name
 * leads to another file by now. */
static bool read_csv(int folder, const char *name, csv_row_seen *seen, void *context)
{
    struct arena *arena = arena_new();
    struct diags *diags = diags_new(arena);
    int file = below_file(folder, name);
    struct input *input = file < 0 ? NULL : input_open(arena, below_path(arena, file, NULL), diags);
    bool good = input && csv_rows_read(input, ',', 1, diags, seen, context);
    input_close(input);
    if (file >= 0)
        close(file);
    arena_free(arena);
    return good;
}

struct undoing
{
    csv_row_seen *seen;
    void *context;
};

static bool undo_row(void *context, const struct csv_row *row)
{
    const struct undoing *undoing = context;
    for (size_t i = 0; i < row->count; i++)
        row->cells[i] = escape_csv_undone(row->cells[i]);
    return undoing->seen(undoing->context, row);
}

static bool read_cells(const struct team *team, int folder, const char *name, enum gather_cells cells,
                       csv_row_seen *seen, void *context)
{
    struct undoing undoing = {seen, context};
    return cells == CELLS_MEANT && team->options->spreadsheet_safe ? read_csv(folder, name, undo_row, &undoing)
                                                                   : read_csv(folder, name, seen, context);
}

bool gather_read(const struct team *team, const char *name, enum gather_cells cells, csv_row_seen *seen, void *context)
{
    return read_cells(team, team->root, name, cells, seen, context);
}

bool gather_read_of(const struct team *team, const struct team_lifter *lifter, const char *name,
                    enum gather_cells cells, csv_row_seen *seen, void *context)
{
    int folder = below_folder(team->lifters_folder, lifter->folder);
    bool good = folder >= 0 && read_cells(team, folder, name, cells, seen, context);
    if (folder >= 0)
        close(folder);
    return good;
}

struct gathering *gather_begin(struct team *team)
{
    struct gathering *gathering = ARENA_NEW(team->arena, struct gathering);
    const char *path = team->options->store;
    gathering->team = team;
    gathering->arena = team->arena;
    gathering->good = true;
    gathering->path = path ? path : arena_printf(team->arena, "%s/" STORE_NAME, team->into);
    gathering->told = told_read(team->arena, team->root);
    gathering->by_name = map_new(team->arena);
    for (size_t i = 0; i < team->count; i++)
        map_put(gathering->by_name, team->lifters[i].block->name, strlen(team->lifters[i].block->name),
                &team->lifters[i]);
    folder_sweep(team->root);
    return gathering;
}

/* Invariant: night.json is written last. A run that was killed may leave a findings.csv whose findings were never told;
 * night.json is then missing, or it gives another length. */
bool gather_findings_stand(const struct gathering *gathering)
{
    int64_t bytes;
    return gathering->told->any && below_is_file(gathering->team->root, "findings.csv", &bytes) &&
           bytes == gathering->told->findings_bytes;
}

void gather_fresh(struct gathering *gathering, const struct team_finding *finding)
{
    struct team_lifter *lifter = map_get(gathering->by_name, finding->lifter, strlen(finding->lifter));
    *LIST_ADD(gathering->arena, &gathering->page.fresh) = *finding;
    if (lifter)
        lifter->new_findings++;
}

/* --- the page and team.csv ------------------------------------------------------------------------------------------------------- */

#define GET(name, ...)                                                                                                 \
    static void get_##name(const void *row, struct cell *cell)                                                         \
    {                                                                                                                  \
        const struct team_lifter *lifter = row;                                                                        \
        const struct team_state *state = lifter->state;                                                                \
        (void)state;                                                                                                   \
        __VA_ARGS__;                                                                                                   \
    }
#define GET_COUNT(name, count) GET(name, if (state) cell_count(cell, (long)(count)))

GET(lifter, cell_text(cell, lifter->block->name))
GET(folder, cell_text(cell, lifter->folder))
GET(state, cell_text(cell, !state                         ? "none"
                           : lifter->work >= WORK_KEPT    ? "kept"
                           : lifter->work == WORK_UNDRAWN ? "undrawn"
                                                          : "good"))
GET(first, cell_text(cell, state ? state->first : NULL))
GET(last, cell_text(cell, state ? state->last : NULL))
GET_COUNT(sets, state->sets)
GET_COUNT(files, state->files.count)
GET_COUNT(refused, state->refused)
GET_COUNT(faults, state->findings[FINDING_FAULT])
GET_COUNT(cautions, state->findings[FINDING_CAUTION])
GET_COUNT(notes, state->findings[FINDING_NOTE])
GET_COUNT(new_findings, lifter->new_findings)
GET(message, cell_text(cell, lifter->message))

static const struct column columns[] = {
    {"lifter", NULL, QUANTITY_PLAIN, 0, get_lifter},   {"folder", NULL, QUANTITY_PLAIN, 0, get_folder},
    {"state", NULL, QUANTITY_PLAIN, 0, get_state},     {"first", NULL, QUANTITY_PLAIN, 0, get_first},
    {"last", NULL, QUANTITY_PLAIN, 0, get_last},       {"sets", NULL, QUANTITY_PLAIN, 0, get_sets},
    {"files", NULL, QUANTITY_PLAIN, 0, get_files},     {"refused", NULL, QUANTITY_PLAIN, 0, get_refused},
    {"faults", NULL, QUANTITY_PLAIN, 0, get_faults},   {"cautions", NULL, QUANTITY_PLAIN, 0, get_cautions},
    {"notes", NULL, QUANTITY_PLAIN, 0, get_notes},     {"new_findings", NULL, QUANTITY_PLAIN, 0, get_new_findings},
    {"message", NULL, QUANTITY_PLAIN, 0, get_message},
};

static void write_team(struct gathering *gathering)
{
    const struct team *team = gathering->team;
    const char *path = arena_printf(gathering->arena, "%s/team.csv", team->into);
    struct output *output = output_open_in(gathering->arena, team->root, "team.csv");
    struct table_style style = {
        .format = FORMAT_CSV, .unit = UNIT_KG, .spreadsheet_safe = team->options->spreadsheet_safe};
    if (output) {
        struct table_writer *writer = table_open(gathering->arena, output, columns, sizeof columns / sizeof *columns,
                                                 &style);
        for (size_t i = 0; i < team->count; i++)
            table_row(writer, &team->lifters[i]);
        table_close(writer);
    }
    if (!output || !output_commit(output))
        gather_say(gathering, path, strerror(errno));
}

static void write_page(struct gathering *gathering)
{
    const char *path = arena_printf(gathering->arena, "%s/index.html", gathering->team->into);
    struct output *output = output_open_in(gathering->arena, gathering->team->root, "index.html");
    bool whole = output && team_page_write(gathering->team, &gathering->page, output);
    if (!whole || !output_commit(output))
        gather_say(gathering, path, strerror(errno));
}

const struct team_page *gather_page(const struct gathering *gathering)
{
    return &gathering->page;
}

/* Sentences that the night before reported are reported again, but do not count as news. */
static void note_said(struct gathering *gathering)
{
    struct team_page *page = &gathering->page;
    struct arena *arena = gathering->arena;
    for (size_t i = 0; i < page->strangers.count; i++)
        page->new_said += told_is_new(arena, gathering->told,
                                      arena_printf(arena, "stranger %s", page->strangers.items[i].name));
    for (size_t i = 0; i < page->misplaced.count; i++)
        page->new_said += told_is_new(arena, gathering->told, page->misplaced.items[i]);
}

static void note_trouble(struct gathering *gathering)
{
    const struct team *team = gathering->team;
    struct team_page *page = &gathering->page;
    char then[16], now[16];
    for (size_t i = 0; i < team->count; i++)
        page->counts[team->lifters[i].work]++;
    page->failed = page->counts[WORK_KEPT] + page->counts[WORK_FAILED];
    told_note_left(team, gathering->told, page);
    if (gathering->told->today == NO_DAY || gathering->told->today <= team->today)
        return;
    date_print(then, gathering->told->today);
    date_print(now, team->today);
    page->clock = arena_printf(
        gathering->arena, "the clock says %s, but the last night was %s: everything below is as of the earlier day",
        now, then);
}

bool gather_end(struct gathering *gathering)
{
    const struct team *team = gathering->team;
    team_store_open(gathering);
    team_store_fill(gathering);
    team_store_fresh(gathering);
    if (store_fault(gathering->store) != STORE_SOUND) {
        gathering->page.store_trouble = arena_printf(gathering->arena, "%s: %s", gathering->path,
                                                     store_message(gathering->store));
        team_news_without_store(gathering);
    }
    note_trouble(gathering);
    team_note_names(team, &gathering->page);
    note_said(gathering);
    team_tables_write(gathering);
    write_team(gathering);
    write_page(gathering);
    team_store_finish(gathering); /* last: until then the night is not finished */
    gathering->told->today = team->today;
    if (!told_write(team, gathering->told))
        gather_say(gathering, arena_printf(gathering->arena, "%s/night.json", team->into), strerror(errno));
    return gathering->good;
}

bool gather_is_another_gym(const struct gathering *gathering, size_t *left, size_t *of)
{
    struct team_page page = {0};
    told_note_left(gathering->team, gathering->told, &page);
    *left = page.left.count;
    *of = gathering->told->lifters.count;
    return *of > 1 && *left * 2 > *of && !options_accept(gathering->team->options, "all");
}
