#include "writing/gnuplot/describe.h"

#include "base/text.h"
#include "writing/escape.h"
#include "writing/output.h"

#include <stdio.h>
#include <string.h>

#define LARGEST_SVG (64L * 1024 * 1024)

static char *whole_file(struct arena *arena, const char *path, size_t *length)
{
    FILE *file = fopen(path, "rb");
    char *text = NULL;
    if (!file)
        return NULL;
    if (!fseek(file, 0, SEEK_END)) {
        long size = ftell(file);
        rewind(file);
        if (size > 0 && size <= LARGEST_SVG) {
            text = arena_alloc(arena, (size_t)size + 1);
            text[size] = '\0';
            *length = (size_t)size;
            if (fread(text, 1, (size_t)size, file) != (size_t)size)
                text = NULL;
        }
    }
    fclose(file);
    return text;
}

/* The rest, without the numbers that gnuplot gives as titles to what it plots: browsers show them as hints. */
static void put_rest(struct output *output, const char *rest, size_t length)
{
    static const char lead[] = "<title>gnuplot_plot_";
    for (const char *end = rest + length, *found; (found = strstr(rest, lead));) {
        const char *close = strstr(found, "</title>");
        if (!close)
            break;
        output_put(output, rest, (size_t)(found - rest));
        rest = close + strlen("</title>");
        length = (size_t)(end - rest);
    }
    output_put(output, rest, length);
}

bool describe_svg(struct arena *arena, const char *path, const char *title, const char *description)
{
    size_t length;
    char *svg = whole_file(arena, path, &length);
    const char *begin = svg ? strstr(svg, "<title>") : NULL;
    const char *end = begin ? strstr(begin, "</desc>") : NULL;
    if (!end)
        return false;
    struct output *output = output_open(arena, path);
    if (!output)
        return false;
    output_put(output, svg, (size_t)(begin - svg));
    output_text(output, "<title>");
    escape_html(output, text_visible(arena, title));
    output_text(output, "</title>\n<desc>");
    escape_html(output, text_visible(arena, description));
    put_rest(output, end, length - (size_t)(end - svg));
    return output_commit(output);
}
