#include "base/parallel.h"

#include "base/arena.h"

#include <pthread.h>
#include <sched.h>
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
    parallel_put *put; /* NULL: nothing is put */
    void *context;
    size_t count;
    pthread_mutex_t lock; /* of what follows */
    pthread_cond_t moved; /* `put_count` grew */
    size_t begun, put_count, ahead;
    bool *done; /* work that waits to be put, by index modulo `ahead` */
    bool putting;
};

struct member
{
    struct crew *crew;
    unsigned number;
    pthread_t thread;
};

/* The next index; the crew's count: there is none left. */
static size_t next_index(struct crew *crew)
{
    while (crew->put && crew->begun < crew->count && crew->begun - crew->put_count >= crew->ahead)
        pthread_cond_wait(&crew->moved, &crew->lock);
    return crew->begun < crew->count ? crew->begun++ : crew->count;
}

/* What is done by now and has its turn; whoever finds another putting leaves it to that one. */
static void put_done(struct crew *crew)
{
    if (crew->putting)
        return;
    crew->putting = true;
    for (bool *done; *(done = &crew->done[crew->put_count % crew->ahead]);) {
        pthread_mutex_unlock(&crew->lock);
        crew->put(crew->context, crew->put_count); /* which changes only here */
        pthread_mutex_lock(&crew->lock);
        *done = false;
        crew->put_count++;
        pthread_cond_broadcast(&crew->moved);
    }
    crew->putting = false;
}

static void *take_work(void *argument)
{
    const struct member *member = argument;
    struct crew *crew = member->crew;
    pthread_mutex_lock(&crew->lock);
    for (size_t index; (index = next_index(crew)) < crew->count;) {
        pthread_mutex_unlock(&crew->lock);
        crew->work(crew->context, member->number, index);
        pthread_mutex_lock(&crew->lock);
        if (crew->put) {
            crew->done[index % crew->ahead] = true;
            put_done(crew);
        }
    }
    pthread_mutex_unlock(&crew->lock);
    return NULL;
}

static void run(struct crew *crew, unsigned workers)
{
    struct member members[MOST_THREADS];
    unsigned started = 1; /* the caller is the first */
    if (workers > MOST_THREADS)
        workers = MOST_THREADS;
    if (workers > crew->count)
        workers = (unsigned)crew->count;
    if (!workers)
        workers = 1;
    for (unsigned i = 0; i < workers; i++)
        members[i] = (struct member){.crew = crew, .number = i};
    pthread_mutex_init(&crew->lock, NULL);
    pthread_cond_init(&crew->moved, NULL);
    while (started < workers && !pthread_create(&members[started].thread, NULL, take_work, &members[started]))
        started++;
    take_work(&members[0]);
    for (unsigned i = 1; i < started; i++)
        pthread_join(members[i].thread, NULL);
    pthread_cond_destroy(&crew->moved);
    pthread_mutex_destroy(&crew->lock);
}

void in_parallel(unsigned workers, size_t count, parallel_work *work, void *context)
{
    struct crew crew = {.work = work, .context = context, .count = count};
    run(&crew, workers);
}

void in_parallel_in_order(unsigned workers, size_t count, size_t ahead, parallel_work *work, parallel_put *put, void *context)
{
    struct arena *own = arena_new();
    struct crew crew = {.work = work, .put = put, .context = context, .count = count, .ahead = ahead, .done = ARENA_ARRAY(own, bool, ahead)};
    run(&crew, workers);
    arena_free(own);
}
