/* Files read by several readers at once and joined file by file in the order of the queue. */
#ifndef TAUTLINE_READING_LOG_JOINING_H
#define TAUTLINE_READING_LOG_JOINING_H

#include "reading/log_queue.h"

/* Has the queue's files read by several readers, where that is wanted and worth it. */
void log_read_apart(struct reading *reading, struct log_queue *queue);

/* Adds what such a reader found in the file. Files are joined in the order of the queue. */
enum found log_join(struct reading *reading, const struct log_entry *entry);
void log_end_workers(struct reading *reading, struct log_queue *queue); /* what they made is the whole's then */

#endif
