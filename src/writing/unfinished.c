#include "writing/unfinished.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <unistd.h>

#define LEVELS_BELOW 1 /* a folder in the making has folders of files, and no deeper ones */

/* Changed by single stores, so that a signal between two finds it whole. */
static _Atomic(struct unfinished *) first;

void unfinished_begin(struct unfinished *unfinished, const char *path, bool is_folder)
{
    unfinished_begin_at(unfinished, AT_FDCWD, path, is_folder);
}

void unfinished_begin_at(struct unfinished *unfinished, int folder, const char *path, bool is_folder)
{
    unfinished->folder = folder;
    unfinished->path = path;
    unfinished->process = getpid();
    unfinished->is_folder = is_folder;
    unfinished->next = first;
    first = unfinished;
}

void unfinished_end(struct unfinished *unfinished)
{
    for (_Atomic(struct unfinished *) *link = &first; *link; link = &(*link)->next) {
        if (*link == unfinished) {
            *link = unfinished->next;
            return;
        }
    }
}

static void remove_folder(int parent, const char *path, int levels);

static void remove_entry(int folder, const char *name, int levels)
{
    if (strcmp(name, ".") != 0 && strcmp(name, "..") != 0 && unlinkat(folder, name, 0) && errno == EISDIR && levels > 0)
        remove_folder(folder, name, levels - 1);
}

/* readdir() would ask for memory. */
static void remove_folder(int parent, const char *path, int levels)
{
    _Alignas(struct dirent64) char entries[4096];
    int folder = openat(parent, path, O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
    if (folder < 0)
        return;
    for (ssize_t got; (got = getdents64(folder, entries, sizeof entries)) > 0;) {
        for (ssize_t at = 0; at < got;) {
            const struct dirent64 *entry = (const void *)(entries + at);
            remove_entry(folder, entry->d_name, levels);
            at += entry->d_reclen;
        }
    }
    close(folder);
    unlinkat(parent, path, AT_REMOVEDIR);
}

void unfinished_remove(void)
{
    pid_t self = getpid();
    int error = errno; /* of whatever a signal came into */
    for (struct unfinished *each = first; each; each = each->next) {
        if (each->process != self)
            continue;
        if (each->is_folder)
            remove_folder(each->folder, each->path, LEVELS_BELOW);
        else
            unlinkat(each->folder, each->path, 0);
    }
    errno = error;
}
