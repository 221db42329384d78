/* The inverse problem: which of the gym's chains and bands, hung in which way, make the load at the top heavier than
 * at the bottom by a wanted share of the 1RM. Pure.
 *
 * All combinations of whole pieces are tried: up to four chains per side, of one or two labels, by the end or by the
 * middle; up to two bands per side, of one or two labels, single, doubled or choked; chains alone, bands alone, and
 * one kind of each together. What is continuous is solved by Brent's method and then rounded to a centimetre, the
 * accuracy of a tape measure: a leader's length, or the height of a new anchor. Bands that hang from above are
 * another kind of training and are not searched. */
#ifndef TAUTLINE_ANALYSIS_SETUP_SEARCH_H
#define TAUTLINE_ANALYSIS_SETUP_SEARCH_H

#include "analysis/setup/setup_gear.h"
#include "base/arena.h"
#include "base/unit.h"
#include "model/effect.h"

#include <stdbool.h>
#include <stddef.h>

enum setup_gear
{
    SETUP_CHAINS = 1,
    SETUP_BANDS = 2
};

struct setup_wish
{
    struct loading_context context; /* heights known; one_rm_kg above 0 */
    struct load straight;           /* the straight weight; its pieces are ignored */
    double share;                   /* wanted (L_t − L_b) / 1RM */
    double min_added_kg;            /* the least that chain and band must add at the bottom */
    unsigned gear;                  /* enum setup_gear */
    size_t most;                    /* results to keep */
    enum mass_unit tape;            /* pounds: lengths to be made are in inches, as a tape measure has them */
};

struct setup_found
{
    struct load load;                  /* prints as an expression that can be read back */
    struct piece pieces[SETUP_PIECES]; /* of the load; load.pieces is set by setup_search() and points here */
    struct effect effect;
    double share, miss_kg, miss_share; /* misses: found minus wanted */
    double added_kg;                   /* by chain and band at the bottom */
    double leader_m;                   /* solved, to be adjusted; NAN: as in the gym file */
    struct setup anchor;               /* solved, to be added to the gym file; name NULL: none */
    bool slack;                        /* a band does not pull at the bottom */
    int piece_count;                   /* pieces on one side */
};

enum setup_rejection
{
    SETUP_OVER_RANGE, /* a band is stretched beyond its calibration */
    SETUP_SWINGS,     /* a chain leaves the floor */
    SETUP_IDLE,       /* a piece adds no more at the top than at the bottom */
    SETUP_TOO_LIGHT,  /* below min_added_kg */
    SETUP_REJECTIONS
};

struct setup_search
{
    struct setup_found *found; /* the best of each gear: by miss in steps of half a point of 1RM, then taut before
                                  slack, then by what is added at the bottom */
    size_t count;
    size_t tried, slack; /* slack: among those kept */
    size_t rejected[SETUP_REJECTIONS];
    size_t usable_chains, usable_bands; /* in the gym: chains with a length, bands with a calibration */
};

struct setup_search setup_search(struct arena *arena, const struct setup_wish *wish);

#define SETUP_NEAR 0.02 /* a miss of at most two points of 1RM is near */

/* What would reach the share: a chain on each side of which exactly the wanted part hangs at the bottom, while one
 * link lies on the floor at the top. */
struct setup_need
{
    double added_kg;                    /* in total, at the top compared with the bottom */
    double chain_kg, chain_m, leader_m; /* one chain on each side; chain_kg NAN: the floor is too near */
};
struct setup_need setup_need_for(const struct setup_wish *wish);

#endif
