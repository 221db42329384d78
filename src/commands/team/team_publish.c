#include "commands/team/team_publish.h"

#include "base/system.h"
#include "commands/team/team_below.h"
#include "commands/team/team_state.h"
#include "writing/unfinished.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define PLOTS "plots"
#define WITHIN PLOTS "/" /* prefix of the name of a file in there */
#define OWN 0700         /* no other user can put links into what is being made */

struct folder
{
    struct arena *arena;
    int lifters;                  /* the folder that holds them all; the caller's */
    const char *name, *aside;     /* names in it: the lifter's folder, and the one that is being made */
    int beside, plots;            /* descriptors of the one that is being made, and of its folder of pictures */
    struct unfinished unfinished; /* of `aside` */
    LIST(const char *) names;
    const char *fault; /* the first fault; NULL: none */
};

static void fail(struct folder *folder, const char *name)
{
    if (!folder->fault)
        folder->fault = errno == ELOOP || errno == ENOTDIR
                            ? arena_printf(folder->arena, "%s cannot be written: it is a link, or not a folder", name)
                            : arena_printf(folder->arena, "%s cannot be written: %s", name, strerror(errno));
}

static bool is_plot(const char *name)
{
    return !strncmp(name, WITHIN, strlen(WITHIN));
}

static const char *last_part(const char *name)
{
    return is_plot(name) ? name + strlen(WITHIN) : name;
}

bool folder_may_hold(const char *name)
{
    return below_is_name(last_part(name));
}

/* --- what was left over ------------------------------------------------------------------------------------------------- */

struct sweep
{
    int folder;
    const char *ending;
};

/* Hidden, and named like the files of a run: a run that was killed left it. */
static void sweep_entry(void *context, const char *name)
{
    const struct sweep *sweep = context;
    size_t length = strlen(name), end = strlen(sweep->ending);
    if (*name == '.' && length > end && !strcmp(name + length - end, sweep->ending))
        below_remove(sweep->folder, name);
}

void folder_sweep(int folder)
{
    below_each(folder, sweep_entry, &(struct sweep){folder, ".tmp"});
}

void folders_sweep(int lifters)
{
    below_each(lifters, sweep_entry, &(struct sweep){lifters, ".new"});
}

/* --- making -------------------------------------------------------------------------------------------------------------- */

void folder_discard(struct folder *folder)
{
    below_remove(folder->lifters, folder->aside);
    unfinished_end(&folder->unfinished);
    if (folder->beside >= 0)
        close(folder->beside);
    if (folder->plots >= 0)
        close(folder->plots);
    folder->beside = folder->plots = -1;
}

struct folder *folder_begin(struct arena *arena, int lifters, const char *name)
{
    struct folder *folder = ARENA_NEW(arena, struct folder);
    *folder = (struct folder){.arena = arena, .lifters = lifters, .name = name, .beside = -1, .plots = -1};
    folder->aside = arena_printf(arena, ".%s.new", name);
    below_remove(lifters, folder->aside); /* left by a run that was killed */
    unfinished_begin_at(&folder->unfinished, lifters, folder->aside, true);
    if (mkdirat(lifters, folder->aside, OWN) || (folder->beside = below_folder(lifters, folder->aside)) < 0 ||
        (folder->plots = below_make_folder(folder->beside, PLOTS, OWN)) < 0)
        fail(folder, folder->aside);
    return folder;
}

static int folder_of(const struct folder *folder, const char *name)
{
    return is_plot(name) ? folder->plots : folder->beside;
}

const char *folder_path(const struct folder *folder, const char *name)
{
    return below_path(folder->arena, folder_of(folder, name), last_part(name));
}

struct output *folder_output(struct folder *folder, const char *name)
{
    if (folder->fault)
        return NULL;
    *LIST_ADD(folder->arena, &folder->names) = name;
    struct output *output = output_create_in(folder->arena, folder_of(folder, name), last_part(name));
    if (!output)
        fail(folder, name);
    return output;
}

void folder_written(struct folder *folder, struct output *output)
{
    const char *name = folder->names.count ? folder->names.items[folder->names.count - 1] : "";
    if (output && !output_commit(output))
        fail(folder, name);
}

void folder_digest(struct folder *folder, const char *name, struct digester *to)
{
    int file = folder->fault ? -1 : below_file(folder_of(folder, name), last_part(name));
    if (file < 0 || !digest_open_file(file, to))
        fail(folder, name);
    if (file >= 0)
        close(file);
}

bool folder_add(struct folder *folder, const char *name)
{
    int64_t bytes;
    if (!below_is_file(folder_of(folder, name), last_part(name), &bytes) || !bytes)
        return false;
    *LIST_ADD(folder->arena, &folder->names) = name;
    return true;
}

struct output *folder_scratch(struct folder *folder, const char *name)
{
    unlinkat(folder_of(folder, name), last_part(name), 0);
    return output_create_in(folder->arena, folder_of(folder, name), last_part(name));
}

