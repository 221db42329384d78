/* Files and folders in the making, which a program that must end before its time takes away.
 *
 * Whoever begins one names it here, and ends it when it is whole or gone. unfinished_remove() is for handlers of
 * signals and of memory that ran out: it asks for no memory and is async-signal-safe. After a fork each process removes
 * its own only. */
#ifndef TAUTLINE_WRITING_UNFINISHED_H
#define TAUTLINE_WRITING_UNFINISHED_H

#include <stdatomic.h>
#include <stdbool.h>
#include <sys/types.h>

struct unfinished /* the caller's, from begin to end */
{
    _Atomic(struct unfinished *) next;
    int folder;       /* the open folder that `path` begins in, as long; AT_FDCWD: where the program runs */
    const char *path; /* borrowed as long */
    pid_t process;
    bool is_folder; /* goes with all its files, and those of its folders */
};

void unfinished_begin(struct unfinished *unfinished, const char *path, bool is_folder);
void unfinished_begin_at(struct unfinished *unfinished, int folder, const char *path, bool is_folder);
void unfinished_end(struct unfinished *unfinished); /* allowed twice */

void unfinished_remove(void);

#endif
