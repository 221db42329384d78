#include "model/load.h"

#include "base/names.h"
#include "base/unit.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char *const assumption_words[] = {
#define X(id, word) word,
    ASSUMPTIONS(X)
#undef X
};

char *assumptions_print(char *buffer, unsigned assumed)
{
    char *end = buffer;
    *end = 0;
    for (int bit = 0; bit < ASSUMPTION_BITS; bit++) {
        if (!(assumed & 1u << bit))
            continue;
        if (end != buffer)
            *end++ = ';';
        size_t length = strlen(assumption_words[bit]);
        memcpy(end, assumption_words[bit], length + 1);
        end += length;
    }
    return buffer;
}

/* 14 digits tell every number that a log writes, and hide the last bits of a product: 20 lb are 9.0718474 kg. What is
 * printed so reads back to a number that prints the same. The notation knows no exponents. */
#define SMALLEST_BY_DIGITS 1e-4 /* %g takes an exponent below */

static char *shortest(struct arena *arena, double value)
{
    if (value == 0 || fabs(value) >= SMALLEST_BY_DIGITS)
        return arena_printf(arena, "%.14g", value == 0 ? 0.0 : value);
    char *text = arena_printf(arena, "%.15f", value); /* as many decimals as are read exactly */
    size_t length = strlen(text);
    while (text[length - 1] == '0')
        length--;
    text[text[length - 1] == '.' ? length - 1 : length] = 0;
    return text;
}

/* One word of small letters, digits and single inner hyphens. */
static bool is_plain_name(const char *name)
{
    size_t length = strlen(name);
    return length && strspn(name, "abcdefghijklmnopqrstuvwxyz0123456789-") == length && *name >= 'a' &&
           name[length - 1] != '-' && !strstr(name, "--");
}

/* Words of the notation, and what begins its idioms and units. */
static bool is_notation(const char *word, size_t length)
{
    static const char *const words[] = {
#define X(word, kind, number) word,
#include "model/notation.def"
#undef X
        "all",   "altogether", "body", "bodyweight", "both", "bw",    "ea",     "either",  "every",   "in",
        "kg",    "kgs",        "kilo", "kilos",      "lb",   "lbs",   "leader", "leaders", "overall", "per",
        "pound", "pounds",     "side", "sides",      "to",   "total", "totals", "x",
    };
    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        if (strlen(words[i]) == length && !memcmp(words[i], word, length))
            return true;
    return false;
}

/* A set-up's name as it reads back, where the gym file does not have it too: after @ any word will do that has no other
 * meaning. */
static char *setup_print(struct arena *arena, const char *name)
{
    bool bare = is_plain_name(name) && !is_notation(name, strlen(name)) && !is_notation(name, strcspn(name, "-"));
    return bare ? arena_copy(arena, name) : arena_printf(arena, "\"%s\"", name);
}

/* A label as it reads back: bare where it is a plain word that holds a digit, which no word of the notation does. */
static char *quoted_name(struct arena *arena, const char *name)
{
    bool bare = is_plain_name(name) && strpbrk(name, "0123456789");
    return bare ? arena_copy(arena, name) : arena_printf(arena, "\"%s\"", name);
}

static char *label_print(struct arena *arena, const struct piece *piece)
{
    if (!piece->label)
        return arena_copy(arena, "");
    /* A bare word next to releasers is not a label: they have none in a gym file. */
    char *left = piece->kind == PIECE_RELEASER ? arena_printf(arena, "\"%s\"", piece->label)
                                               : quoted_name(arena, piece->label);
    return piece->label_right ? arena_printf(arena, " %s/%s", left, quoted_name(arena, piece->label_right))
                              : arena_printf(arena, " %s", left);
}

static char *tail_print(struct arena *arena, const struct piece *piece)
{
    char *tail = arena_copy(arena, piece->rig == RIG_DOUBLED ? " doubled" : piece->rig == RIG_CHOKED ? " choked" : "");
    if (!isnan(piece->leader_m))
        tail = arena_printf(arena, "%s on %s m leader", tail, shortest(arena, piece->leader_m));
    if (piece->setup)
        tail = arena_printf(arena, "%s @ %s", tail, setup_print(arena, piece->setup));
    return tail;
}

#define MOST_BARE_COUNT 4 /* a larger one without its x would be read as a mass that lost its unit */

static const char *count_sign(const struct piece *piece)
{
    return piece->per_side > MOST_BARE_COUNT ? "x " : "";
}

