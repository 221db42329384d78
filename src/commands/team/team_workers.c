#include "commands/team/team_workers.h"

#include "base/clock.h"
#include "base/system.h"
#include "commands/team/team_lifter.h"
#include "commands/team/team_logs.h"

#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#define MESSAGE_BYTES 1024
#define READER_SECONDS 10.0 /* that a group's reader has on top of its lifters' time */
#define MOST_LIFTERS 64u    /* at most, for one worker */
#define ROUNDS 8u           /* batches for each job, if there are enough lifters: a slow one delays few */

struct worker
{
    struct team_group *group; /* the group whose logs it reads once, for its own workers; NULL: it works for lifters */
    struct team_lifter *current; /* the lifter it is working on; NULL: it has not begun, or is between two */
    unsigned slots;              /* of the jobs that it uses; 0: idle */
    pid_t process;
    int messages;
    double deadline_s;
    bool late;
};

struct report /* smaller than PIPE_BUF, so that a pipe passes it on in one piece */
{
    uint32_t lifter;     /* index of the lifter; LOGS_READ: a reader reports that its workers start now */
    enum team_work work; /* WORK_WANTED: the worker begins with it; else how it ended */
    double seconds;
    char message[MESSAGE_BYTES + 1];
};

#define LOGS_READ UINT32_MAX

struct pool
{
    struct team *team;
    struct team_group
        *group; /* in a reader: the pool's only lifters; NULL: the pool has all other lifters, and starts the readers */
    struct worker *workers;
    unsigned jobs;
    size_t next, next_group; /* all before these have been handed out */
    size_t waiting;          /* lifters of this pool, at the start */
    lifter_finished *finished;
    void *context;
};

static void run_pool(struct pool *pool);

static bool is_waiting(const struct team_lifter *lifter)
{
    return lifter->work == WORK_WANTED && !lifter->worker;
}

static void fail(struct pool *pool, struct team_lifter *lifter, const char *message)
{
    lifter->work = WORK_FAILED;
    lifter->message = message;
    pool->finished(pool->context, lifter);
}

static void fail_group(struct pool *pool, const struct team_group *group, const char *message)
{
    for (size_t i = 0; i < group->members.count; i++)
        if (group->members.items[i]->work == WORK_WANTED)
            fail(pool, group->members.items[i], message);
}

/* --- the child's part ------------------------------------------------------------------------------------------------- */

static void tell(int messages, const struct team *team, const struct team_lifter *lifter, enum team_work work)
{
    struct report report = {.lifter = lifter ? (uint32_t)(lifter - team->lifters) : LOGS_READ, .work = work};
    if (lifter && work != WORK_WANTED) {
        report.seconds = lifter->seconds;
        snprintf(report.message, sizeof report.message, "%s", lifter->message);
    }
    while (write(messages, &report, sizeof report) < 0 && errno == EINTR)
        continue;
}

static void work_for(struct team *team, struct team_lifter *lifter, int messages)
{
    struct arena *arena = arena_new();
    double started_s = clock_s();
    tell(messages, team, lifter, WORK_WANTED);
    enum team_work work = team_lifter_work(team, lifter, arena, &lifter->message);
    lifter->seconds = clock_s() - started_s;
    tell(messages, team, lifter, work);
    lifter->message = "";
    arena_free(arena);
}

struct reader
{
    const struct team *team;
    int messages;
};

static void pass_on(void *context, struct team_lifter *lifter)
{
    const struct reader *reader = context;
    tell(reader->messages, reader->team, lifter, lifter->work);
}

/* A lifter whose logs all come from the group, and whose folder is up to date with them, needs no worker. */
static bool any_wanted(struct team *team, struct team_group *group, int messages)
{
    bool any = false;
    for (size_t i = 0; i < group->members.count; i++) {
        struct team_lifter *lifter = group->members.items[i];
        lifter->worker = NULL;
        if (lifter->work != WORK_WANTED)
            continue;
        struct arena *arena = arena_new();
        if (team_has_own_logs(lifter) || !team_lifter_stands(team, lifter, arena, &lifter->message)) {
            any = true;
        } else {
            lifter->work = WORK_UNCHANGED;
            tell(messages, team, lifter, WORK_UNCHANGED);
        }
        lifter->message = lifter->work == WORK_WANTED ? "" : lifter->message;
        arena_free(arena);
    }
    return any;
}

/* Shared logs are read here and not in the parent, so that a crash while reading affects only the lifters who share
 * them. The workers forked from here find the logs in memory. */
static void read_for_group(struct team *team, struct team_group *group, unsigned jobs, int messages)
{
    struct reader reader = {team, messages};
    struct pool pool = {.team = team, .group = group, .jobs = jobs, .finished = pass_on, .context = &reader};
    team_digest_group(group);
    bool wanted = any_wanted(team, group, messages);
    if (wanted && !team->only_looks)
        team_read_group(team, group);
    tell(messages, team, NULL, WORK_WANTED);
    if (wanted)
        run_pool(&pool);
}

