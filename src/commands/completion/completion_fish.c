#include "commands/completion/completion_fish.h"

#include "commands/completion/completion.h"

static const char opening[] =
    "# Completions of tautline(1) for fish, from its tables: 'tautline completion fish' writes this file.\n"
    "\n"
    "# Is one of these the command? Without any: is there none yet?\n"
    "function __tautline_is\n"
    "    set -l words (commandline -opc)\n"
    "    for word in $words[2..-1]\n"
    "        string match -q -- '-*' $word; and continue\n"
    "        contains -- $word $argv\n"
    "        return\n"
    "    end\n"
    "    test (count $argv) = 0\n"
    "end\n"
    "\n"
    "# Of a gym file: the one named, else that beside a log named, else that of this folder.\n"
    "function __tautline_names # lifters | lifts | bands\n"
    "    set -l words (commandline -opc)\n"
    "    set -l gym\n"
    "    set -l logs\n"
    "    set -l before\n"
    "    for word in $words[2..-1]\n"
    "        if string match -q -- '--gym=*' $word\n"
    "            set gym --gym (string replace -- --gym= '' $word)\n"
    "        else if test \"$before\" = --gym\n"
    "            set gym --gym $word\n"
    "        else if test -e $word\n"
    "            set logs $logs $word\n"
    "        end\n"
    "        set before $word\n"
    "    end\n"
    "    command tautline completion $argv[1] $gym -- $logs[1] 2>/dev/null\n"
    "end\n"
    "\n"
    "complete -c tautline -f\n"
    "complete -c tautline -n __tautline_is -l help -d 'show this help'\n"
    "complete -c tautline -n __tautline_is -l version -d 'show the version'\n"
    "complete -c tautline -n __tautline_is -a help -d 'list the options of a command'\n";

static const char *value_of(struct arena *arena, const struct option_values *values)
{
    const char *words = words_joined(arena, values->words, values->count);
    switch (values->kind) {
    case VALUE_NONE:
        return "";
    case VALUE_WORD:
        return arena_printf(arena, " -x -a '%s'", words);
    case VALUE_LIST:
        return arena_printf(arena, " -x -a '(__fish_append , %s)'", words);
    case VALUE_NAME:
        return arena_printf(arena, " -x -a '(__tautline_names %s)'", values->names);
    case VALUE_FILE:
        return " -r -F";
    case VALUE_FOLDER:
        return " -x -a '(__fish_complete_directories)'";
    default:
        return " -x";
    }
}

static void put_command(struct arena *arena, struct output *output, const struct command *command)
{
    struct option_values arguments = command_arguments(arena, command);
    const char *summary = shell_quoted(arena, command->summary);
    output_printf(output, "complete -c tautline -n __tautline_is -a %s -d %s\n", command->name, summary);
    output_printf(output, "complete -c tautline -n '__tautline_is help' -a %s -d %s\n", command->name, summary);
    if (arguments.kind == VALUE_FILE)
        output_printf(output, "complete -c tautline -n '__tautline_is %s' -F\n", command->name);
    if (arguments.kind == VALUE_WORD)
        output_printf(output, "complete -c tautline -n '__tautline_is %s' -a '%s'\n", command->name,
                      words_joined(arena, arguments.words, arguments.count));
}

static void put_option(struct output *output, const struct option_row *row, const char *names, const char *value,
                       const char *help)
{
    output_printf(output, "complete -c tautline -n '__tautline_is%s' -l %s%s -d %s\n", names, row->name, value, help);
}

/* One line where all commands take the same values; else one for each. */
static void put_option_of_commands(struct arena *arena, struct output *output, const struct option_row *row)
{
    const char *names = "", *help = shell_quoted(arena, row->help);
    struct option_values values = option_values(arena, row);
    for (size_t i = 0; i < command_count; i++) {
        if (!command_takes(&commands[i], row))
            continue;
        names = arena_printf(arena, "%s %s", names, commands[i].name);
        if (!values_by_command(row))
            continue;
        values = command_option_values(arena, &commands[i], row);
        put_option(output, row, arena_printf(arena, " %s", commands[i].name), value_of(arena, &values), help);
    }
    if (!values_by_command(row))
        put_option(output, row, names, value_of(arena, &values), help);
}

void completion_fish(struct arena *arena, struct output *output)
{
    output_text(output, opening);
    for (size_t i = 0; i < command_count; i++)
        put_command(arena, output, &commands[i]);
    for (size_t i = 0; i < option_row_count; i++)
        put_option_of_commands(arena, output, &option_rows[i]);
}
