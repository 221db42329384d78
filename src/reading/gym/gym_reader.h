/* What the files that read a gym file share; no other file includes it.
 *
 * gym_file.c takes the text apart into lines, blocks and keys (inih); gym_keys.c has the table of blocks and keys;
 * gym_values.c reads their values, gym_gear.c those of plates, chains and bands, gym_ar_lines.c those that give sets
 * their AR, gym_confirmed.c the lines that are right as they are; gym_blocks.c checks each block as it ends and
 * gym_checks.c what no block can tell alone. */
#ifndef TAUTLINE_READING_GYM_READER_H
#define TAUTLINE_READING_GYM_READER_H

#include "base/names.h"
#include "reading/gym/gym_file.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

struct named_line /* a word of the gym file that is checked at its end, and where it is */
{
    const char *text;
    uint32_t line, column, length;
};

struct plate_draft
{
    double value;
    int pairs; /* -1: as many as wanted */
    bool unit_said;
    enum mass_unit unit;
    struct named_line at;
};

struct point_draft
{
    struct tension_point point;
    struct named_line at;
};

struct point_drafts
{
    LIST(struct point_draft) list;
};

struct chain_draft
{
    struct chain chain;
    struct named_line default_at;
    double strands_m[2]; /* 0: not said */
    struct named_line strands_at;
};

struct band_draft /* one [band] block: one calibration */
{
    const char *label;
    bool pair_said, pair;
    struct named_line partner; /* text NULL: none */
    double hitch_m;
    struct calibration calibration;
    bool coefficients_said, range_said, law_said;
    struct point_drafts points, lowering; /* of the band while stretched; while let go */
};

struct max_draft
{
    struct tested_max max;
    struct named_line lift;
};

struct heights_draft
{
    struct bar_heights heights;
    struct named_line lift;
};

struct ar_draft
{
    struct ar_line line;
    struct named_line lift;
};

struct lifter_draft
{
    struct lifter lifter;
    LIST(const char *) logs;
    LIST(struct max_draft) maxes;
    LIST(struct heights_draft) heights;
    LIST(struct ar_draft) ar_lines;
};

struct lift_draft
{
    struct lift lift;
    struct named_line setup; /* text NULL: none */
    LIST(struct named_line) aliases;
};

struct gym_key;
struct gym_block;

struct gym_reader
{
    struct arena *arena, *own; /* the result's; this reading's */
    struct diags *diags;
    struct gym *gym;
    LIST(const char *) lines; /* NUL-terminated, as written */

    size_t next_line; /* index of the line that inih is given next */
    bool line_too_long;
    uint32_t line;            /* from 1: the one being read */
    struct named_line key_at; /* the key being read */
    const char *value;
    uint32_t value_column;

    const struct gym_block *block; /* NULL: none yet, or one that is left out */
    bool any_block;                /* a [ ] line was seen */
    const char *label;
    uint32_t block_line;
    void *object;            /* the block's draft */
    uint64_t seen;           /* keys of this block, by their place in the table */
    struct map *blocks_seen; /* "chain long" to its line, where only one block is allowed */

    struct map *lift_spellings; /* of maxes and heights, to the lift's name */

    LIST(struct plate_draft) plates;
    LIST(struct chain_draft) chains;
    LIST(struct band_draft) bands;
    LIST(struct setup) setups;
    LIST(struct lifter_draft) lifters;
    LIST(struct lift_draft) lifts;
    LIST(struct finding_limit) limits;
    LIST(struct column_synonyms) columns;
    LIST(struct confirmed_line) confirmed;
    struct named_line formula;
};

typedef bool gym_value_read(struct gym_reader *reader, const struct gym_key *key, const char *value, void *target);

struct gym_key
{
    const char *name; /* NULL: any name (limits, columns), checked by its reader */
    gym_value_read *read;
    size_t offset;      /* of the target in the block's draft */
    bool many;          /* one line each, as often as wanted */
    double least, most; /* of a number, in kg, m or as it is */
};

struct gym_block
{
    const char *name;
    bool labelled;
    bool many; /* blocks of one label */
    const struct gym_key *keys;
    size_t key_count;
    void *(*open)(struct gym_reader *reader,
                  const char *label); /* the draft that the keys fill; NULL: left out, already reported */
    bool (*close)(struct gym_reader *reader,
                  void *draft);              /* false: the block is left out, already reported; may be NULL */
    void (*drop)(struct gym_reader *reader); /* takes the last draft back; NULL where nothing can fail */
};

enum quantity
{
    MASS,
    LENGTH
};

#define TAKE_WORD(reader, key, value, words)                                                                           \
    gym_take_word(reader, key, value, strlen(value), words, sizeof(words) / sizeof *(words))

#endif
