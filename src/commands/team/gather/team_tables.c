#include "commands/team/gather/team_tables.h"

#include "commands/team/gather/team_fill.h"
#include "commands/team/gather/team_gather.h"
#include "commands/team/team_below.h"
#include "writing/escape.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#define SHOWN 200 /* at most, new refusals of which the text is kept */

enum refused_cell
{
    REFUSED_FILE,
    REFUSED_LINE,
    REFUSED_ID = 4,
    REFUSED_MESSAGE,
    REFUSED_EXCERPT = 7
};

struct joined
{
    struct gathering *gathering;
    struct arena *arena, *scratch; /* for the whole table; for one row */
    struct output *output;
    struct map *seen, *old; /* rows already written; refusals already reported. NULL for findings */
    size_t rows;            /* in this file, with the header */
    bool any;
    size_t written;
};

/* A line number changes when lines are inserted above it, so a refusal is identified by its record and by what is
 * wrong with it. */
static const char *refusal_key(struct arena *arena, const struct csv_row *row)
{
    if (row->count <= REFUSED_EXCERPT)
        return "";
    return arena_printf(arena, "%s\n%s\n%s", row->cells[REFUSED_FILE], row->cells[REFUSED_ID],
                        row->cells[REFUSED_EXCERPT]);
}

static bool note_old(void *context, const struct csv_row *row)
{
    struct joined *joined = context;
    const char *key = refusal_key(joined->scratch, row);
    map_put(joined->old, key, strlen(key), joined);
    arena_reset(joined->scratch);
    return true;
}

static void note_refusal(struct joined *joined, const struct csv_row *row)
{
    struct team_page *page = &joined->gathering->page;
    struct arena *arena = joined->gathering->arena;
    const char *key = refusal_key(joined->scratch, row);
    if (map_get(joined->old, key, strlen(key)) || row->count <= REFUSED_EXCERPT)
        return;
    page->new_refused++;
    if (page->refusals.count < SHOWN)
        *LIST_ADD(arena, &page->refusals) = arena_printf(arena, "%s:%s: %s", row->cells[REFUSED_FILE],
                                                         row->cells[REFUSED_LINE], row->cells[REFUSED_MESSAGE]);
}

static bool join_row(void *context, const struct csv_row *row)
{
    struct joined *joined = context;
    bool header = !joined->rows++;
    if (header && joined->any)
        return true;
    joined->any = true;
    struct output *text = output_to_memory(joined->scratch);
    size_t length;
    for (size_t i = 0; i < row->count; i++) {
        output_text(text, i ? "," : "");
        escape_csv(text, row->cells[i], false); /* as the folder has it, which is safe if wanted */
    }
    output_text(text, "\n");
    const char *bytes = output_memory(text, &length);
    bool again = joined->seen && !header && map_get(joined->seen, bytes, length);
    if (!again) {
        output_put(joined->output, bytes, length);
        joined->written += !header;
    }
    if (joined->seen && !header && !again) {
        map_put(joined->seen, bytes, length, joined);
        note_refusal(joined, row);
    }
    arena_reset(joined->scratch);
    return true;
}

static bool has_tables(const struct team_lifter *lifter)
{
    return lifter->state && *lifter->state->results;
}

/* A line refused in a shared log is in several folders, but goes in here only once. */
static struct output *join(struct gathering *gathering, const char *name, bool refused, size_t *written)
{
    struct team *team = gathering->team;
    int64_t bytes;
    struct joined joined = {.gathering = gathering,
                            .arena = arena_new(),
                            .scratch = arena_new(),
                            .output = output_open_in(gathering->arena, team->root, name)};
    if (refused) {
        joined.seen = map_new(joined.arena);
        joined.old = map_new(joined.arena);
        if (below_is_file(team->root, name, &bytes) &&
            bytes == gathering->told->refused_bytes) /* else it is a killed run's file: nothing was reported */
            gather_read(team, name, CELLS_WRITTEN, note_old, &joined);
    }
    for (size_t i = 0; i < team->count && joined.output; i++) {
        joined.rows = 0;
        if (has_tables(&team->lifters[i]) &&
            !gather_read_of(team, &team->lifters[i], name, CELLS_WRITTEN, join_row, &joined))
            gather_say(gathering, team->lifters[i].path, "a file of it cannot be read");
    }
    if (!joined.output)
        gather_say(gathering, arena_printf(gathering->arena, "%s/%s", team->into, name), strerror(errno));
    *written = joined.written;
    arena_free(joined.scratch);
    arena_free(joined.arena);
    return joined.output;
}

