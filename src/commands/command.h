/* The table of commands. */
#ifndef TAUTLINE_COMMANDS_COMMAND_H
#define TAUTLINE_COMMANDS_COMMAND_H

#include "commands/options/options.h"
#include "commands/session/session.h"

struct columns
{
    const struct column *items;
    size_t count;
};
#define COLUMNS_OF(list) ((struct columns){(list), sizeof(list) / sizeof *(list)})

struct command
{
    const char *name;
    enum exit_status (*run)(struct arena *arena, const struct options *options);
    unsigned groups; /* of options */
    const char *arguments;
    const char *summary;
    struct columns (*columns)(
        const struct options *options); /* of the table that these options show; NULL: there is no --columns */
};

extern const struct command commands[];
extern const size_t command_count;

/* Prints "tautline: MESSAGE" on standard error and how to get help; returns EXIT_USAGE. */
enum exit_status usage_error(const char *command, const char *message);

#endif
