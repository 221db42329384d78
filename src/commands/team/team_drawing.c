#include "commands/team/team_drawing.h"

#include "base/text.h"
#include "commands/pictures/drawing.h"
#include "commands/pictures/pictures.h"
#include "commands/report/html/report_html.h"
#include "commands/team/team_publish.h"
#include "writing/gnuplot/render.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define SECONDS_A_PICTURE 0.5 /* of extra time, for each picture drawn by one process */
#define DRAWING_PART 0.4      /* share of a lifter's time that all pictures together may take */
#define PROBE_SECONDS 5.0
#define PROBE_PART 0.125
#define PROBE "plots/.probe.gp"

struct drawing
{
    const char *script, *picture; /* as the folder calls them */
    struct gp_script *gp;
    bool done;
};

typedef LIST(struct drawing) drawing_list;

static void trouble(struct work *work, const char *script, const char *why)
{
    if (!work->undrawn)
        work->undrawn = arena_printf(work->arena, "%s was not drawn: %s", script, *why ? why : "gnuplot failed");
}

static bool reuses(const struct options *options)
{
    return !options->render || !strcmp(options->render, "changed");
}

/* Writes the scripts, and lists the pictures that must be drawn. */
static bool write_scripts(struct work *work, drawing_list *drawings, bool wanted)
{
    static const char *const endings[] = {[GP_SVG] = "svg", [GP_PNG] = "png", [GP_PDF] = "pdf", [GP_DUMB] = "txt"};
    const struct options *options = work->team->options;
    struct picture_style style = {
        .kind = drawing_kind(options->render), .width = options->picture_width, .height = options->picture_height};
    struct pictures pictures = pictures_make(&work->session, &style);
    for (size_t i = 0; i < pictures.list.count; i++) {
        const struct picture *picture = &pictures.list.items[i];
        const char *script = arena_printf(work->arena, "plots/%s.gp", picture->name);
        const char *drawn = arena_printf(work->arena, "plots/%s.%s", picture->name, endings[style.kind]);
        struct output *output = folder_output(work->folder, script);
        if (!output)
            return false;
        gp_write(picture->script, output);
        folder_written(work->folder, output);
        if (wanted && !(reuses(options) && folder_reuse(work->folder, work->lifter->state, script, drawn)))
            *LIST_ADD(work->arena, drawings) = (struct drawing){script, drawn, picture->script, false};
    }
    return true;
}

/* Finds out whether gnuplot itself hangs, or only this script. */
static bool gnuplot_hangs(struct work *work)
{
    struct output *output = folder_scratch(work->folder, PROBE);
    if (!output)
        return true;
    output_text(output, "set terminal dumb\nplot 0\n");
    if (!output_commit(output))
        return true;
    struct render render = render_script(work->arena, folder_path(work->folder, PROBE),
                                         fmin(PROBE_SECONDS, PROBE_PART * work->team->lifter_seconds));
    return render.result == RENDER_TIME_OUT;
}

static const char *why_not(struct work *work, const struct render *render)
{
    switch (render->result) {
    case RENDER_TIME_OUT:
        return "gnuplot took too long";
    case RENDER_FAILED:
        return text_visible(work->arena, render->message);
    case RENDER_NO_GNUPLOT:
    case RENDER_DONE:
        break;
    }
    return "gnuplot made no picture";
}

/* Draws the rest from `begin` on with one gnuplot. Returns the index of the first that it did not draw, or the count
 * of all. */
static size_t draw_from(struct work *work, drawing_list *drawings, size_t begin, struct render *render)
{
    size_t count = drawings->count, missing = count;
    const char **scripts = ARENA_ARRAY(work->arena, const char *, count - begin);
    for (size_t i = begin; i < count; i++)
        scripts[i - begin] = folder_path(work->folder, drawings->items[i].script);
    double seconds = work->team->picture_seconds + SECONDS_A_PICTURE * (double)(count - begin - 1);
    *render = render_scripts(work->arena, scripts, count - begin,
                             fmin(seconds, DRAWING_PART * work->team->lifter_seconds));
    for (size_t i = begin; i < count; i++) {
        gp_describe(drawings->items[i].gp, work->arena, folder_path(work->folder, drawings->items[i].script));
        drawings->items[i].done = folder_add(work->folder, drawings->items[i].picture);
        if (!drawings->items[i].done && missing == count)
            missing = i;
    }
    return missing;
}

/* A script that fails ends gnuplot, so the next gnuplot draws the pictures after it. False: gnuplot is not to be
 * tried again tonight. */
static bool draw_all(struct work *work, drawing_list *drawings)
{
    for (size_t begin = 0; begin < drawings->count;) {
        struct render render;
        size_t missing = draw_from(work, drawings, begin, &render);
        if (render.result == RENDER_NO_GNUPLOT)
            return false;
        if (missing == drawings->count)
            return true;
        trouble(work, drawings->items[missing].script, why_not(work, &render));
        if (render.result == RENDER_TIME_OUT && gnuplot_hangs(work)) {
            *work->team->gnuplot_hangs = true;
            return false;
        }
        if (render.result == RENDER_DONE)
            return true; /* it ended well, so all pictures are drawn that can be */
        begin = missing + 1;
    }
    return true;
}

void work_draw(struct work *work)
{
    drawing_list drawings = {0};
    bool wanted = drawing_wanted(work->team->options->render), hangs = *work->team->gnuplot_hangs;
    work->no_drawing = !wanted || hangs;
    if (!write_scripts(work, &drawings, wanted) || !wanted || !drawings.count)
        return;
    if (hangs)
        trouble(work, drawings.items[0].script, "gnuplot did not end for another lifter tonight");
    else
        work->no_drawing = !draw_all(work, &drawings);
}

/* Without memory for it, the page would be another one than what was asked for. */
static void set_path(const char *path)
{
    if (setenv("PATH", path, 1))
        arena_out_of_memory(strlen(path));
}

/* Where gnuplot hangs, or is not wanted, the page must not run it either: it would find the one on PATH. */
void work_write_page(struct work *work)
{
    struct output *output = folder_output(work->folder, "report.html");
    const char *before = arena_copy(work->arena, getenv("PATH"));
    if (!output)
        return;
    if (work->no_drawing)
        set_path("");
    report_html(&work->session, output);
    if (work->no_drawing && before)
        set_path(before);
    folder_written(work->folder, output);
    work->state->report = "report.html";
}
