#include "base/arena.h"

#include "base/system.h"

#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#if defined(__SANITIZE_ADDRESS__)
#define EACH_BY_MALLOC 1
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
#define EACH_BY_MALLOC 1
#endif
#endif
#ifndef EACH_BY_MALLOC
#define EACH_BY_MALLOC 0
#endif

#define CHUNK_BYTES ((size_t)64 * 1024)
/* The first two chunks: many a scratch arena holds a few words, and large pieces are dear to give back. By malloc's
 * measure the first is among the small ones, which it keeps at hand. */
#define FIRST_BYTES ((size_t)960)
#define SECOND_BYTES ((size_t)4 * 1024)
#define LARGE_BYTES                                                                                                    \
    (CHUNK_BYTES / 4) /* from here on a piece has a chunk to itself, so that it can be grown in place                  \
                       */

/* Most systems promise more memory than they have, and end who takes it: a piece this large is refused before. */
#define WATCHED_BYTES ((size_t)128 * 1024 * 1024)

/* Chunks hang in a ring around the arena's own head, so that a large piece can be moved by realloc and relinked. */
struct ring
{
    struct ring *next, *previous;
};

struct chunk
{
    struct ring ring;
    size_t size, used;
    _Alignas(max_align_t) unsigned char bytes[];
};

struct arena
{
    struct ring head;
    struct chunk *open; /* the chunk that small pieces are cut from; NULL: none yet */
};

static void abort_for_memory(size_t wanted_bytes)
{
    (void)wanted_bytes;
    abort();
}

static void (*no_memory)(size_t) = abort_for_memory;

void arena_on_no_memory(void (*handler)(size_t wanted_bytes))
{
    no_memory = handler;
}

void arena_out_of_memory(size_t wanted_bytes)
{
    no_memory(wanted_bytes);
    abort();
}

struct arena *arena_new(void)
{
    struct arena *arena = calloc(1, sizeof *arena);
    if (!arena)
        arena_out_of_memory(sizeof *arena);
    arena->head.next = arena->head.previous = &arena->head;
    return arena;
}

void arena_reset(struct arena *arena)
{
    struct chunk *keep = arena->open;
    if (keep && arena->head.next == &keep->ring && keep->ring.next == &arena->head) { /* as a row leaves it */
        keep->used = 0;
        return;
    }
    for (struct ring *link = arena->head.next, *next; link != &arena->head; link = next) {
        next = link->next;
        if (!keep || link != &keep->ring)
            free(link); /* a chunk begins with its link */
    }
    arena->head.next = arena->head.previous = &arena->head;
    if (keep) {
        keep->used = 0; /* a scratch arena is emptied for each row: the open chunk serves again */
        keep->ring.next = keep->ring.previous = &arena->head;
        arena->head.next = arena->head.previous = &keep->ring;
    }
}

void arena_free(struct arena *arena)
{
    if (!arena)
        return;
    arena->open = NULL;
    arena_reset(arena);
    free(arena);
}

void arena_join(struct arena *arena, struct arena *other)
{
    if (other->head.next != &other->head) {
        other->head.next->previous = arena->head.previous;
        arena->head.previous->next = other->head.next;
        other->head.previous->next = &arena->head;
        arena->head.previous = other->head.previous;
    }
    free(other);
}

static struct chunk *chunk_new(struct arena *arena, size_t size)
{
    if (size > SIZE_MAX - sizeof(struct chunk))
        arena_out_of_memory(size);
    if (size >= WATCHED_BYTES && size > system_memory_left())
        arena_out_of_memory(size);
    struct chunk *chunk = malloc(sizeof *chunk + size);
    if (!chunk)
        arena_out_of_memory(size);
    chunk->used = 0;
    chunk->size = size;
    chunk->ring.next = arena->head.next;
    chunk->ring.previous = &arena->head;
    chunk->ring.next->previous = &chunk->ring;
    arena->head.next = &chunk->ring;
    return chunk;
}

static size_t rounded(size_t size)
{
    const size_t unit = _Alignof(max_align_t);
    return size > SIZE_MAX - unit ? size : (size + unit - 1) / unit * unit;
}

static size_t next_chunk_bytes(const struct arena *arena, size_t wanted)
{
    if (!arena->open && wanted <= FIRST_BYTES)
        return FIRST_BYTES;
    return wanted <= SECOND_BYTES && (!arena->open || arena->open->size == FIRST_BYTES) ? SECOND_BYTES : CHUNK_BYTES;
}

