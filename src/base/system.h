/* What only some systems have, each by one name: where configure does not find it, system.c does the same by other
 * means. All else that the program asks of its system is POSIX.1-2008. */
#ifndef TAUTLINE_BASE_SYSTEM_H
#define TAUTLINE_BASE_SYSTEM_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <sys/stat.h>

/* Renames where no file has the new name yet, else EEXIST. */
bool system_rename_new(const char *from, const char *to);
/* A pipe that no program started from here inherits. */
bool system_pipe(int ends[2]);
/* All that was written to the folder's file system is on the disk. */
bool system_sync(int folder);
/* Calls `seen` for each entry but . and .., without asking for memory where the system allows it. */
void system_each_entry(int folder, void (*seen)(void *context, const char *name), void *context);
/* The calling process ends with its parent, where the system can see to that. */
void system_end_with_parent(void);
/* Does the pattern name the path, or a folder that holds it? As fnmatch() with FNM_PATHNAME and FNM_PERIOD. */
bool system_matches_within(const char *pattern, const char *path);
unsigned system_processors(void);                                        /* that this process may use; at least 1 */
const char *system_last_byte(const char *text, int byte, size_t length); /* NULL: it is not there */
int64_t system_modified_ns(const struct stat *status);
extern char **environ; /* which POSIX leaves to the program to declare */
/* Bytes that this process may still take before the system ends it, as far as it says (Linux: what is available and
 * free swap, and the limits of its control groups of version 2); else UINT64_MAX. Asks for no memory. */
uint64_t system_memory_left(void);
bool system_is_folder_error(int error); /* of unlinking a folder: POSIX lets it say EPERM */

/* Of bytes in memory whose first is the least, and back. */
#if __BYTE_ORDER__ == __ORDER_BIG_ENDIAN__
#define SYSTEM_LITTLE_32(number) __builtin_bswap32(number)
#define SYSTEM_LITTLE_64(number) __builtin_bswap64(number)
#else
#define SYSTEM_LITTLE_32(number) (number)
#define SYSTEM_LITTLE_64(number) (number)
#endif

#endif
