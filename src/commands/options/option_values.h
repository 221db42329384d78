/* The values that an option takes: for completions, and to suggest the nearest word for one that was mistyped. */
#ifndef TAUTLINE_COMMANDS_OPTION_VALUES_H
#define TAUTLINE_COMMANDS_OPTION_VALUES_H

#include "base/arena.h"
#include "commands/options/options.h"

#include <stddef.h>

enum value_kind
{
    VALUE_NONE, /* the option takes no value */
    VALUE_FREE, /* a number, a date, a load */
    VALUE_WORD, /* one of `words` */
    VALUE_LIST, /* some of `words`, separated by commas */
    VALUE_FILE,
    VALUE_FOLDER,
    VALUE_NAME /* a name in the gym file: `names` gives the kind */
};

struct option_values
{
    enum value_kind kind;
    const char *const *words;
    size_t count;
    const char *names; /* lifters, lifts, bands: the argument of 'tautline completion' */
};

struct option_values option_values(struct arena *arena, const struct option_row *row);
/* The words of "kg|lb"; a text without | is a single word. */
struct option_values words_between_bars(struct arena *arena, const char *text);

#endif
