#include "writing/gnuplot/render.h"

#include "base/clock.h"
#include "base/system.h"

#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#define MESSAGE_BYTES 2000
/* The pauses between checks whether the process has ended begin short: after closing its output it ends almost at
 * once, and a pause of fixed length would delay each picture by all of it. */
#define FIRST_LOOK_NS 50000L
#define LAST_LOOK_NS 5000000L

static bool is_program(const char *path)
{
    struct stat file;
    return !stat(path, &file) && S_ISREG(file.st_mode) && !access(path, X_OK);
}

const char *render_find_gnuplot(struct arena *arena)
{
    /* We run in folders that others write to, so relative folders of PATH are skipped: they would find files put
     * there by others. */
    for (const char *folder = getenv("PATH"); folder && *folder;) {
        size_t length = strcspn(folder, ":");
        char *path = arena_printf(arena, "%.*s/gnuplot", (int)length, folder);
        if (*path == '/' && length && is_program(path))
            return path;
        folder += length + (folder[length] == ':');
    }
    return NULL;
}

struct running
{
    pid_t process;
    int messages; /* its standard output and error */
};

/* The caller's environment with a UTF-8 locale: a nightly job has none, and gnuplot would then warn about every
 * picture. */
static char **in_utf8(struct arena *arena)
{
    size_t count = 0, kept = 0;
    while (environ[count])
        count++;
    char **variables = ARENA_ARRAY(arena, char *, count + 2);
    for (size_t i = 0; i < count; i++)
        if (strncmp(environ[i], "LC_ALL=", strlen("LC_ALL=")))
            variables[kept++] = environ[i];
    variables[kept++] = arena_printf(arena, "LC_ALL=C.UTF-8");
    variables[kept] = NULL;
    return variables;
}

/* Runs in the child. Only async-signal-safe calls are allowed between fork and exec. */
static _Noreturn void become_gnuplot(const char *program, const char *folder, char *const *arguments, int messages,
                                     char *const *variables)
{
    int nothing = open("/dev/null", O_RDONLY);
    setpgid(0, 0);            /* a group of its own, so that all of it can be ended */
    system_end_with_parent(); /* and none of it outlives who asked for the picture */
    if (nothing >= 0 && dup2(nothing, STDIN_FILENO) >= 0 && dup2(messages, STDOUT_FILENO) >= 0 &&
        dup2(messages, STDERR_FILENO) >= 0 && !chdir(folder))
        execve(program, arguments, variables);
    _exit(127);
}

static char *script_folder(struct arena *arena, const char *script_path)
{
    const char *slash = strrchr(script_path, '/');
    return slash ? arena_text(arena, script_path, (size_t)(slash - script_path) + 1) : arena_copy(arena, ".");
}

/* One script after the other, each in a session of its own that inherits nothing. With ./ in front, a name that
 * begins with a dash is not taken for an option. */
static char **arguments_for(struct arena *arena, const char *const *script_paths, size_t count)
{
    char **arguments = ARENA_ARRAY(arena, char *, 3 * count + 3);
    size_t used = 0;
    arguments[used++] = arena_copy(arena, "gnuplot");
    arguments[used++] = arena_copy(arena, "-d");
    for (size_t i = 0; i < count; i++) {
        const char *slash = strrchr(script_paths[i], '/');
        if (i) {
            arguments[used++] = arena_copy(arena, "-e");
            arguments[used++] = arena_copy(arena, "reset session");
        }
        arguments[used++] = arena_printf(arena, "./%s", slash ? slash + 1 : script_paths[i]);
    }
    return arguments;
}

static bool start(struct arena *arena, const char *program, const char *const *script_paths, size_t count,
                  struct running *running)
{
    const char *folder = script_folder(arena, *script_paths);
    char **arguments = arguments_for(arena, script_paths, count);
    int ends[2];
    if (!system_pipe(ends))
        return false;
    char **variables = in_utf8(arena);
    running->process = fork();
    if (running->process == 0)
        become_gnuplot(program, folder, arguments, ends[1], variables);
    close(ends[1]);
    running->messages = ends[0];
    if (running->process < 0)
        close(ends[0]);
    return running->process > 0;
}

/* Reads gnuplot's messages until it closes its end or time is up; what does not fit into `size` is read and dropped.
 * False: time is up. */
static bool listen_until(const struct running *running, double deadline_s, char *message, size_t size)
{
    char dropped[512];
    for (size_t used = 0;;) {
        double left_s = deadline_s - clock_s();
        struct pollfd wait = {.fd = running->messages, .events = POLLIN};
        if (left_s <= 0)
            return false;
        if (poll(&wait, 1, (int)(left_s * 1000) + 1) <= 0)
            continue;
        bool full = used == size;
        ssize_t got = full ? read(wait.fd, dropped, sizeof dropped) : read(wait.fd, message + used, size - used);
        if (got == 0 || (got < 0 && errno != EINTR))
            return true;
        if (got > 0 && !full)
            used += (size_t)got;
    }
}

/* False: time is up, and the process is still running. */
static bool wait_until(pid_t process, double deadline_s, int *status)
{
    for (long pause_ns = FIRST_LOOK_NS;; pause_ns = pause_ns < LAST_LOOK_NS ? pause_ns * 2 : LAST_LOOK_NS) {
        pid_t ended = waitpid(process, status, WNOHANG);
        if (ended == process)
            return true;
        if (ended < 0 && errno != EINTR) { /* another part of the program has reaped it: treated as a failure */
            *status = -1;
            return true;
        }
        if (clock_s() >= deadline_s)
            return false;
        nanosleep(&(struct timespec){.tv_nsec = pause_ns}, NULL);
    }
}

static void end_at_once(pid_t process)
{
    int status;
    kill(-process, SIGKILL);
    kill(process, SIGKILL); /* it may not be the leader of its group yet */
    while (waitpid(process, &status, 0) < 0 && errno == EINTR)
        ;
}

struct render render_script(struct arena *arena, const char *script_path, double time_limit_s)
{
    return render_scripts(arena, &script_path, 1, time_limit_s);
}

/* What the kernel kills, for want of memory for example, gives no reason itself. */
static const char *reason(struct arena *arena, const char *message, int status)
{
    return WIFSIGNALED(status) ? arena_printf(arena, "gnuplot was ended by signal %d (%s)", WTERMSIG(status),
                                              strsignal(WTERMSIG(status)))
                               : message;
}

struct render render_scripts(struct arena *arena, const char *const *script_paths, size_t count, double time_limit_s)
{
    struct running running;
    const char *program = render_find_gnuplot(arena);
    if (!program)
        return (struct render){RENDER_NO_GNUPLOT, ""};
    if (!start(arena, program, script_paths, count, &running))
        return (struct render){RENDER_FAILED, arena_copy(arena, strerror(errno))};
    char *message = arena_alloc(arena, MESSAGE_BYTES + 1);
    double deadline_s = clock_s() + time_limit_s;
    int status = 0;
    bool in_time = listen_until(&running, deadline_s, message, MESSAGE_BYTES) &&
                   wait_until(running.process, deadline_s, &status);
    if (!in_time)
        end_at_once(running.process);
    close(running.messages);
    if (!in_time)
        return (struct render){RENDER_TIME_OUT, message};
    return (struct render){status == 0 ? RENDER_DONE : RENDER_FAILED, reason(arena, message, status)};
}
