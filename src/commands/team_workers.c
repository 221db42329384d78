/* A process a lifter: one that crashes, hangs or is killed takes its own lifter along and nobody else. */
#include "commands/team.h"

#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>
#include <sys/prctl.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#define MESSAGE_BYTES 1024 /* fits a pipe: the worker never waits for us */

struct worker
{
    struct team_lifter *lifter; /* NULL: idle */
    pid_t process;
    int messages;
    double started_s, deadline_s;
    char message[MESSAGE_BYTES + 1];
    size_t used;
    bool late;
};

static double now_s(void)
{
    struct timespec time;
    clock_gettime(CLOCK_MONOTONIC, &time);
    return (double)time.tv_sec + (double)time.tv_nsec * 1e-9;
}

/* The child's part. It goes with its parent, so that a run that is killed leaves nobody writing. */
static _Noreturn void work(struct team *team, struct team_lifter *lifter, pid_t parent, int messages)
{
    enum exit_status status;
    prctl(PR_SET_PDEATHSIG, SIGKILL);
    if (getppid() != parent)
        _exit(EXIT_INTERNAL);
    const char *message = team_lifter_work(team, lifter, &status);
    size_t length = message ? strnlen(message, MESSAGE_BYTES) : 0;
    while (length && write(messages, message, length) < 0 && errno == EINTR)
        continue;
    _exit((int)status);
}

static bool start(struct team *team, struct worker *worker, struct team_lifter *lifter)
{
    int ends[2];
    pid_t parent = getpid();
    if (lifter->group)
        team_read_group(team, lifter->group);
    if (pipe2(ends, O_CLOEXEC))
        return false;
    fflush(NULL);
    pid_t process = fork();
    if (process == 0)
        work(team, lifter, parent, ends[1]);
    int error = errno;
    close(ends[1]);
    if (process < 0) {
        close(ends[0]);
        errno = error;
        return false;
    }
    double now = now_s();
    *worker = (struct worker){.lifter = lifter, .process = process, .messages = ends[0], .started_s = now, .deadline_s = now + team->lifter_seconds};
    return true;
}

static void settle(struct team *team, struct worker *worker, int status)
{
    struct team_lifter *lifter = worker->lifter;
    lifter->seconds = now_s() - worker->started_s;
    lifter->message = arena_copy(team->arena, worker->message);
    if (worker->late)
        lifter->message = arena_printf(team->arena, "it took longer than %.0f s and was ended", team->lifter_seconds);
    else if (WIFSIGNALED(status))
        lifter->message = arena_printf(team->arena, "its process was ended by signal %d (%s)", WTERMSIG(status), strsignal(WTERMSIG(status)));
    else if (WEXITSTATUS(status) == EXIT_INTERNAL && !*lifter->message)
        lifter->message = "its process gave up: out of memory";
    bool done = !worker->late && WIFEXITED(status) && WEXITSTATUS(status) == EXIT_ALL_READ;
    lifter->work = done ? WORK_DONE : WORK_FAILED;
    worker->lifter = NULL;
}

/* Takes what it says; at its end, its status. True: it ended. */
static bool listen_to(struct team *team, struct worker *worker)
{
    char dropped[256];
    bool full = worker->used == MESSAGE_BYTES;
    ssize_t got = full ? read(worker->messages, dropped, sizeof dropped)
                       : read(worker->messages, worker->message + worker->used, MESSAGE_BYTES - worker->used);
    if (got < 0 && errno == EINTR)
        return false;
    if (got > 0) {
        worker->used += full ? 0 : (size_t)got;
        return false;
    }
    int status = 0;
    while (waitpid(worker->process, &status, 0) < 0 && errno == EINTR)
        continue;
    close(worker->messages);
    settle(team, worker, status);
    return true;
}

static void end_late(struct worker *worker)
{
    if (!worker->lifter || worker->late || now_s() < worker->deadline_s)
        return;
    worker->late = true;
    kill(worker->process, SIGKILL);
}

/* Waits until some worker speaks, ends, or is late. */
static void wait_for_some(struct team *team, struct worker *workers, unsigned count, lifter_finished *finished, void *context)
{
    struct pollfd *waits = ARENA_ARRAY(team->arena, struct pollfd, count);
    double first_s = now_s() + team->lifter_seconds;
    for (unsigned i = 0; i < count; i++) {
        waits[i] = (struct pollfd){.fd = workers[i].lifter ? workers[i].messages : -1, .events = POLLIN};
        if (workers[i].lifter && !workers[i].late && workers[i].deadline_s < first_s)
            first_s = workers[i].deadline_s;
    }
    double left_s = first_s - now_s();
    poll(waits, count, left_s > 0 ? (int)(left_s * 1000) + 1 : 0);
    for (unsigned i = 0; i < count; i++) {
        struct team_lifter *lifter = workers[i].lifter;
        if (waits[i].fd >= 0 && waits[i].revents && listen_to(team, &workers[i]))
            finished(context, lifter);
        else
            end_late(&workers[i]);
    }
}

static struct team_lifter *next_wanted(struct team *team, const struct team_group *group)
{
    struct team_lifter *other = NULL;
    for (size_t i = 0; i < team->count; i++) {
        struct team_lifter *lifter = &team->lifters[i];
        if (lifter->work != WORK_WANTED || lifter->seconds != 0)
            continue;
        if (lifter->group == group)
            return lifter;
        if (!other)
            other = lifter;
    }
    return other; /* those of one group in a row, so that one group's logs are in memory */
}

void team_run_workers(struct team *team, unsigned jobs, lifter_finished *finished, void *context)
{
    struct worker *workers = ARENA_ARRAY(team->arena, struct worker, jobs);
    const struct team_group *group = NULL;
    for (bool busy = true, tried = true; busy || tried;) {
        busy = tried = false;
        for (unsigned i = 0; i < jobs; i++) {
            struct team_lifter *lifter = workers[i].lifter ? NULL : next_wanted(team, group);
            if (lifter) {
                tried = true;
                group = lifter->group;
                lifter->seconds = -1; /* started */
                if (!start(team, &workers[i], lifter)) {
                    lifter->work = WORK_FAILED;
                    lifter->message = arena_printf(team->arena, "no process for it: %s", strerror(errno));
                    finished(context, lifter);
                }
            }
            busy |= workers[i].lifter != NULL;
        }
        if (busy)
            wait_for_some(team, workers, jobs, finished, context);
    }
}
