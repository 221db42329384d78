#include "writing/workbook/book_file.h"

#include "base/text.h"
#include "writing/table_rows.h"
#include "writing/unfinished.h"
#include "writing/workbook/sheet_cells.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>
#include <xlsxwriter.h>

struct book_file
{
    struct arena *arena;
    lxw_workbook *book;
    char *path;
    struct unfinished unfinished;
    struct sheet_formats formats;
};

struct book_sheet
{
    struct book_file *file;
    const char *name;
    lxw_worksheet *sheet;
    unsigned number; /* of sheets with this name */
    uint32_t row;    /* index of the next row */
    const struct column *columns;
    size_t count;
    enum mass_unit unit;
    size_t *widths; /* in characters, by column */
    size_t group_columns;
    LIST(struct book_group) groups;
};

struct book_page
{
    struct book_file *file;
    lxw_worksheet *sheet;
    uint32_t row, chart_row;
};

/* --- the file ---------------------------------------------------------------------------------------------------- */

static char *temporary_name(struct arena *arena, struct unfinished *unfinished)
{
    const char *folder = getenv("TMPDIR");
    char *path = text_path(arena, folder && *folder ? folder : "/tmp", "tautline-XXXXXX");
    int file = mkstemp(path);
    if (file < 0)
        return NULL;
    close(file);
    unfinished_begin(unfinished, path, false);
    return path;
}

static void describe(lxw_workbook *book, const struct book_about *about)
{
    lxw_doc_properties properties = {.title = (char *)(uintptr_t)about->title,
                                     .comments = (char *)(uintptr_t)about->program,
                                     .created = (time_t)about->made * 86400};
    workbook_set_properties(book, &properties);
}

struct book_file *book_file_new(struct arena *arena, const struct book_about *about)
{
    struct book_file *file = ARENA_NEW(arena, struct book_file);
    lxw_workbook_options options = {.constant_memory = about->large};
    file->arena = arena;
    file->path = temporary_name(arena, &file->unfinished);
    if (!file->path)
        return NULL;
    file->book = workbook_new_opt(file->path, &options);
    if (!file->book)
        arena_out_of_memory(0);
    describe(file->book, about);
    sheet_formats_make(&file->formats, file->book);
    return file;
}

/* Copies the temporary file into the output. */
static bool put_file(const char *path, struct output *output)
{
    char bytes[OUTPUT_ROOM];
    int from = open(path, O_RDONLY | O_CLOEXEC);
    if (from < 0)
        return false;
    ssize_t got;
    while ((got = read(from, bytes, sizeof bytes)) > 0)
        output_put(output, bytes, (size_t)got);
    int error = got < 0 ? errno : 0;
    close(from);
    errno = error;
    return !error;
}

bool book_file_end(struct book_file *file, struct output *output)
{
    errno = 0;
    lxw_error error = workbook_close(file->book);
    if (error == LXW_ERROR_MEMORY_MALLOC_FAILED)
        arena_out_of_memory(0);
    bool good = error == LXW_NO_ERROR && put_file(file->path, output);
    int why = errno ? errno : EIO;
    unlink(file->path);
    unfinished_end(&file->unfinished);
    if (!good)
        errno = why;
    return good;
}

/* --- tables ------------------------------------------------------------------------------------------------------ */

static void set_up_print(struct book_file *file, lxw_worksheet *sheet)
{
    (void)file;
    worksheet_set_landscape(sheet);
    worksheet_set_paper(sheet, 9); /* A4 */
    worksheet_fit_to_pages(sheet, 1, 0);
    worksheet_set_footer(sheet, "&L&A&RPage &P of &N");
}

static lxw_worksheet *new_sheet(struct book_file *file, const char *name)
{
    lxw_worksheet *sheet = workbook_add_worksheet(file->book, name);
    if (!sheet)
        arena_out_of_memory(0);
    set_up_print(file, sheet);
    return sheet;
}

struct book_sheet *book_sheet_new(struct book_file *file, const char *name)
{
    struct book_sheet *sheet = ARENA_NEW(file->arena, struct book_sheet);
    *sheet = (struct book_sheet){.file = file, .name = name, .number = 1};
    sheet->sheet = new_sheet(file, name);
    return sheet;
}

static void put_header(struct book_sheet *sheet)
{
    for (size_t i = 0; i < sheet->count; i++) {
        const char *title = sheet_title(sheet->file->arena, &sheet->columns[i], sheet->unit);
        size_t width = text_width(title);
        sheet->widths[i] = width + 3; /* room for the filter's button */
        worksheet_write_string(sheet->sheet, 0, (lxw_col_t)i, title, sheet->file->formats.header);
    }
    worksheet_freeze_panes(sheet->sheet, 1, 0);
    worksheet_repeat_rows(sheet->sheet, 0, 0);
    sheet->row = 1;
}

static void begin_rows(void *context, const struct column *columns, size_t count, enum mass_unit unit)
{
    struct book_sheet *sheet = context;
    sheet->columns = columns;
    sheet->count = count;
    sheet->unit = unit;
    sheet->widths = ARENA_ARRAY(sheet->file->arena, size_t, count);
    put_header(sheet);
}

/* The sheet has as many rows as it may: the next rows go to another sheet of the name. */
static void go_on(struct book_sheet *sheet)
{
    book_sheet_end(sheet);
    sheet->sheet = new_sheet(sheet->file, arena_printf(sheet->file->arena, "%s %u", sheet->name, ++sheet->number));
    put_header(sheet);
}

