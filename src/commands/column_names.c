/* Names of columns on the command line. */
#include "commands/options.h"

#include "base/text.h"

#include <string.h>

static bool is_among(const char *name, const char *const *names, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (!strcmp(name, names[i]))
            return true;
    return false;
}

const char *options_choose_columns(struct arena *arena, struct options *options, const struct column *columns, size_t count)
{
    LIST(const char *) chosen = {0};
    const char **names = ARENA_ARRAY(arena, const char *, count);
    if (options->format == FORMAT_TEXT)
        return "--columns goes with --format csv and --format json";
    for (size_t i = 0; i < count; i++)
        names[i] = column_name(arena, &columns[i], options->unit_said ? options->unit : UNIT_KG);
    for (const char *at = options->columns, *end; at; at = *end ? end + 1 : NULL) {
        end = at + strcspn(at, ",");
        const char *name = text_squeeze(arena, arena_text(arena, at, (size_t)(end - at)));
        const char *nearest = text_nearest(name, names, count);
        if (!is_among(name, names, count))
            return nearest ? arena_printf(arena, "no column '%s' here; did you mean '%s'?", name, nearest)
                           : arena_printf(arena, "no column '%s' here", name);
        if (is_among(name, chosen.items, chosen.count))
            return arena_printf(arena, "--columns names '%s' twice", name);
        *LIST_ADD(arena, &chosen) = name;
    }
    options->column_names = chosen.items;
    options->column_name_count = chosen.count;
    return NULL;
}
