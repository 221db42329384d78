#include "commands/start/start_units.h"

#include "commands/start/start.h"

#include "base/text.h"

#include <string.h>

/* Longer texts come first, so that a part of one is not replaced on its own. */
static const struct
{
    const char *metric, *pounds;
} sizes[] = {
    {"25x4 20 15 10 5 2.5 1.25", "45x4 35 25 10 5 2.5"},
    {"140 kg 2026-01-10", "315 lb 2026-01-10"},
    {"0.40 m, 0.3 kg", "16 in, 0.7 lb"},
    {"0.80 m 1.42 m", "31 in 56 in"},
    {"1.60 m : 27.0 kg", "63 in : 60 lb"},
    {"___ m, ___ kg", "___ in, ___ lb"},
    {"___ m : ___ kg", "___ in : ___ lb"},
    {"___ m ___ m", "___ in ___ in"},
    {"___ kg DATE", "___ lb DATE"},
    {"1.80 m", "71 in"},
    {"1.04 m", "41 in"},
    {"0.05 m", "2 in"},
    {"7.0 kg", "15 lb"},
    {"20 kg", "45 lb"},
    {"___ kg", "___ lb"},
    {"___ mm", "___ in"},
    {"___ m", "___ in"},
};

static bool in_pounds(const struct start *start)
{
    const struct start_block *gym = start->blocks.count ? &start->blocks.items[0] : NULL;
    if (start->options->unit_said)
        return start->options->unit == UNIT_LB;
    for (size_t i = 0; gym && gym->head && i < gym->lines.count; i++)
        if (!strcmp(gym->lines.items[i].key, "unit") && gym->lines.items[i].value)
            return text_same_name(gym->lines.items[i].value, "lb");
    return start->known && start->known->unit_said && start->known->unit == UNIT_LB;
}

const char *start_in_unit(const struct start *start, const char *text)
{
    if (!text || !in_pounds(start))
        return text;
    for (size_t i = 0; i < sizeof sizes / sizeof *sizes; i++) {
        const char *at = strstr(text, sizes[i].metric);
        if (at)
            return arena_printf(start->arena, "%.*s%s%s", (int)(at - text), text, sizes[i].pounds,
                                at + strlen(sizes[i].metric));
    }
    return text;
}

const char *start_question(const struct start *start, const char *question)
{
    const char *example = NULL;
    for (const char *at = question; (at = strstr(at, ", as in ")); at++)
        example = at;
    if (!example)
        return question;
    return arena_printf(start->arena, "%.*s%s", (int)(example - question), question, start_in_unit(start, example));
}
