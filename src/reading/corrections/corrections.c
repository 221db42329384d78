#include "reading/corrections/corrections.h"

#include "base/names.h"
#include "base/number.h"
#include "base/text.h"
#include "reading/csv/csv_rows.h"

#include <string.h>
#include <sys/stat.h>

enum field
{
    FIELD_FILE,
    FIELD_LINE,
    FIELD_RECORD,
    FIELD_CORRECTION,
    FIELD_WHY,
    FIELDS
};

static const char *const field_names[FIELDS] = {"file", "line", "record", "correction", "why"};
#define NO_COLUMN SIZE_MAX

struct reader
{
    struct arena *arena;
    struct diags *diags;
    const char *path;
    char delimiter;
    bool header_read;
    size_t columns[FIELDS];
    LIST(struct correction) rows;
};

/* --- the file ------------------------------------------------------------------------------------------------------- */

/* Spreadsheets write another separator where the comma is the decimal sign. 0: not a header of corrections. */
static char find_delimiter(struct arena *scratch, struct input *input)
{
    size_t length;
    const char *head = input_head(input, &length);
    for (const char *delimiter = ",;\t"; *delimiter; delimiter++) {
        const char *const *cells;
        size_t count = csv_split_record(scratch, head, length, *delimiter, &cells), found = 0;
        for (size_t i = 0; i < count; i++)
            found += text_same_name(cells[i], field_names[FIELD_RECORD]) ||
                     text_same_name(cells[i], field_names[FIELD_CORRECTION]);
        if (found >= 2)
            return *delimiter;
    }
    return 0;
}

static void read_header(struct reader *reader, const struct csv_row *row)
{
    for (size_t field = 0; field < FIELDS; field++) {
        reader->columns[field] = NO_COLUMN;
        for (size_t i = row->count; i-- > 0;)
            if (text_same_name(row->cells[i], field_names[field]))
                reader->columns[field] = i;
    }
    reader->header_read = true;
}

static const char *cell(const struct reader *reader, const struct csv_row *row, enum field field)
{
    size_t column = reader->columns[field];
    return column < row->count ? row->cells[column] : "";
}

static uint32_t read_line_number(const char *text)
{
    double number;
    size_t length = strlen(text);
    bool whole = length && strspn(text, "0123456789") == length && number_whole(text, '.', &number) &&
                 number <= UINT32_MAX;
    return whole ? (uint32_t)number : 0;
}

static size_t lines_of(const char *text)
{
    return text_count(text, strlen(text), '\n') + 1;
}

static void refuse(const struct reader *reader, const struct csv_row *row, const char *message)
{
    diag_add(reader->diags, DIAG_BAD_CORRECTION, (struct place){.file = reader->path, .line = row->line}, NULL, NULL,
             "%s", message);
}

/* Blanks do not count as filled in; around the sign that drops a record they are ignored. */
static const char *filled_in(struct arena *arena, const char *text)
{
    const char *bare = text_squeeze(arena, text);
    return !*bare || !strcmp(bare, CORRECTION_DROPS) ? bare : arena_copy(arena, text);
}

/* A correction must have as many lines as its record, or messages about later lines would have wrong numbers. */
static bool see_row(void *context, const struct csv_row *row)
{
    struct reader *reader = context;
    if (!reader->header_read) {
        read_header(reader, row);
        return true;
    }
    const char *record = cell(reader, row, FIELD_RECORD), *correction = cell(reader, row, FIELD_CORRECTION);
    if (row->too_long) {
        refuse(reader, row, "a line of more than 1 MiB");
    } else if (row->open_quote) {
        refuse(reader, row, "a quote that never closes");
    } else if (!*record) {
        refuse(reader, row, "no record: give the record exactly as it is in the log");
    } else if (lines_of(record) > CORRECTION_LINES) {
        refuse(reader, row, "a record of more than 64 lines cannot be corrected this way");
    } else if (lines_of(correction) > lines_of(record)) {
        refuse(reader, row, "the correction has more lines than its record");
    } else {
        struct correction *made = LIST_ADD(reader->arena, &reader->rows);
        made->file = arena_copy(reader->arena, cell(reader, row, FIELD_FILE));
        made->record = arena_copy(reader->arena, record);
        made->correction = filled_in(reader->arena, correction);
        made->why = arena_copy(reader->arena, cell(reader, row, FIELD_WHY));
        made->line = read_line_number(cell(reader, row, FIELD_LINE));
        made->at = row->line;
    }
    return true;
}

struct corrections *corrections_read(struct arena *arena, const char *path, struct diags *diags)
{
    struct input *input = input_open(arena, path, diags);
    struct corrections *corrections = input ? corrections_of_input(arena, input, diags) : NULL;
    input_close(input);
    return corrections;
}

