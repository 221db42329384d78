#include "commands/start/start_columns.h"

#include "commands/start/start.h"

#include "base/text.h"
#include "commands/start/start_blocks.h"
#include "reading/csv/columns.h"
#include "reading/csv/csv_rows.h"
#include "reading/input/input.h"

#include <stdio.h>
#include <string.h>

#define LINE(...) start_line_add(start, block, (struct start_line){__VA_ARGS__})
#define ROWS_SHOWN 3
#define COLUMNS_SHOWN 100

static const struct
{
    enum log_field field;
    const char *key, *remark, *question;
} asked[] = {
    {FIELD_DATE, "date", "the day of training", "Which header names the day of training?"},
    {FIELD_LIFT, "lift", "the lift", "Which header names the lift?"},
    {FIELD_WEIGHT, "weight", "the straight weight, or the whole load", "Which header names the weight?"},
    {FIELD_REPS, "reps", "the repetitions", "Which header names the repetitions?"},
};
#define ASKED_COUNT (sizeof asked / sizeof *asked)

struct headers /* of the exports that were not understood */
{
    const char *about;         /* headers and rows, file by file */
    bool missing[ASKED_COUNT]; /* fields that no header names */
};

static const char *line_at(struct start *start, const char *head, size_t length, size_t *from)
{
    const char *end = memchr(head + *from, '\n', length - *from);
    size_t bytes = end ? (size_t)(end - head) - *from : length - *from;
    const char *line = arena_text(start->arena, head + *from, bytes);
    *from += bytes + (end != NULL);
    return text_cut(start->arena, line, COLUMNS_SHOWN);
}

/* Maps the headers with the delimiter under which the line names most fields. */
static void map_headers(struct start *start, const char *line, size_t length, struct column_map *best)
{
    size_t most = 0;
    columns_map(start->arena, best, NULL, 0, start->known);
    for (const char *delimiter = ",;\t|"; *delimiter; delimiter++) {
        const char *const *cells;
        struct column_map map;
        size_t count = csv_split_record(start->arena, line, length, *delimiter, &cells), found = 0;
        columns_map(start->arena, &map, cells, count, start->known);
        for (size_t i = 0; i < ASKED_COUNT; i++)
            found += map.of[asked[i].field].count > 0;
        if (found > most) {
            *best = map;
            most = found;
        }
    }
}

/* Notes a file's header, at `line` where that is known, and the rows below it. */
static void see_export(struct start *start, struct headers *headers, const char *path, uint32_t line)
{
    struct input *input = strcmp(path, "-") ? input_open(start->arena, path, diags_new(start->arena)) : NULL;
    struct column_map map;
    size_t length, from = 0;
    if (!input)
        return;
    const char *head = input_head(input, &length);
    for (uint32_t i = 1; i < line && from < length; i++)
        line_at(start, head, length, &from);
    while (!line && from < length && strchr(" \t\n,;|", head[from]))
        from++;
    map_headers(start, head + from, length - from, &map);
    for (size_t i = 0; i < ASKED_COUNT; i++)
        headers->missing[i] |= !map.of[asked[i].field].count;
    headers->about = arena_printf(start->arena, "%s%s begins with:\n", headers->about, path);
    for (size_t row = 0; row <= ROWS_SHOWN && from < length; row++)
        headers->about = arena_printf(start->arena, "%s    %s\n", headers->about, line_at(start, head, length, &from));
    input_close(input);
}

static struct headers see_exports(struct start *start)
{
    struct headers headers = {
        .about = "An export was not understood. Say which header names what; separate several by commas.\n"};
    for (const struct diag *diag = diags_first(start->diags); diag; diag = diag->next)
        if ((diag->id == DIAG_MISSING_COLUMN || diag->id == DIAG_NOT_A_LOG) && diag->at.file)
            see_export(start, &headers, diag->at.file, diag->at.line);
    return headers;
}

/* Lists headers that were not recognised, with those that were. NULL: all were recognised. */
static const char *idle_headers(struct start *start)
{
    const char *lines = NULL;
    for (size_t i = 0; i < start->log->files.count; i++) {
        const struct log_file *file = &start->log->files.items[i];
        if (!file->columns || !strstr(file->columns, " = ignored"))
            continue;
        const char *before = lines ? lines
                                   : "These headers are ignored. Does one of them hold chains, bands or notes? If not, "
                                     "leave this as it is.\n";
        lines = arena_printf(start->arena, "%s%s: %s\n", before, file->path,
                             text_cut(start->arena, file->columns, 400));
    }
    return lines;
}

/* If a user is there to answer, shows first what the questions are about. */
static void show(const struct start *start, const char *about)
{
    for (const char *line = about; start->asking && *line; line += strcspn(line, "\n"), line += *line == '\n')
        fprintf(stderr, "%s\n", text_visible(start->arena, arena_text(start->arena, line, strcspn(line, "\n"))));
}

static size_t add_missing(struct start *start, struct start_block *block, const struct headers *headers)
{
    size_t count = 0;
    for (size_t i = 0; i < ASKED_COUNT; i++) {
        if (!headers->missing[i])
            continue;
        LINE(asked[i].key, "___", .remark = asked[i].remark, .question = asked[i].question);
        count++;
    }
    return count;
}

bool start_columns_block(struct start *start, bool not_understood)
{
    struct headers headers = {0};
    if (not_understood)
        headers = see_exports(start);
    const char *about = not_understood ? headers.about : idle_headers(start);
    if (!about)
        return false;
    struct start_block *block = start_block_add(start, "[columns]",
                                                arena_printf(start->arena, "--- Columns ---\n%s", about));
    if (not_understood)
        show(start, about);
    /* If an export lacks one field, its other headers are known words, so only that field is asked for. */
    bool asks_gear = !not_understood || add_missing(start, block, &headers) != 1;
    LINE("chain", "___", .remark = "the header of chains",
         .question = asks_gear ? "Which header names the chains, if any does?" : NULL);
    LINE("band", "___", .remark = "the header of bands",
         .question = asks_gear ? "Which header names the bands, if any does?" : NULL);
    LINE("note", "___", .remark = "the header of notes");
    return true;
}