static void put_in_place(struct gathering *gathering, const char *name, struct output *output, int64_t *bytes)
{
    *bytes = -1;
    if (output && !output_commit(output))
        gather_say(gathering, arena_printf(gathering->arena, "%s/%s", gathering->team->into, name), strerror(errno));
    else
        below_is_file(gathering->team->root, name, bytes);
}

static const char *tables_digest(const struct gathering *gathering)
{
    const struct team *team = gathering->team;
    char text[DIGEST_TEXT];
    struct digester *to = digester_new();
    digest_count(to, team->options->spreadsheet_safe);
    for (size_t i = 0; i < team->count; i++) {
        digest_text(to, team->lifters[i].folder);
        digest_text(to, has_tables(&team->lifters[i]) ? team->lifters[i].state->results : "");
    }
    digester_end(to, text);
    return arena_copy(gathering->arena, text);
}

static bool stands(const struct gathering *gathering, const char *name, int64_t bytes)
{
    int64_t now;
    return below_is_file(gathering->team->root, name, &now) && now == bytes;
}

void team_tables_write(struct gathering *gathering)
{
    struct told *told = gathering->told;
    const char *digest = tables_digest(gathering);
    size_t findings;
    gathering->page.refused = told->refused;
    if (!strcmp(digest, told->tables) && stands(gathering, "findings.csv", told->findings_bytes) &&
        stands(gathering, "refused.csv", told->refused_bytes))
        return;
    struct output *of_findings = join(gathering, "findings.csv", false, &findings);
    struct output *of_refused = join(gathering, "refused.csv", true, &gathering->page.refused);
    put_in_place(gathering, "findings.csv", of_findings, &told->findings_bytes);
    put_in_place(gathering, "refused.csv", of_refused, &told->refused_bytes);
    told->tables = gathering->good ? digest : "";
    told->refused = gathering->page.refused;
}

/* --- news without a store --------------------------------------------------------------------------------------------------------- */

struct news
{
    struct gathering *gathering;
    struct arena *arena;
    struct map *numbers, *known;
    const char *lifter; /* NULL: each row of the team's table gives the lifter */
    size_t rows;
};

static const char *finding_key(struct news *news, const struct csv_row *row)
{
    const char *lifter = news->lifter ? news->lifter : row->cells[2];
    size_t number = finding_number(news->arena, news->numbers, lifter, row);
    return arena_printf(news->arena, "%s\n%s\n%s\n%s\n%zu", lifter, row->cells[0], row->cells[3], row->cells[4],
                        number);
}

static bool note_known(void *context, const struct csv_row *row)
{
    struct news *news = context;
    if (!news->rows++ || row->count < 11)
        return true;
    const char *key = finding_key(news, row);
    map_put(news->known, key, strlen(key), news);
    return true;
}

static bool note_news(void *context, const struct csv_row *row)
{
    struct news *news = context;
    struct arena *arena = news->gathering->arena;
    if (!news->rows++ || row->count < 11)
        return true;
    const char *key = finding_key(news, row);
    if (!map_get(news->known, key, strlen(key)))
        gather_fresh(news->gathering,
                     &(struct team_finding){news->lifter, arena_copy(arena, row->cells[3]),
                                            arena_copy(arena, row->cells[4]), arena_copy(arena, row->cells[1]),
                                            arena_copy(arena, row->cells[0]), arena_copy(arena, row->cells[9])});
    return true;
}

void team_news_without_store(struct gathering *gathering)
{
    const struct team *team = gathering->team;
    struct team_page *page = &gathering->page;
    struct news news = {.gathering = gathering, .arena = arena_new()};
    page->first_night = false;
    page->fresh.count = 0;
    for (size_t i = 0; i < team->count; i++)
        gathering->team->lifters[i].new_findings = 0;
    news.numbers = map_new(news.arena);
    news.known = map_new(news.arena);
    page->news_from_csv = gather_findings_stand(gathering) &&
                          gather_read(team, "findings.csv", CELLS_MEANT, note_known, &news);
    page->news_unknown = !page->news_from_csv;
    news.numbers = map_new(news.arena);
    for (size_t i = 0; i < team->count && page->news_from_csv; i++) {
        news.lifter = team->lifters[i].block->name;
        news.rows = 0;
        if (has_tables(&team->lifters[i]))
            gather_read_of(team, &team->lifters[i], "findings.csv", CELLS_MEANT, note_news, &news);
    }
    arena_free(news.arena);
}
