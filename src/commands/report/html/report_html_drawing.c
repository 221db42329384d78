#include "commands/report/html/report_html_drawing.h"

#include "commands/report/html/report_html_parts.h"

#include "writing/gnuplot/render.h"
#include "writing/html/html_svg.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define SECONDS_AT_LEAST 20.0
#define SECONDS_A_PICTURE 0.5
#define MOST_RUNS 10 /* a picture that fails ends the run: the next run begins after it */
#define LARGEST_PICTURE (16 * 1024 * 1024)

static const char *make_folder(struct arena *arena)
{
    const char *parent = getenv("TMPDIR");
    char *path = arena_printf(arena, "%s/tautline-XXXXXX", parent && *parent == '/' ? parent : "/tmp");
    return mkdtemp(path);
}

static const char *file_path(const struct page *page, const char *folder, size_t picture, const char *ending)
{
    return arena_printf(page->report.session->arena, "%s/%s.%s", folder, page->pictures.list.items[picture].name,
                        ending);
}

/* The whole file, in the arena; NULL: it cannot be read. */
static const char *read_picture(struct arena *arena, const char *path)
{
    FILE *file = fopen(path, "rb");
    if (!file)
        return NULL;
    char *text = NULL;
    long size = fseek(file, 0, SEEK_END) ? -1 : ftell(file);
    rewind(file);
    if (size > 0 && size <= LARGEST_PICTURE) {
        text = arena_alloc(arena, (size_t)size + 1);
        if (fread(text, 1, (size_t)size, file) != (size_t)size)
            text = NULL;
    }
    fclose(file);
    return text;
}

/* Was it drawn to its end? */
static bool is_whole(const char *path)
{
    char end[32] = "";
    FILE *file = fopen(path, "rb");
    if (!file)
        return false;
    bool whole = !fseek(file, 1 - (long)sizeof end, SEEK_END) && fread(end, 1, sizeof end - 1, file) &&
                 strstr(end, "</svg>") && ftell(file) <= LARGEST_PICTURE;
    fclose(file);
    return whole;
}

/* One script for all pictures from `begin` on. `reset session` undoes whatever one of them set. */
static bool write_script(const struct page *page, const char *path, size_t begin)
{
    struct output *output = output_open(page->report.session->arena, path);
    if (!output)
        return false;
    for (size_t i = begin; i < page->pictures.list.count; i++) {
        gp_write(page->pictures.list.items[i].script, output);
        output_text(output, "\nreset session\n");
    }
    return output_commit(output);
}

/* Notes which pictures were drawn, from `begin` on. Returns the index of the first missing one, or the count of all. */
static size_t note_pictures(struct page *page, const char *folder, size_t begin)
{
    size_t count = page->pictures.list.count, missing = count;
    for (size_t i = begin; i < count; i++) {
        page->drawn[i] = page->drawn[i] || is_whole(file_path(page, folder, i, "svg"));
        if (!page->drawn[i] && missing == count)
            missing = i;
    }
    return missing;
}

static const char *why_undrawn(const struct page *page, const struct render *render)
{
    switch (render->result) {
    case RENDER_NO_GNUPLOT:
        return "No gnuplot was found where this page was made: its pictures are missing, and their numbers are given "
               "as tables.";
    case RENDER_TIME_OUT:
        return "Drawing took too long: some pictures are missing, and their numbers are given as tables.";
    case RENDER_FAILED:
        fprintf(stderr, "tautline: a picture was not drawn: %s\n", render->message);
        break;
    case RENDER_DONE:
        break;
    }
    (void)page;
    return "Some pictures could not be drawn: their numbers are given as tables.";
}

void page_draw(struct page *page)
{
    struct arena *arena = page->report.session->arena;
    size_t count = page->pictures.list.count, begin = 0;
    page->drawn = ARENA_ARRAY(arena, bool, count);
    if (count && !render_find_gnuplot(arena)) { /* write no script of half a megabyte for nothing */
        page->undrawn = why_undrawn(page, &(struct render){.result = RENDER_NO_GNUPLOT});
        return;
    }
    page->folder = count ? make_folder(arena) : NULL;
    if (!page->folder) {
        page->undrawn = count ? "No folder could be made to draw in: the pictures' numbers are given as tables." : NULL;
        return;
    }
    page->unfinished = ARENA_NEW(arena, struct unfinished);
    unfinished_begin(page->unfinished, page->folder, true);
    const char *script = arena_printf(arena, "%s/pictures.gp", page->folder);
    double seconds = SECONDS_AT_LEAST + SECONDS_A_PICTURE * (double)count;
    for (int run = 0; run < MOST_RUNS && begin < count; run++) {
        struct render render = {.result = RENDER_FAILED, .message = "the script cannot be written"};
        if (write_script(page, script, begin))
            render = render_script(arena, script, seconds);
        size_t missing = note_pictures(page, page->folder, begin);
        if (missing < count)
            page->undrawn = why_undrawn(page, &render);
        if (render.result != RENDER_FAILED)
            break;
        begin = missing + 1;
    }
    unlink(script);
}

void page_end_drawing(struct page *page)
{
    if (page->folder)
        unfinished_drop(page->unfinished);
    page->folder = NULL;
}

/* --- figures --------------------------------------------------------------------------------------------------------
 */

/* A page of many pictures holds one of them at a time in memory. */
static bool put_svg(struct page *page, const struct picture *picture)
{
    size_t number = (size_t)(picture - page->pictures.list.items);
    if (!page->drawn[number])
        return false;
    struct arena *scratch = arena_new();
    const char *svg = read_picture(scratch, file_path(page, page->folder, number, "svg"));
    bool done = false;
    if (svg) {
        html_open_class(page->html, "div", "drawn");
        done = html_svg(page->html, svg,
                        arena_printf(page->report.session->arena, "%s. %s", picture->title, picture->sentence));
        html_close(page->html);
    }
    arena_free(scratch);
    return done;
}

void page_svg(struct page *page, const struct picture *picture)
{
    if (picture)
        put_svg(page, picture);
}

static void put_data(struct page *page, const struct picture *picture, bool open)
{
    const struct picture_data *data = &picture->data;
    if (!data->columns)
        return;
    html_open(page->html, "details");
    if (open)
        html_attribute(page->html, "open", "");
    html_put(page->html, "summary", NULL, "The numbers");
    html_table_of_words(page->html, picture->title, data->titles, data->columns, data->cells.items, data->cells.count);
    html_close(page->html);
}

void page_figure(struct page *page, const struct picture *picture)
{
    if (!picture)
        return;
    html_open(page->html, "figure");
    html_open(page->html, "figcaption");
    html_put(page->html, "strong", NULL, picture->title);
    html_text(page->html, picture->sentence);
    html_close(page->html);
    bool drawn = put_svg(page, picture);
    put_data(page, picture, !drawn);
    html_close(page->html);
}
