/* plot: gnuplot scripts, each self-contained, rendered too where gnuplot is found. */
#include "commands/command.h"

#include "base/text.h"
#include "commands/pictures.h"
#include "commands/summary.h"
#include "writing/render.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

#define RENDER_SECONDS 60.0

static bool make_folder(struct session *session, const char *path)
{
    struct arena *arena = session->arena;
    for (const char *slash = path; (slash = strchr(slash + 1, '/'));)
        mkdir(arena_text(arena, path, (size_t)(slash - path)), 0777); /* parents; the last one tells */
    struct stat status;
    if ((mkdir(path, 0777) == 0 || errno == EEXIST) && stat(path, &status) == 0 && S_ISDIR(status.st_mode))
        return true;
    fprintf(stderr, "tautline: the folder %s cannot be made: %s\n", text_visible(arena, path), errno == EEXIST ? "it is a file" : strerror(errno));
    session->unwritten = true;
    return false;
}

static const char *write_script(struct session *session, const char *folder, const struct picture *picture)
{
    const char *path = arena_printf(session->arena, "%s/%s.gp", folder, picture->name);
    struct output *output = output_open(session->arena, path);
    if (output)
        gp_write(picture->script, output);
    if (output && output_commit(output))
        return path;
    fprintf(stderr, "tautline: %s cannot be written: %s\n", text_visible(session->arena, path), strerror(errno));
    session->unwritten = true;
    return NULL;
}

/* False: rendering makes no sense any more. */
static bool render_picture(struct session *session, const char *path, size_t *rendered)
{
    struct render render = render_script(session->arena, path, RENDER_SECONDS);
    if (render.result == RENDER_DONE) {
        ++*rendered;
        return true;
    }
    if (render.result == RENDER_NO_GNUPLOT) {
        fprintf(stderr, "tautline: note: no gnuplot was found: the scripts are written and not drawn; draw one with: gnuplot FILE\n");
        return false;
    }
    fprintf(stderr, "tautline: %s was not drawn: %s\n", text_visible(session->arena, path),
            render.result == RENDER_TIME_OUT ? "gnuplot took too long" : text_visible(session->arena, render.message));
    session->unwritten = true;
    return true;
}

static enum gp_picture picture_kind(const char *render)
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

enum exit_status run_plot(struct arena *arena, const struct options *options)
{
    struct session session;
    if (!options->into)
        return usage_error("plot", "plot wants --into DIR, the folder for its scripts and pictures");
    session_open(&session, arena, options, false);
    if (!make_folder(&session, options->into))
        return session_close(&session);
    struct pictures pictures = pictures_make(&session, picture_kind(options->render), options->picture_width, options->picture_height);
    bool draw = !options->render || strcmp(options->render, "none") != 0;
    size_t written = 0, rendered = 0;
    for (size_t i = 0; i < pictures.list.count; i++) {
        const char *path = write_script(&session, options->into, &pictures.list.items[i]);
        written += path != NULL;
        if (path && draw)
            draw = render_picture(&session, path, &rendered);
    }
    struct output *output = output_open(arena, NULL);
    output_printf(output, "%s: %zu %s, %zu %s\n", text_visible(arena, options->into), written, plural(written, "script", "scripts"), rendered,
                  plural(rendered, "picture", "pictures"));
    session_commit(&session, output);
    return session_close(&session);
}
