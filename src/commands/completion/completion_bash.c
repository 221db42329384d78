#include "commands/completion/completion_bash.h"

#include "commands/completion/completion.h"

static const char opening[] =
    "# Completions of tautline(1) for bash, from its tables: 'tautline completion bash' writes this file.\n"
    "\n"
    "# Of a gym file: the one named, else that beside a log named, else that of this folder.\n"
    "_tautline_names() # lifters | lifts | bands\n"
    "{\n"
    "    local gym= name word at typed=$current\n"
    "    local -a logs=() names=()\n"
    "    typed=${typed#[\\\"\\']}\n"
    "    typed=${typed//\\\\/}\n"
    "    for ((at = 1; at < COMP_CWORD; at++)); do\n"
    "        word=${COMP_WORDS[at]#[\\\"\\']}\n"
    "        word=${word%[\\\"\\']}\n"
    "        word=${word//\\\\/}\n"
    "        [[ $word == '~/'* ]] && word=$HOME/${word#'~/'}\n"
    "        case ${COMP_WORDS[at-1]}${COMP_WORDS[at-2]-} in\n"
    "        --gym* | =--gym) [[ $word == = ]] || gym=$word ;;\n"
    "        *) [[ -e $word ]] && logs+=(\"$word\") ;;\n"
    "        esac\n"
    "    done\n"
    "    mapfile -t names < <(command tautline completion \"$1\" ${gym:+--gym \"$gym\"} -- \"${logs[@]:0:1}\" "
    "2>/dev/null)\n"
    "    for name in \"${names[@]}\"; do\n"
    "        [[ ${name,,} == \"${typed,,}\"* ]] && COMPREPLY+=(\"$name\")\n"
    "    done\n"
    "    compopt -o filenames # quotes what holds a blank\n"
    "}\n"
    "\n"
    "_tautline_list() # WORDS: some of them, a comma between\n"
    "{\n"
    "    local last=${current##*,}\n"
    "    mapfile -t COMPREPLY < <(compgen -P \"${current%\"$last\"}\" -W \"$1\" -- \"$last\")\n"
    "    compopt -o nospace\n"
    "}\n"
    "\n"
    "_tautline()\n"
    "{\n"
    "    local current=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]} command= options= words= paths= "
    "at\n"
    "    COMPREPLY=()\n"
    "    if [[ $current == = ]]; then\n"
    "        current=\n"
    "    elif [[ $before == = ]]; then\n"
    "        before=${COMP_WORDS[COMP_CWORD-2]}\n"
    "    fi\n"
    "    for ((at = 1; at < COMP_CWORD; at++)); do\n"
    "        [[ ${COMP_WORDS[at]} == -* ]] || { command=${COMP_WORDS[at]}; break; }\n"
    "    done\n";

/* An option whose values differ from command to command. */
static void put_values_by_command(struct arena *arena, struct output *output, const struct option_row *row)
{
    output_printf(output, "    --%s)\n        case $command in\n", row->name);
    for (size_t i = 0; i < command_count; i++) {
        if (!command_takes(&commands[i], row))
            continue;
        struct option_values values = command_option_values(arena, &commands[i], row);
        output_printf(output, "        %s) _tautline_list '%s' ;;\n", commands[i].name,
                      words_joined(arena, values.words, values.count));
    }
    output_text(output, "        esac\n        return\n        ;;\n");
}

static void put_values(struct arena *arena, struct output *output, size_t row)
{
    struct option_values values = option_values(arena, &option_rows[row]);
    const char *words = words_joined(arena, values.words, values.count);
    if (values.kind == VALUE_NONE || !row_is_first_of_name(row))
        return;
    if (values_by_command(&option_rows[row])) {
        put_values_by_command(arena, output, &option_rows[row]);
        return;
    }
    output_printf(output, "    --%s) ", option_rows[row].name);
    switch (values.kind) {
    case VALUE_WORD:
        output_printf(output, "words='%s' ;;\n", words);
        break;
    case VALUE_LIST:
        output_printf(output, "_tautline_list '%s'; return ;;\n", words);
        break;
    case VALUE_NAME:
        output_printf(output, "_tautline_names %s; return ;;\n", values.names);
        break;
    case VALUE_FILE:
        output_text(output, "compopt -o default; return ;;\n");
        break;
    case VALUE_FOLDER:
        output_text(output, "compopt -o dirnames; return ;;\n");
        break;
    default:
        output_text(output, "return ;;\n");
    }
}

static void put_command(struct arena *arena, struct output *output, const struct command *command)
{
    struct option_values arguments = command_arguments(arena, command);
    output_printf(output, "        %s) options='", command->name);
    for (size_t i = 0, put = 0; i < option_row_count; i++)
        if (command_takes(command, &option_rows[i]))
            output_printf(output, "%s--%s", put++ ? " " : "", option_rows[i].name);
    output_text(output, "'");
    if (arguments.kind == VALUE_FILE)
        output_text(output, " paths=yes");
    if (arguments.kind == VALUE_WORD)
        output_printf(output, " words='%s'", words_joined(arena, arguments.words, arguments.count));
    output_text(output, " ;;\n");
}

void completion_bash(struct arena *arena, struct output *output)
{
    const char *names = command_names(arena);
    output_text(output, opening);
    output_text(output, "    case ${command:+$before} in\n");
    for (size_t i = 0; i < option_row_count; i++)
        put_values(arena, output, i);
    output_text(output, "    *)\n        case $command in\n");
    output_printf(output, "        '') options='--help --version' words='%s help' ;;\n        help) words='%s' ;;\n",
                  names, names);
    for (size_t i = 0; i < command_count; i++)
        put_command(arena, output, &commands[i]);
    output_text(output, "        esac\n        [[ $current == -* ]] && words=$options paths=\n        [[ $paths ]] && "
                        "compopt -o default\n        ;;\n"
                        "    esac\n    mapfile -t COMPREPLY < <(compgen -W \"$words\" -- \"$current\")\n}\n\ncomplete "
                        "-F _tautline tautline\n");
}
