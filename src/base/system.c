#include "base/system.h"

#include "base/arena.h"

#include <config.h>
#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <fnmatch.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>
#if HAVE_SCHED_GETAFFINITY
#include <sched.h>
#endif
#if HAVE_PRCTL
#include <sys/prctl.h>
#endif

#if HAVE_RENAMEAT2
#define RENAME_NEW(from, to) renameat2(AT_FDCWD, (from), AT_FDCWD, (to), RENAME_NOREPLACE)
#else
#define RENAME_NEW(from, to) ((void)(from), (void)(to), errno = ENOSYS, -1)
#endif

/* A second name does not take another file's place either, on systems and file systems that cannot rename so. */
bool system_rename_new(const char *from, const char *to)
{
    if (!RENAME_NEW(from, to))
        return true;
    if ((errno != EINVAL && errno != ENOSYS) || link(from, to))
        return false;
    unlink(from);
    return true;
}

bool system_pipe(int ends[2])
{
#if HAVE_PIPE2
    return !pipe2(ends, O_CLOEXEC);
#else
    if (pipe(ends))
        return false;
    for (int i = 0; i < 2; i++)
        fcntl(ends[i], F_SETFD, FD_CLOEXEC);
    return true;
#endif
}

bool system_sync(int folder)
{
#if HAVE_SYNCFS
    return !syncfs(folder);
#else
    (void)folder;
    sync();
    return true;
#endif
}

static bool is_entry(const char *name)
{
    return strcmp(name, ".") != 0 && strcmp(name, "..") != 0;
}

void system_each_entry(int folder, void (*seen)(void *context, const char *name), void *context)
{
#if HAVE_GETDENTS64
    _Alignas(struct dirent64) char entries[4096];
    for (ssize_t got; (got = getdents64(folder, entries, sizeof entries)) > 0;) {
        for (ssize_t at = 0; at < got;) {
            const struct dirent64 *entry = (const void *)(entries + at);
            if (is_entry(entry->d_name))
                seen(context, entry->d_name);
            at += entry->d_reclen;
        }
    }
#else
    int again = dup(folder);
    DIR *entries = again < 0 ? NULL : fdopendir(again);
    if (!entries && again >= 0)
        close(again);
    for (struct dirent *entry; entries && (entry = readdir(entries));)
        if (is_entry(entry->d_name))
            seen(context, entry->d_name);
    if (entries)
        closedir(entries);
#endif
}

void system_end_with_parent(void)
{
#if HAVE_PRCTL
    prctl(PR_SET_PDEATHSIG, SIGKILL);
#endif
}

bool system_matches_within(const char *pattern, const char *path)
{
    const int flags = FNM_PATHNAME | FNM_PERIOD;
#if HAVE_DECL_FNM_LEADING_DIR
    return !fnmatch(pattern, path, flags | FNM_LEADING_DIR);
#else
    struct arena *scratch = arena_new();
    char *part = arena_copy(scratch, path);
    bool matches = false;
    for (char *slash; !(matches = !fnmatch(pattern, part, flags)) && (slash = strrchr(part, '/')) && slash > part;)
        *slash = 0;
    arena_free(scratch);
    return matches;
#endif
}

unsigned system_processors(void)
{
#if HAVE_SCHED_GETAFFINITY
    cpu_set_t usable;
    long count = sched_getaffinity(0, sizeof usable, &usable) ? 1 : CPU_COUNT(&usable);
#else
    long count = sysconf(_SC_NPROCESSORS_ONLN);
#endif
    return count > 1 ? (unsigned)count : 1;
}

const char *system_last_byte(const char *text, int byte, size_t length)
{
#if HAVE_MEMRCHR
    return memrchr(text, byte, length);
#else
    while (length && text[length - 1] != (char)byte)
        length--;
    return length ? text + length - 1 : NULL;
#endif
}