/* Chains and releasers: "2 x 7 kg chain/side", "2 chains/side", "1 chain "long"/side", "30 kg chain", "chains". */
static char *heavy_print(struct arena *arena, const struct piece *piece, const char *word)
{
    char *label = label_print(arena, piece), *tail = tail_print(arena, piece);
    const char *plural = piece->per_side == 1 ? "" : "s";
    if (piece->per_side && !isnan(piece->mass_kg))
        return arena_printf(arena, "%d x %s kg %s%s/side%s", piece->per_side, shortest(arena, piece->mass_kg), word,
                            label, tail);
    if (piece->per_side)
        return arena_printf(arena, "%d %s%s%s%s/side%s", piece->per_side, count_sign(piece), word, plural, label, tail);
    if (!isnan(piece->mass_kg))
        return arena_printf(arena, "%s kg %s%s%s", shortest(arena, piece->mass_kg), word, label, tail);
    return arena_printf(arena, "%ss%s%s", word, label, tail);
}

static char *band_print(struct arena *arena, const struct piece *piece)
{
    const char *reverse = piece->reverse ? "reverse " : "";
    char *label = label_print(arena, piece), *tail = tail_print(arena, piece);
    double said = piece->reverse ? piece->bottom_kg : piece->top_kg;
    if (!isnan(said)) {
        const char *pull = piece->other_end_said
                               ? arena_printf(arena, "%s kg bottom %s kg top", shortest(arena, piece->bottom_kg),
                                              shortest(arena, piece->top_kg))
                               : arena_printf(arena, "%s kg", shortest(arena, said));
        return arena_printf(arena, "%sbands%s %s%s", reverse, label, pull, tail);
    }
    if (!piece->per_side)
        return arena_printf(arena, "%sbands%s%s", reverse, label, tail);
    if (piece->per_side == 1 && piece->label)
        return arena_printf(arena, "%sband%s%s", reverse, label, tail);
    return arena_printf(arena, "%d %s%sband%s%s/side%s", piece->per_side, count_sign(piece), reverse,
                        piece->per_side == 1 ? "" : "s", label, tail);
}

char *pieces_print(struct arena *arena, const struct piece *pieces, size_t count)
{
    char *text = arena_copy(arena, "");
    for (size_t i = 0; i < count; i++) {
        const struct piece *piece = &pieces[i];
        char *one = piece->kind == PIECE_BAND
                        ? band_print(arena, piece)
                        : heavy_print(arena, piece, piece->kind == PIECE_CHAIN ? "chain" : "releaser");
        text = i ? arena_printf(arena, "%s + %s", text, one) : one;
    }
    return text;
}

static char *straight_print(struct arena *arena, const struct load *load)
{
    char *kg = shortest(arena, fabs(load->kg));
    switch (load->straight) {
    case STRAIGHT_PERCENT:
        return arena_printf(arena, "%s%%", shortest(arena, load->percent));
    case STRAIGHT_BODYWEIGHT:
        return load->kg == 0 ? arena_copy(arena, "BW") : arena_printf(arena, "BW%s%s kg", load->kg < 0 ? "-" : "+", kg);
    case STRAIGHT_MASS: {
        char *bars = arena_copy(arena, load->bars ? "bar" : "");
        for (int i = 1; i < load->bars; i++)
            bars = arena_printf(arena, "%s + bar", bars);
        if (!load->bars)
            return arena_printf(arena, "%s kg", kg);
        return load->kg == 0 ? bars : arena_printf(arena, "%s + %s kg", bars, kg);
    }
    case STRAIGHT_NONE:
        break;
    }
    return arena_copy(arena, "");
}

char *load_print(struct arena *arena, const struct load *load)
{
    char *straight = straight_print(arena, load);
    const char *join = *straight && load->piece_count ? " + " : load->piece_count ? "+ " : "";
    return arena_printf(arena, "%s%s%s", straight, join,
                        load->ar ? load->ar : pieces_print(arena, load->pieces, load->piece_count));
}

bool load_has(const struct load *load, enum piece_kind kind)
{
    for (size_t i = 0; i < load->piece_count; i++)
        if (load->pieces[i].kind == kind)
            return true;
    return false;
}

