#include "commands/team/team_below.h"

#include "base/system.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define LEVELS 1 /* of folders inside a folder that is removed */

bool below_is_name(const char *name)
{
    return *name && !strchr(name, '/') && strcmp(name, ".") != 0 && strcmp(name, "..") != 0;
}

int below_folder(int parent, const char *name)
{
    return openat(parent, name, O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
}

int below_make_folder(int parent, const char *name, mode_t mode)
{
    if (mkdirat(parent, name, mode) && errno != EEXIST)
        return -1;
    return below_folder(parent, name);
}

int below_file(int parent, const char *name)
{
    struct stat status;
    int file = openat(parent, name, O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_NOCTTY | O_CLOEXEC);
    if (file < 0)
        return -1;
    int error = fstat(file, &status)           ? errno
                : !S_ISREG(status.st_mode)     ? EINVAL
                : status.st_size > BELOW_BYTES ? EFBIG
                                               : 0;
    if (!error)
        return file;
    close(file);
    errno = error;
    return -1;
}

FILE *below_stream(int parent, const char *name)
{
    int file = below_file(parent, name);
    FILE *stream = file < 0 ? NULL : fdopen(file, "r");
    if (file >= 0 && !stream)
        close(file);
    return stream;
}

const char *below_text(struct arena *arena, int parent, const char *name, size_t *length)
{
    struct stat status;
    int file = below_file(parent, name);
    char *text = file < 0 || fstat(file, &status) ? NULL : arena_alloc(arena, (size_t)status.st_size + 1);
    for (*length = 0; text && *length < (size_t)status.st_size;) {
        ssize_t got = read(file, text + *length, (size_t)status.st_size - *length);
        if (got > 0)
            *length += (size_t)got;
        else if (got == 0 || errno != EINTR)
            break;
    }
    if (file >= 0)
        close(file);
    return text;
}

bool below_is_file(int parent, const char *name, int64_t *bytes)
{
    struct stat status;
    if (fstatat(parent, name, &status, AT_SYMLINK_NOFOLLOW) || !S_ISREG(status.st_mode))
        return false;
    *bytes = status.st_size;
    return true;
}

bool below_each(int folder, below_seen *seen, void *context)
{
    int again = openat(folder, ".",
                       O_RDONLY | O_DIRECTORY | O_CLOEXEC); /* a new open file description: reading starts at the first
                                                               entry even if another reader has moved on */
    DIR *entries = again < 0 ? NULL : fdopendir(again);
    if (!entries) {
        if (again >= 0)
            close(again);
        return false;
    }
    for (struct dirent *entry; (entry = readdir(entries));)
        if (below_is_name(entry->d_name))
            seen(context, entry->d_name);
    closedir(entries);
    return true;
}

struct removal
{
    int folder, levels;
};

static void remove_entry(void *context, const char *name)
{
    const struct removal *removal = context;
    if (!unlinkat(removal->folder, name, 0) || !system_is_folder_error(errno) || removal->levels < 0)
        return;
    struct removal inner = {below_folder(removal->folder, name), removal->levels - 1};
    if (inner.folder < 0)
        return;
    below_each(inner.folder, remove_entry, &inner);
    close(inner.folder);
    unlinkat(removal->folder, name, AT_REMOVEDIR);
}

void below_remove(int parent, const char *name)
{
    struct removal removal = {parent, LEVELS};
    remove_entry(&removal, name);
}

const char *below_path(struct arena *arena, int descriptor, const char *name)
{
    return name ? arena_printf(arena, "/proc/self/fd/%d/%s", descriptor, name)
                : arena_printf(arena, "/proc/self/fd/%d", descriptor);
}
