#include "reading/log_queue.h"

#include "base/text.h"
#include "reading/corrections/log_corrections.h"

#include <dirent.h>
#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

static struct log_entry *add(struct reading *reading, enum entry_kind kind, const char *path)
{
    struct log_entry *entry = LIST_ADD(reading->arena, &reading->queue->entries);
    entry->kind = kind;
    entry->path = path;
    return entry;
}

static void say(struct reading *reading, enum diag_id id, const char *path, const char *message)
{
    struct log_entry *entry = add(reading, ENTRY_SAY, path);
    entry->id = id;
    entry->message = arena_copy(reading->arena, message);
}

/* `root`: the folder in which it was found; NULL: it was named. */
static void add_file(struct reading *reading, const char *path, const struct stat *status, const char *root)
{
    struct file_corrections *corrections = corrections_for_log(reading, path, root);
    struct log_entry *entry = add(reading, ENTRY_FILE, path);
    entry->in_folder = root;
    entry->corrections = corrections;
    entry->root = root;
    entry->bytes = status && S_ISREG(status->st_mode) ? (size_t)status->st_size : 0;
}

static bool seen_before(struct reading *reading, struct map *map, const struct stat *status)
{
    char *key = arena_printf(reading->scratch, "%llu %llu", (unsigned long long)status->st_dev,
                             (unsigned long long)status->st_ino);
    size_t length = strlen(key);
    bool seen = map_get(map, key, length);
    if (!seen)
        map_put(map, key, length, map);
    arena_reset(reading->scratch);
    return seen;
}

static bool is_second(struct reading *reading, const char *path, const struct stat *status)
{
    if (!S_ISREG(status->st_mode) || !seen_before(reading, reading->seen->files, status))
        return false;
    say(reading, DIAG_SKIPPED_FILE, path, "this file was already read, by this name or another: it is read only once");
    return true;
}

/* --- folders ----------------------------------------------------------------------------------------------------- */

static bool is_wanted(const char *name)
{
    size_t length = strlen(name);
    return *name != '.' && strcmp(name, CORRECTIONS_NAME) != 0 && !(length > 4 && !strcmp(name + length - 4, ".ini"));
}

static int by_bytes(const void *left, const void *right)
{
    return strcmp(*(const char *const *)left, *(const char *const *)right);
}

/* The next entry; NULL: there is none, or the listing failed; errno is 0 at the end. */
static struct dirent *next_entry(DIR *folder)
{
    errno = 0;
    return readdir(folder);
}

/* False: the listing failed, and errno says why. A partial listing is not returned. */
static bool names_in(struct arena *arena, DIR *folder, const char ***list, size_t *count)
{
    LIST(const char *) names = {0};
    for (struct dirent *entry; (entry = next_entry(folder));)
        if (is_wanted(entry->d_name))
            *LIST_ADD(arena, &names) = arena_copy(arena, entry->d_name);
    if (errno)
        return false;
    if (names.count)
        qsort(names.items, names.count, sizeof *names.items, by_bytes);
    *list = names.items;
    *count = names.count;
    return true;
}

static void walk_folder(struct reading *reading, const char *path, const char *root);

static void walk_entry(struct reading *reading, const char *path, const char *root)
{
    struct stat status;
    if (stat(path, &status)) {
        say(reading, DIAG_CANNOT_READ, path, strerror(errno));
    } else if (S_ISDIR(status.st_mode)) {
        if (!seen_before(reading, reading->seen->folders, &status))
            walk_folder(reading, path, root);
    } else if (!S_ISREG(status.st_mode)) {
        add(reading, ENTRY_NO_FILE, path);
    } else if (!corrections_are_here(reading, &status) && !is_second(reading, path, &status)) {
        add_file(reading, path, &status, root);
    }
}

/* Each folder is walked once, however many links lead to it, which also ends cycles of links. */
static void walk_folder(struct reading *reading, const char *path, const char *root)
{
    DIR *folder = opendir(path);
    if (!folder) {
        say(reading, DIAG_CANNOT_READ, path, strerror(errno));
        return;
    }
    struct arena *arena = reading->arena;
    size_t count;
    const char **names;
    bool listed = names_in(arena, folder, &names, &count);
    int error = errno;
    if (closedir(folder) && listed) { /* closed before walking below it: depth would use up file descriptors */
        listed = false;
        error = errno;
    }
    if (!listed)
        say(reading, DIAG_CANNOT_READ, path, strerror(error));
    for (size_t i = 0; listed && i < count; i++)
        walk_entry(reading, text_path(arena, path, names[i]), root);
}

static void queue_folder(struct reading *reading, const char *path, const struct stat *status)
{
    size_t first = reading->queue->entries.count;
    if (seen_before(reading, reading->seen->folders, status)) {
        say(reading, DIAG_SKIPPED_FILE, path, "this folder was already read: it is read only once");
        return;
    }
    walk_folder(reading, path, path);
    add(reading, ENTRY_END_FOLDER, path)->first = first;
}

void queue_log(struct reading *reading, const char *argument)
{
    const char *path = arena_copy(reading->arena, argument);
    struct stat status;
    if (!strcmp(path, "-"))
        add_file(reading, path, NULL, NULL);
    else if (stat(path, &status))
        say(reading, DIAG_CANNOT_READ, path, strerror(errno));
    else if (S_ISDIR(status.st_mode))
        queue_folder(reading, path, &status);
    else if (!is_second(reading, path, &status))
        add_file(reading, path, &status, NULL);
}
