#include "commands/team/team_publish.h"

#include "commands/team/team.h"

#include "writing/unfinished.h"
#include "commands/team/team_state.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define PLOTS "plots"

struct folder
{
    struct arena *arena;
    const char *path, *beside;
    struct unfinished unfinished; /* of `beside` */
    LIST(const char *) names;
    const char *fault; /* the first; NULL: none */
};

static void fail(struct folder *folder, const char *name)
{
    if (!folder->fault)
        folder->fault = arena_printf(folder->arena, "%s cannot be written: %s", name, strerror(errno));
}

/* Files of one folder; what else somebody put there stays. */
static void empty(struct arena *arena, const char *path)
{
    DIR *folder = opendir(path);
    if (!folder)
        return;
    for (struct dirent *entry; (entry = readdir(folder));)
        if (strcmp(entry->d_name, ".") != 0 && strcmp(entry->d_name, "..") != 0)
            unlink(arena_printf(arena, "%s/%s", path, entry->d_name));
    closedir(folder);
    rmdir(path);
}

/* Hidden, and named so by whoever was killed. */
static bool is_left_over(const char *name, const char *ending)
{
    size_t length = strlen(name), end = strlen(ending);
    return *name == '.' && length > end && !strcmp(name + length - end, ending);
}

void folder_sweep(struct arena *arena, const char *path)
{
    DIR *folder = opendir(path);
    if (!folder)
        return;
    for (struct dirent *entry; (entry = readdir(folder));)
        if (is_left_over(entry->d_name, ".tmp"))
            unlink(arena_printf(arena, "%s/%s", path, entry->d_name));
    closedir(folder);
}

void folders_sweep(struct arena *arena, const char *path)
{
    DIR *folder = opendir(path);
    if (!folder)
        return;
    for (struct dirent *entry; (entry = readdir(folder));) {
        if (!is_left_over(entry->d_name, ".new"))
            continue;
        empty(arena, arena_printf(arena, "%s/%s/" PLOTS, path, entry->d_name));
        empty(arena, arena_printf(arena, "%s/%s", path, entry->d_name));
    }
    closedir(folder);
}

void folder_discard(struct folder *folder)
{
    empty(folder->arena, folder_path(folder, PLOTS));
    empty(folder->arena, folder->beside);
    unfinished_end(&folder->unfinished);
}

struct folder *folder_begin(struct arena *arena, const char *path)
{
    struct folder *folder = ARENA_NEW(arena, struct folder);
    const char *slash = strrchr(path, '/');
    folder->arena = arena;
    folder->path = path;
    folder->beside = arena_printf(arena, "%.*s.%s.new", (int)(slash + 1 - path), path, slash + 1);
    folder_discard(folder); /* of a run that was killed */
    unfinished_begin(&folder->unfinished, folder->beside, true);
    if (mkdir(folder->beside, 0777) || mkdir(folder_path(folder, PLOTS), 0777))
        fail(folder, folder->beside);
    return folder;
}

const char *folder_path(const struct folder *folder, const char *name)
{
    return arena_printf(folder->arena, "%s/%s", folder->beside, name);
}

struct output *folder_output(struct folder *folder, const char *name)
{
    if (folder->fault)
        return NULL;
    *LIST_ADD(folder->arena, &folder->names) = name;
    return output_to_memory(folder->arena);
}

static bool write_whole(const char *path, const char *bytes, size_t length)
{
    int file = open(path, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    int error = file < 0 ? errno : 0;
    while (length && !error) {
        ssize_t written = write(file, bytes, length);
        if (written < 0 && errno != EINTR)
            error = errno;
        bytes += written > 0 ? written : 0;
        length -= written > 0 ? (size_t)written : 0;
    }
    if (file >= 0 && close(file) && errno != EINTR && !error)
        error = errno;
    errno = error;
    return !error;
}

void folder_written(struct folder *folder, struct output *output)
{
    size_t length;
    const char *name = folder->names.count ? folder->names.items[folder->names.count - 1] : "", *bytes = output ? output_memory(output, &length) : NULL;
    if (bytes && !write_whole(folder_path(folder, name), bytes, length))
        fail(folder, name);
}

void folder_add(struct folder *folder, const char *name)
{
    if (!access(folder_path(folder, name), F_OK))
        *LIST_ADD(folder->arena, &folder->names) = name;
}

/* What was made so far is on the disk before the first rename: one call for all of it, where fsync would cost one a file. */
static void sync_all(struct folder *folder)
{
    int file = open(folder->beside, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (file < 0 || syncfs(file))
        fail(folder, folder->beside);
    if (file >= 0)
        close(file);
}

static void sync_folder(const char *path)
{
    int file = open(path, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (file < 0)
        return;
    fsync(file);
    close(file);
}

static void note_outputs(struct folder *folder, struct team_state *state)
{
    for (size_t i = 0; i < folder->names.count; i++) {
        struct stat status;
        if (stat(folder_path(folder, folder->names.items[i]), &status))
            fail(folder, folder->names.items[i]);
        *LIST_ADD(folder->arena, &state->outputs) = (struct team_output){folder->names.items[i], status.st_size};
    }
}

static bool is_made(const struct folder *folder, const char *name)
{
    for (size_t i = 0; i < folder->names.count; i++)
        if (!strcmp(folder->names.items[i], name))
            return true;
    return false;
}

/* While files are moved, the old state must not vouch for them; yet it goes on naming all that may have to go. */
static void void_state(struct folder *folder, const struct team_state *before)
{
    struct team_state between = *before;
    between.key = between.results = "";
    if (!team_state_write(folder->arena, folder->path, &between))
        fail(folder, "state.json");
}

static void move_all(struct folder *folder)
{
    for (size_t i = 0; i < folder->names.count && !folder->fault; i++)
        if (rename(folder_path(folder, folder->names.items[i]), arena_printf(folder->arena, "%s/%s", folder->path, folder->names.items[i])))
            fail(folder, folder->names.items[i]);
}

/* Only what an earlier night wrote: notes that people keep there are theirs. */
static void remove_old(struct folder *folder, const struct team_state *before)
{
    for (size_t i = 0; before && i < before->outputs.count; i++)
        if (!is_made(folder, before->outputs.items[i].name) && !strstr(before->outputs.items[i].name, ".."))
            unlink(arena_printf(folder->arena, "%s/%s", folder->path, before->outputs.items[i].name));
}

const char *folder_publish(struct folder *folder, struct team_state *state, const struct team_state *before)
{
    const char *plots = arena_printf(folder->arena, "%s/" PLOTS, folder->path);
    note_outputs(folder, state);
    folder_sweep(folder->arena, folder->path);
    if (!folder->fault)
        sync_all(folder);
    if (!folder->fault && ((mkdir(folder->path, 0777) && errno != EEXIST) || (mkdir(plots, 0777) && errno != EEXIST)))
        fail(folder, folder->path);
    if (!folder->fault && before)
        void_state(folder, before);
    move_all(folder);
    if (!folder->fault) {
        remove_old(folder, before);
        sync_folder(plots);
        sync_folder(folder->path);
        if (!team_state_write(folder->arena, folder->path, state))
            fail(folder, "state.json");
    }
    folder_discard(folder);
    return folder->fault;
}
