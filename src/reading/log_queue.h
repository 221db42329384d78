/* Declarations shared by the files that go through the LOGs; no other file includes it.
 *
 * log_queue.c walks arguments and folders and lists the files; log_reader.c reads them in that order; log_joining.c
 * lets several readers read them at once and merges the results in that order; log_lifters.c finds the lifter of each
 * set. */
#ifndef TAUTLINE_READING_LOG_QUEUE_H
#define TAUTLINE_READING_LOG_QUEUE_H

#include "reading/log_reader.h"

struct seen
{
    struct map *files, *folders; /* by device and inode */
    struct map *lifters;         /* by folded name; maps to number + 1 */
    struct map *spellings;       /* of lifters, as written; maps to number + 1 */
};

enum entry_kind
{
    ENTRY_FILE,
    ENTRY_NO_FILE,   /* a pipe or a device in a folder: not a log */
    ENTRY_SAY,       /* a diagnostic about the path */
    ENTRY_END_FOLDER /* of an argument that is a folder: files that are not logs are reported */
};

struct log_entry
{
    enum entry_kind kind;
    const char *path;
    bool in_folder;                       /* of a file: found in a folder */
    const char *root;                     /* found in this folder; NULL: it was named */
    size_t bytes;                         /* size of a file; 0: not known */
    struct file_corrections *corrections; /* of its records; NULL: none */
    enum diag_id id;                      /* of what is reported */
    const char *message;
    size_t first;           /* of a folder: index of its first entry */
    struct file_read *read; /* of a file that a separate reader has read; NULL: not read yet */
    enum found found;
};

struct log_queue
{
    LIST(struct log_entry) entries;
    struct log_worker *workers; /* the separate readers, if there are any */
    unsigned worker_count;
};

/* Adds one LOG: a file, a folder (recursively, in byte order of names, without hidden files, *.ini and files that are
 * not logs) or "-". */
void queue_log(struct reading *reading, const char *argument);

#endif
