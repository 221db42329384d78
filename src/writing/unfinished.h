/* Unfinished files and folders, which a program that ends early removes.
 *
 * Whoever begins one registers it here, and unregisters it when it is complete or removed. unfinished_remove() is for
 * handlers of signals and of failed allocations: it allocates no memory and is async-signal-safe. After a fork each
 * process removes only its own. */
#ifndef TAUTLINE_WRITING_UNFINISHED_H
#define TAUTLINE_WRITING_UNFINISHED_H

#include <stdatomic.h>
#include <stdbool.h>
#include <sys/types.h>

struct unfinished /* provided by the caller, who keeps it from begin to end */
{
    _Atomic(struct unfinished *) next;
    int folder;       /* the open folder that `path` is relative to, kept as long; AT_FDCWD: the current one */
    const char *path; /* borrowed as long */
    pid_t process;
    bool is_folder; /* removed with all its files, and those of its folders */
};

void unfinished_begin(struct unfinished *unfinished, const char *path, bool is_folder);
void unfinished_begin_at(struct unfinished *unfinished, int folder, const char *path, bool is_folder);
void unfinished_end(struct unfinished *unfinished);  /* may be called twice */
void unfinished_drop(struct unfinished *unfinished); /* removes it, with whatever is in a folder, and ends it */

void unfinished_remove(void);

#endif
