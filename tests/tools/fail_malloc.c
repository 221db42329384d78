/* LD_PRELOAD: the allocation that FAIL_MALLOC_AT numbers (from 1) finds no memory, nor does any after it, but with
 * FAIL_MALLOC_ONCE set. FAIL_MALLOC_COUNT names a file into which the number of allocations is written at the end. Only
 * allocations after the program's start count: those of the loader and of constructors are nobody's to answer for.
 * Processes that it starts are left alone; with FAIL_MALLOC_IN=children it is left alone itself, and each process that
 * it forks counts from 1. */
#include <dlfcn.h>
#include <errno.h>
#include <pthread.h>
#include <stdatomic.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>

typedef void *calloc_function(size_t, size_t);
typedef void *malloc_function(size_t);
typedef void *realloc_function(void *, size_t);

static malloc_function *real_malloc;
static calloc_function *real_calloc;
static realloc_function *real_realloc;
static atomic_ulong made;
static unsigned long fails_at;
static bool counting, once, in_children;

static char early[8192]; /* dlsym allocates before there is anything to allocate with */
static size_t early_used;

static void *early_alloc(size_t size)
{
    size = (size + 15) / 16 * 16;
    if (early_used + size > sizeof early)
        return NULL;
    void *piece = early + early_used;
    early_used += size;
    return piece;
}

static bool is_early(const void *piece)
{
    return (const char *)piece >= early && (const char *)piece < early + sizeof early;
}

static bool fails(void)
{
    if (!counting)
        return false;
    unsigned long number = atomic_fetch_add(&made, 1) + 1;
    if (!fails_at || number < fails_at || (once && number > fails_at))
        return false;
    errno = ENOMEM;
    return true;
}

static void begin_child(void)
{
    counting = in_children;
    made = 0;
}

__attribute__((constructor)) static void begin(void)
{
    const char *where = getenv("FAIL_MALLOC_IN");

    const char *at = getenv("FAIL_MALLOC_AT");
    real_malloc = (malloc_function *)dlsym(RTLD_NEXT, "malloc");
    real_calloc = (calloc_function *)dlsym(RTLD_NEXT, "calloc");
    real_realloc = (realloc_function *)dlsym(RTLD_NEXT, "realloc");
    fails_at = at ? strtoul(at, NULL, 10) : 0;
    once = getenv("FAIL_MALLOC_ONCE");
    unsetenv("LD_PRELOAD");
    in_children = where && *where == 'c';
    pthread_atfork(NULL, NULL, begin_child);
    counting = !in_children;
}

__attribute__((destructor)) static void end(void)
{
    const char *name = getenv("FAIL_MALLOC_COUNT");
    counting = false;
    FILE *file = name ? fopen(name, "w") : NULL;
    if (file) {
        fprintf(file, "%lu\n", (unsigned long)made);
        fclose(file);
    }
}

void *malloc(size_t size)
{
    if (!real_malloc)
        return early_alloc(size);
    return fails() ? NULL : real_malloc(size);
}

void *calloc(size_t count, size_t size)
{
    if (!real_calloc)
        return early_alloc(count * size); /* static memory is zero */
    return fails() ? NULL : real_calloc(count, size);
}

void *realloc(void *old, size_t size)
{
    if (!real_realloc || is_early(old))
        return NULL;
    return fails() ? NULL : real_realloc(old, size);
}

void free(void *piece)
{
    static void (*real_free)(void *);
    if (is_early(piece) || !piece)
        return;
    if (!real_free)
        real_free = (void (*)(void *))dlsym(RTLD_NEXT, "free");
    real_free(piece);
}