struct corrections *corrections_of_input(struct arena *arena, struct input *input, struct diags *diags)
{
    const char *path = input_name(input);
    struct reader reader = {.arena = arena, .diags = diags, .path = path};
    struct arena *scratch = arena_new();
    reader.delimiter = find_delimiter(scratch, input);
    arena_free(scratch);
    if (!reader.delimiter)
        diag_add(diags, DIAG_NOT_CORRECTIONS, (struct place){.file = path}, NULL, NULL,
                 "no header names record and correction: nothing in it was used");
    bool good = reader.delimiter && csv_rows_read(input, reader.delimiter, 1, diags, see_row, &reader);
    if (!good)
        return NULL;
    struct corrections *corrections = ARENA_NEW(arena, struct corrections);
    *corrections = (struct corrections){path, text_folder(arena, path), reader.rows.items, reader.rows.count};
    return corrections;
}

/* --- which lifter ------------------------------------------------------------------------------------------------- */

static const char *last_part(const char *path)
{
    const char *slash = strrchr(path, '/');
    return slash ? slash + 1 : path;
}

/* A name without a folder matches a file in any folder; a path is relative to the corrections' folder. */
static bool speaks_of(struct arena *scratch, const struct corrections *corrections, const struct correction *row,
                      const char *log_path)
{
    struct stat named, log;
    if (!strchr(row->file, '/'))
        return !strcmp(row->file, last_part(log_path));
    const char *path = *row->file == '/' ? row->file : text_path(scratch, corrections->folder, row->file);
    return !strcmp(path, log_path) || (stat(path, &named) == 0 && stat(log_path, &log) == 0 &&
                                       named.st_dev == log.st_dev && named.st_ino == log.st_ino);
}

static void add(struct file_corrections *file, struct correction *row)
{
    size_t length = strlen(row->record), lines = lines_of(row->record);
    if (map_get(file->by_record, row->record, length))
        return;
    map_put(file->by_record, row->record, length, row);
    file->count++;
    file->most_lines = lines > file->most_lines ? lines : file->most_lines;
}

struct file_corrections *corrections_of_file(struct arena *arena, struct file_corrections *file,
                                             struct corrections *corrections, const char *log_path)
{
    struct arena *scratch = arena_new();
    for (size_t i = 0; i < corrections->count; i++) {
        struct correction *row = &corrections->rows[i];
        bool same_as_before = i && !strcmp(row->file, row[-1].file);
        bool speaks = same_as_before ? row[-1].speaks : speaks_of(scratch, corrections, row, log_path);
        row->speaks = speaks;
        if (!speaks)
            continue;
        row->looked_for = true;
        if (!*row->correction)
            continue;
        if (!file) {
            file = ARENA_NEW(arena, struct file_corrections);
            file->by_record = map_new(arena);
        }
        add(file, row);
    }
    arena_free(scratch);
    return file;
}

const char *correction_of(const struct file_corrections *file, const char *record, size_t length)
{
    struct correction *row = map_get(file->by_record, record, length);
    if (!row)
        return NULL;
    atomic_fetch_add(&row->matched, 1);
    return row->correction;
}

const char *corrections_file_name(struct arena *arena, const char *folder, const char *log_path)
{
    const char *path = text_starts(log_path, "./") ? log_path + 2 : log_path;
    size_t length = strlen(folder);
    if (!strcmp(folder, "."))
        return *path == '/' || text_starts(path, "../") ? last_part(path) : path;
    if (text_starts(log_path, folder) && log_path[length] == '/' && log_path[length + 1])
        return arena_copy(arena, log_path + length + 1);
    return last_part(log_path);
}

static bool is_gone(struct arena *scratch, const struct corrections *corrections, const struct correction *row)
{
    struct stat status;
    return stat(*row->file == '/' ? row->file : text_path(scratch, corrections->folder, row->file), &status) != 0;
}

void corrections_say_unmatched(const struct corrections *corrections, struct diags *diags)
{
    struct arena *scratch = arena_new();
    for (size_t i = 0; i < corrections->count; i++) {
        const struct correction *row = &corrections->rows[i];
        if (*row->correction && !atomic_load(&row->matched) && (row->looked_for || is_gone(scratch, corrections, row)))
            diag_add(diags, DIAG_UNMATCHED_CORRECTION, (struct place){.file = corrections->path, .line = row->at}, NULL,
                     NULL, "no record of %s is the same as in this correction", *row->file ? row->file : "any log");
        arena_reset(scratch);
    }
    arena_free(scratch);
}
