#include "writing/html/html.h"

#include "base/text.h"
#include "writing/escape.h"
#include "writing/gnuplot/plots_embedded.h"
#include "writing/html/html_parts.h"

#include <stdlib.h>
#include <string.h>

struct html *html_new(struct arena *arena, struct output *output)
{
    struct html *html = ARENA_NEW(arena, struct html);
    html->arena = arena;
    html->output = output;
    html->ids = names_new(arena);
    return html;
}

static void end_tag(struct html *html)
{
    if (html->tag_open)
        output_put(html->output, ">", 1);
    html->tag_open = false;
}

void html_markup(struct html *html, const char *bytes, size_t length)
{
    end_tag(html);
    output_put(html->output, bytes, length);
}

void html_open(struct html *html, const char *element)
{
    if (html->depth == HTML_DEEPEST)
        abort(); /* none of our pages nests that deep */
    end_tag(html);
    output_put(html->output, "<", 1); /* not by a format: measured, a page has tens of thousands of elements */
    output_text(html->output, element);
    html->open[html->depth++] = element;
    html->tag_open = true;
}

void html_attribute(struct html *html, const char *name, const char *value)
{
    output_put(html->output, " ", 1);
    output_text(html->output, name);
    output_put(html->output, "=\"", 2);
    escape_html(html->output, value);
    output_put(html->output, "\"", 1);
}

void html_text(struct html *html, const char *text)
{
    end_tag(html);
    escape_html(html->output, text);
}

void html_include(struct html *html, struct output *written)
{
    end_tag(html);
    output_copy(written, html->output);
}

static bool is_void(const char *element)
{
    return !strcmp(element, "meta") || !strcmp(element, "br") || !strcmp(element, "input");
}

/* The source has line breaks after blocks, so that a page can be read and compared. */
static bool ends_line(const char *element)
{
    static const char *const within[] = {"a", "code", "span", "strong", "td", "th", "svg"};
    for (size_t i = 0; i < sizeof within / sizeof *within; i++)
        if (!strcmp(element, within[i]))
            return false;
    return true;
}

void html_close(struct html *html)
{
    const char *element = html->open[--html->depth];
    end_tag(html);
    if (!is_void(element)) {
        output_put(html->output, "</", 2);
        output_text(html->output, element);
        output_put(html->output, ">", 1);
    }
    if (ends_line(element))
        output_put(html->output, "\n", 1);
}

void html_open_class(struct html *html, const char *element, const char *class_name)
{
    html_open(html, element);
    if (class_name)
        html_attribute(html, "class", class_name);
}

void html_put(struct html *html, const char *element, const char *class_name, const char *text)
{
    html_open_class(html, element, class_name);
    html_text(html, text);
    html_close(html);
}

void html_heading(struct html *html, int level, const char *text)
{
    static const char *const elements[] = {"h1", "h2", "h3", "h4", "h5", "h6"};
    html_put(html, elements[level > 6 ? 5 : level - 1], NULL, text);
}

/* --- the page ------------------------------------------------------------------------------------------------------
 */

static void meta(struct html *html, const char *name, const char *value, const char *content)
{
    html_open(html, "meta");
    html_attribute(html, name, value);
    if (content)
        html_attribute(html, "content", content);
    html_close(html);
}

static void put_styles(struct html *html, const char *name)
{
    html_open(html, "style");
    for (size_t i = 0; i < plots_embedded_count; i++)
        if (!strcmp(plots_embedded[i].name, name))
            html_markup(html, (const char *)plots_embedded[i].text, plots_embedded[i].length);
    html_close(html);
}

void html_page_open(struct html *html, const char *title, const char *styles)
{
    html_page_open_with(html, title, styles, NULL);
}

void html_page_open_with(struct html *html, const char *title, const char *styles, const char *policy)
{
    static const char least[] = "default-src 'none'; style-src 'unsafe-inline'; img-src data:";
    html_markup(html, "<!DOCTYPE html>\n", 16);
    html_open(html, "html");
    html_attribute(html, "lang", "en");
    html_open(html, "head");
    meta(html, "charset", "utf-8", NULL);
    meta(html, "http-equiv", "Content-Security-Policy",
         policy ? arena_printf(html->arena, "%s; %s", least, policy) : least);
    meta(html, "name", "viewport", "width=device-width, initial-scale=1");
    meta(html, "name", "color-scheme", "light dark");
    meta(html, "name", "referrer", "no-referrer");
    html_put(html, "title", NULL, title);
    put_styles(html, styles);
    html_close(html);
    html_open(html, "body");
}

