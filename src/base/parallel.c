#include "base/parallel.h"

#include "base/arena.h"
#include "base/system.h"

#include <pthread.h>
#include <stdbool.h>

#define MOST_THREADS 256

unsigned processors(void)
{
    return system_processors();
}

struct work_queue
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

struct worker
{
    struct work_queue *work_queue;
    unsigned number;
    pthread_t thread;
};

/* The next index; the queue's count: there is none left. */
static size_t next_index(struct work_queue *work_queue)
{
    while (work_queue->put && work_queue->begun < work_queue->count &&
           work_queue->begun - work_queue->put_count >= work_queue->ahead)
        pthread_cond_wait(&work_queue->moved, &work_queue->lock);
    return work_queue->begun < work_queue->count ? work_queue->begun++ : work_queue->count;
}

/* What is done by now and has its turn; whoever finds another putting leaves it to that one. */
static void put_done(struct work_queue *work_queue)
{
    if (work_queue->putting)
        return;
    work_queue->putting = true;
    for (bool *done; *(done = &work_queue->done[work_queue->put_count % work_queue->ahead]);) {
        pthread_mutex_unlock(&work_queue->lock);
        work_queue->put(work_queue->context, work_queue->put_count); /* which changes only here */
        pthread_mutex_lock(&work_queue->lock);
        *done = false;
        work_queue->put_count++;
        pthread_cond_broadcast(&work_queue->moved);
    }
    work_queue->putting = false;
}

static void *take_work(void *argument)
{
    const struct worker *worker = argument;
    struct work_queue *work_queue = worker->work_queue;
    pthread_mutex_lock(&work_queue->lock);
    for (size_t index; (index = next_index(work_queue)) < work_queue->count;) {
        pthread_mutex_unlock(&work_queue->lock);
        work_queue->work(work_queue->context, worker->number, index);
        pthread_mutex_lock(&work_queue->lock);
        if (work_queue->put) {
            work_queue->done[index % work_queue->ahead] = true;
            put_done(work_queue);
        }
    }
    pthread_mutex_unlock(&work_queue->lock);
    return NULL;
}

static void run(struct work_queue *work_queue, unsigned workers)
{
    struct worker threads[MOST_THREADS];
    unsigned started = 1; /* the caller is the first */
    if (workers > MOST_THREADS)
        workers = MOST_THREADS;
    if (workers > work_queue->count)
        workers = (unsigned)work_queue->count;
    if (!workers)
        workers = 1;
    for (unsigned i = 0; i < workers; i++)
        threads[i] = (struct worker){.work_queue = work_queue, .number = i};
    pthread_mutex_init(&work_queue->lock, NULL);
    pthread_cond_init(&work_queue->moved, NULL);
    while (started < workers && !pthread_create(&threads[started].thread, NULL, take_work, &threads[started]))
        started++;
    take_work(&threads[0]);
    for (unsigned i = 1; i < started; i++)
        pthread_join(threads[i].thread, NULL);
    pthread_cond_destroy(&work_queue->moved);
    pthread_mutex_destroy(&work_queue->lock);
}

void in_parallel(unsigned workers, size_t count, parallel_work *work, void *context)
{
    struct work_queue work_queue = {.work = work, .context = context, .count = count};
    run(&work_queue, workers);
}

void in_parallel_in_order(unsigned workers, size_t count, size_t ahead, parallel_work *work, parallel_put *put,
                          void *context)
{
    struct arena *own = arena_new();
    struct work_queue work_queue = {.work = work,
                                    .put = put,
                                    .context = context,
                                    .count = count,
                                    .ahead = ahead,
                                    .done = ARENA_ARRAY(own, bool, ahead)};
    run(&work_queue, workers);
    arena_free(own);
}
