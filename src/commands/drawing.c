#include "commands/drawing.h"

#include "base/text.h"
#include "writing/render.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>

#define RENDER_SECONDS 60.0

enum gp_picture drawing_kind(const char *render)
{
    static const struct
    {
        const char *name;
        enum gp_picture kind;
    } kinds[] = {{"svg", GP_SVG}, {"png", GP_PNG}, {"pdf", GP_PDF}, {"text", GP_DUMB}};
    for (size_t i = 0; render && i < sizeof kinds / sizeof *kinds; i++)
        if (!strcmp(kinds[i].name, render))
            return kinds[i].kind;
    return GP_SVG;
}

bool drawing_wanted(const char *render)
{
    return !render || strcmp(render, "none") != 0;
}

bool drawing_write(struct session *session, const char *path, struct gp_script *script)
{
    struct output *output = output_open(session->arena, path);
    if (output)
        gp_write(script, output);
    if (output && output_commit(output))
        return true;
    fprintf(stderr, "tautline: %s cannot be written: %s\n", text_visible(session->arena, path), strerror(errno));
    session->unwritten = true;
    return false;
}

bool drawing_render(struct session *session, const char *path, size_t *rendered)
{
    struct render render = render_script(session->arena, path, RENDER_SECONDS);
    if (render.result == RENDER_DONE) {
        ++*rendered;
        return true;
    }
    if (render.result == RENDER_NO_GNUPLOT) {
        fprintf(stderr, "tautline: note: no gnuplot was found: the scripts are written and not drawn; draw one with: "
                        "gnuplot FILE\n");
        return false;
    }
    fprintf(stderr, "tautline: %s was not drawn: %s\n", text_visible(session->arena, path),
            render.result == RENDER_TIME_OUT ? "gnuplot took too long" : text_visible(session->arena, render.message));
    session->unwritten = true;
    return true;
}
