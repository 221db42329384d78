/* The members of a zip archive, through libzip: found by name, read in pieces, none of them ever written anywhere.
 *
 * An archive may be made to hurt: a few kilobytes that expand to gigabytes, names that lead out of a folder, sizes that
 * are not true. Members are only looked up by the names that a workbook has, so that other names mean nothing. What a
 * member says of its size is checked before it is read and while it is. All that is read counts towards one allowance,
 * members that are read twice too. The first failure is kept; after it nothing is read. */
#ifndef TAUTLINE_READING_WORKBOOK_ARCHIVE_H
#define TAUTLINE_READING_WORKBOOK_ARCHIVE_H

#include "base/arena.h"
#include "base/diag.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#define ARCHIVE_MEMBERS ((uint64_t)4096)
#define ARCHIVE_MEMBER_BYTES ((uint64_t)1024 * 1024 * 1024) /* expanded */
#define ARCHIVE_BYTES ((uint64_t)3 * 1024 * 1024 * 1024)    /* read in all */
#define ARCHIVE_RATIO                                                                                                  \
    ((uint64_t)200) /* expanded to packed bytes: rows of a workbook that are all alike have about 60 */
#define ARCHIVE_RATIO_FREE ((uint64_t)1024 * 1024) /* expanded bytes of a member that need not keep to it */

struct archive;
struct member;

/* `path` is borrowed. NULL: no archive, or broken; `*why` then says it, in the arena. */
struct archive *archive_open(struct arena *arena, const char *path, const char **why);
/* The same for bytes at hand, borrowed until archive_close. */
struct archive *archive_of_memory(struct arena *arena, const char *bytes, size_t length, const char **why);
void archive_close(struct archive *archive); /* NULL is allowed */

bool archive_has(struct archive *archive, const char *name);
bool archive_encrypted(struct archive *archive, const char *name); /* the member needs a password */

/* NULL: it is not there or may not be read; archive_failure() tells. */
struct member *member_open(struct archive *archive, const char *name);
/* Up to `room` bytes; 0: the end, or a failure. At the end the checksum has been compared. */
size_t member_read(struct member *member, char *to, size_t room);
void member_close(struct member *member); /* NULL is allowed */

/* What went wrong first: the archive's; NULL: nothing. `*id`: DIAG_BAD_WORKBOOK or DIAG_LIMIT_REACHED. */
const char *archive_failure(const struct archive *archive, enum diag_id *id);

#endif
