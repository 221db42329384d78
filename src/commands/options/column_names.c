#include "commands/options/column_names.h"

#include "commands/options/options.h"

#include "base/text.h"

#include <string.h>

static const char *no_column(struct arena *arena, const char *name, const char *const *names, size_t count)
{
    const char *nearest = text_nearest(name, names, count);
    return nearest ? arena_printf(arena, "this table has no column '%s'; did you mean '%s'?", name, nearest)
                   : arena_printf(arena, "this table has no column '%s'", name);
}

const char *options_choose_columns(struct arena *arena, struct options *options, const struct column *columns,
                                   size_t count)
{
    LIST(size_t) chosen = {0};
    const char **names = ARENA_ARRAY(arena, const char *, count);
    bool *taken = ARENA_ARRAY(arena, bool, count);
    if (options->format == FORMAT_TEXT)
        return "--columns goes with --format csv and --format json";
    for (size_t i = 0; i < count; i++)
        names[i] = column_name(arena, &columns[i], options->unit_said ? options->unit : UNIT_KG);
    for (const char *at = options->columns, *end; at; at = *end ? end + 1 : NULL) {
        end = at + strcspn(at, ",");
        const char *name = text_squeeze(arena, arena_text(arena, at, (size_t)(end - at)));
        size_t column = 0;
        while (column < count && strcmp(name, names[column]))
            column++;
        if (column == count)
            return no_column(arena, name, names, count);
        if (taken[column])
            return arena_printf(arena, "--columns names '%s' twice", name);
        taken[column] = true;
        *LIST_ADD(arena, &chosen) = column;
    }
    options->chosen_columns = chosen.items;
    options->chosen_count = chosen.count;
    return NULL;
}
