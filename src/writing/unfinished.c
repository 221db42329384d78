#include "writing/unfinished.h"

#include "base/system.h"

#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <unistd.h>

#define LEVELS_BELOW 1 /* an unfinished folder has folders of files, but no deeper ones */

/* Invariant: changed only by single stores, so that a signal between two of them finds the list intact. */
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

struct removal
{
    int folder, levels;
};

static void remove_folder(int parent, const char *path, int levels);

static void remove_entry(void *context, const char *name)
{
    const struct removal *removal = context;
    if (unlinkat(removal->folder, name, 0) && system_is_folder_error(errno) && removal->levels > 0)
        remove_folder(removal->folder, name, removal->levels - 1);
}

static void remove_folder(int parent, const char *path, int levels)
{
    struct removal removal = {openat(parent, path, O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC), levels};
    if (removal.folder < 0)
        return;
    system_each_entry(removal.folder, remove_entry, &removal);
    close(removal.folder);
    unlinkat(parent, path, AT_REMOVEDIR);
}

static void remove_one(const struct unfinished *unfinished)
{
    if (unfinished->is_folder)
        remove_folder(unfinished->folder, unfinished->path, LEVELS_BELOW);
    else
        unlinkat(unfinished->folder, unfinished->path, 0);
}

void unfinished_drop(struct unfinished *unfinished)
{
    remove_one(unfinished);
    unfinished_end(unfinished);
}

void unfinished_remove(void)
{
    pid_t self = getpid();
    int error = errno; /* the interrupted code may still need it */
    for (struct unfinished *each = first; each; each = each->next)
        if (each->process == self)
            remove_one(each);
    errno = error;
}