static void *piece(struct arena *arena, size_t size)
{
    size_t wanted = rounded(size ? size : 1);
    if (EACH_BY_MALLOC || wanted >= LARGE_BYTES) {
        struct chunk *chunk = chunk_new(arena, wanted);
        chunk->used = wanted;
        return chunk->bytes;
    }
    if (!arena->open || arena->open->size - arena->open->used < wanted)
        arena->open = chunk_new(arena, next_chunk_bytes(arena, wanted));
    void *cut = arena->open->bytes + arena->open->used;
    arena->open->used += wanted;
    return cut;
}

void *arena_alloc(struct arena *arena, size_t size)
{
    /* Not by calloc: of fresh pages that are read first, as a table's are, each would have to be replaced when it is
     * written to, for which all other threads are stopped. */
    return memset(piece(arena, size), 0, size);
}

void *arena_room(struct arena *arena, size_t size)
{
    return piece(arena, size);
}

/* The added part holds whatever was there before. */
static void *grow(struct arena *arena, void *old, size_t old_size, size_t new_size)
{
    size_t held = rounded(old_size ? old_size : 1), wanted = rounded(new_size ? new_size : 1);
    if (EACH_BY_MALLOC || held >= LARGE_BYTES) {
        struct chunk *chunk = (struct chunk *)(void *)((unsigned char *)old - offsetof(struct chunk, bytes));
        struct chunk *moved = wanted > SIZE_MAX - sizeof *chunk ? NULL : realloc(chunk, sizeof *chunk + wanted);
        if (!moved)
            arena_out_of_memory(wanted);
        moved->ring.previous->next = &moved->ring;
        moved->ring.next->previous = &moved->ring;
        moved->size = moved->used = wanted;
        return moved->bytes;
    }
    void *moved = arena_alloc(arena, new_size);
    memcpy(moved, old, old_size);
    return moved;
}

void *arena_grow(struct arena *arena, void *old, size_t old_size, size_t new_size)
{
    if (!old)
        return arena_alloc(arena, new_size);
    size_t held = rounded(old_size ? old_size : 1), wanted = rounded(new_size ? new_size : 1);
    if (wanted <= held)
        return old;
    unsigned char *moved = grow(arena, old, old_size, new_size);
    if (held >= LARGE_BYTES || EACH_BY_MALLOC)
        memset(moved + held, 0, wanted - held);
    return moved;
}

/* A long list that cannot be doubled grows by an eighth, since it may end before long. */
static size_t room_for(size_t capacity, size_t item_size)
{
    size_t doubled = capacity ? capacity * 2 : 8, held = capacity * item_size;
    if (doubled > SIZE_MAX / item_size)
        arena_out_of_memory(SIZE_MAX);
    if (held < WATCHED_BYTES)
        return doubled;
    uint64_t left = system_memory_left();
    if (held < left)
        return doubled;
    if (held / 8 >= left)
        arena_out_of_memory(doubled * item_size);
    return capacity + capacity / 8;
}

void *list_room(struct arena *arena, void *items, size_t *capacity, size_t item_size)
{
    size_t more = room_for(*capacity, item_size);
    items = items ? grow(arena, items, *capacity * item_size, more * item_size) : arena_alloc(arena, more * item_size);
    *capacity = more;
    return items;
}

char *arena_text(struct arena *arena, const char *text, size_t length)
{
    char *copy = arena_room(arena, length + 1);
    if (length)
        memcpy(copy, text, length);
    copy[length] = 0;
    return copy;
}

char *arena_copy(struct arena *arena, const char *text)
{
    return text ? arena_text(arena, text, strlen(text)) : NULL;
}

char *arena_vprintf(struct arena *arena, const char *format, va_list arguments)
{
    char local[256]; /* most texts are short, and to print one twice, first for its length, is dear */
    va_list again;
    va_copy(again, arguments);
    int length = vsnprintf(local, sizeof local, format, arguments);
    bool fits = length < (int)sizeof local;
    char *text = fits ? arena_text(arena, local, length < 0 ? 0 : (size_t)length)
                      : arena_room(arena, (size_t)length + 1);
    if (!fits)
        vsnprintf(text, (size_t)length + 1, format, again);
    va_end(again);
    return text;
}

char *arena_printf(struct arena *arena, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    char *text = arena_vprintf(arena, format, arguments);
    va_end(arguments);
    return text;
}
