/* The members of a zip archive, through libzip: found by name, read in pieces, and never written anywhere.
 *
 * An archive may be malicious: a few kilobytes that expand to gigabytes, names that lead out of a folder, false
 * sizes. Members are only looked up by the names that a workbook has, so other names have no effect. The stated size
 * of a member is checked before it is read and while it is read. Everything that is read counts towards one limit,
 * even if a member is read twice. The first failure is kept; after it nothing is read. */
#ifndef TAUTLINE_READING_WORKBOOK_ARCHIVE_H
#define TAUTLINE_READING_WORKBOOK_ARCHIVE_H

#include "base/arena.h"
#include "base/diag.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#define ARCHIVE_MEMBERS ((uint64_t)4096)
#define ARCHIVE_MEMBER_BYTES ((uint64_t)1024 * 1024 * 1024) /* expanded */
#define ARCHIVE_BYTES ((uint64_t)3 * 1024 * 1024 * 1024)    /* in total */
#define ARCHIVE_RATIO                                                                                                  \
    ((uint64_t)200) /* ratio of expanded to packed bytes: a workbook whose rows are all equal has about 60 */
#define ARCHIVE_RATIO_FREE ((uint64_t)1024 * 1024) /* expanded size below which the ratio does not matter */

struct archive;
struct member;

/* `path` is borrowed. NULL: not an archive, or broken; `*why` then explains it, in the arena. */
struct archive *archive_open(struct arena *arena, const char *path, const char **why);
/* The same for bytes in memory, borrowed until archive_close. */
struct archive *archive_of_memory(struct arena *arena, const char *bytes, size_t length, const char **why);
void archive_close(struct archive *archive); /* NULL is allowed */

bool archive_has(struct archive *archive, const char *name);
bool archive_encrypted(struct archive *archive, const char *name); /* the member needs a password */

/* NULL: it does not exist or may not be read; see archive_failure(). */
struct member *member_open(struct archive *archive, const char *name);
/* Up to `room` bytes; 0: the end, or a failure. At the end the checksum has been verified. */
size_t member_read(struct member *member, char *to, size_t room);
void member_close(struct member *member); /* NULL is allowed */

/* What went wrong first, owned by the archive; NULL: nothing. `*id`: DIAG_BAD_WORKBOOK or DIAG_LIMIT_REACHED. */
const char *archive_failure(const struct archive *archive, enum diag_id *id);

#endif
