#include "commands/options/report_sections.h"

#include "base/text.h"

#include <string.h>

const char *const report_section_names[SECTION_COUNT] = {
    [SECTION_FIRST] = "first",       [SECTION_VERDICTS] = "verdicts", [SECTION_FINDINGS] = "findings",
    [SECTION_WAVES] = "waves",       [SECTION_SETUPS] = "set-ups",    [SECTION_WEEKS] = "weeks",
    [SECTION_VELOCITY] = "velocity", [SECTION_BESTS] = "bests",       [SECTION_ASSUMED] = "assumed",
    [SECTION_IMPROVE] = "improve",   [SECTION_REFUSED] = "refused",
};

static const char *unknown_section(struct arena *arena, const char *word)
{
    const char *nearest = text_nearest(word, report_section_names, SECTION_COUNT), *all = "";
    if (nearest)
        return arena_printf(arena, "no section '%s'; did you mean '%s'?", word, nearest);
    for (size_t i = 0; i < SECTION_COUNT; i++)
        all = arena_printf(arena, "%s%s%s", all, i ? ", " : "", report_section_names[i]);
    return arena_printf(arena, "no section '%s'; there are %s", word, all);
}

const char *report_sections_read(struct arena *arena, const char *list, uint32_t *sections)
{
    *sections = 0;
    for (const char *at = list; *at; at += strspn(at, ", ")) {
        size_t length = strcspn(at, ", "), section = 0;
        const char *word = arena_text(arena, at, length);
        while (section < SECTION_COUNT && strcmp(report_section_names[section], word))
            section++;
        if (section == SECTION_COUNT)
            return unknown_section(arena, word);
        *sections |= UINT32_C(1) << section;
        at += length;
    }
    return NULL;
}