static bool is_output(const struct team_state *state, int folder, const char *name)
{
    int64_t bytes = -1;
    for (size_t i = 0; i < state->outputs.count; i++)
        if (!strcmp(state->outputs.items[i].name, name))
            return below_is_file(folder, last_part(name), &bytes) && bytes == state->outputs.items[i].bytes;
    return false;
}

static bool same_bytes(int left, int right, const char *name)
{
    char one[DIGEST_TEXT] = "", other[DIGEST_TEXT] = "";
    struct digester *of_left = digester_new(), *of_right = digester_new();
    int a = below_file(left, name), b = below_file(right, name);
    bool read = a >= 0 && b >= 0 && digest_open_file(a, of_left) && digest_open_file(b, of_right);
    digester_end(of_left, one);
    digester_end(of_right, other);
    if (a >= 0)
        close(a);
    if (b >= 0)
        close(b);
    return read && !strcmp(one, other);
}

bool folder_reuse(struct folder *folder, const struct team_state *before, const char *script, const char *picture)
{
    int there = before && !folder->fault ? below_folder(folder->lifters, folder->name) : -1,
        plots = there < 0 ? -1 : below_folder(there, PLOTS);
    bool same = plots >= 0 && is_output(before, plots, script) && is_output(before, plots, picture) &&
                same_bytes(plots, folder->plots, last_part(script)) &&
                !linkat(plots, last_part(picture), folder->plots, last_part(picture), 0);
    if (plots >= 0)
        close(plots);
    if (there >= 0)
        close(there);
    return same && folder_add(folder, picture);
}

/* --- publishing ---------------------------------------------------------------------------------------------------------- */

/* Everything made so far must be on disk before the first rename. One call syncs all of it; fsync would cost one call
 * per file. */
static void sync_all(struct folder *folder)
{
    if (!system_sync(folder->beside))
        fail(folder, folder->aside);
}

static void note_outputs(struct folder *folder, struct team_state *state)
{
    for (size_t i = 0; i < folder->names.count; i++) {
        const char *name = folder->names.items[i];
        int64_t bytes = 0;
        if (!below_is_file(folder_of(folder, name), last_part(name), &bytes))
            fail(folder, name);
        *LIST_ADD(folder->arena, &state->outputs) = (struct team_output){name, bytes};
    }
}

static bool is_made(const struct folder *folder, const char *name)
{
    for (size_t i = 0; i < folder->names.count; i++)
        if (!strcmp(folder->names.items[i], name))
            return true;
    return false;
}

struct target /* the lifter's folder, open */
{
    int folder, plots;
};

/* While files are being moved, the old state must not claim to be current; but it must still list everything that may
 * have to be removed. */
static void void_state(struct folder *folder, const struct target *target, const struct team_state *before)
{
    struct team_state between = *before;
    between.key = between.results = "";
    if (!team_state_write(folder->arena, target->folder, &between))
        fail(folder, "state.json");
}

static void move_all(struct folder *folder, const struct target *target)
{
    for (size_t i = 0; i < folder->names.count && !folder->fault; i++) {
        const char *name = folder->names.items[i];
        if (renameat(folder_of(folder, name), last_part(name), is_plot(name) ? target->plots : target->folder,
                     last_part(name)))
            fail(folder, name);
    }
}

/* Removes only what an earlier night wrote: notes that people keep there are left alone. */
static void remove_old(struct folder *folder, const struct target *target, const struct team_state *before)
{
    for (size_t i = 0; before && i < before->outputs.count; i++) {
        const char *name = before->outputs.items[i].name;
        if (!is_made(folder, name) && folder_may_hold(name))
            unlinkat(is_plot(name) ? target->plots : target->folder, last_part(name), 0);
    }
}

static void put_in_place(struct folder *folder, const struct target *target, struct team_state *state,
                         const struct team_state *before)
{
    folder_sweep(target->folder);
    if (before)
        void_state(folder, target, before);
    move_all(folder, target);
    if (folder->fault)
        return;
    remove_old(folder, target, before);
    fsync(target->plots);
    fsync(target->folder);
    if (!team_state_write(folder->arena, target->folder, state))
        fail(folder, "state.json");
}

const char *folder_publish(struct folder *folder, struct team_state *state, const struct team_state *before)
{
    struct target target = {-1, -1};
    note_outputs(folder, state);
    if (!folder->fault)
        sync_all(folder);
    if (!folder->fault && ((target.folder = below_make_folder(folder->lifters, folder->name, 0777)) < 0 ||
                           (target.plots = below_make_folder(target.folder, PLOTS, 0777)) < 0))
        fail(folder, folder->name);
    if (!folder->fault)
        put_in_place(folder, &target, state, before);
    if (target.folder >= 0)
        close(target.folder);
    if (target.plots >= 0)
        close(target.plots);
    folder_discard(folder);
    return folder->fault;
}
