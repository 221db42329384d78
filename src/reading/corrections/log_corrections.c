#include "reading/corrections/log_corrections.h"

#include "base/text.h"

#include <errno.h>
#include <string.h>

struct folder_corrections
{
    struct corrections *corrections; /* NULL: there are none in it, or they cannot be used */
};

static void note(struct reading *reading, struct corrections *corrections)
{
    if (corrections)
        *LIST_ADD(reading->arena, &reading->corrections->list) = corrections;
}

/* The file that --corrections names. It may be missing if it is about to be written. */
static struct corrections *told(struct reading *reading)
{
    struct known_corrections *known = reading->corrections;
    const char *path = reading->options.corrections;
    if (known->told_read)
        return known->list.count ? known->list.items[0] : NULL;
    known->told_read = true;
    known->told_there = stat(path, &known->told) == 0;
    if (!known->told_there && errno == ENOENT && reading->options.corrections_may_be_new)
        return NULL;
    struct corrections *corrections = corrections_read(reading->arena, path, reading->diags);
    known->unreadable = !corrections;
    note(reading, corrections);
    return corrections;
}

static struct corrections *in_folder(struct reading *reading, const char *folder)
{
    struct stat status;
    size_t length = strlen(folder);
    struct folder_corrections *found = map_get(reading->corrections->by_folder, folder, length);
    if (found)
        return found->corrections;
    found = ARENA_NEW(reading->arena, struct folder_corrections);
    const char *path = strcmp(folder, ".") ? text_path(reading->arena, folder, CORRECTIONS_NAME) : CORRECTIONS_NAME;
    if (stat(path, &status) == 0 && S_ISREG(status.st_mode))
        note(reading, found->corrections = corrections_read(reading->arena, path, reading->diags));
    map_put(reading->corrections->by_folder, folder, length, found);
    return found->corrections;
}

struct file_corrections *corrections_for_log(struct reading *reading, const char *path, const char *root)
{
    struct file_corrections *file = NULL;
    if (reading->options.corrections) {
        struct corrections *corrections = told(reading);
        return corrections ? corrections_of_file(reading->arena, NULL, corrections, path) : NULL;
    }
    if (!strcmp(path, "-"))
        return NULL;
    size_t least = root ? strlen(root) : SIZE_MAX;
    for (const char *folder = text_folder(reading->arena, path);; folder = text_folder(reading->arena, folder)) {
        struct corrections *corrections = in_folder(reading, folder);
        if (corrections)
            file = corrections_of_file(reading->arena, file, corrections, path);
        if (strlen(folder) <= least || !strchr(folder, '/'))
            return file;
    }
}

bool corrections_are_here(struct reading *reading, const struct stat *status)
{
    const struct known_corrections *known = reading->corrections;
    if (reading->options.corrections)
        told(reading);
    return known->told_there && known->told.st_dev == status->st_dev && known->told.st_ino == status->st_ino;
}
