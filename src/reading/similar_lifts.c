/* Lift names that are one slip apart: a letter too many or too few, a different letter, two letters swapped. If each
 * possible letter is left out of both names, two such names share a text, so not every name must be compared with
 * every other. */
#include "reading/similar_lifts.h"

#include "base/names.h"
#include "base/text.h"

#include <string.h>

#define SHORTEST_NAME 4
#define LONGEST_NAME 64
#define TIMES_AS_OFTEN 5

struct used_name
{
    const char *name, *key;
    size_t sets;
    const struct set *first;
};

struct similar
{
    struct reading *reading;
    struct arena *own;
    struct used_name *names; /* by lift number */
    size_t count;
    const struct used_name *best; /* of those that are one slip from the current name */
    struct map *lacking;          /* a text with one letter left out; maps to the most used name that gives it */
};

static bool has_digit(const char *text, size_t length)
{
    for (size_t i = 0; i < length; i++)
        if (text[i] >= '0' && text[i] <= '9')
            return true;
    return false;
}

/* At most one slip, and not in a number (two board press, three board press): equal beginnings and ends are removed,
 * and the rest decides. */
static bool one_slip(const char *a, const char *b)
{
    size_t left = strlen(a), right = strlen(b);
    while (left && right && a[left - 1] == b[right - 1])
        left--, right--;
    while (left && right && *a == *b)
        a++, b++, left--, right--;
    bool changed_about = left == 2 && right == 2 && a[0] == b[1] && a[1] == b[0];
    return left + right && ((left <= 1 && right <= 1) || changed_about) && !has_digit(a, left) && !has_digit(b, right);
}

static void offer(const struct similar *similar, const struct used_name *rare, const struct used_name *often)
{
    diag_add(
        similar->reading->diags, DIAG_SIMILAR_LIFT,
        (struct place){.file = similar->reading->log->files.items[rare->first->file].path, .line = rare->first->line},
        NULL,
        arena_printf(similar->own, "if it is, write in the gym file:\n[lift \"%s\"]\nalias = %s", often->name,
                     rare->name),
        "'%s' is kept as a lift of its own, %zu %s: is it '%s', which has %zu?", rare->name, rare->sets,
        rare->sets == 1 ? "set" : "sets", often->name, often->sets);
}

/* Calls for the key itself and for each text with one of its letters left out. */
static void each_lacking(struct similar *similar, struct used_name *name,
                         void (*call)(struct similar *, struct used_name *, const char *))
{
    size_t length = strlen(name->key);
    call(similar, name, name->key);
    for (size_t i = 0; i < length; i++) {
        char text[LONGEST_NAME + 1];
        memcpy(text, name->key, i);
        memcpy(text + i, name->key + i + 1, length - i);
        call(similar, name, text);
    }
}

static void keep(struct similar *similar, struct used_name *name, const char *text)
{
    const struct used_name *known = map_get(similar->lacking, text, strlen(text));
    if (!known || known->sets < name->sets)
        map_put(similar->lacking, text, strlen(text), name);
}

static void look(struct similar *similar, struct used_name *name, const char *text)
{
    const struct used_name *other = map_get(similar->lacking, text, strlen(text)), *best = similar->best;
    if (other && other != name && other->sets >= TIMES_AS_OFTEN * name->sets && one_slip(name->key, other->key) &&
        (!best || other->sets > best->sets))
        similar->best = other;
}

static void count_names(struct similar *similar)
{
    const struct log *log = similar->reading->log;
    for (size_t i = 0; i < similar->count; i++) {
        similar->names[i].name = log->lift_names.items[i].name;
        similar->names[i].key = text_fold(similar->own, similar->names[i].name);
    }
    for (size_t i = 0; i < log->sets.count; i++) {
        struct used_name *name = &similar->names[log->sets.items[i].lift];
        name->first = name->sets++ ? name->first : &log->sets.items[i];
    }
}

static bool is_compared(const struct used_name *name)
{
    size_t length = strlen(name->key);
    return name->sets && length >= SHORTEST_NAME && length <= LONGEST_NAME;
}

void say_similar_lifts(struct reading *reading)
{
    struct arena *own = arena_new();
    struct similar similar = {
        .reading = reading, .own = own, .count = reading->log->lift_names.count, .lacking = map_new(own)};
    similar.names = ARENA_ARRAY(own, struct used_name, similar.count);
    count_names(&similar);
    for (size_t i = 0; i < similar.count; i++)
        if (is_compared(&similar.names[i]))
            each_lacking(&similar, &similar.names[i], keep);
    for (size_t i = 0; i < similar.count; i++) {
        similar.best = NULL;
        if (is_compared(&similar.names[i]))
            each_lacking(&similar, &similar.names[i], look);
        if (similar.best)
            offer(&similar, &similar.names[i], similar.best);
    }
    arena_free(own);
}