static const char *key_of(struct book_sheet *sheet, const struct cell *cells)
{
    const char *key = "";
    for (size_t i = 0; i < sheet->group_columns; i++) {
        bool is_text = cells[i].kind == CELL_TEXT || cells[i].kind == CELL_NAME;
        if (is_text && cells[i].value.text && *cells[i].value.text)
            key = arena_printf(sheet->file->arena, "%s%s%s", key, *key ? ", " : "", cells[i].value.text);
    }
    return key;
}

static void group_row(struct book_sheet *sheet, const struct cell *cells)
{
    struct book_group *last = sheet->groups.count ? &sheet->groups.items[sheet->groups.count - 1] : NULL;
    const char *key = key_of(sheet, cells);
    if (!last || strcmp(last->key, key) != 0) {
        last = LIST_ADD(sheet->file->arena, &sheet->groups);
        *last = (struct book_group){.key = key, .first = sheet->row};
    }
    last->last = sheet->row;
}

static void put_row(void *context, const struct cell *cells)
{
    struct book_sheet *sheet = context;
    if (sheet->row >= LXW_ROW_MAX)
        go_on(sheet);
    if (sheet->group_columns && sheet->number == 1)
        group_row(sheet, cells);
    for (size_t i = 0; i < sheet->count; i++) {
        size_t width = sheet_put_cell(sheet->sheet, &sheet->file->formats, sheet->row, (lxw_col_t)i, &sheet->columns[i],
                                      &cells[i], sheet->unit);
        if (width > sheet->widths[i])
            sheet->widths[i] = width;
    }
    sheet->row++;
}

struct table_sink book_sheet_sink(struct book_sheet *sheet)
{
    return (struct table_sink){sheet, begin_rows, put_row};
}

#define WIDEST 60 /* characters; longer cells are cut on screen, not in the file */

void book_sheet_end(struct book_sheet *sheet)
{
    for (size_t i = 0; i < sheet->count; i++)
        worksheet_set_column(sheet->sheet, (lxw_col_t)i, (lxw_col_t)i,
                             (double)(sheet->widths[i] < WIDEST ? sheet->widths[i] : WIDEST) + 1, NULL);
    if (sheet->count)
        worksheet_autofilter(sheet->sheet, 0, 0, sheet->row - 1, (lxw_col_t)(sheet->count - 1));
}

void book_sheet_group_by(struct book_sheet *sheet, size_t columns)
{
    sheet->group_columns = columns;
}

const struct book_group *book_sheet_groups(const struct book_sheet *sheet, size_t *count)
{
    *count = sheet->groups.count;
    return sheet->groups.items;
}

/* --- the page for people ----------------------------------------------------------------------------------------- */

struct book_page *book_page_new(struct book_file *file, const char *name)
{
    struct book_page *page = ARENA_NEW(file->arena, struct book_page);
    page->file = file;
    page->sheet = new_sheet(file, name);
    worksheet_set_column(page->sheet, 0, 0, 28, NULL);
    worksheet_set_column(page->sheet, 1, 1, 24, NULL);
    worksheet_set_column(page->sheet, 2, BOOK_PAGE_COLUMNS - 1, 12, NULL);
    return page;
}

void book_page_heading(struct book_page *page, const char *text)
{
    if (page->row)
        page->row++;
    sheet_put_text(page->sheet, page->row++, 0, text, page->file->formats.heading);
}

void book_page_row(struct book_page *page, const struct cell *cells, size_t count, enum mass_unit unit)
{
    for (size_t i = 0; i < count; i++) {
        const struct column plain = {.quantity = cells[i].quantity, .decimals = 1};
        sheet_put_cell(page->sheet, &page->file->formats, page->row, (lxw_col_t)i, &plain, &cells[i], unit);
    }
    page->row++;
}

/* Spans all columns and sets the row height: merged cells do not grow by themselves. */
void book_page_paragraph(struct book_page *page, const char *text)
{
    size_t lines = text_width(text) / 110 + 1;
    worksheet_set_row(page->sheet, page->row, 15.0 * (double)lines, NULL);
    worksheet_merge_range(page->sheet, page->row, 0, page->row, BOOK_PAGE_COLUMNS - 1, "",
                          page->file->formats.paragraph);
    sheet_put_text(page->sheet, page->row++, 0, text, page->file->formats.paragraph);
}

#define CHART_ROWS 16

static void add_series(lxw_chart *chart, const struct book_chart *wanted, size_t column)
{
    const struct book_sheet *of = wanted->of;
    lxw_chart_series *series = chart_add_series(chart, NULL, NULL);
    if (!series)
        arena_out_of_memory(0);
    chart_series_set_categories(series, of->name, wanted->rows.first, (lxw_col_t)wanted->category, wanted->rows.last,
                                (lxw_col_t)wanted->category);
    chart_series_set_values(series, of->name, wanted->rows.first, (lxw_col_t)column, wanted->rows.last,
                            (lxw_col_t)column);
    chart_series_set_name_range(series, of->name, 0, (lxw_col_t)column);
}

void book_page_chart(struct book_page *page, const struct book_chart *wanted)
{
    lxw_chart *chart = workbook_add_chart(page->file->book, wanted->bars ? LXW_CHART_COLUMN : LXW_CHART_LINE);
    if (!chart)
        arena_out_of_memory(0);
    for (size_t i = 0; i < wanted->count; i++)
        add_series(chart, wanted, wanted->columns[i]);
    chart_title_set_name(chart, wanted->title);
    chart_axis_set_name(chart->y_axis, wanted->unit);
    chart_axis_set_num_format(chart->x_axis, "d mmm yy");
    chart_legend_set_position(chart, LXW_CHART_LEGEND_BOTTOM);
    lxw_chart_options size = {.x_scale = 1.7, .y_scale = 1.0};
    worksheet_insert_chart_opt(page->sheet, page->row + 1, 0, chart, &size);
    page->row += CHART_ROWS;
}
