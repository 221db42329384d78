#include "writing/output.h"

#include "base/system.h"
#include "writing/unfinished.h"

#include <errno.h>
#include <fcntl.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define BUFFER_BYTES ((size_t)64 * 1024)
#define SPOOL_BYTES ((size_t)1024 * 1024)
#define NO_FILE (-1)
#define NAME_TRIES 100

enum output_kind
{
    OUTPUT_MEMORY,
    OUTPUT_SPOOL,     /* memory, and from SPOOL_BYTES on a file without a name */
    OUTPUT_IN_PLACE,  /* standard output, a pipe, a device */
    OUTPUT_REPLACING, /* a regular file, written through `temporary` */
    OUTPUT_NEW        /* the same; the file must not exist yet */
};

struct output
{
    struct arena *arena;
    enum output_kind kind;
    int fd;     /* NO_FILE once closed */
    int folder; /* an open folder that `path` is relative to; AT_FDCWD: the current one */
    int error;  /* the first errno; 0: none */
    char *path, *temporary;
    struct unfinished unfinished; /* of `temporary` */
    char *buffer;
    size_t used, capacity;
};

static struct output *output_new(struct arena *arena, enum output_kind kind)
{
    struct output *output = ARENA_NEW(arena, struct output);
    output->arena = arena;
    output->kind = kind;
    output->fd = NO_FILE;
    output->folder = AT_FDCWD;
    output->capacity = kind == OUTPUT_MEMORY || kind == OUTPUT_SPOOL ? 1024 : BUFFER_BYTES;
    output->buffer = arena_room(arena, output->capacity);
    return output;
}

struct output *output_to_memory(struct arena *arena)
{
    return output_new(arena, OUTPUT_MEMORY);
}

struct output *output_to_spool(struct arena *arena)
{
    return output_new(arena, OUTPUT_SPOOL);
}

/* A descriptor of our own: closing it reports late errors, and standard output stays open for others. */
static struct output *open_standard(struct arena *arena)
{
    struct output *output = output_new(arena, OUTPUT_IN_PLACE);
    output->fd = fcntl(STDOUT_FILENO, F_DUPFD_CLOEXEC, 3);
    if (output->fd < 0)
        output->error = errno;
    return output;
}

static struct output *open_in_place(struct arena *arena, const char *path)
{
    int fd = open(path, O_WRONLY | O_CLOEXEC | O_NOCTTY);
    if (fd < 0)
        return NULL;
    struct output *output = output_new(arena, OUTPUT_IN_PLACE);
    output->fd = fd;
    return output;
}

/* `.NAME.PID-N.tmp` in the folder of `path`: a hidden name that globs over results do not match. */
static char *temporary_name(struct arena *arena, const char *path, int attempt)
{
    const char *slash = strrchr(path, '/');
    size_t folder = slash ? (size_t)(slash - path) + 1 : 0;
    /* 200 bytes of the name leave room for the rest within the usual limit of 255. */
    return arena_printf(arena, "%.*s.%.200s.%ld-%d.tmp", (int)folder, path, path + folder, (long)getpid(), attempt);
}

/* `old`: the file to be replaced, or NULL. From the first moment, the new file has no more rights than the old one. */
static struct output *open_replacing(struct arena *arena, int folder, const char *path, const struct stat *old)
{
    mode_t mode = old ? old->st_mode & 0777 : 0666;
    struct output *output = output_new(arena, OUTPUT_REPLACING);
    output->path = arena_copy(arena, path);
    output->folder = folder;
    for (int attempt = 0; attempt < NAME_TRIES; attempt++) {
        output->temporary = temporary_name(arena, path, attempt);
        output->fd = openat(folder, output->temporary, O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, mode);
        if (output->fd < 0 && errno == EEXIST)
            continue;
        if (output->fd < 0)
            return NULL;
        unfinished_begin_at(&output->unfinished, folder, output->temporary, false);
        if (old)
            (void)!fchmod(output->fd,
                          mode); /* the umask may have cleared bits; without them the file is only stricter */
        return output;
    }
    return NULL;
}

/* Resolves links. NULL: a link leads nowhere. */
static char *resolved(struct arena *arena, const char *path)
{
    char *real = realpath(path, NULL);
    char *copy = arena_copy(arena, real);
    free(real);
    return copy;
}

