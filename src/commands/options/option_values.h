/* What may stand as the value of an option: for completions, and for the nearest word where another was typed. */
#ifndef TAUTLINE_COMMANDS_OPTION_VALUES_H
#define TAUTLINE_COMMANDS_OPTION_VALUES_H

#include "base/arena.h"
#include "commands/options/options.h"

#include <stddef.h>

enum value_kind
{
    VALUE_NONE, /* the option takes none */
    VALUE_FREE, /* a number, a date, a load */
    VALUE_WORD, /* one of `words` */
    VALUE_LIST, /* some of `words`, a comma between */
    VALUE_FILE,
    VALUE_FOLDER,
    VALUE_NAME /* of the gym file: `names` says of what */
};

struct option_values
{
    enum value_kind kind;
    const char *const *words;
    size_t count;
    const char *names; /* lifters, lifts, bands: what 'tautline completion' is asked for */
};

struct option_values option_values(struct arena *arena, const struct option_row *row);
/* The words of "kg|lb"; where no | stands, the whole is the only one. */
struct option_values words_between_bars(struct arena *arena, const char *text);

#endif