void html_page_close(struct html *html)
{
    while (html->depth)
        html_close(html);
}

const char *html_id(struct html *html, const char *words)
{
    char *name = arena_copy(html->arena, escape_file_name(html->arena, text_fold(html->arena, words)));
    for (char *at = name; *at; at++)
        if (*at == '_')
            *at = '-';
    const char *id = arena_printf(html->arena, "s-%s", name); /* an id may begin with a digit, a CSS name may not */
    const char *wanted = id;
    uint32_t number;
    for (int copy = 2; names_find(html->ids, id, strlen(id), &number); copy++)
        id = arena_printf(html->arena, "%s-%d", wanted, copy);
    names_add(html->ids, id, strlen(id));
    return id;
}

/* --- tables ---------------------------------------------------------------------------------------------------------
 */

static void open_box(struct html *html, const char *caption)
{
    html_open_class(html, "div", "scroll");
    html_attribute(html, "tabindex", "0"); /* so that it can be scrolled from the keyboard */
    html_attribute(html, "role", "group");
    html_attribute(html, "aria-label", caption);
    html_open(html, "table");
    html_put(html, "caption", NULL, caption);
    html_open(html, "thead");
    html_open(html, "tr");
}

static void close_head(struct html *html)
{
    html_close(html);
    html_close(html);
    html_open(html, "tbody");
}

static void title_cell(struct html *html, const char *title)
{
    html_open(html, "th");
    html_attribute(html, "scope", "col");
    html_text(html, title);
    html_close(html);
}

#define LONGEST_WORD 28 /* columns: longer words may be broken */

static void cell(struct html *html, bool names_row, bool is_number, const char *text)
{
    const char *class_name = is_number ? "number" : text_width(text) <= LONGEST_WORD ? "word" : NULL;
    html_open_class(html, names_row ? "th" : "td", class_name);
    if (names_row)
        html_attribute(html, "scope", "row");
    html_text(html, text);
    html_close(html);
}

void html_table_open(struct html *html, const char *caption, const struct column *columns, size_t count,
                     enum mass_unit unit)
{
    html->columns = columns;
    html->column_count = count;
    html->cells = row_cells_new(html->arena, columns, count);
    html->unit = unit;
    open_box(html, caption);
    for (size_t i = 0; i < count; i++)
        if (columns[i].title)
            title_cell(html, columns[i].quantity == QUANTITY_LOAD ? name_in_unit(html->arena, columns[i].title, unit)
                                                                  : columns[i].title);
    close_head(html);
}

void html_table_row(struct html *html, const void *row)
{
    html_open(html, "tr");
    const struct cell *cells = row_cells_get(html->cells, row);
    for (size_t i = 0; i < html->column_count; i++) {
        char buffer[CELL_BYTES];
        bool is_number;
        if (!html->columns[i].title)
            continue;
        const char *text = cell_for_people(html->arena, &html->columns[i], &cells[i], html->unit, buffer, &is_number);
        cell(html, i == 0, is_number, text);
    }
    html_close(html);
}

void html_table_close(struct html *html)
{
    for (int i = 0; i < 3; i++) /* close tbody, table and box */
        html_close(html);
}

/* A sign, digits, a per cent sign: such cells are aligned to the right. */
static bool looks_like_number(const char *text)
{
    text += strspn(text, "+-");
    size_t length = strspn(text, "0123456789.");
    return strpbrk(text, "0123456789") == text && (!text[length] || !strcmp(text + length, " %"));
}

void html_table_of_words(struct html *html, const char *caption, const char *const *titles, size_t columns,
                         const char *const *cells, size_t cell_count)
{
    open_box(html, caption);
    for (size_t i = 0; i < columns; i++)
        title_cell(html, titles[i]);
    close_head(html);
    for (size_t i = 0; i + columns <= cell_count; i += columns) {
        html_open(html, "tr");
        for (size_t j = 0; j < columns; j++)
            cell(html, j == 0, j && looks_like_number(cells[i + j]), cells[i + j]);
        html_close(html);
    }
    html_table_close(html);
}
