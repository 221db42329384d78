#include "commands/pictures/drawing.h"

#include "base/parallel.h"
#include "base/text.h"
#include "commands/session/overwriting.h"
#include "writing/gnuplot/render.h"

#include <errno.h>
#include <pthread.h>
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

struct attempt /* the outcome of one drawing; it is reported later, so that all are reported in order */
{
    bool written;
    int write_error;
    struct render render;
};

static void try_to_write(struct session *session, const struct drawing_job *drawing, struct attempt *attempt)
{
    struct output *output = output_open(session->arena, drawing->path);
    if (output)
        gp_write(drawing->script, output);
    attempt->written = output && output_commit(output);
    attempt->write_error = errno;
}

static bool say_written(struct session *session, const char *path, const struct attempt *attempt)
{
    if (attempt->written)
        return true;
    fprintf(stderr, "tautline: %s cannot be written: %s\n", text_visible(session->arena, path),
            strerror(attempt->write_error));
    session->unwritten = true;
    return false;
}

static bool say_rendered(struct session *session, const char *path, const struct render *render, size_t *rendered)
{
    if (render->result == RENDER_DONE) {
        ++*rendered;
        return true;
    }
    if (render->result == RENDER_NO_GNUPLOT) {
        fprintf(stderr, "tautline: note: gnuplot was not found: the scripts were written but not drawn; draw one with: "
                        "gnuplot FILE\n");
        return false;
    }
    fprintf(stderr, "tautline: %s was not drawn: %s\n", text_visible(session->arena, path),
            render->result == RENDER_TIME_OUT ? "gnuplot took too long"
                                              : text_visible(session->arena, render->message));
    session->unwritten = true;
    return true;
}

/* Neither the script nor the picture that gnuplot makes from it may overwrite an input file. */
static bool may_draw(struct session *session, const char *path)
{
    static const char *const endings[] = {"svg", "png", "pdf", "txt"};
    const char *ending = strrchr(path, '.');
    size_t stem = ending && !strchr(ending, '/') ? (size_t)(ending - path) : strlen(path);
    bool may = session_may_write(session, path);
    for (size_t i = 0; may && i < sizeof endings / sizeof *endings; i++)
        may = session_may_write(session, arena_printf(session->arena, "%.*s.%s", (int)stem, path, endings[i]));
    return may;
}

bool drawing_write(struct session *session, const char *path, struct gp_script *script)
{
    struct attempt attempt;
    if (!may_draw(session, path))
        return false;
    try_to_write(session, &(struct drawing_job){path, script}, &attempt);
    return say_written(session, path, &attempt);
}

bool drawing_render(struct session *session, const char *path, struct gp_script *script, size_t *rendered)
{
    struct render render = render_script(session->arena, path, RENDER_SECONDS);
    if (render.result == RENDER_DONE)
        gp_describe(script, session->arena, path);
    return say_rendered(session, path, &render, rendered);
}

struct studio /* what several drawing threads share */
{
    struct session *session;
    const struct drawing_job *drawings;
    struct attempt *attempts;
    struct arena **arenas;   /* one per worker */
    pthread_mutex_t writing; /* the session's memory and the list of unfinished files allow one thread at a time */
    bool render;
};

static void draw(void *context, unsigned worker, size_t index)
{
    struct studio *studio = context;
    struct attempt *attempt = &studio->attempts[index];
    pthread_mutex_lock(&studio->writing);
    try_to_write(studio->session, &studio->drawings[index], attempt);
    pthread_mutex_unlock(&studio->writing);
    if (!attempt->written || !studio->render)
        return;
    attempt->render = render_script(studio->arenas[worker], studio->drawings[index].path, RENDER_SECONDS);
    if (attempt->render.result != RENDER_DONE)
        return;
    pthread_mutex_lock(&studio->writing);
    gp_describe(studio->drawings[index].script, studio->arenas[worker], studio->drawings[index].path);
    pthread_mutex_unlock(&studio->writing);
}

struct drawing_counts drawing_all(struct session *session, const struct drawing_job *drawings, size_t count,
                                  bool render)
{
    unsigned jobs = render ? session_jobs(session) : 1, workers = jobs < count ? jobs : (unsigned)count;
    struct arena *arena = session->arena;
    struct studio studio = {.session = session, .drawings = drawings, .render = render && render_find_gnuplot(arena)};
    struct drawing_counts counts = {0};
    for (size_t i = 0; i < count; i++)
        if (!may_draw(session, drawings[i].path))
            return counts;
    studio.attempts = ARENA_ARRAY(arena, struct attempt, count);
    studio.arenas = ARENA_ARRAY(arena, struct arena *, workers);
    for (unsigned i = 0; i < workers; i++)
        studio.arenas[i] = arena_new();
    pthread_mutex_init(&studio.writing, NULL);
    in_parallel(workers, count, draw, &studio);
    pthread_mutex_destroy(&studio.writing);
    for (size_t i = 0; i < count; i++) {
        struct attempt *attempt = &studio.attempts[i];
        if (!say_written(session, drawings[i].path, attempt))
            continue;
        counts.written++;
        if (!studio.render)
            attempt->render.result = RENDER_NO_GNUPLOT;
        if (render)
            render = say_rendered(session, drawings[i].path, &attempt->render, &counts.rendered);
    }
    for (unsigned i = 0; i < workers; i++)
        arena_free(studio.arenas[i]);
    return counts;
}
