#include "commands/options/finding_ids.h"

#include "commands/options/options.h"

#include "base/text.h"

#include <string.h>

static const char *unknown_id(struct arena *arena, const char *word)
{
    const char *ids[FINDING_COUNT];
    for (size_t i = 0; i < FINDING_COUNT; i++)
        ids[i] = finding_kinds[i].id;
    const char *nearest = text_nearest(word, ids, FINDING_COUNT);
    return nearest ? arena_printf(arena, "no finding '%s'; did you mean '%s'?", word, nearest)
                   : arena_printf(arena, "no finding '%s'; tautline-audit(1) lists them", word);
}

/* Sets one bit for each of the ids, which are separated by commas. NULL: success; else a message. */
static const char *ids_read(struct arena *arena, const char *list, uint32_t *ids)
{
    *ids = 0;
    for (const char *at = list; *at; at += strspn(at, ", ")) {
        size_t length = strcspn(at, ", "), id = 0;
        const char *word = arena_text(arena, at, length);
        while (id < FINDING_COUNT && strcmp(finding_kinds[id].id, word))
            id++;
        if (id == FINDING_COUNT)
            return unknown_id(arena, word);
        *ids |= UINT32_C(1) << id;
        at += length;
    }
    return NULL;
}

const char *options_choose_findings(struct arena *arena, struct options *options)
{
    uint32_t only = ALL_FINDINGS, except = 0;
    const char *message = options->only ? ids_read(arena, options->only, &only) : NULL;
    if (!message && options->except)
        message = ids_read(arena, options->except, &except);
    options->findings = only & ~except;
    return message;
}
