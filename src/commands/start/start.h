/* start: a gym file to fill in and an empty log, out of what options, answers and exports tell.
 *
 * The gym file is kept as blocks of lines until it is written. A line without a value is written with a blank, ___, behind a semicolon; so is
 * a whole block as long as a line that it cannot do without has no value. Every value goes through the reader of gym files first, so that
 * what is written is read without an error. */
#ifndef TAUTLINE_COMMANDS_START_H
#define TAUTLINE_COMMANDS_START_H

#include "base/diag.h"
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
    bool unreadable;         /* an export cannot be opened */
    bool not_understood;     /* of an export nothing could be used */
    const char *lifter;      /* of logs that name nobody; NULL: not known */
};

/* --- blocks -------------------------------------------------------------------------------------------------------- */

/* Good until the next. */
struct start_block *start_block_add(struct start *start, const char *head, const char *about);
void start_line_add(struct start *start, struct start_block *block, struct start_line line);
/* Can it stand in quotes or behind a = of a gym file, and come back as it is? */
bool start_can_stand(struct arena *arena, const char *text);
/* What the reader of gym files has against the value; NULL: nothing. */
const char *start_fault(struct start *start, const char *head, const char *key, const char *value);

/* The gym file as it stands. Lines and blocks that its reader refuses are put behind semicolons first. */
const char *start_gym_text(struct start *start);
const char *start_log_text(struct start *start);

/* --- what exports hold ----------------------------------------------------------------------------------------------- */

void start_gym_blocks(struct start *start);    /* [gym] */
/* The headers of an export that was not understood, or of which some mean nothing. False: there is no need. */
bool start_columns_block(struct start *start, bool not_understood);
void start_gear_blocks(struct start *start);   /* chains, bands and set-ups that exports name and the gym file does not */
void start_lifter_blocks(struct start *start); /* lifters, the same */

/* --- questions --------------------------------------------------------------------------------------------------------- */

/* Asks for what has a question and no value, in blocks from `first` on, as long as there are answers. */
void start_ask_blocks(struct start *start, size_t first);
/* One answer that can stand; NULL: none. */
const char *start_ask_text(struct start *start, const char *question);

#endif
