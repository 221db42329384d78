/* HTML, written element by element. All text and every attribute's value goes in through escape_html; names of
 * elements and attributes are literals of the program. Elements are closed in reverse order.
 *
 * Our pages load nothing: styles are embedded, the only script is the one below, and the Content-Security-Policy
 * makes the browser enforce this. */
#ifndef TAUTLINE_WRITING_HTML_H
#define TAUTLINE_WRITING_HTML_H

#include "base/arena.h"
#include "writing/output.h"
#include "writing/table.h"

#include <stdbool.h>
#include <stddef.h>

struct html;

struct html *html_new(struct arena *arena, struct output *output);

/* From the doctype to the open body. `styles`: a file of plots/, "report.css". */
void html_page_open(struct html *html, const char *title, const char *styles);
/* The same with additions to the policy; NULL: none. */
void html_page_open_with(struct html *html, const char *title, const char *styles, const char *policy);
void html_page_close(struct html *html); /* also closes everything that is still open */

void html_open(struct html *html, const char *element);
/* Adds to the element just opened, before anything is put into it. */
void html_attribute(struct html *html, const char *name, const char *value);
void html_text(struct html *html, const char *text);
void html_close(struct html *html); /* closes the innermost open element */

/* Includes what another `struct html` wrote to memory. */
void html_include(struct html *html, struct output *written);

/* An element that holds only text; class_name NULL: no class. */
void html_put(struct html *html, const char *element, const char *class_name, const char *text);
void html_open_class(struct html *html, const char *element, const char *class_name);
void html_heading(struct html *html, int level, const char *text); /* from 1; a level below 6 is written as 6 */

/* An id that no other element of the page has, made of letters, digits and dashes; owned by the arena. */
const char *html_id(struct html *html, const char *words);

/* Tables, in a box that scrolls by itself. The first column is the header of its row. */
void html_table_open(struct html *html, const char *caption, const struct column *columns, size_t count,
                     enum mass_unit unit);
void html_table_row(struct html *html, const void *row);
void html_table_close(struct html *html);
/* The same for texts, row by row; cells that look like numbers are aligned to the right. */
void html_table_of_words(struct html *html, const char *caption, const char *const *titles, size_t columns,
                         const char *const *cells, size_t cell_count);

/* Markup made by the program itself; never anything from an input. */
void html_markup(struct html *html, const char *bytes, size_t length);

#endif
