#include "writing/gnuplot/gnuplot.h"

#include "base/number.h"
#include "writing/escape.h"
#include "writing/gnuplot/describe.h"
#include "writing/gnuplot/plots_embedded.h"

#include <math.h>
#include <stdbool.h>
#include <string.h>

struct gp_script
{
    struct arena *arena;
    const struct plot_text *style, *template;
    struct output *parameters, *data;
    const char *heading, *sentence;
    const char *svg;        /* the name of its file; NULL: the picture is of another kind */
    const char *open_block; /* without its $; NULL: none */
    bool row_begun;
};

static const struct
{
    const char *picture, *ending;
} pictures[] = {
    [GP_SVG] = {"svg", "svg"},
    [GP_PNG] = {"png", "png"},
    [GP_PDF] = {"pdf", "pdf"},
    [GP_DUMB] = {"dumb", "txt"},
};

static const struct plot_text *embedded(const char *name)
{
    for (size_t i = 0; i < plots_embedded_count; i++)
        if (!strcmp(plots_embedded[i].name, name))
            return &plots_embedded[i];
    return NULL;
}

struct gp_script *gp_new(struct arena *arena, const char *template_name)
{
    const struct plot_text *style = embedded("style"), *template = embedded(template_name);
    if (!style || !template || style == template)
        return NULL;
    struct gp_script *script = ARENA_NEW(arena, struct gp_script);
    script->arena = arena;
    script->style = style;
    script->template = template;
    script->heading = script->sentence = "";
    script->parameters = output_to_memory(arena);
    script->data = output_to_memory(arena);
    return script;
}

const char *gp_picture(struct gp_script *script, enum gp_picture picture, const char *file_name)
{
    /* gnuplot would run a command after a `|` at the beginning of the name: a safe name has none. */
    const char *safe = escape_file_name(script->arena, file_name);
    const char *whole = arena_printf(script->arena, "%s.%s", safe, pictures[picture].ending);
    script->svg = picture == GP_SVG ? whole : NULL;
    gp_set_text(script, "picture", pictures[picture].picture);
    gp_set_text(script, "picture_name", whole);
    return whole;
}

static void put_number(struct output *output, double value)
{
    char buffer[32] = "NaN";
    if (isfinite(value))
        number_print(buffer, value);
    output_text(output, buffer);
}

void gp_set_number(struct gp_script *script, const char *name, double value)
{
    output_printf(script->parameters, "%s = ", name);
    put_number(script->parameters, value);
    output_put(script->parameters, "\n", 1);
}

void gp_set_text(struct gp_script *script, const char *name, const char *text)
{
    if (!strcmp(name, "heading"))
        script->heading = arena_copy(script->arena, text);
    if (!strcmp(name, "sentence"))
        script->sentence = arena_copy(script->arena, text);
    output_printf(script->parameters, "%s = %s\n", name, escape_gnuplot(script->arena, text));
}

static void end_block(struct gp_script *script)
{
    if (script->row_begun)
        gp_row_end(script);
    if (script->open_block)
        output_printf(script->data, "END_OF_%s\n", script->open_block);
    script->open_block = NULL;
}

void gp_block(struct gp_script *script, const char *name)
{
    end_block(script);
    script->open_block = name + 1;
    output_printf(script->data, "%s << END_OF_%s\n", name, script->open_block);
}

static void begin_cell(struct gp_script *script)
{
    if (script->row_begun)
        output_put(script->data, " ", 1);
    script->row_begun = true;
}

void gp_cell_number(struct gp_script *script, double value)
{
    begin_cell(script);
    put_number(script->data, value);
}

void gp_cell_text(struct gp_script *script, const char *text)
{
    begin_cell(script);
    output_text(script->data, escape_gnuplot_cell(script->arena, text));
}

void gp_cell_day(struct gp_script *script, day_number day)
{
    char buffer[16];
    begin_cell(script);
    date_print(buffer, day);
    output_text(script->data, buffer);
}

void gp_row_end(struct gp_script *script)
{
    output_put(script->data, "\n", 1);
    script->row_begun = false;
}

void gp_part_end(struct gp_script *script)
{
    output_put(script->data, "\n\n", 2);
}

static void put_memory(struct output *output, struct output *memory)
{
    size_t length;
    const char *text = output_memory(memory, &length);
    output_put(output, text, length);
}

static void put_plot_text(struct output *output, const struct plot_text *plot)
{
    output_put(output, (const char *)plot->text, plot->length);
}

void gp_describe(struct gp_script *script, struct arena *arena, const char *script_path)
{
    const char *slash = strrchr(script_path, '/');
    size_t folder = slash ? (size_t)(slash - script_path) + 1 : 0;
    if (script->svg)
        describe_svg(arena, arena_printf(arena, "%.*s%s", (int)folder, script_path, script->svg), script->heading,
                     script->sentence);
}

void gp_write(struct gp_script *script, struct output *output)
{
    end_block(script);
    output_printf(output,
                  "# A picture for gnuplot 5.4 or newer. To draw it: gnuplot FILE\n"
                  "# Parameters and data first; then the style and the template %s.gp, which say what may be set.\n\n",
                  script->template->name);
    put_memory(output, script->parameters);
    output_put(output, "\n", 1);
    put_memory(output, script->data);
    output_put(output, "\n", 1);
    put_plot_text(output, script->style);
    output_put(output, "\n", 1);
    put_plot_text(output, script->template);
}
