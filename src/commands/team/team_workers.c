#include "commands/team/team_workers.h"

#include "commands/team/team.h"

#include "base/clock.h"
#include "commands/team/team_lifter.h"
#include "commands/team/team_logs.h"

#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>
#include <sys/prctl.h>
#include <sys/wait.h>
#include <unistd.h>

#define MESSAGE_BYTES 1024  /* fits a pipe: the worker never waits for us */
#define READER_SECONDS 10.0 /* more than its lifters have, for a group's reader */

struct worker
{
    struct team_lifter *lifter; /* whom it works for */
    struct team_group *group;   /* or the group whose logs it reads, once for the workers that it has of its own */
    unsigned slots;             /* of the jobs, that it takes; 0: idle */
    pid_t process;
    int messages;
    double started_s, deadline_s;
    char message[MESSAGE_BYTES + 1];
    size_t used;
    bool late;
};

struct report /* of a group's reader: smaller than a pipe's unit, so that it comes in one piece */
{
    uint32_t lifter; /* its number; LOGS_READ: from now on there are workers */
    enum team_work work;
    double seconds;
    char message[MESSAGE_BYTES + 1];
};

#define LOGS_READ UINT32_MAX

struct crew
{
    struct team *team;
    struct team_group *group; /* of a reader: it works on these lifters alone; NULL: on all others, and starts the readers */
    struct worker *workers;
    unsigned jobs;
    lifter_finished *finished;
    void *context;
};

static void run_crew(struct crew *crew);

static bool is_waiting(const struct team_lifter *lifter)
{
    return lifter->work == WORK_WANTED && lifter->seconds == 0;
}

static void fail(struct crew *crew, struct team_lifter *lifter, const char *message)
{
    lifter->work = WORK_FAILED;
    lifter->message = message;
    crew->finished(crew->context, lifter);
}

static void fail_group(struct crew *crew, const struct team_group *group, const char *message)
{
    for (size_t i = 0; i < crew->team->count; i++)
        if (crew->team->lifters[i].group == group && crew->team->lifters[i].work == WORK_WANTED)
            fail(crew, &crew->team->lifters[i], message);
}

/* --- the child's part ------------------------------------------------------------------------------------------------- */

static void tell(int messages, const void *bytes, size_t length)
{
    while (length && write(messages, bytes, length) < 0 && errno == EINTR)
        continue;
}

static _Noreturn void work_for_lifter(struct team *team, struct team_lifter *lifter, int messages)
{
    enum exit_status status;
    const char *message = team_lifter_work(team, lifter, &status);
    tell(messages, message, message ? strnlen(message, MESSAGE_BYTES) : 0);
    _exit((int)status);
}

struct reader
{
    const struct team *team;
    int messages;
};

static void report(void *context, struct team_lifter *lifter)
{
    const struct reader *reader = context;
    struct report report = {.lifter = (uint32_t)(lifter - reader->team->lifters), .work = lifter->work, .seconds = lifter->seconds};
    snprintf(report.message, sizeof report.message, "%s", lifter->message);
    tell(reader->messages, &report, sizeof report);
}

/* Shared logs are read here and not in the parent: what they do to the reading, they do to those who share them. The workers that are
 * forked from here find them in memory. */
static _Noreturn void read_for_group(struct team *team, struct team_group *group, unsigned jobs, int messages)
{
    struct report read = {.lifter = LOGS_READ};
    struct reader reader = {team, messages};
    struct crew crew = {team, group, NULL, jobs, report, &reader};
    team_read_group(team, group);
    tell(messages, &read, sizeof read);
    for (size_t i = 0; i < team->count; i++)
        if (team->lifters[i].group == group)
            team->lifters[i].seconds = 0;
    run_crew(&crew);
    _exit(EXIT_ALL_READ);
}

