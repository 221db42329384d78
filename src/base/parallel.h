/* Threads for pieces of work that do not touch each other. */
#ifndef TAUTLINE_BASE_PARALLEL_H
#define TAUTLINE_BASE_PARALLEL_H

#include <stddef.h>

unsigned processors(void); /* that this process may use; at least 1 */

/* Does work(context, worker, 0 .. count-1), each once, begun in rising order: `worker`, below `workers`, is the same
 * for all that one thread does, so that what belongs to a worker needs no lock. Comes back when all is done. With one
 * worker, or where no thread can be had, the caller's thread does it all. */
typedef void parallel_work(void *context, unsigned worker, size_t index);
void in_parallel(unsigned workers, size_t count, parallel_work *work, void *context);

/* The same for work whose results are to be put in order: put(context, index) follows each index's work, in rising
 * order, one at a time, by whichever thread is free. No index is begun before the one `ahead` before it was put:
 * results of so many at most are waiting. */
typedef void parallel_put(void *context, size_t index);
void in_parallel_in_order(unsigned workers, size_t count, size_t ahead, parallel_work *work, parallel_put *put,
                          void *context);

#endif
