#include "commands/pictures/plot.h"

#include "commands/command.h"

#include "base/text.h"
#include "commands/pictures/drawing.h"
#include "commands/pictures/pictures.h"
#include "commands/session/folder.h"
#include "commands/session/overwriting.h"
#include "commands/session/summary.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>

static bool make_folder(struct session *session, const char *path)
{
    if (folder_make(session->arena, path))
        return true;
    fprintf(stderr, "tautline: the folder %s cannot be made: %s\n", text_visible(session->arena, path),
            errno == EEXIST ? "it is a file" : strerror(errno));
    session->unwritten = true;
    return false;
}

enum exit_status run_plot(struct arena *arena, const struct options *options)
{
    struct session session;
    if (!options->into)
        return usage_error("plot", "plot needs --into DIR, the folder for its scripts and pictures");
    session_open(&session, arena, options, false);
    if (!session_may_fill(&session, options->into) || !make_folder(&session, options->into))
        return session_close(&session);
    struct picture_style style = {
        .kind = drawing_kind(options->render), .width = options->picture_width, .height = options->picture_height};
    struct pictures pictures = pictures_make(&session, &style);
    struct drawing_job *drawings = ARENA_ARRAY(arena, struct drawing_job, pictures.list.count);
    for (size_t i = 0; i < pictures.list.count; i++)
        drawings[i] = (struct drawing_job){arena_printf(arena, "%s/%s.gp", options->into, pictures.list.items[i].name),
                                           pictures.list.items[i].script};
    struct drawing_counts counts = drawing_all(&session, drawings, pictures.list.count,
                                               drawing_wanted(options->render));
    struct output *output = output_open(arena, NULL);
    output_printf(output, "%s: %zu %s, %zu %s\n", text_visible(arena, options->into), counts.written,
                  plural(counts.written, "script", "scripts"), counts.rendered,
                  plural(counts.rendered, "picture", "pictures"));
    session_commit(&session, output);
    return session_close(&session);
}
