#include "base/parallel.h"

#include <pthread.h>
#include <sched.h>
#include <stdatomic.h>
#include <stdbool.h>

#define MOST_THREADS 256

unsigned processors(void)
{
    cpu_set_t usable;
    int count = sched_getaffinity(0, sizeof usable, &usable) ? 1 : CPU_COUNT(&usable);
    return count > 1 ? (unsigned)count : 1;
}

struct crew
{
    parallel_work *work;
    void *context;
    size_t count;
    atomic_size_t next;
};

struct member
{
    struct crew *crew;
    unsigned number;
    pthread_t thread;
};

static void *take_work(void *argument)
{
    const struct member *member = argument;
    struct crew *crew = member->crew;
    for (size_t index; (index = atomic_fetch_add(&crew->next, 1)) < crew->count;)
        crew->work(crew->context, member->number, index);
    return NULL;
}

void in_parallel(unsigned workers, size_t count, parallel_work *work, void *context)
{
    struct crew crew = {.work = work, .context = context, .count = count};
    struct member members[MOST_THREADS];
    unsigned started = 1; /* the caller is the first */
    if (workers > MOST_THREADS)
        workers = MOST_THREADS;
    if (workers > count)
        workers = count ? (unsigned)count : 1;
    for (unsigned i = 0; i < workers; i++)
        members[i] = (struct member){.crew = &crew, .number = i};
    while (started < workers && !pthread_create(&members[started].thread, NULL, take_work, &members[started]))
        started++;
    take_work(&members[0]);
    for (unsigned i = 1; i < started; i++)
        pthread_join(members[i].thread, NULL);
}
