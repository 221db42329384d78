/* start: a gym file to fill in and an empty log, out of what options, answers and exports tell.
 *
 * The gym file is kept as blocks of lines until it is written. A line without a value is written with a blank, ___,
 * behind a semicolon; so is a whole block as long as a line that it cannot do without has no value. Every value goes
 * through the reader of gym files first, so that what is written is read without an error. */
#ifndef TAUTLINE_COMMANDS_START_H
#define TAUTLINE_COMMANDS_START_H

#include "base/diag.h"
#include "commands/command.h"
#include "commands/options/options.h"
#include "model/gear.h"
#include "model/set.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

struct start_line
{
    const char *key, *blank; /* "mass", "___ kg" */
    const char *prefix;      /* of the value, as a lift's name is; NULL: none */
    const char *remark;      /* behind it; NULL: none */
    const char *question;    /* NULL: not asked */
    const char *value;       /* NULL: to be filled in */
    const char *refused;     /* why the value cannot stand; NULL: it can */
    bool needed;             /* without it, the block cannot stand */
    uint32_t number;         /* of its line, as written last */
};

struct start_block
{
    const char *head;  /* [chain "long"]; NULL: words alone */
    const char *about; /* lines of words above it; NULL: none */
    const char *refused;
    LIST(struct start_line) lines;
    uint32_t number;
};

struct start
{
    struct arena *arena;
    const struct options *options;
    struct diags *diags;
    const char *folder, *gym_path, *log_path;
    bool gym_there, log_there;
    const struct gym *known; /* what DIR's gym file says already, or the answers so far */
    struct log *log;         /* of the exports; empty where there are none */
    size_t *sets_of;         /* by lifter of the log */
    size_t lifters;          /* with sets */
    LIST(struct start_block) blocks;
    bool asking;
    bool unreadable;     /* an export cannot be opened */
    bool not_understood; /* of an export nothing could be used */
    const char *lifter;  /* of logs that name nobody; NULL: not known */
};

/* --- blocks -------------------------------------------------------------------------------------------------------- */

/* --- what exports hold ----------------------------------------------------------------------------------------------- */

/* --- questions --------------------------------------------------------------------------------------------------------- */

enum exit_status run_start(struct arena *arena, const struct options *options);

#endif
