#include "commands/team/team_folders.h"

#include "base/text.h"
#include "commands/session/folder.h"
#include "commands/team/team_below.h"
#include "commands/team/team_state.h"
#include "writing/escape.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#define TOLD_APART 8 /* hex digits of a name's digest that tell names apart */

/* --- names --------------------------------------------------------------------------------------------------------------- */

/* The safe name, with a suffix that tells it apart from other names that become the same. It does not depend on any
 * other lifter. */
static const char *full_name(struct arena *arena, const char *safe, const char *name)
{
    char digest[DIGEST_TEXT];
    struct digester *to = digester_new();
    digest_text(to, name);
    digester_end(to, digest);
    return arena_printf(arena, "%s-%.*s", safe, TOLD_APART, digest);
}

static bool is_folder(const struct team *team, const char *name)
{
    struct stat status;
    return team->lifters_folder >= 0 && !fstatat(team->lifters_folder, name, &status, AT_SYMLINK_NOFOLLOW);
}

/* Invariant: a lifter who has a folder keeps it, no matter which lifters come and go. The name is unique even on file
 * systems that ignore case. */
static void name_folder(struct team *team, struct team_lifter *lifter, struct map *used)
{
    struct arena *arena = team->arena;
    const char *name = lifter->block->name, *safe = escape_file_name(arena, name), *full = full_name(arena, safe, name),
               *folded = text_fold(arena, safe);
    bool taken = map_get(used, folded, strlen(folded)) || is_folder(team, full);
    lifter->folder = taken ? full : safe;
    lifter->state = team->lifters_folder < 0 ? NULL : team_state_read(arena, team->lifters_folder, lifter->folder);
    if (lifter->state && *lifter->state->lifter &&
        strcmp(lifter->state->lifter, name) != 0) { /* it belongs to someone who may have left the gym file */
        lifter->folder = full;
        lifter->state = NULL;
    } else if (!taken) {
        map_put(used, folded, strlen(folded), used);
    }
}

void team_name_folders(struct team *team)
{
    struct map *used = map_new(team->arena);
    for (size_t i = 0; i < team->count; i++) {
        struct team_lifter *lifter = &team->lifters[i];
        name_folder(team, lifter, used);
        lifter->path = arena_printf(team->arena, "%s/lifters/%s", team->into, lifter->folder);
    }
}

/* --- folders and locks ----------------------------------------------------------------------------------------------------- */

static bool cannot(const struct team *team, const char *path, const char *what)
{
    const char *why = errno == ELOOP || errno == ENOTDIR ? "it is a link, or not a folder" : strerror(errno);
    fprintf(stderr, "tautline: %s %s: %s\n", text_visible(team->arena, path), what, why);
    return false;
}

bool team_open_folders(struct team *team)
{
    if (!folder_make(team->arena, team->into) ||
        (team->root = open(team->into, O_RDONLY | O_DIRECTORY | O_CLOEXEC)) < 0)
        return cannot(team, team->into, "cannot be made");
    team->lifters_folder = below_make_folder(team->root, "lifters", 0777);
    return team->lifters_folder >= 0 ||
           cannot(team, arena_printf(team->arena, "%s/lifters", team->into), "cannot be made");
}

static int lock_file(int folder, const char *name)
{
    struct stat status;
    int file = openat(folder, name, O_RDWR | O_CREAT | O_NOFOLLOW | O_NONBLOCK | O_NOCTTY | O_CLOEXEC, 0666);
    if (file < 0 || (!fstat(file, &status) && S_ISREG(status.st_mode)))
        return file;
    close(file);
    errno = EINVAL;
    return -1;
}

/* The kernel releases the lock when the last process of the run has ended, however it ends. The lock file stays and
 * has no meaning of its own. */
static bool take(int file, int kind, bool wait)
{
    while (flock(file, kind | (wait ? 0 : LOCK_NB)))
        if (errno != EINTR)
            return false;
    return true;
}

bool team_lock(const struct team *team)
{
    const char *path = arena_printf(team->arena, "%s/.lock", team->into);
    int file = lock_file(team->root, ".lock");
    if (file < 0)
        return cannot(team, path, "cannot be made");
    if (take(file, team->is_part ? LOCK_SH : LOCK_EX, team->options->wait))
        return true;
    if (errno != EWOULDBLOCK)
        return cannot(team, path, "cannot be locked");
    fprintf(stderr, "tautline: another run is using %s; --wait waits for it\n", text_visible(team->arena, team->into));
    return false;
}

const char *team_lock_lifter(const struct team *team, const struct team_lifter *lifter, struct arena *arena, int *lock)
{
    *lock = lock_file(team->lifters_folder, arena_printf(arena, ".%s.lock", lifter->folder));
    if (*lock < 0)
        return arena_printf(arena, "its lock cannot be made: %s", strerror(errno));
    if (take(*lock, LOCK_EX, team->options->wait))
        return NULL;
    const char *why = errno == EWOULDBLOCK ? "another run is using it; --wait waits for it"
                                           : arena_printf(arena, "it cannot be locked: %s", strerror(errno));
    close(*lock);
    *lock = -1;
    return why;
}