/* The child ends with its parent, so that no process goes on writing after a run was killed. */
static _Noreturn void be_child(struct team *team, const struct worker *worker, pid_t parent, int messages)
{
    system_end_with_parent();
    if (getppid() != parent)
        _exit(EXIT_INTERNAL);
    if (worker->group)
        read_for_group(team, worker->group, worker->slots, messages);
    for (size_t i = 0; i < team->count && !worker->group; i++)
        if (team->lifters[i].worker == worker && team->lifters[i].work == WORK_WANTED)
            work_for(team, &team->lifters[i], messages);
    _exit(EXIT_ALL_READ);
}

/* --- starting --------------------------------------------------------------------------------------------------------- */

static bool start(struct team *team, struct worker *worker)
{
    int ends[2];
    pid_t parent = getpid();
    if (!system_pipe(ends))
        return false;
    fflush(stderr);
    worker->process = fork();
    if (worker->process == 0) {
        close(ends[0]);
        be_child(team, worker, parent, ends[1]);
    }
    int error = errno;
    close(ends[1]);
    worker->messages = ends[0];
    worker->deadline_s = clock_s() + team->lifter_seconds;
    if (worker->process < 0)
        close(ends[0]);
    errno = error;
    return worker->process > 0;
}

static size_t waiting_of(const struct team_group *group)
{
    size_t count = 0;
    for (size_t i = 0; i < group->members.count; i++)
        count += is_waiting(group->members.items[i]);
    return count;
}

/* A group gets a share of the jobs in proportion to its share of the waiting lifters. */
static bool start_reader(struct pool *pool, struct worker *worker, unsigned free_slots)
{
    struct team *team = pool->team;
    while (pool->next_group < team->groups.count && !waiting_of(team->groups.items[pool->next_group]))
        pool->next_group++;
    if (pool->next_group == team->groups.count)
        return false;
    struct team_group *group = team->groups.items[pool->next_group++];
    unsigned slots = (unsigned)(pool->jobs * waiting_of(group) / (pool->waiting ? pool->waiting : 1));
    *worker = (struct worker){.group = group, .slots = slots < 1 ? 1 : slots > free_slots ? free_slots : slots};
    for (size_t i = 0; i < group->members.count; i++)
        if (is_waiting(group->members.items[i]))
            group->members.items[i]->worker = worker;
    if (start(team, worker))
        return true;
    worker->slots = 0;
    fail_group(pool, group,
               arena_printf(team->arena, "the process for its shared logs could not be started: %s", strerror(errno)));
    return true;
}

/* Hands out the next waiting lifters. A lifter whose own logs change what the reader read gets a process alone. */
static size_t hand_out(struct pool *pool, const struct worker *worker)
{
    struct team *team = pool->team;
    size_t most = pool->waiting / (pool->jobs * ROUNDS), given = 0;
    most = most < 1 ? 1 : most > MOST_LIFTERS ? MOST_LIFTERS : most;
    for (size_t i = pool->next; i < team->count && given < most; i++) {
        struct team_lifter *lifter = &team->lifters[i];
        if (!given)
            pool->next = i;
        if (!is_waiting(lifter) || lifter->group != pool->group)
            continue;
        bool alone = pool->group && team_has_own_logs(lifter);
        if (alone && given)
            break;
        lifter->worker = worker;
        given = alone ? most : given + 1;
    }
    return given;
}

static bool start_lifters(struct pool *pool, struct worker *worker)
{
    struct team *team = pool->team;
    *worker = (struct worker){.slots = 1};
    if (!hand_out(pool, worker)) {
        worker->slots = 0;
        return false;
    }
    if (start(team, worker))
        return true;
    worker->slots = 0;
    const char *message = arena_printf(team->arena, "its process could not be started: %s", strerror(errno));
    for (size_t i = pool->next; i < team->count; i++)
        if (team->lifters[i].worker == worker && team->lifters[i].work == WORK_WANTED)
            fail(pool, &team->lifters[i], message);
    return true;
}

/* --- listening, ending ------------------------------------------------------------------------------------------------ */

/* The reason why it ended badly; NULL: it ended well. */
static const char *bad_end(const struct team *team, const struct worker *worker, int status)
{
    if (worker->late)
        return arena_printf(team->arena, "it took longer than %.0f s and was ended", team->lifter_seconds);
    if (WIFSIGNALED(status))
        return arena_printf(team->arena, "its process was ended by signal %d (%s)", WTERMSIG(status),
                            strsignal(WTERMSIG(status)));
    if (WEXITSTATUS(status) == EXIT_INTERNAL)
        return "its process gave up: out of memory";
    return WEXITSTATUS(status) ? "its process gave up" : NULL;
}

