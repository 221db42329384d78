/* start: a gym file to fill in and an empty log, made from options, answers and exports.
 *
 * The gym file is kept as blocks of lines until it is written. A line without a value is written as a comment, with a
 * blank (___) behind a semicolon; a block is commented out as a whole as long as a line that it needs has no value.
 * Every value goes through the reader of gym files first, so that the written file is read without errors. */
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
    const char *prefix;      /* prefix of the value, for example a lift's name; NULL: none */
    const char *remark;      /* comment after it; NULL: none */
    const char *question;    /* NULL: do not ask */
    const char *value;       /* NULL: still to be filled in */
    const char *refused;     /* why the value is not allowed; NULL: it is */
    bool needed;             /* the block is not valid without it */
    uint32_t number;         /* number of its line when last written */
};

struct start_block
{
    const char *head;  /* [chain "long"]; NULL: text without a block */
    const char *about; /* lines of text above it; NULL: none */
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
    const struct gym *known; /* what DIR's gym file already holds, or the answers so far */
    struct log *log;         /* read from the exports; empty where there are none */
    size_t *sets_of;         /* sets by lifter of the log */
    size_t lifters;          /* that have sets */
    LIST(struct start_block) blocks;
    bool asking;
    bool unreadable;     /* an export could not be opened */
    bool not_understood; /* nothing in one of the exports could be used */
    const char *lifter;  /* of logs that do not name a lifter; NULL: not known */
};

/* --- blocks -------------------------------------------------------------------------------------------------------- */

/* --- what exports hold ----------------------------------------------------------------------------------------------- */

/* --- questions --------------------------------------------------------------------------------------------------------- */

enum exit_status run_start(struct arena *arena, const struct options *options);

#endif
