#include "analysis/setup/setup_gear.h"

#include <math.h>

#define MOST_CHAINS 4 /* per side */
#define MOST_BANDS 2  /* per side */

static struct piece piece_of(enum piece_kind kind, const char *label, int per_side, enum rig rig)
{
    return (struct piece){.kind = kind,
                          .label = label,
                          .per_side = per_side,
                          .rig = rig,
                          .mass_kg = NAN,
                          .bottom_kg = NAN,
                          .top_kg = NAN,
                          .leader_m = NAN};
}

static void add_gear(struct arena *arena, struct gear_list *list, const struct piece *first, const struct piece *second,
                     bool combines)
{
    struct gear *gear = LIST_ADD(arena, list);
    gear->pieces[0] = *first;
    gear->count = 1;
    gear->combines = combines && !second;
    if (second)
        gear->pieces[gear->count++] = *second;
}

static bool is_usable_chain(const struct chain *chain)
{
    return chain->mass_kg > 0 && chain->length_m > 0;
}

/* How many of the gym's chains have the first SETUP_COMBINED usable ones among them. */
static size_t chains_combined(const struct gym *gym)
{
    size_t end = 0;
    for (size_t usable = 0; end < gym->chain_count && usable < SETUP_COMBINED; end++)
        usable += is_usable_chain(&gym->chains[end]);
    return end;
}

size_t list_chains(struct arena *arena, const struct gym *gym, struct gear_list *list)
{
    size_t usable = 0, combined = chains_combined(gym);
    for (size_t i = 0; i < gym->chain_count; i++) {
        if (!is_usable_chain(&gym->chains[i]))
            continue;
        usable++;
        for (int count = 1; count <= MOST_CHAINS; count++) {
            struct piece first = piece_of(PIECE_CHAIN, gym->chains[i].label, count, RIG_SINGLE);
            struct piece doubled = piece_of(PIECE_CHAIN, gym->chains[i].label, count, RIG_DOUBLED);
            add_gear(arena, list, &first, NULL, usable <= SETUP_COMBINED);
            add_gear(arena, list, &doubled, NULL, usable <= SETUP_COMBINED);
            for (size_t j = i + 1; j < gym->chain_count && j < combined; j++) {
                for (int more = 1; is_usable_chain(&gym->chains[j]) && count + more <= MOST_CHAINS; more++) {
                    struct piece second = piece_of(PIECE_CHAIN, gym->chains[j].label, more, RIG_SINGLE);
                    add_gear(arena, list, &first, &second, false);
                }
            }
        }
    }
    return usable;
}

/* The label of the right band, if the pair has two labels. */
static const char *partner_of(const struct gym *gym, const struct band *band)
{
    return band->partner && gym_band(gym, band->partner) ? band->partner : NULL;
}

static struct piece band_piece(const struct gym *gym, const struct band *band, int per_side, enum rig rig)
{
    struct piece piece = piece_of(PIECE_BAND, band->label, per_side, rig);
    piece.label_right = partner_of(gym, band);
    return piece;
}

/* Of two labels that are each other's partner, the first represents both. */
static bool is_usable_band(const struct gym *gym, size_t at)
{
    const struct band *band = &gym->bands[at];
    const char *partner = partner_of(gym, band);
    return band->calibration_count && !(partner && gym_band(gym, partner) < band);
}

static size_t bands_combined(const struct gym *gym)
{
    size_t end = 0;
    for (size_t usable = 0; end < gym->band_count && usable < SETUP_COMBINED; end++)
        usable += is_usable_band(gym, end);
    return end;
}

size_t list_bands(struct arena *arena, const struct gym *gym, struct gear_list *list)
{
    size_t usable = 0, combined = bands_combined(gym);
    for (size_t i = 0; i < gym->band_count; i++) {
        if (!is_usable_band(gym, i))
            continue;
        usable++;
        for (int rig = RIG_SINGLE; rig <= RIG_CHOKED; rig++) {
            struct piece first = band_piece(gym, &gym->bands[i], 1, (enum rig)rig);
            for (int count = 1; count <= (first.label_right ? 1 : MOST_BANDS); count++) {
                struct piece some = first;
                some.per_side = count;
                add_gear(arena, list, &some, NULL, usable <= SETUP_COMBINED);
            }
            for (size_t j = i + 1; j < gym->band_count && j < combined; j++) {
                struct piece second = band_piece(gym, &gym->bands[j], 1, (enum rig)rig);
                if (is_usable_band(gym, j))
                    add_gear(arena, list, &first, &second, false);
            }
        }
    }
    return usable;
}
