#include "commands/session/folder.h"

#include <errno.h>
#include <string.h>
#include <sys/stat.h>

bool folder_make(struct arena *arena, const char *path)
{
    struct stat status;
    for (const char *slash = path; (slash = strchr(slash + 1, '/'));)
        mkdir(arena_text(arena, path, (size_t)(slash - path)), 0777); /* parents; the last mkdir() tells */
    if (mkdir(path, 0777) == 0)
        return true;
    if (errno != EEXIST)
        return false;
    if (stat(path, &status) == 0 && S_ISDIR(status.st_mode))
        return true;
    errno = EEXIST;
    return false;
}
