#include "commands/completion/completion_zsh.h"

#include "commands/completion/completion.h"

#include <string.h>

static const char opening[] =
    "#compdef tautline\n"
    "# Completions of tautline(1) for zsh, from its tables: 'tautline completion zsh' writes this file.\n"
    "\n"
    "# Of a gym file: the one named, else that beside a log named, else that of this folder.\n"
    "_tautline_names() # lifters | lifts | bands\n"
    "{\n"
    "    local word\n"
    "    local -a names gym logs\n"
    "    [[ -n ${opt_args[--gym]-} ]] && gym=(--gym ${~${(Q)opt_args[--gym]}})\n"
    "    for word in ${(Q)words[2,CURRENT-1]}; do\n"
    "        [[ -e $word ]] && logs=($word) && break\n"
    "    done\n"
    "    names=(\"${(@f)$(command tautline completion $1 $gym -- $logs 2>/dev/null)}\")\n"
    "    [[ -n $names ]] && _wanted names expl name compadd -M 'm:{[:lower:]}={[:upper:]}' -a names\n"
    "}\n"
    "\n"
    "_tautline()\n"
    "{\n"
    "    local curcontext=$curcontext state line expl\n"
    "    local -a commands\n"
    "    typeset -A opt_args\n"
    "    commands=(\n";

static const char middle[] = "    )\n"
                             "    _arguments -C '(- 1 *)--help[show this help]' '(- 1 *)--version[show the version]' "
                             "'1:command:->command' '*::argument:->argument' && return\n"
                             "    if [[ $state == command ]]; then\n"
                             "        commands+=('help:list the options of a command')\n"
                             "        _describe -t commands command commands\n"
                             "        return\n"
                             "    fi\n"
                             "    curcontext=${curcontext%:*}-$words[1]:\n"
                             "    case $words[1] in\n"
                             "    help) _describe -t commands command commands ;;\n";

/* A text in the brackets of a specification. */
static const char *bracketed(struct arena *arena, const char *text)
{
    struct output *escaped = output_to_memory(arena);
    for (; *text; text++) {
        if (strchr("[]:", *text))
            output_text(escaped, "\\");
        output_put(escaped, text, 1);
    }
    return output_memory(escaped, NULL);
}

static const char *action(struct arena *arena, const struct option_values *values)
{
    const char *words = words_joined(arena, values->words, values->count);
    switch (values->kind) {
    case VALUE_WORD:
        return arena_printf(arena, "(%s)", words);
    case VALUE_LIST:
        return arena_printf(arena, "{_values -s , name %s}", words);
    case VALUE_NAME:
        return arena_printf(arena, "{_tautline_names %s}", values->names);
    case VALUE_FILE:
        return "_files";
    case VALUE_FOLDER:
        return "_files -/";
    default:
        return "";
    }
}

static void put_option(struct arena *arena, struct output *output, const struct command *command,
                       const struct option_row *row)
{
    struct option_values values = command_option_values(arena, command, row);
    const char *help = bracketed(arena, row->help);
    const char *specification = values.kind == VALUE_NONE
                                    ? arena_printf(arena, "--%s[%s]", row->name, help)
                                    : arena_printf(arena, "--%s=[%s]:%s:%s", row->name, help,
                                                   bracketed(arena, row->argument), action(arena, &values));
    output_printf(output, " \\\n            %s", shell_quoted(arena, specification));
}

static void put_command(struct arena *arena, struct output *output, const struct command *command)
{
    struct option_values arguments = command_arguments(arena, command);
    output_printf(output, "    %s)\n        _arguments", command->name);
    for (size_t i = 0; i < option_row_count; i++)
        if (command_takes(command, &option_rows[i]))
            put_option(arena, output, command, &option_rows[i]);
    if (arguments.kind == VALUE_FILE || arguments.kind == VALUE_WORD)
        output_printf(output, " \\\n            '*:%s:%s'", arguments.kind == VALUE_WORD ? "word" : "file",
                      action(arena, &arguments));
    output_text(output, "\n        ;;\n");
}

void completion_zsh(struct arena *arena, struct output *output)
{
    output_text(output, opening);
    for (size_t i = 0; i < command_count; i++)
        output_printf(output, "        %s\n",
                      shell_quoted(arena, arena_printf(arena, "%s:%s", commands[i].name, commands[i].summary)));
    output_text(output, middle);
    for (size_t i = 0; i < command_count; i++)
        put_command(arena, output, &commands[i]);
    output_text(output, "    esac\n}\n\n_tautline \"$@\"\n");
}
