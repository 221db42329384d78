/* Completions for shells, made from the tables of commands and of options: a new row is completed without further
 * work. */
#ifndef TAUTLINE_COMMANDS_COMPLETION_H
#define TAUTLINE_COMMANDS_COMPLETION_H

#include "base/arena.h"
#include "commands/command.h"
#include "commands/options/option_values.h"
#include "writing/output.h"

/* --- what the three have in common ------------------------------------------------------------------------------- */

bool command_takes(const struct command *command, const struct option_row *row);
/* What follows the options of a command. */
/* The values of an option that this command takes; values_by_command(): they differ from command to command. */
bool values_by_command(const struct option_row *row);
struct option_values command_option_values(struct arena *arena, const struct command *command,
                                           const struct option_row *row);
struct option_values command_arguments(struct arena *arena, const struct command *command);
/* An option name may be in several rows, each for its own commands; the values are the same, so only the first row
 * counts. */
bool row_is_first_of_name(size_t row);
/* "a b c" */
const char *words_joined(struct arena *arena, const char *const *words, size_t count);
const char *command_names(struct arena *arena); /* of all commands, joined */
/* In single quotes, for bash, zsh and fish. For our own texts, which have no backslash. */
const char *shell_quoted(struct arena *arena, const char *text);

enum exit_status run_completion(struct arena *arena, const struct options *options);

#endif
