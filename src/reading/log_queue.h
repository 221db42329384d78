/* What the files that go over the LOGs share; nobody else includes it.
 *
 * log_queue.c walks arguments and folders and lists what there is to do; log_reader.c does it in that order; log_joining.c has the files
 * read by several readers at once and joins what they found, in that order; log_lifters.c tells whose the sets are. */
#ifndef TAUTLINE_READING_LOG_QUEUE_H
#define TAUTLINE_READING_LOG_QUEUE_H

#include "reading/log_reader.h"

struct seen
{
    struct map *files, *folders; /* by device and inode */
    struct map *lifters;         /* by folded name: number + 1 */
    struct map *spellings;       /* of lifters, as written: number + 1 */
};

enum found
{
    READ,   /* or refused as a whole, which is said */
    NO_LOG, /* nothing of it was used */
    UNREADABLE
};

enum entry_kind
{
    ENTRY_FILE,
    ENTRY_NO_FILE,   /* a pipe or a device in a folder: no log */
    ENTRY_SAY,       /* a diagnostic about the path */
    ENTRY_END_FOLDER /* of an argument that is a folder: what was no log is said */
};

struct log_entry
{
    enum entry_kind kind;
    const char *path;
    bool in_folder;      /* of a file: found by walking */
    size_t bytes;        /* of a file; 0: not known */
    enum diag_id id;     /* of what is said */
    const char *message;
    size_t first;        /* of a folder: its first entry */
    struct part_file *part; /* of a file that a reader of its own has read; NULL: not yet read */
    enum found found;
};

struct log_queue
{
    LIST(struct log_entry) entries;
    struct part *parts; /* readers of their own, if there are any */
    unsigned part_count;
};

/* log_reader.c */
enum found log_read_file(struct reading *reading, const struct log_entry *entry);

/* log_lifters.c */
const struct lifter *lifter_by_pattern(struct arena *scratch, const struct gym *gym, const char *path); /* NULL: none matches */
uint32_t lifter_adopt(struct reading *reading, const char *name); /* a name that another reader of the run has settled on */

/* log_joining.c */

/* Has the queue's files read by several readers, where that is wanted and worth it. */
void log_read_apart(struct reading *reading, struct log_queue *queue);
/* Adds what such a reader found in the file. Files are joined in the order of the queue. */
enum found log_join(struct reading *reading, const struct log_entry *entry);
void log_end_parts(struct reading *reading, struct log_queue *queue); /* what they made is the whole's then */

#endif
