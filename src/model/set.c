#include "model/set.h"

#include "base/text.h"

#include <string.h>

static const char *const kind_names[] = {"work", "warm-up", "missed"};
static const char *const focus_names[] = {"", "speed", "strength", "volume", "skill", "test"};

const char *set_kind_name(enum set_kind kind)
{
    return kind_names[kind];
}

const char *focus_name(enum focus focus)
{
    return focus_names[focus];
}

bool focus_read(const char *word, enum focus *focus)
{
    for (int i = FOCUS_SPEED; i <= FOCUS_TEST; i++) {
        if (text_same_name(word, focus_names[i])) {
            *focus = (enum focus)i;
            return true;
        }
    }
    return false;
}

struct log *log_new(struct arena *arena)
{
    struct log *log = ARENA_NEW(arena, struct log);
    log->arena = arena;
    log->loads = loads_new(arena);
    log->lifters = names_new(arena);
    log->lifts = names_new(arena);
    return log;
}
