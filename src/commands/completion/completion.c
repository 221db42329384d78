/* completion: the script for a shell; or the names in a gym file, one per line, which the scripts ask for. */
#include "commands/completion/completion.h"

#include "base/text.h"
#include "commands/completion/completion_bash.h"
#include "commands/completion/completion_fish.h"
#include "commands/completion/completion_zsh.h"

#include <string.h>

bool command_takes(const struct command *command, const struct option_row *row)
{
    return row->groups & (command->groups | TAKES_ALWAYS);
}

bool values_by_command(const struct option_row *row)
{
    return !strcmp(row->name, "columns");
}

struct option_values command_option_values(struct arena *arena, const struct command *command,
                                           const struct option_row *row)
{
    if (!values_by_command(row) || !command->columns)
        return option_values(arena, row);
    struct columns columns = command->columns(&(struct options){0});
    const char **names = ARENA_ARRAY(arena, const char *, columns.count);
    for (size_t i = 0; i < columns.count; i++)
        names[i] = column_name(arena, &columns.items[i], UNIT_KG);
    return (struct option_values){VALUE_LIST, names, columns.count, NULL};
}

struct option_values command_arguments(struct arena *arena, const struct command *command)
{
    const char *first = arena_text(arena, command->arguments, strcspn(command->arguments, " ."));
    if (!strcmp(first, "LOG") || !strcmp(first, "CSV") || !strcmp(first, "DIR"))
        return (struct option_values){.kind = VALUE_FILE};
    return strchr(first, '|') ? words_between_bars(arena, first) : (struct option_values){.kind = VALUE_FREE};
}

bool row_is_first_of_name(size_t row)
{
    for (size_t i = 0; i < row; i++)
        if (!strcmp(option_rows[i].name, option_rows[row].name))
            return false;
    return true;
}

const char *words_joined(struct arena *arena, const char *const *words, size_t count)
{
    const char *joined = "";
    for (size_t i = 0; i < count; i++)
        joined = arena_printf(arena, "%s%s%s", joined, i ? " " : "", words[i]);
    return joined;
}

const char *command_names(struct arena *arena)
{
    const char **names = ARENA_ARRAY(arena, const char *, command_count);
    for (size_t i = 0; i < command_count; i++)
        names[i] = commands[i].name;
    return words_joined(arena, names, command_count);
}

const char *shell_quoted(struct arena *arena, const char *text)
{
    struct output *quoted = output_to_memory(arena);
    output_text(quoted, "'");
    for (; *text; text++)
        if (*text == '\'')
            output_text(quoted, "'\\''");
        else
            output_put(quoted, text, 1);
    output_text(quoted, "'");
    return output_memory(quoted, NULL);
}

/* --- names ------------------------------------------------------------------------------------------------------- */

/* A name that would not appear unchanged on its line cannot be typed either, so it is left out. */
static void put_name(struct arena *arena, struct output *output, const char *name)
{
    if (text_visible(arena, name) == name)
        output_printf(output, "%s\n", name);
}

static void put_lifters(struct arena *arena, struct output *output, const struct gym *gym)
{
    for (size_t i = 0; i < gym->lifter_count; i++)
        put_name(arena, output, gym->lifters[i].name);
}

static void put_lifts(struct arena *arena, struct output *output, const struct gym *gym)
{
    for (size_t i = 0; i < gym->lift_count; i++)
        put_name(arena, output, gym->lifts[i].name);
}

static void put_bands(struct arena *arena, struct output *output, const struct gym *gym)
{
    for (size_t i = 0; i < gym->band_count; i++)
        put_name(arena, output, gym->bands[i].label);
}

/* --- the command ------------------------------------------------------------------------------------------------- */

static const struct
{
    const char *word;
    void (*script)(struct arena *arena, struct output *output);
    void (*names)(struct arena *arena, struct output *output, const struct gym *gym);
} kinds[] = {
    {"bash", completion_bash, NULL}, {"zsh", completion_zsh, NULL}, {"fish", completion_fish, NULL},
    {"lifters", NULL, put_lifters},  {"lifts", NULL, put_lifts},    {"bands", NULL, put_bands},
};
#define KINDS (sizeof kinds / sizeof *kinds)

enum exit_status run_completion(struct arena *arena, const struct options *options)
{
    const char *word = options->argument_count ? options->arguments[0] : NULL;
    size_t kind = 0;
    while (word && kind < KINDS && strcmp(kinds[kind].word, word))
        kind++;
    if (!word || kind == KINDS)
        return usage_error("completion",
                           word ? arena_printf(arena, "no completions for '%s', only for bash, zsh and fish",
                                               text_visible(arena, word))
                                : "for which shell? bash, zsh or fish");
    struct session session;
    bool read = session_open_gym_of(&session, arena, options,
                                    options->argument_count > 1 ? options->arguments[1] : ".");
    if (!read && kinds[kind].names)
        return session_close(&session);
    session.quiet = true; /* a shell runs this at each press of Tab: diagnostics would disturb its line */
    struct output *output = session_output(&session);
    if (kinds[kind].script)
        kinds[kind].script(arena, output);
    else
        kinds[kind].names(arena, output, session.gym);
    session_commit(&session, output);
    return session.unwritten ? EXIT_UNREADABLE : EXIT_ALL_READ;
}
