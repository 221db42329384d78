/* Memory by lifetime: what is made together is freed together, in one call.
 *
 * A function that makes something takes the arena first, and the arena owns what is made. Allocation never returns
 * NULL: when memory runs out, the handler set by arena_on_no_memory() is called and does not return (default: abort).
 * Memory is zeroed. Under AddressSanitizer every allocation is a malloc of its own, so that each object is seen. */
#ifndef TAUTLINE_BASE_ARENA_H
#define TAUTLINE_BASE_ARENA_H

#include <stdarg.h>
#include <stddef.h>
#include <string.h>

struct arena;

struct arena *arena_new(void);
void arena_free(struct arena *arena); /* NULL is allowed */
void arena_join(struct arena *arena,
                struct arena *other);  /* takes over all that the other holds, and frees the other */
void arena_reset(struct arena *arena); /* frees what it holds and keeps the arena: for scratch memory of one row */

void *arena_alloc(struct arena *arena, size_t size);
void *arena_room(struct arena *arena, size_t size); /* not zeroed: a large piece that is written before it is read */
/* Grows a piece of `old_size` bytes that came from this arena (or NULL) to `new_size`; the added part is zeroed. */
void *arena_grow(struct arena *arena, void *old, size_t old_size, size_t new_size);
char *arena_text(struct arena *arena, const char *text, size_t length); /* a copy, NUL-terminated */
char *arena_copy(struct arena *arena, const char *text);                /* NULL gives NULL */
char *arena_printf(struct arena *arena, const char *format, ...) __attribute__((format(printf, 2, 3)));
char *arena_vprintf(struct arena *arena, const char *format, va_list arguments) __attribute__((format(printf, 2, 0)));

#define ARENA_NEW(arena, type) ((type *)arena_alloc((arena), sizeof(type)))
#define ARENA_ARRAY(arena, type, count) ((type *)arena_alloc((arena), sizeof(type) * (count)))

void arena_on_no_memory(void (*handler)(size_t wanted_bytes));
/* Calls the handler: for what libraries allocate by themselves, none of whose results may be left out in silence. 0:
 * how much is not known. */
_Noreturn void arena_out_of_memory(size_t wanted_bytes);

/* A growing list is a struct with the members `items`, `count`, `capacity`; LIST_ADD gives a pointer to a new, zeroed
 * item, good until the next LIST_ADD. */
#define LIST(type)                                                                                                     \
    struct                                                                                                             \
    {                                                                                                                  \
        type *items;                                                                                                   \
        size_t count, capacity;                                                                                        \
    }
#define LIST_ADD(arena, list)                                                                                          \
    ((list)->items = (list)->count < (list)->capacity                                                                  \
                         ? (list)->items                                                                               \
                         : list_room((arena), (list)->items, &(list)->capacity, sizeof *(list)->items),                \
     memset(&(list)->items[(list)->count], 0, sizeof *(list)->items), &(list)->items[(list)->count++])
/* The same without clearing it, for an item that is then written whole. */
#define LIST_ROOM(arena, list)                                                                                         \
    ((list)->items = (list)->count < (list)->capacity                                                                  \
                         ? (list)->items                                                                               \
                         : list_room((arena), (list)->items, &(list)->capacity, sizeof *(list)->items),                \
     &(list)->items[(list)->count++])
/* For both: moves the list to twice the room. The room after its items is not cleared, so that its pages are not
 * touched before they are used. */
void *list_room(struct arena *arena, void *items, size_t *capacity, size_t item_size);

#endif