struct loads
{
    struct arena *arena;
    struct names *straights; /* by straight_key */
    struct names *ar_texts;
    LIST(const struct load *) weights; /* without AR, by straight_id; the first has no weight */
    LIST(const struct load *) ars;     /* without a weight, by ar_id; the first has no AR */
    struct map *wholes;                /* with both, by their two numbers */
};

static struct piece *pieces_copy(struct arena *arena, const struct piece *pieces, size_t count)
{
    struct piece *copies = ARENA_ARRAY(arena, struct piece, count);
    for (size_t i = 0; i < count; i++) {
        copies[i] = pieces[i];
        copies[i].label = arena_copy(arena, pieces[i].label);
        copies[i].label_right = arena_copy(arena, pieces[i].label_right);
        copies[i].setup = arena_copy(arena, pieces[i].setup);
    }
    return copies;
}

static struct load *load_new(struct loads *loads, const struct load *like)
{
    struct load *load = ARENA_NEW(loads->arena, struct load);
    *load = *like;
    return load;
}

static const struct load *ar_of(struct loads *loads, const struct piece *pieces, size_t count)
{
    if (!count)
        return loads->ars.items[0];
    struct arena *scratch = arena_new();
    const char *text = pieces_print(scratch, pieces, count);
    uint32_t number = names_add(loads->ar_texts, text, strlen(text));
    if (number == loads->ars.count)
        *LIST_ADD(loads->arena,
                  &loads->ars) = load_new(loads, &(struct load){.pieces = pieces_copy(loads->arena, pieces, count),
                                                                .piece_count = count,
                                                                .ar = names_text(loads->ar_texts, number),
                                                                .ar_id = number});
    arena_free(scratch);
    return loads->ars.items[number];
}

struct straight_key /* no padding: compared byte by byte */
{
    double kg, percent;
    int32_t kind, bars, decimals, zero;
};

static const struct load *weight_of(struct loads *loads, const struct load *like)
{
    struct straight_key key = {
        like->kg == 0 ? 0 : like->kg, like->percent, (int32_t)like->straight, like->bars, like->decimals, 0};
    uint32_t number = names_add(loads->straights, (const char *)&key, sizeof key);
    if (number == loads->weights.count) {
        struct load *load = load_new(loads, like);
        load->pieces = NULL;
        load->piece_count = 0;
        load->ar = names_text(loads->ar_texts, 0);
        load->straight_id = number;
        load->ar_id = 0;
        *LIST_ADD(loads->arena, &loads->weights) = load;
    }
    return loads->weights.items[number];
}

struct loads *loads_new(struct arena *arena)
{
    struct loads *loads = ARENA_NEW(arena, struct loads);
    loads->arena = arena;
    loads->straights = names_new(arena);
    loads->ar_texts = names_new(arena);
    loads->wholes = map_new(arena);
    names_add(loads->ar_texts, "", 0);
    *LIST_ADD(arena, &loads->ars) = weight_of(loads, &(struct load){.straight = STRAIGHT_NONE});
    return loads;
}

struct load load_of_both(const struct load *weight, const struct load *ar)
{
    struct load both = *weight;
    both.pieces = ar->pieces;
    both.piece_count = ar->piece_count;
    both.ar = ar->ar;
    both.ar_id = ar->ar_id;
    return both;
}

const struct load *load_intern(struct loads *loads, const struct load *like)
{
    const struct load *weight = weight_of(loads, like), *ar = ar_of(loads, like->pieces, like->piece_count);
    if (!ar->ar_id)
        return weight;
    if (!weight->straight_id)
        return ar;
    const uint32_t key[2] = {weight->straight_id, ar->ar_id};
    struct load *whole = map_get(loads->wholes, (const char *)key, sizeof key);
    if (!whole) {
        const struct load both = load_of_both(weight, ar);
        whole = load_new(loads, &both);
        map_put(loads->wholes, (const char *)key, sizeof key, whole);
    }
    return whole;
}

const struct load *load_weight(const struct loads *loads, const struct load *load)
{
    return loads->weights.items[load->straight_id];
}

const struct load *load_ar(const struct loads *loads, const struct load *load)
{
    return loads->ars.items[load->ar_id];
}

const struct load *const *loads_weights(const struct loads *loads)
{
    return loads->weights.items;
}

const struct load *const *loads_ars(const struct loads *loads)
{
    return loads->ars.items;
}

size_t loads_weight_count(const struct loads *loads)
{
    return loads->weights.count;
}

size_t loads_ar_count(const struct loads *loads)
{
    return loads->ars.count;
}
