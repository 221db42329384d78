#include "commands/options/option_values.h"

#include "analysis/findings/findings.h"
#include "base/text.h"
#include "commands/options/report_sections.h"

#include <string.h>

struct option_values words_between_bars(struct arena *arena, const char *text)
{
    LIST(const char *) words = {0};
    for (const char *at = text; *at; at += strcspn(at, "|"), at += *at == '|')
        *LIST_ADD(arena, &words) = arena_text(arena, at, strcspn(at, "|"));
    return (struct option_values){VALUE_WORD, words.items, words.count, NULL};
}

static struct option_values formulas(struct arena *arena)
{
    const char **words = ARENA_ARRAY(arena, const char *, E1RM_COUNT);
    for (size_t i = 0; i < E1RM_COUNT; i++)
        words[i] = e1rm_formula_name((enum e1rm_formula)i);
    return (struct option_values){VALUE_WORD, words, E1RM_COUNT, NULL};
}

static struct option_values focuses(struct arena *arena)
{
    const char **words = ARENA_ARRAY(arena, const char *, FOCUS_TEST);
    for (int focus = FOCUS_SPEED; focus <= FOCUS_TEST; focus++)
        words[focus - FOCUS_SPEED] = focus_name((enum focus)focus);
    return (struct option_values){VALUE_WORD, words, FOCUS_TEST, NULL};
}

static struct option_values findings(struct arena *arena)
{
    const char **words = ARENA_ARRAY(arena, const char *, FINDING_COUNT);
    for (size_t i = 0; i < FINDING_COUNT; i++)
        words[i] = finding_kinds[i].id;
    return (struct option_values){VALUE_LIST, words, FINDING_COUNT, NULL};
}

static struct option_values sections(struct arena *arena)
{
    (void)arena;
    return (struct option_values){VALUE_LIST, report_section_names, SECTION_COUNT, NULL};
}

/* Values that follow from the option's own name, where the word for its argument is not enough. */
static const struct
{
    const char *option;
    struct option_values (*words)(struct arena *arena);
    const char *names;
} by_name[] = {
    {"formula", formulas, NULL}, {"focus", focuses, NULL}, {"only", findings, NULL},     {"except", findings, NULL},
    {"lifter", NULL, "lifters"}, {"lift", NULL, "lifts"},  {"against", NULL, "lifters"}, {"band", NULL, "bands"},
};

struct option_values option_values(struct arena *arena, const struct option_row *row)
{
    if (!row->argument)
        return (struct option_values){.kind = VALUE_NONE};
    if (!strcmp(row->argument, "SECTIONS"))
        return sections(arena);
    for (size_t i = 0; i < sizeof by_name / sizeof *by_name; i++)
        if (!strcmp(by_name[i].option, row->name))
            return by_name[i].words ? by_name[i].words(arena)
                                    : (struct option_values){.kind = VALUE_NAME, .names = by_name[i].names};
    if (strchr(row->argument, '|') && !strchr(row->argument, ' '))
        return words_between_bars(arena, row->argument);
    return (struct option_values){.kind = text_starts(row->argument, "FILE") ? VALUE_FILE
                                          : !strcmp(row->argument, "DIR")    ? VALUE_FOLDER
                                                                             : VALUE_FREE};
}