/* The lifter it was working for has failed; those it had not reached wait again. If it never began, its first lifter
 * counts as failed, else it would be started again for ever. */
static void leave_lifters(struct pool *pool, struct worker *worker, const char *why)
{
    struct team *team = pool->team;
    for (size_t i = 0; i < team->count; i++) {
        struct team_lifter *lifter = &team->lifters[i];
        if (lifter->worker != worker || lifter->work != WORK_WANTED)
            continue;
        lifter->worker = NULL;
        if (!worker->current)
            worker->current = lifter;
        if (worker->current == lifter)
            fail(pool, lifter, why ? why : "its process skipped it");
        else
            pool->next = i < pool->next ? i : pool->next;
    }
}

static void ended(struct pool *pool, struct worker *worker)
{
    int status = 0;
    while (waitpid(worker->process, &status, 0) < 0 && errno == EINTR)
        continue;
    close(worker->messages);
    const char *why = bad_end(pool->team, worker, status);
    struct arena *arena = pool->team->arena;
    if (worker->group)
        fail_group(pool, worker->group,
                   why ? arena_printf(arena, "the logs that it shares with others: %s", why)
                       : "the process of its shared logs skipped it");
    else if (why)
        leave_lifters(pool, worker, why);
    worker->slots = 0;
}

static void take_report(struct pool *pool, struct worker *worker, const struct report *report)
{
    struct team *team = pool->team;
    worker->deadline_s = clock_s() + team->lifter_seconds +
                         (worker->group ? READER_SECONDS : 0); /* a reader ends its own late workers first */
    if (report->lifter >= team->count)
        return;
    struct team_lifter *lifter = &team->lifters[report->lifter];
    worker->current = report->work == WORK_WANTED ? lifter : NULL;
    if (report->work == WORK_WANTED || lifter->work != WORK_WANTED)
        return;
    lifter->work = report->work;
    lifter->seconds = report->seconds;
    lifter->message = *report->message ? arena_copy(team->arena, report->message) : "";
    pool->finished(pool->context, lifter);
}

static void listen(struct pool *pool, struct worker *worker)
{
    struct report report;
    ssize_t got = read(worker->messages, &report, sizeof report);
    if (got == (ssize_t)sizeof report)
        take_report(pool, worker, &report);
    else if (got >= 0 || errno != EINTR)
        ended(pool, worker);
}

static void end_late(struct worker *worker)
{
    if (!worker->slots || worker->late || clock_s() < worker->deadline_s)
        return;
    worker->late = true;
    kill(worker->process, SIGKILL);
}

/* Waits until a worker reports, ends, or exceeds its time. */
static void wait_for_some(struct pool *pool, struct pollfd *waits)
{
    double first_s = clock_s() + pool->team->lifter_seconds;
    for (unsigned i = 0; i < pool->jobs; i++) {
        const struct worker *worker = &pool->workers[i];
        waits[i] = (struct pollfd){.fd = worker->slots ? worker->messages : -1, .events = POLLIN};
        if (worker->slots && !worker->late && worker->deadline_s < first_s)
            first_s = worker->deadline_s;
    }
    double left_s = first_s - clock_s();
    poll(waits, pool->jobs, left_s > 0 ? (int)(left_s * 1000) + 1 : 0);
    for (unsigned i = 0; i < pool->jobs; i++) {
        if (waits[i].fd < 0 || !waits[i].revents)
            end_late(&pool->workers[i]);
        else
            listen(pool, &pool->workers[i]);
    }
}

/* Groups start first because they take longest. */
static bool start_next(struct pool *pool)
{
    struct worker *idle = NULL;
    unsigned used = 0;
    for (unsigned i = 0; i < pool->jobs; i++) {
        used += pool->workers[i].slots;
        idle = idle || pool->workers[i].slots ? idle : &pool->workers[i];
    }
    if (used >= pool->jobs || !idle)
        return false;
    return (!pool->group && start_reader(pool, idle, pool->jobs - used)) || start_lifters(pool, idle);
}

static void run_pool(struct pool *pool)
{
    struct team *team = pool->team;
    pool->workers = ARENA_ARRAY(team->arena, struct worker, pool->jobs);
    struct pollfd *waits = ARENA_ARRAY(team->arena, struct pollfd, pool->jobs);
    for (size_t i = 0; i < team->count; i++)
        pool->waiting += is_waiting(&team->lifters[i]) && (!pool->group || team->lifters[i].group == pool->group);
    for (bool busy = true; busy;) {
        busy = false;
        while (start_next(pool))
            continue;
        for (unsigned i = 0; i < pool->jobs; i++)
            busy |= pool->workers[i].slots != 0;
        if (busy)
            wait_for_some(pool, waits);
    }
}

void team_run_workers(struct team *team, unsigned jobs, lifter_finished *finished, void *context)
{
    struct pool pool = {.team = team, .jobs = jobs, .finished = finished, .context = context};
    run_pool(&pool);
}
