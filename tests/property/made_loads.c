#include "property/made_loads.h"

#include "base/number.h"
#include "base/text.h"

#include <math.h>
#include <string.h>

static const char *const setups[] = {"pegs", "rack-top"};

uint64_t dice_throw(struct dice *dice)
{
    uint64_t z = dice->state += 0x9E3779B97F4A7C15;
    z = (z ^ z >> 30) * 0xBF58476D1CE4E5B9;
    z = (z ^ z >> 27) * 0x94D049BB133111EB;
    return z ^ z >> 31;
}

unsigned dice_below(struct dice *dice, unsigned limit)
{
    return (unsigned)(dice_throw(dice) % limit);
}

double dice_mass(struct dice *dice, double least, double most)
{
    double share = (double)(dice_throw(dice) >> 11) / 9007199254740992.0;
    double mass = least + (most - least) * share;
    double step = dice_below(dice, 2) ? 1 : pow(10, -(double)dice_below(dice, 9));
    double rounded = round(mass / step) * step;
    char text[32];
    number_print(text, rounded < least ? least : rounded);
    number_whole(text, '.', &rounded); /* what nine digits say, no more */
    return rounded;
}

const char *made_label(struct arena *arena, struct dice *dice, const char *const *known, size_t count)
{
    static const char *const parts[] = {"b", "29", "x", "green", "kg", "chain", "band", "pair",    " ", "-", "_", ".",
                                        "ü", "長", "a", "side",  "no", "top",   "2",    "doubled", "@", "+", "/", ","};
    static const char *const words[] = {
#define X(word, kind, number) word,
#include "model/notation.def"
#undef X
        "side", "kg",    "lbs", "x",  "7",        "2 x 7 kg", "top2",     "all",
        "to",   "total", "ea",  "bw", "per-side", "x-hook",   "to-floor", "rack-to-bar"};
    if (dice_below(dice, 2))
        return known[dice_below(dice, (unsigned)count)];
    if (dice_below(dice, 4) == 0) /* what the notation has a meaning for */
        return words[dice_below(dice, sizeof words / sizeof *words)];
    char *label = arena_copy(arena, "q");
    for (unsigned i = 1 + dice_below(dice, 4); i; i--)
        label = arena_printf(arena, "%s%s", label, parts[dice_below(dice, sizeof parts / sizeof *parts)]);
    return text_squeeze(arena, label); /* as readers do */
}

static const char *setup_or_none(struct arena *arena, struct dice *dice)
{
    return dice_below(dice, 4) ? NULL : made_label(arena, dice, setups, 2);
}

static struct piece made_heavy(struct arena *arena, struct dice *dice, enum piece_kind kind)
{
    static const char *const labels[] = {"long", "short"};
    struct piece piece = {.kind = kind, .mass_kg = NAN, .bottom_kg = NAN, .top_kg = NAN, .leader_m = NAN};
    if (dice_below(dice, 3))
        piece.per_side = 1 + (int)dice_below(dice, 10);
    if (dice_below(dice, 2))
        piece.mass_kg = dice_mass(dice, 0.25, 90);
    if (dice_below(dice, 3) == 0)
        piece.label = made_label(arena, dice, labels, 2);
    if (kind == PIECE_CHAIN && dice_below(dice, 4) == 0)
        piece.rig = RIG_DOUBLED;
    if (kind == PIECE_CHAIN && dice_below(dice, 4) == 0)
        piece.leader_m = dice_mass(dice, 0.05, 1.5);
    return piece;
}

static struct piece made_band(struct arena *arena, struct dice *dice)
{
    static const char *const labels[] = {"b11", "b26", "b30", "b48"};
    struct piece piece = {.kind = PIECE_BAND,
                          .reverse = dice_below(dice, 4) == 0,
                          .mass_kg = NAN,
                          .bottom_kg = NAN,
                          .top_kg = NAN,
                          .leader_m = NAN};
    piece.rig = (enum rig)dice_below(dice, 3);
    piece.setup = setup_or_none(arena, dice);
    if (dice_below(dice, 3)) { /* by its label */
        piece.per_side = 1 + (int)dice_below(dice, 6);
        piece.label = made_label(arena, dice, labels, 4);
        if (dice_below(dice, 5) == 0 && piece.per_side == 1)
            piece.label_right = made_label(arena, dice, labels, 4);
        return piece;
    }
    double least = dice_mass(dice, 0, 40), most = least + dice_mass(dice, 0, 50);
    piece.bottom_kg = piece.reverse ? most : least;
    piece.top_kg = piece.reverse ? least : most;
    piece.other_end_said = dice_below(dice, 2);
    if (!piece.other_end_said && piece.reverse)
        piece.top_kg = 0;
    else if (!piece.other_end_said)
        piece.bottom_kg = 0;
    return piece;
}

static void made_straight(struct dice *dice, struct load *load)
{
    switch (dice_below(dice, 5)) {
    case 0:
        load->straight = STRAIGHT_PERCENT;
        load->percent = dice_mass(dice, 10, 120);
        return;
    case 1:
        load->straight = STRAIGHT_BODYWEIGHT;
        load->kg = dice_below(dice, 3) ? dice_mass(dice, 0, 80) : -dice_mass(dice, 0, 60);
        return;
    case 2:
        load->straight = STRAIGHT_MASS;
        load->bars = 1 + (int)dice_below(dice, 2);
        load->kg = dice_below(dice, 2) ? 0 : dice_mass(dice, 0, 300);
        return;
    default:
        load->straight = STRAIGHT_MASS;
        load->kg = dice_mass(dice, 0, 600);
    }
}

struct load made_load(struct arena *arena, struct dice *dice)
{
    struct load load = {.straight = STRAIGHT_NONE};
    size_t count = dice_below(dice, MOST_MADE_PIECES + 1);
    struct piece *pieces = ARENA_ARRAY(arena, struct piece, count + 1);
    made_straight(dice, &load);
    for (size_t i = 0; i < count; i++)
        switch (dice_below(dice, 5)) {
        case 0:
            pieces[i] = made_heavy(arena, dice, PIECE_RELEASER);
            break;
        case 1:
        case 2:
            pieces[i] = made_heavy(arena, dice, PIECE_CHAIN);
            break;
        default:
            pieces[i] = made_band(arena, dice);
        }
    load.pieces = pieces;
    load.piece_count = count;
    return load;
}