static bool is_standard_output(const struct stat *file)
{
    struct stat standard;
    return !fstat(STDOUT_FILENO, &standard) && standard.st_dev == file->st_dev && standard.st_ino == file->st_ino;
}

struct output *output_open(struct arena *arena, const char *path)
{
    struct stat file;
    if (!path || !strcmp(path, "-"))
        return open_standard(arena);
    if (stat(path, &file)) {
        int error = errno;
        if (error != ENOENT || !lstat(path, &file)) { /* a dangling link: its purpose is not known */
            errno = error;
            return NULL;
        }
        return open_replacing(arena, AT_FDCWD, path, NULL);
    }
    if (S_ISDIR(file.st_mode)) {
        errno = EISDIR;
        return NULL;
    }
    if (is_standard_output(&file))
        return open_standard(arena);
    if (!S_ISREG(file.st_mode))
        return open_in_place(arena, path);
    if (access(path, W_OK)) /* renaming would bypass a write protection that is there on purpose */
        return NULL;
    const char *real = resolved(arena, path);
    return real ? open_replacing(arena, AT_FDCWD, real, &file) : NULL;
}

struct output *output_open_new(struct arena *arena, const char *path)
{
    struct stat file;
    if (!lstat(path, &file)) {
        errno = EEXIST;
        return NULL;
    }
    struct output *output = open_replacing(arena, AT_FDCWD, path, NULL);
    if (output)
        output->kind = OUTPUT_NEW;
    return output;
}

struct output *output_open_in(struct arena *arena, int folder, const char *name)
{
    struct stat file;
    bool is_file = !fstatat(folder, name, &file, AT_SYMLINK_NOFOLLOW) && S_ISREG(file.st_mode);
    if (is_file && faccessat(folder, name, W_OK, 0))
        return NULL;
    return open_replacing(arena, folder, name, is_file ? &file : NULL);
}

struct output *output_create_in(struct arena *arena, int folder, const char *name)
{
    int fd = openat(folder, name, O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, 0666);
    if (fd < 0)
        return NULL;
    struct output *output = output_new(arena, OUTPUT_IN_PLACE);
    output->fd = fd;
    return output;
}

static void write_out(struct output *output, const char *bytes, size_t length)
{
    while (length && !output->error) {
        ssize_t written = write(output->fd, bytes, length);
        if (written >= 0) {
            bytes += written;
            length -= (size_t)written;
        } else if (errno != EINTR) {
            output->error = errno;
        }
    }
}

static void flush(struct output *output)
{
    write_out(output, output->buffer, output->used);
    output->used = 0;
}

/* A file that is gone when it is closed, however the program ends. Without a place for one, memory has to do. */
static void open_spool(struct output *output)
{
    const char *parent = getenv("TMPDIR");
    char *path = arena_printf(output->arena, "%s/tautline-XXXXXX", parent && *parent == '/' ? parent : "/tmp");
    output->fd = mkstemp(path);
    if (output->fd < 0) {
        output->fd = NO_FILE;
        output->kind = OUTPUT_MEMORY;
        return;
    }
    unlink(path);
    (void)!fcntl(output->fd, F_SETFD, FD_CLOEXEC);
}

/* Makes room for `length` more bytes and a NUL. False: a buffer cannot hold as much, or there was an error. */
static bool make_room(struct output *output, size_t length)
{
    if (output->error)
        return false;
    if (length < output->capacity - output->used)
        return true;
    if (output->kind == OUTPUT_SPOOL && output->fd == NO_FILE && output->used + length >= SPOOL_BYTES)
        open_spool(output);
    bool in_memory = output->kind == OUTPUT_MEMORY || (output->kind == OUTPUT_SPOOL && output->fd == NO_FILE);
    if (!in_memory) {
        flush(output);
        return !output->error && length < output->capacity;
    }
    size_t wanted = output->used + length + 1;
    size_t capacity = wanted > output->capacity * 2 ? wanted : output->capacity * 2;
    output->buffer = arena_grow(output->arena, output->buffer, output->capacity, capacity);
    output->capacity = capacity;
    return true;
}