/* It goes with its parent, so that a run that is killed leaves nobody writing. */
static _Noreturn void be_child(struct team *team, const struct worker *worker, pid_t parent, int messages)
{
    prctl(PR_SET_PDEATHSIG, SIGKILL);
    if (getppid() != parent)
        _exit(EXIT_INTERNAL);
    if (worker->group)
        read_for_group(team, worker->group, worker->slots, messages);
    work_for_lifter(team, worker->lifter, messages);
}

/* --- starting --------------------------------------------------------------------------------------------------------- */

static bool start(struct team *team, struct worker *worker, struct worker wanted)
{
    int ends[2];
    pid_t parent = getpid();
    if (pipe2(ends, O_CLOEXEC))
        return false;
    fflush(NULL);
    pid_t process = fork();
    if (process == 0)
        be_child(team, &wanted, parent, ends[1]);
    int error = errno;
    close(ends[1]);
    if (process < 0) {
        close(ends[0]);
        errno = error;
        return false;
    }
    *worker = wanted;
    worker->process = process;
    worker->messages = ends[0];
    worker->started_s = clock_s();
    worker->deadline_s = worker->started_s + team->lifter_seconds;
    return true;
}

/* Its part of the jobs is that of its lifters among those who wait; the parent's own workers have the rest. */
static bool start_reader(struct crew *crew, struct worker *worker, unsigned free_slots)
{
    struct team *team = crew->team;
    struct team_group *group = NULL;
    size_t waiting = 0, members = 0;
    for (size_t i = 0; i < team->count; i++) {
        if (!is_waiting(&team->lifters[i]))
            continue;
        waiting++;
        group = group ? group : team->lifters[i].group;
        members += group && team->lifters[i].group == group;
    }
    if (!group)
        return false;
    unsigned slots = (unsigned)(crew->jobs * members / waiting);
    for (size_t i = 0; i < team->count; i++)
        if (team->lifters[i].group == group && is_waiting(&team->lifters[i]))
            team->lifters[i].seconds = -1; /* started */
    if (!start(team, worker, (struct worker){.group = group, .slots = slots < 1 ? 1 : slots > free_slots ? free_slots : slots}))
        fail_group(crew, group, arena_printf(team->arena, "no process for its shared logs: %s", strerror(errno)));
    return true;
}

static bool start_lifter(struct crew *crew, struct worker *worker)
{
    struct team *team = crew->team;
    for (size_t i = 0; i < team->count; i++) {
        struct team_lifter *lifter = &team->lifters[i];
        if (!is_waiting(lifter) || lifter->group != crew->group)
            continue;
        lifter->seconds = -1; /* started */
        if (!start(team, worker, (struct worker){.lifter = lifter, .slots = 1}))
            fail(crew, lifter, arena_printf(team->arena, "no process for it: %s", strerror(errno)));
        return true;
    }
    return false;
}

/* --- listening, ending ------------------------------------------------------------------------------------------------ */

/* Why it did not end well; NULL: it did, or said itself why not. */
static const char *bad_end(const struct team *team, const struct worker *worker, int status)
{
    if (worker->late)
        return arena_printf(team->arena, "it took longer than %.0f s and was ended", team->lifter_seconds);
    if (WIFSIGNALED(status))
        return arena_printf(team->arena, "its process was ended by signal %d (%s)", WTERMSIG(status), strsignal(WTERMSIG(status)));
    if (WEXITSTATUS(status) == EXIT_INTERNAL && !worker->used)
        return "its process gave up: out of memory";
    return NULL;
}

static void ended(struct crew *crew, struct worker *worker)
{
    struct team_lifter *lifter = worker->lifter;
    int status = 0;
    while (waitpid(worker->process, &status, 0) < 0 && errno == EINTR)
        continue;
    close(worker->messages);
    const char *why = bad_end(crew->team, worker, status);
    struct arena *arena = crew->team->arena;
    if (worker->group) {
        fail_group(crew, worker->group, why ? arena_printf(arena, "the logs that it shares with others: %s", why) : "its shared logs' process left it out");
    } else {
        lifter->seconds = clock_s() - worker->started_s;
        lifter->message = why ? why : arena_copy(arena, worker->message);
        lifter->work = !why && WEXITSTATUS(status) == EXIT_ALL_READ ? WORK_DONE : WORK_FAILED;
        crew->finished(crew->context, lifter);
    }
    worker->slots = 0;
}

