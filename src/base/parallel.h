/* Threads for pieces of work that do not touch each other. */
#ifndef TAUTLINE_BASE_PARALLEL_H
#define TAUTLINE_BASE_PARALLEL_H

#include <stddef.h>

unsigned processors(void); /* that this process may use; at least 1 */

/* Does work(context, worker, 0 .. count-1), each once, begun in rising order: `worker`, below `workers`, is the same for all that one
 * thread does, so that what belongs to a worker needs no lock. Comes back when all is done. With one worker, or where no thread can be
 * had, the caller's thread does it all. */
typedef void parallel_work(void *context, unsigned worker, size_t index);
void in_parallel(unsigned workers, size_t count, parallel_work *work, void *context);

#endif
