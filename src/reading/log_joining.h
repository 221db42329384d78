/* Files read by several readers at once, and merged file by file in the order of the queue. */
#ifndef TAUTLINE_READING_LOG_JOINING_H
#define TAUTLINE_READING_LOG_JOINING_H

#include "reading/log_queue.h"

/* Lets several readers read the queue's files, if that is allowed and worth it. */
void log_read_apart(struct reading *reading, struct log_queue *queue);

/* Merges what such a reader found in the file. Files must be merged in the order of the queue. */
enum found log_join(struct reading *reading, const struct log_entry *entry);
void log_end_workers(struct reading *reading, struct log_queue *queue); /* the whole owns their results from then on */

#endif