void output_put(struct output *output, const char *bytes, size_t length)
{
    if (make_room(output, length)) {
        memcpy(output->buffer + output->used, bytes, length);
        output->used += length;
    } else {
        write_out(output, bytes, length);
    }
}

char *output_room(struct output *output, size_t length)
{
    return make_room(output, length) ? output->buffer + output->used : NULL;
}

void output_used(struct output *output, const char *end)
{
    output->used = (size_t)(end - output->buffer);
}

void output_text(struct output *output, const char *text)
{
    output_put(output, text, strlen(text));
}

void output_printf(struct output *output, const char *format, ...)
{
    char local[512];
    va_list arguments;
    va_start(arguments, format);
    int length = vsnprintf(local, sizeof local, format, arguments);
    va_end(arguments);
    if (length < 0)
        return;
    if ((size_t)length < sizeof local) {
        output_put(output, local, (size_t)length);
        return;
    }
    va_start(arguments, format);
    output_put(output, arena_vprintf(output->arena, format, arguments), (size_t)length);
    va_end(arguments);
}

const char *output_memory(struct output *output, size_t *length)
{
    make_room(output, 1);
    output->buffer[output->used] = 0;
    if (length)
        *length = output->used;
    return output->buffer;
}

/* What the spool's file holds; the rest is in its buffer. */
static void copy_file(struct output *from, struct output *to)
{
    char *block = arena_room(from->arena, BUFFER_BYTES);
    ssize_t length;
    off_t at = 0;
    while ((length = pread(from->fd, block, BUFFER_BYTES, at)) != 0) {
        if (length > 0) {
            output_put(to, block, (size_t)length);
            at += length;
        } else if (errno != EINTR) {
            from->error = errno;
            break;
        }
    }
    close(from->fd);
    from->fd = NO_FILE;
}

void output_copy(struct output *from, struct output *to)
{
    if (from->fd != NO_FILE)
        copy_file(from, to);
    output_put(to, from->buffer, from->used);
    if (from->error && !to->error)
        to->error = from->error;
}

void output_clear(struct output *output)
{
    output->used = 0;
}

static void close_file(struct output *output)
{
    if (output->fd != NO_FILE && close(output->fd) && errno != EINTR && !output->error)
        output->error = errno;
    output->fd = NO_FILE;
}

/* The rename is on disk once the folder is synced; if the folder cannot be synced, the file itself still is. */
static void sync_folder(struct output *output)
{
    if (output->folder != AT_FDCWD) {
        fsync(output->folder);
        return;
    }
    const char *slash = strrchr(output->path, '/');
    const char *folder = !slash ? "."
                         : slash == output->path
                             ? "/"
                             : arena_text(output->arena, output->path, (size_t)(slash - output->path));
    int fd = open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (fd < 0)
        return;
    fsync(fd);
    close(fd);
}

/* A new file must not take the place of one that came meanwhile. */
static bool move_in_place(const struct output *output)
{
    if (output->kind != OUTPUT_NEW)
        return !renameat(output->folder, output->temporary, output->folder, output->path);
    return system_rename_new(output->temporary, output->path);
}

static void put_in_place(struct output *output)
{
    if (!output->error && fsync(output->fd))
        output->error = errno;
    close_file(output);
    if (!output->error && !move_in_place(output))
        output->error = errno;
    if (output->error)
        unlinkat(output->folder, output->temporary, 0);
    else
        sync_folder(output);
    unfinished_end(&output->unfinished);
    output->temporary = NULL;
}

bool output_commit(struct output *output)
{
    if (output->kind == OUTPUT_MEMORY)
        return true;
    if (output->fd != NO_FILE) {
        flush(output);
        if (output->temporary)
            put_in_place(output);
        else
            close_file(output);
    }
    errno = output->error;
    return !output->error;
}

void output_discard(struct output *output)
{
    output->used = 0;
    if (output->fd == NO_FILE)
        return;
    close_file(output);
    if (output->temporary) {
        unlinkat(output->folder, output->temporary, 0);
        unfinished_end(&output->unfinished);
    }
    output->temporary = NULL;
    output->error = ECANCELED; /* a later commit must not report success */
}

bool output_is_terminal(const struct output *output)
{
    return output->fd != NO_FILE && isatty(output->fd);
}
