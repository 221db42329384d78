/* Declarations shared by the files that read a gym file; no other file includes it.
 *
 * gym_file.c splits the text into lines, blocks and keys (inih); gym_keys.c has the table of blocks and keys;
 * gym_values.c reads their values, gym_gear.c those of plates, chains and bands, gym_ar_lines.c those that give sets
 * their AR, gym_confirmed.c the lines that were confirmed as right; gym_blocks.c checks each block as it ends and
 * gym_checks.c what depends on several blocks. */
#ifndef TAUTLINE_READING_GYM_READER_H
#define TAUTLINE_READING_GYM_READER_H

#include "base/names.h"
#include "reading/gym/gym_file.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

struct named_line /* a word of the gym file that is checked at the end of the file, and where it is */
{
    const char *text;
    uint32_t line, column, length;
};

struct plate_draft
{
    double value;
    int pairs; /* -1: unlimited */
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
    struct named_line strands_at, pin_at;
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
    struct arena *arena, *own; /* for the result; for this reading */
    struct diags *diags;
    struct gym *gym;
    LIST(const char *) lines; /* NUL-terminated, as written */

    size_t next_line; /* index of the line that inih gets next */
    bool line_too_long;
    uint32_t line;            /* from 1: the one that is being read */
    struct named_line key_at; /* the key that is being read */
    const char *value;
    uint32_t value_column;

    const struct gym_block *block; /* NULL: none yet, or one that is left out */
    bool any_block;                /* there was a [ ] line */
    const char *label;
    uint32_t block_line;
    void *object;            /* the block's draft */
    uint64_t seen;           /* keys that this block has, one bit each, by index in the table */
    struct map *blocks_seen; /* maps "chain long" to its line, for blocks allowed only once */

    struct map *lift_spellings; /* of maxes and heights; maps to the lift's name */

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
    size_t offset;      /* offset of the target in the block's draft */
    bool many;          /* may be repeated, one line each */
    double least, most; /* range of a number, in kg, m or without unit */
};

struct gym_block
{
    const char *name;
    bool labelled;
    bool many; /* there may be several blocks with one label */
    const struct gym_key *keys;
    size_t key_count;
    void *(*open)(struct gym_reader *reader,
                  const char *label); /* returns the draft that the keys fill; NULL: left out, already reported */
    bool (*close)(struct gym_reader *reader,
                  void *draft);              /* false: the block is left out, already reported; may be NULL */
    void (*drop)(struct gym_reader *reader); /* removes the last draft; NULL if nothing can fail */
};

enum quantity
{
    MASS,
    LENGTH
};

#define TAKE_WORD(reader, key, value, words)                                                                           \
    gym_take_word(reader, key, value, strlen(value), words, sizeof(words) / sizeof *(words))

#endif
