#include "commands/session/overwriting.h"

#include "base/names.h"
#include "base/text.h"
#include "reading/corrections/log_corrections.h"

#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

typedef LIST(const char *) path_list;

static void add_path(struct session *session, path_list *paths, const char *path)
{
    if (path && strcmp(path, "-") != 0)
        *LIST_ADD(session->arena, paths) = path;
}

/* The files that this run read, by the names given or found. */
static path_list input_paths(struct session *session)
{
    const struct options *options = session->options;
    path_list paths = {0};
    add_path(session, &paths, session->gym ? session->gym->path : NULL);
    add_path(session, &paths, options->plan);
    for (size_t i = 0; session->corrections && i < session->corrections->list.count; i++)
        add_path(session, &paths, session->corrections->list.items[i]->path);
    for (size_t i = 0; i < options->argument_count; i++)
        add_path(session, &paths, options->arguments[i]);
    for (size_t i = 0; session->log && i < session->log->files.count; i++)
        add_path(session, &paths, session->log->files.items[i].path);
    return paths;
}

static const char *file_key(struct arena *arena, const struct stat *status)
{
    return arena_printf(arena, "%llu %llu", (unsigned long long)status->st_dev, (unsigned long long)status->st_ino);
}

static bool was_read(struct session *session, const struct stat *output)
{
    struct stat input;
    if (!session->inputs) {
        path_list paths = input_paths(session);
        session->inputs = map_new(session->arena);
        for (size_t i = 0; i < paths.count; i++) {
            if (stat(paths.items[i], &input))
                continue;
            const char *key = file_key(session->arena, &input);
            map_put(session->inputs, key, strlen(key), session);
        }
    }
    const char *key = file_key(session->arena, output);
    return map_get(session->inputs, key, strlen(key));
}

static bool refuse(struct session *session, const char *path, const char *why)
{
    fprintf(stderr, "tautline: %s %s\n", text_visible(session->arena, path), why);
    session->misused = true;
    return false;
}

bool session_may_write(struct session *session, const char *path)
{
    struct stat output;
    if (session->misused)
        return false;
    if (!path || !strcmp(path, "-") || stat(path, &output) || !S_ISREG(output.st_mode) || !was_read(session, &output))
        return true;
    return refuse(session, path, "is one of the files that were read and is not overwritten; name another");
}

bool session_may_write_corrections(struct session *session, const char *path)
{
    struct session others = *session;
    others.inputs = NULL;
    others.corrections = NULL;
    bool may = session_may_write(&others, path);
    session->misused = others.misused;
    return may;
}

bool session_may_fill(struct session *session, const char *folder)
{
    struct stat output, input;
    if (session->misused)
        return false;
    if (stat(folder, &output))
        return true;
    path_list paths = input_paths(session);
    for (size_t i = 0; i < paths.count; i++) {
        const char *path = paths.items[i], *holder = path;
        if (stat(path, &input))
            continue;
        if (!S_ISDIR(input.st_mode))
            holder = text_folder(session->arena, path);
        if (stat(holder, &input) == 0 && input.st_dev == output.st_dev && input.st_ino == output.st_ino)
            return refuse(session, folder, "holds files that were read: name another folder for the output");
    }
    return true;
}
