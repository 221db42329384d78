/* From the lifters' folders to what the team has in common: the store, team.csv, findings.csv, refused.csv, the page. Each file
 * follows from the folders and the gym file alone, whoever made the folders and wherever. */
#include "commands/team/team_gather.h"

#include "base/text.h"
#include "writing/escape.h"
#include "commands/team/team_names.h"
#include "commands/team/team_page.h"
#include "commands/team/team_publish.h"
#include "commands/team/team_store.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>

#define STORE_NAME "team.sqlite"

void gather_say(struct gathering *gathering, const char *path, const char *message)
{
    fprintf(stderr, "tautline: %s: %s\n", text_visible(gathering->arena, path), text_visible(gathering->arena, message));
    gathering->good = false;
}

bool gather_read(struct gathering *gathering, const char *path, csv_row_seen *seen, void *context)
{
    struct diags *diags = diags_new(gathering->arena);
    struct input *input = input_open(gathering->arena, path, diags);
    bool good = input && csv_rows_read(input, ',', 1, diags, seen, context);
    input_close(input);
    return good;
}

struct gathering *gather_begin(struct team *team)
{
    struct gathering *gathering = ARENA_NEW(team->arena, struct gathering);
    gathering->team = team;
    gathering->arena = team->arena;
    gathering->good = true;
    gathering->path = arena_printf(team->arena, "%s/" STORE_NAME, team->into);
    gathering->refused_seen = map_new(team->arena);
    folder_sweep(team->arena, team->into);
    team_store_open(gathering);
    return gathering;
}

/* --- CSV of the team ------------------------------------------------------------------------------------------------------------ */

struct joined
{
    struct gathering *gathering;
    struct arena *scratch;
    struct output *output;
    size_t rows; /* of this file, the header too */
    bool any, once; /* once: a row that stands in several folders is written once */
    size_t written;
};

static bool join_row(void *context, const struct csv_row *row)
{
    struct joined *joined = context;
    struct output *text = output_to_memory(joined->scratch);
    size_t length;
    bool header = !joined->rows++;
    if (header && joined->any)
        return true;
    joined->any = true;
    for (size_t i = 0; i < row->count; i++) {
        output_text(text, i ? "," : "");
        escape_csv(text, row->cells[i], joined->gathering->team->options->spreadsheet_safe);
    }
    output_text(text, "\n");
    const char *bytes = output_memory(text, &length);
    if (joined->once && !header) {
        if (map_get(joined->gathering->refused_seen, bytes, length))
            return true;
        map_put(joined->gathering->refused_seen, bytes, length, joined);
    }
    output_put(joined->output, bytes, length);
    joined->written += !header;
    arena_reset(joined->scratch);
    return true;
}

static size_t join(struct gathering *gathering, const char *name, bool once)
{
    const char *path = arena_printf(gathering->arena, "%s/%s", gathering->team->into, name);
    struct joined joined = {.gathering = gathering, .scratch = arena_new(), .output = output_open(gathering->arena, path), .once = once};
    for (size_t i = 0; i < gathering->team->count && joined.output; i++) {
        const struct team_lifter *lifter = &gathering->team->lifters[i];
        joined.rows = 0;
        if (lifter->state && *lifter->state->results &&
            !gather_read(gathering, arena_printf(gathering->arena, "%s/%s", lifter->path, name), join_row, &joined))
            gather_say(gathering, lifter->path, "a file of it cannot be read");
    }
    arena_free(joined.scratch);
    if (!joined.output || !output_commit(joined.output))
        gather_say(gathering, path, strerror(errno));
    return joined.written;
}

/* --- the page and team.csv ------------------------------------------------------------------------------------------------------- */

#define GET(name, ...)                                         \
    static void get_##name(const void *row, struct cell *cell) \
    {                                                          \
        const struct team_lifter *lifter = row;                \
        const struct team_state *state = lifter->state;        \
        (void)state;                                           \
        __VA_ARGS__;                                           \
    }
#define GET_COUNT(name, count) GET(name, if (state) cell_count(cell, (long)(count)))

GET(lifter, cell_text(cell, lifter->block->name))
GET(folder, cell_text(cell, lifter->folder))
GET(state, cell_text(cell, !state ? "none" : lifter->work == WORK_FAILED ? "kept" : "good"))
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
    {"lifter", NULL, QUANTITY_PLAIN, 0, get_lifter},
    {"folder", NULL, QUANTITY_PLAIN, 0, get_folder},
    {"state", NULL, QUANTITY_PLAIN, 0, get_state},
    {"first", NULL, QUANTITY_PLAIN, 0, get_first},
    {"last", NULL, QUANTITY_PLAIN, 0, get_last},
    {"sets", NULL, QUANTITY_PLAIN, 0, get_sets},
    {"files", NULL, QUANTITY_PLAIN, 0, get_files},
    {"refused", NULL, QUANTITY_PLAIN, 0, get_refused},
    {"faults", NULL, QUANTITY_PLAIN, 0, get_faults},
    {"cautions", NULL, QUANTITY_PLAIN, 0, get_cautions},
    {"notes", NULL, QUANTITY_PLAIN, 0, get_notes},
    {"new_findings", NULL, QUANTITY_PLAIN, 0, get_new_findings},
    {"message", NULL, QUANTITY_PLAIN, 0, get_message},
};

static void write_team(struct gathering *gathering)
{
    const struct team *team = gathering->team;
    const char *path = arena_printf(gathering->arena, "%s/team.csv", team->into);
    struct output *output = output_open(gathering->arena, path);
    struct table_style style = {.format = FORMAT_CSV, .unit = UNIT_KG, .spreadsheet_safe = team->options->spreadsheet_safe};
    if (output) {
        struct table_writer *writer = table_open(gathering->arena, output, columns, sizeof columns / sizeof *columns, &style);
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
    struct output *output = output_open(gathering->arena, path);
    if (output)
        team_page_write(gathering->team, &gathering->page, output);
    if (!output || !output_commit(output))
        gather_say(gathering, path, strerror(errno));
}

const struct team_page *gather_page(const struct gathering *gathering)
{
    return &gathering->page;
}

bool gather_end(struct gathering *gathering)
{
    const struct team *team = gathering->team;
    team_store_fill(gathering);
    team_store_fresh(gathering);
    gathering->page.refused = join(gathering, "refused.csv", true);
    join(gathering, "findings.csv", false);
    for (size_t i = 0; i < team->count; i++)
        gathering->page.failed += team->lifters[i].work == WORK_FAILED;
    team_note_names(team, &gathering->page);
    write_team(gathering);
    write_page(gathering);
    team_store_finish(gathering); /* last: until then the night is not over */
    return gathering->good;
}
