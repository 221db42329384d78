/* The combinations of whole pieces that a gym's gear allows, before they are hung anywhere. Pure. */
#ifndef TAUTLINE_ANALYSIS_SETUP_GEAR_H
#define TAUTLINE_ANALYSIS_SETUP_GEAR_H

#include "base/arena.h"
#include "model/gear.h"
#include "model/load.h"

#include <stdbool.h>
#include <stddef.h>

#define SETUP_PIECES 2 /* kinds of gear in one set-up */
#define SETUP_COMBINED                                                                                                 \
    64 /* labels of chains, and of bands, that are combined with others: what can be is their number squared */

struct gear /* one or two kinds of piece, the same on both sides */
{
    struct piece pieces[SETUP_PIECES];
    size_t count;
    bool combines; /* may be put together with the other kind of gear */
};

struct gear_list
{
    struct gear *items;
    size_t count, capacity;
};

/* One to four chains per side of one label, hung by the end or by the middle, or of two labels, by the end. Only
 * chains with a mass and a length. Returns how many such chains the gym has. */
size_t list_chains(struct arena *arena, const struct gym *gym, struct gear_list *list);
/* One or two bands per side of one label, or one each of two labels; single, doubled or choked. A band with a partner
 * is hung together with it, once. Returns how many bands, or pairs of partners, the gym has. */
size_t list_bands(struct arena *arena, const struct gym *gym, struct gear_list *list);

#endif
