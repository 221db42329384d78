#include "commands/session/session_lifters.h"

#include "commands/session/session.h"

#include "analysis/ordering.h"
#include "base/parallel.h"
#include "commands/session/remarks.h"
#include "model/set_store.h"

#define LIFTERS_AHEAD ((size_t)4) /* per worker: lifters whose rows wait for those before them */

#define SETS_FOR_TWO 20000 /* with fewer, another thread costs more than it saves */

struct lifter_worker /* works on one lifter at a time */
{
    struct arena *arena;       /* NULL: it has not had a lifter yet */
    struct arena *of_lifter;   /* emptied after each lifter */
    struct log log;            /* the session's log, but with one lifter's sets */
    LIST(struct set) gathered; /* if a lifter's sets are not adjacent */
    struct training_maker *maker;
    struct remarks *remarks;
};

struct by_lifter
{
    struct session *session;
    struct training_options options;
    uint32_t *numbers; /* numbers of the lifters, sorted by name */
    uint32_t *order;   /* indexes of the sets, by lifter number; NULL: they are in a set store, or used all at once */
    size_t *starts;    /* in `order`, by lifter number; has one more entry than there are lifters */
    struct lifter_worker *workers;
    unsigned worker_count;
    struct output *output;
    struct output **parts; /* one for each lifter ahead; NULL: rows go straight to the output */
    size_t ahead;
    lifter_work *work;
    void *context;
};

static struct lifter_worker *worker_of(struct by_lifter *by, unsigned number)
{
    struct lifter_worker *worker = &by->workers[number];
    if (!worker->arena) {
        const struct session *session = by->session;
        worker->arena = arena_new();
        worker->of_lifter = arena_new();
        worker->log = *session->log;
        if (worker->log.set_store || by->order) {
            worker->log.arena = worker->arena;
            worker->log.sets.items = NULL;
            worker->log.sets.count = worker->log.sets.capacity = 0;
        }
        worker->maker = training_maker_new(worker->arena, &worker->log, session->gym, &by->options);
        worker->remarks = remarks_new(worker->arena, by->session);
    }
    return worker;
}

/* If the lifter's sets are adjacent, they are used in place. */
static void take_sets(const struct by_lifter *by, struct lifter_worker *worker, uint32_t lifter)
{
    struct set *all = by->session->log->sets.items;
    const uint32_t *order = by->order + by->starts[lifter];
    size_t count = by->starts[lifter + 1] - by->starts[lifter];
    bool together = count && order[count - 1] - order[0] == count - 1;
    worker->gathered.count = 0;
    for (size_t i = 0; !together && i < count; i++)
        *LIST_ADD(worker->arena, &worker->gathered) = all[order[i]];
    worker->log.sets.items = together ? &all[order[0]] : worker->gathered.items;
    worker->log.sets.count = worker->log.sets.capacity = count;
}

static void work_on(void *context, unsigned number, size_t index)
{
    struct by_lifter *by = context;
    struct lifter_worker *worker = worker_of(by, number);
    if (worker->log.set_store) {
        worker->log.sets.count = 0;
        set_store_read(worker->log.set_store, &worker->log, by->numbers[index]);
    } else if (by->order) {
        take_sets(by, worker, by->numbers[index]);
    }
    const struct training *training = training_of_sets(worker->maker, worker->of_lifter);
    remarks_see(worker->remarks, training);
    by->work(by->context, worker->of_lifter, training, by->parts ? by->parts[index % by->ahead] : NULL);
    arena_reset(worker->of_lifter);
}

static void write_part(void *context, size_t index)
{
    const struct by_lifter *by = context;
    struct output *part = by->parts[index % by->ahead];
    size_t length;
    const char *rows = output_memory(part, &length);
    output_put(by->output, rows, length);
    output_clear(part);
}

static uint32_t *numbers_by_name(struct arena *arena, const struct names *lifters)
{
    const uint32_t *ranks = name_ranks(arena, lifters);
    uint32_t *numbers = ARENA_ARRAY(arena, uint32_t, names_count(lifters));
    for (uint32_t i = 0; i < names_count(lifters); i++)
        numbers[ranks[i]] = i;
    return numbers;
}

static void order_sets(struct by_lifter *by)
{
    const struct log *log = by->session->log;
    struct arena *arena = by->session->arena;
    size_t lifters = names_count(log->lifters), *next = ARENA_ARRAY(arena, size_t, lifters + 1);
    by->starts = ARENA_ARRAY(arena, size_t, lifters + 1);
    by->order = ARENA_ARRAY(arena, uint32_t, log->sets.count);
    for (size_t i = 0; i < log->sets.count; i++)
        by->starts[log->sets.items[i].lifter + 1]++;
    for (size_t i = 0; i < lifters; i++)
        next[i + 1] = by->starts[i + 1] += by->starts[i];
    for (size_t i = 0; i < log->sets.count; i++)
        by->order[next[log->sets.items[i].lifter]++] = (uint32_t)i;
}

static void finish(struct by_lifter *by)
{
    struct remarks *remarks = remarks_new(by->session->arena, by->session);
    for (unsigned i = 0; i < by->worker_count; i++) {
        struct lifter_worker *worker = &by->workers[i];
        if (!worker->arena)
            continue;
        remarks_join(remarks, worker->remarks);
        training_maker_free(worker->maker);
        arena_free(worker->of_lifter);
        arena_join(by->session->arena, worker->arena); /* findings and tables may still refer to its sets */
    }
    remarks_finish(remarks);
}

static unsigned workers_for(const struct session *session, size_t lifters)
{
    size_t sets = 0;
    for (size_t i = 0; i < session->log->files.count; i++)
        sets += session->log->files.items[i].sets;
    if (lifters < 2 || (!session->options->jobs && sets < SETS_FOR_TWO))
        return 1;
    return session_jobs(session);
}

static void work_in_parts(struct by_lifter *by, struct output *output, size_t count)
{
    struct arena *arena = by->session->arena, **own;
    by->output = output;
    by->ahead = LIFTERS_AHEAD * by->worker_count;
    by->parts = ARENA_ARRAY(arena, struct output *, by->ahead);
    own = ARENA_ARRAY(arena, struct arena *, by->ahead);
    for (size_t i = 0; i < by->ahead; i++)
        by->parts[i] = output_to_memory(own[i] = arena_new());
    in_parallel_in_order(by->worker_count, count, by->ahead, work_on, write_part, by);
    for (size_t i = 0; i < by->ahead; i++)
        arena_free(own[i]);
}

void session_each_lifter(struct session *session, struct output *output, lifter_work *work, void *context)
{
    struct arena *arena = session->arena;
    struct by_lifter by = {
        .session = session, .options = session_training_options(session), .work = work, .context = context};
    if (!session->log->set_store && !session->log->percents.count)
        order_sets(&by);
    /* A set whose load is in % is referred to by index, so all lifters then need a single training. */
    size_t count = session->log->set_store || by.order ? names_count(session->log->lifters) : 1;
    by.worker_count = output ? workers_for(session, count) : 1;
    by.workers = ARENA_ARRAY(arena, struct lifter_worker, by.worker_count);
    by.numbers = numbers_by_name(arena, session->log->lifters);
    if (by.worker_count > 1)
        work_in_parts(&by, output, count);
    else
        in_parallel(1, count, work_on, &by);
    finish(&by);
}
