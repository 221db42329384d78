/* A load expression, read: straight weight and the pieces of accommodating resistance (AR) hung on the bar.
 *
 * Two loads with the same meaning are the same pointer (load_intern). A set has two: its straight weight and its AR, of
 * which a log of a million sets holds some hundreds each, and a hundred thousand of both together.
 * Masses in kg. NAN: not written. Immutable once interned. */
#ifndef TAUTLINE_MODEL_LOAD_H
#define TAUTLINE_MODEL_LOAD_H

#include "base/arena.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* What was assumed in reading a set or computing its loads; the words are an interface (`assumed` column). In output
 * order. */
#define ASSUMPTIONS(X)                                                                                                 \
    X(BOTTOM_TENSION, "bottom-tension")                                                                                \
    X(NO_HEIGHTS, "no-heights")                                                                                        \
    X(NO_SETUP, "no-setup")                                                                                            \
    X(CHAIN_MASS, "chain-mass")                                                                                        \
    X(HITCH, "hitch")                                                                                                  \
    X(ONE_POINT, "one-point")                                                                                          \
    X(OVER_RANGE, "over-range")                                                                                        \
    X(UNKNOWN_GEAR, "unknown-gear")                                                                                    \
    X(UNLOADED, "unloaded")                                                                                            \
    X(UNIT, "unit")                                                                                                    \
    X(DATE_ORDER, "date-order")                                                                                        \
    X(ONE_REP_MAX, "one-rep-max")                                                                                      \
    X(NO_WEIGHT, "no-weight")                                                                                          \
    X(AR_CARRIED, "ar-carried")                                                                                        \
    X(AR_GIVEN, "ar-given")                                                                                            \
    X(YEAR, "year")

enum assumption_bit
{
#define X(id, word) ASSUMPTION_BIT_##id,
    ASSUMPTIONS(X)
#undef X
    ASSUMPTION_BITS
};

enum assumption
{
#define X(id, word) ASSUMED_##id = 1 << ASSUMPTION_BIT_##id,
    ASSUMPTIONS(X)
#undef X
};

/* "bottom-tension;no-setup", into a buffer of at least 160 bytes; empty for 0. Returns buffer. */
char *assumptions_print(char *buffer, unsigned assumed);

enum straight_kind
{
    STRAIGHT_NONE,      /* no weight written: only repetitions count */
    STRAIGHT_MASS,      /* kg, plus `bars` bars of the gym */
    STRAIGHT_PERCENT,   /* percent of the lifter's tested 1RM of that lift and day */
    STRAIGHT_BODYWEIGHT /* the lifter's bodyweight plus kg (minus: assistance) */
};

enum piece_kind
{
    PIECE_CHAIN,
    PIECE_BAND,
    PIECE_RELEASER /* on the bar while it is lowered; drops off at the bottom */
};

enum rig
{
    RIG_SINGLE,  /* a band stretched once between anchor and bar; a chain hung by its end */
    RIG_DOUBLED, /* a band folded round its anchor, both ends on the bar; a chain hung by its middle (two strands) */
    RIG_CHOKED   /* a band girth-hitched to its anchor */
};

struct piece
{
    enum piece_kind kind;
    enum rig rig;
    bool reverse;            /* band hung from above: takes load off */
    int per_side;            /* pieces on each side; 0: no count was written */
    const char *label;       /* gear of the gym file, or a name it does not know; NULL: none written */
    const char *label_right; /* band b26/b30: left is `label`; NULL: both sides alike */
    /* chain, releaser: per_side > 0: the mass of one piece; else the mass of all of it. NAN: the gym's, or unknown */
    double mass_kg;
    /* band by its pull, in all: at the bottom and at the top. NAN top (bottom, if reverse): by label, or unknown.
     * bottom_said false: the other end was taken as 0 and is marked bottom-tension. */
    double bottom_kg, top_kg;
    bool other_end_said;
    const char *setup; /* @ NAME; NULL: the lift's */
    double leader_m;   /* chain: written "on 40 cm leader"; NAN: the gym's */
};

struct load
{
    enum straight_kind straight;
    double kg; /* mass, or what is added to bodyweight (may be negative) */
    double percent;
    int bars;     /* "bar": how many times the gym's bar is in it */
    int decimals; /* that the written number carries, at least 0 */
    const struct piece *pieces;
    size_t piece_count;
    const char *ar; /* canonical expression of the pieces, "2 x 7 kg chain/side + band b26 doubled @ pegs"; "" where
                     * none. Reads back to the same pieces. */
    /* Small, from 0, in the order first interned: loads of equal straight weight share the one, loads of equal AR the
     * other; ar_id is 0 without AR. */
    uint32_t straight_id, ar_id;
};

struct loads;

struct loads *loads_new(struct arena *arena);
/* The one load equal to `like` (its `ar` and its numbers are ignored and made here). Strings in it are copied. */
const struct load *load_intern(struct loads *loads, const struct load *like);
/* The one load with nothing but the straight weight of that one, and the one with nothing but its AR. */
const struct load *load_weight(const struct loads *loads, const struct load *load);
const struct load *load_ar(const struct loads *loads, const struct load *load);
struct load load_of_both(const struct load *weight, const struct load *ar); /* not interned */
/* By straight_id, by ar_id. */
const struct load *const *loads_weights(const struct loads *loads); /* until another is interned */
const struct load *const *loads_ars(const struct loads *loads);
size_t loads_weight_count(const struct loads *loads);
size_t loads_ar_count(const struct loads *loads);

/* The canonical expression of pieces; made in the arena. */
char *pieces_print(struct arena *arena, const struct piece *pieces, size_t count);
/* The whole load as an expression that reads back ("100 kg + 2 chains/side", "60%", "BW+10 kg", "bar"). */
char *load_print(struct arena *arena, const struct load *load);

bool load_has(const struct load *load, enum piece_kind kind);

#endif
