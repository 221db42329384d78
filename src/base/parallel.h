/* Workers (threads) for pieces of work that do not depend on each other. */
#ifndef TAUTLINE_BASE_PARALLEL_H
#define TAUTLINE_BASE_PARALLEL_H

#include <stddef.h>

unsigned processors(void); /* that this process may use; at least 1 */

/* Calls work(context, worker, index) once for each index from 0 to count-1, started in rising order. `worker`, below
 * `workers`, is the same for everything that one thread does, so a worker's own data needs no lock. Returns when all is
 * done. With one worker, or if no thread can be started, the caller's thread does everything. */
typedef void parallel_work(void *context, unsigned worker, size_t index);
void in_parallel(unsigned workers, size_t count, parallel_work *work, void *context);

/* The same for work whose results must be put in order: put(context, index) follows each index's work, in rising order,
 * one at a time, on whichever thread is free. An index is only started when the one `ahead` places before it was put,
 * so at most that many results wait. */
typedef void parallel_put(void *context, size_t index);
void in_parallel_in_order(unsigned workers, size_t count, size_t ahead, parallel_work *work, parallel_put *put,
                          void *context);

#endif