static void listen_to_reader(struct crew *crew, struct worker *worker)
{
    struct report report;
    struct team *team = crew->team;
    ssize_t got = read(worker->messages, &report, sizeof report);
    if (got < 0 && errno == EINTR)
        return;
    if (got != (ssize_t)sizeof report) {
        ended(crew, worker);
        return;
    }
    worker->deadline_s = clock_s() + team->lifter_seconds + READER_SECONDS; /* it ends late workers of its own */
    if (report.lifter >= team->count)
        return;
    struct team_lifter *lifter = &team->lifters[report.lifter];
    lifter->work = report.work;
    lifter->seconds = report.seconds;
    lifter->message = arena_copy(team->arena, report.message);
    crew->finished(crew->context, lifter);
}

static void listen_to_worker(struct crew *crew, struct worker *worker)
{
    char dropped[256];
    bool full = worker->used == MESSAGE_BYTES;
    ssize_t got = full ? read(worker->messages, dropped, sizeof dropped)
                       : read(worker->messages, worker->message + worker->used, MESSAGE_BYTES - worker->used);
    if (got > 0)
        worker->used += full ? 0 : (size_t)got;
    else if (got == 0 || errno != EINTR)
        ended(crew, worker);
}

static void end_late(struct worker *worker)
{
    if (!worker->slots || worker->late || clock_s() < worker->deadline_s)
        return;
    worker->late = true;
    kill(worker->process, SIGKILL);
}

/* Waits until some worker speaks, ends, or is late. */
static void wait_for_some(struct crew *crew, struct pollfd *waits)
{
    double first_s = clock_s() + crew->team->lifter_seconds;
    for (unsigned i = 0; i < crew->jobs; i++) {
        const struct worker *worker = &crew->workers[i];
        waits[i] = (struct pollfd){.fd = worker->slots ? worker->messages : -1, .events = POLLIN};
        if (worker->slots && !worker->late && worker->deadline_s < first_s)
            first_s = worker->deadline_s;
    }
    double left_s = first_s - clock_s();
    poll(waits, crew->jobs, left_s > 0 ? (int)(left_s * 1000) + 1 : 0);
    for (unsigned i = 0; i < crew->jobs; i++) {
        if (waits[i].fd < 0 || !waits[i].revents)
            end_late(&crew->workers[i]);
        else if (crew->workers[i].group)
            listen_to_reader(crew, &crew->workers[i]);
        else
            listen_to_worker(crew, &crew->workers[i]);
    }
}

/* Groups first: they take longest. */
static bool start_next(struct crew *crew)
{
    struct worker *idle = NULL;
    unsigned used = 0;
    for (unsigned i = 0; i < crew->jobs; i++) {
        used += crew->workers[i].slots;
        idle = idle || crew->workers[i].slots ? idle : &crew->workers[i];
    }
    if (used >= crew->jobs || !idle)
        return false;
    return (!crew->group && start_reader(crew, idle, crew->jobs - used)) || start_lifter(crew, idle);
}

static void run_crew(struct crew *crew)
{
    crew->workers = ARENA_ARRAY(crew->team->arena, struct worker, crew->jobs);
    struct pollfd *waits = ARENA_ARRAY(crew->team->arena, struct pollfd, crew->jobs);
    for (bool busy = true; busy;) {
        busy = false;
        while (start_next(crew))
            continue;
        for (unsigned i = 0; i < crew->jobs; i++)
            busy |= crew->workers[i].slots != 0;
        if (busy)
            wait_for_some(crew, waits);
    }
}

void team_run_workers(struct team *team, unsigned jobs, lifter_finished *finished, void *context)
{
    struct crew crew = {team, NULL, NULL, jobs, finished, context};
    run_crew(&crew);
}