int64_t system_modified_ns(const struct stat *status)
{
#if HAVE_STRUCT_STAT_ST_MTIM
    return (int64_t)status->st_mtim.tv_sec * 1000000000 + status->st_mtim.tv_nsec;
#elif HAVE_STRUCT_STAT_ST_MTIMESPEC
    return (int64_t)status->st_mtimespec.tv_sec * 1000000000 + status->st_mtimespec.tv_nsec;
#else
    return (int64_t)status->st_mtime * 1000000000;
#endif
}

/* --- memory ---------------------------------------------------------------------------------------------------------- */

/* The start of a file of the system, as a text. False: it is not there. */
static bool read_start(const char *path, char *text, size_t size)
{
    int file = open(path, O_RDONLY | O_CLOEXEC);
    ssize_t got = file < 0 ? -1 : read(file, text, size - 1);
    if (file >= 0)
        close(file);
    text[got > 0 ? got : 0] = 0;
    return got > 0;
}

/* The number behind a name at the start of a line; `none` where there is no such line, or no number. */
static uint64_t number_behind(const char *text, const char *name, uint64_t none)
{
    for (const char *at = text; (at = strstr(at, name)); at += strlen(name)) {
        if (at > text && at[-1] != '\n')
            continue;
        uint64_t number = 0;
        for (at += strlen(name); *at == ' '; at++)
            ;
        const char *digits = at;
        for (; *at >= '0' && *at <= '9'; at++)
            number = number * 10 + (uint64_t)(*at - '0');
        return at > digits ? number : none;
    }
    return none;
}

/* How the two versions of control groups tell a limit, and what is used and not a cache. */
struct group_files
{
    const char *line; /* in /proc/self/cgroup, before the group's name */
    const char *folder, *limit, *used;
};

static const struct group_files group_files[] = {
    {"0::", "/sys/fs/cgroup", "memory.max", "anon "},
    {":memory:", "/sys/fs/cgroup/memory", "memory.limit_in_bytes", "total_rss "},
};

/* Of one control group: its limit less what is not a cache there. */
static uint64_t left_in_group(const struct group_files *files, const char *group)
{
    char path[1024], text[4096];
    snprintf(path, sizeof path, "%s%s/%s", files->folder, group, files->limit);
    if (!read_start(path, text, sizeof text))
        return UINT64_MAX;
    uint64_t most = number_behind(text, "", UINT64_MAX); /* or the word max */
    snprintf(path, sizeof path, "%s%s/memory.stat", files->folder, group);
    if (most == UINT64_MAX || !read_start(path, text, sizeof text))
        return UINT64_MAX;
    uint64_t used = number_behind(text, files->used, 0);
    return used < most ? most - used : 0;
}

/* Of the group that this program is in, and of those that it is in. */
static uint64_t left_in_groups(const struct group_files *files)
{
    char text[4096];
    uint64_t left = UINT64_MAX;
    char *group = read_start("/proc/self/cgroup", text, sizeof text) ? strstr(text, files->line) : NULL;
    if (!group)
        return left;
    group += strlen(files->line);
    group[strcspn(group, "\n")] = 0;
    for (char *slash = group + strlen(group); slash; slash = strrchr(group, '/')) {
        *slash = 0;
        uint64_t here = left_in_group(files, group);
        left = here < left ? here : left;
    }
    return left;
}

uint64_t system_memory_left(void)
{
    char text[4096];
    uint64_t left = UINT64_MAX;
    if (read_start("/proc/meminfo", text, sizeof text)) {
        uint64_t available = number_behind(text, "MemAvailable:", UINT64_MAX);
        if (available != UINT64_MAX)
            left = (available + number_behind(text, "SwapFree:", 0)) * 1024;
    }
    for (size_t i = 0; i < sizeof group_files / sizeof *group_files; i++) {
        uint64_t here = left_in_groups(&group_files[i]);
        left = here < left ? here : left;
    }
    return left;
}

bool system_is_folder_error(int error)
{
    return error == EISDIR || error == EPERM;
}
