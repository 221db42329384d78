#include "reading/load/load_combine.h"

#include "reading/load/load_reader.h"
#include "reading/load/load_reader_state.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* The piece in comparable form: a chain of the gym replaces a mass within 2 % of its own, and the default chain
 * replaces a chain without a name. */
static struct piece comparable(const struct load_reader *reader, const struct piece *piece)
{
    struct piece same = *piece;
    if (same.kind == PIECE_CHAIN && same.per_side) {
        const struct chain *chain = same.label ? gym_chain(reader->gym, same.label) : gym_default_chain(reader->gym);
        if (chain && (isnan(same.mass_kg) || fabs(same.mass_kg - chain->mass_kg) <= 0.02 * chain->mass_kg)) {
            same.label = chain->label;
            same.mass_kg = NAN;
        }
    }
    return same;
}

static int by_text(const void *left, const void *right)
{
    return strcmp(*(char *const *)left, *(char *const *)right);
}

/* The pieces as one text that does not depend on their order. */
static char *comparable_text(const struct load_reader *reader, const struct load *load)
{
    char **texts = ARENA_ARRAY(reader->scratch, char *, load->piece_count);
    for (size_t i = 0; i < load->piece_count; i++) {
        struct piece piece = comparable(reader, &load->pieces[i]);
        texts[i] = pieces_print(reader->scratch, &piece, 1);
    }
    qsort(texts, load->piece_count, sizeof *texts, by_text);
    char *all = arena_copy(reader->scratch, "");
    for (size_t i = 0; i < load->piece_count; i++)
        all = arena_printf(reader->scratch, "%s + %s", all, texts[i]);
    return all;
}

/* Mass of all chains, if there is no other gear and each chain has a mass; NAN otherwise. */
static double chain_mass_in_all(const struct load_reader *reader, const struct load *load)
{
    double all = 0;
    for (size_t i = 0; i < load->piece_count; i++) {
        const struct piece *piece = &load->pieces[i];
        const struct chain *chain = piece->label ? gym_chain(reader->gym, piece->label)
                                                 : gym_default_chain(reader->gym);
        if (piece->kind != PIECE_CHAIN || piece->rig != RIG_SINGLE || !isnan(piece->leader_m))
            return NAN;
        double mass = !isnan(piece->mass_kg) ? piece->mass_kg : chain ? chain->mass_kg : NAN;
        all += piece->per_side ? mass * 2 * piece->per_side : mass;
    }
    return all;
}

/* "chains", "with bands": only says that there was gear, and agrees with anything more specific. */
static bool is_vague(const struct load *load)
{
    for (size_t i = 0; i < load->piece_count; i++) {
        const struct piece *piece = &load->pieces[i];
        if (piece->per_side || piece->label || piece->setup || piece->rig != RIG_SINGLE || !isnan(piece->mass_kg) ||
            !isnan(piece->top_kg) || !isnan(piece->bottom_kg) || piece->reverse)
            return false;
    }
    return true;
}

static bool vaguely_agrees(const struct load *vague, const struct load *other)
{
    for (size_t i = 0; is_vague(vague) && i < vague->piece_count; i++)
        if (!load_has(other, vague->pieces[i].kind))
            return false;
    return is_vague(vague);
}

static bool same_pieces(const struct load_reader *reader, const struct load *a, const struct load *b)
{
    if (a->piece_count == b->piece_count &&
        (!strcmp(a->ar, b->ar) || !strcmp(comparable_text(reader, a), comparable_text(reader, b))))
        return true;
    double mass_a = chain_mass_in_all(reader, a), mass_b = chain_mass_in_all(reader, b);
    return mass_a > 0 && mass_b > 0 && fabs(mass_a - mass_b) <= 0.005 * mass_b;
}

static bool refuse_sources(struct load_fault *fault, struct arena *arena, const char *a, const char *b)
{
    *fault = (struct load_fault){.id = DIAG_CONTRADICTION,
                                 .message = arena_printf(arena, "one cell says %s, another says %s", a, b)};
    return false;
}

static bool append(struct load_reader *reader, struct piece_list *pieces, const struct load *more,
                   struct load_fault *fault)
{
    for (size_t i = 0; more && i < more->piece_count; i++) {
        if (pieces->count == PIECES_LIMIT) {
            *fault = (struct load_fault){
                .id = DIAG_BAD_LOAD,
                .message = arena_printf(reader->arena, "more than %d kinds of gear on one bar", PIECES_LIMIT)};
            return false;
        }
        pieces->items[pieces->count++] = more->pieces[i];
    }
    return true;
}

/* All sources that give AR must agree; the first one's wording is kept. */
static bool agree(struct load_reader *reader, const struct load *const *sources, size_t count,
                  struct piece_list *pieces, struct load_fault *fault)
{
    const struct load *first = NULL;
    for (size_t i = 0; i < count; i++) {
        if (!sources[i] || !sources[i]->piece_count)
            continue;
        if (first && vaguely_agrees(sources[i], first))
            continue;
        if (first && !vaguely_agrees(first, sources[i]) && !same_pieces(reader, first, sources[i]))
            return refuse_sources(fault, reader->arena, first->ar, sources[i]->ar);
        if (!first || vaguely_agrees(first, sources[i]))
            first = sources[i];
    }
    return append(reader, pieces, first, fault);
}

static bool check_negation(struct load_reader *reader, const struct note_ar *note, const struct piece_list *pieces,
                           struct load_fault *fault)
{
    for (size_t i = 0; note && !note->ar && i < pieces->count; i++) {
        enum piece_kind kind = pieces->items[i].kind;
        if ((kind == PIECE_CHAIN && (note->negated & AR_WORD_CHAIN)) ||
            (kind == PIECE_BAND && (note->negated & AR_WORD_BAND)))
            return refuse_sources(fault, reader->arena, pieces_print(reader->arena, &pieces->items[i], 1),
                                  kind == PIECE_CHAIN ? "that there was no chain" : "that there was no band");
    }
    return true;
}

static void add_named(struct piece_list *pieces, enum piece_kind kind, bool reverse)
{
    for (size_t i = 0; i < pieces->count; i++)
        if (pieces->items[i].kind == kind)
            return;
    if (pieces->count < PIECES_LIMIT)
        pieces->items[pieces->count++] = (struct piece){
            .kind = kind, .reverse = reverse, .mass_kg = NAN, .bottom_kg = NAN, .top_kg = NAN, .leader_m = NAN};
}

/* AR named by the lift ("banded squat"): unknown gear, unless a cell or the note says more, or that there was none. */
static void add_named_by_lift(const struct load_sources *sources, struct piece_list *pieces)
{
    unsigned negated = sources->note ? sources->note->negated : 0;
    if (sources->lift_chain && !(negated & AR_WORD_CHAIN))
        add_named(pieces, PIECE_CHAIN, false);
    if ((sources->lift_band || sources->lift_reverse_band) && !(negated & AR_WORD_BAND))
        add_named(pieces, PIECE_BAND, sources->lift_reverse_band);
}

static const struct load *combine(struct load_reader *reader, const struct load_sources *sources,
                                  struct load_fault *fault)
{
    struct piece_list columns = {.count = 0}, pieces = {.count = 0};
    if (!append(reader, &columns, sources->chain, fault) || !append(reader, &columns, sources->band, fault))
        return NULL;
    const struct load *all[] = {sources->base, load_of_pieces(reader, &columns), sources->ar,
                                sources->note ? sources->note->ar : NULL};
    if (!agree(reader, all, sizeof all / sizeof *all, &pieces, fault) ||
        !check_negation(reader, sources->note, &pieces, fault))
        return NULL;
    add_named_by_lift(sources, &pieces);
    struct load load = {.straight = STRAIGHT_NONE};
    if (sources->base)
        load = *sources->base;
    load.pieces = pieces.items;
    load.piece_count = pieces.count;
    return load_intern(reader->loads, &load);
}

const struct load *load_combine(struct load_reader *reader, const struct load_sources *sources,
                                struct load_fault *fault)
{
    bool by_lift = sources->lift_chain || sources->lift_band || sources->lift_reverse_band;
    if (sources->base && !sources->chain && !sources->band && !sources->ar && !by_lift &&
        (!sources->note || (!sources->note->ar && !sources->note->negated)))
        return sources->base;
    struct
    {
        const void *parts[5];
        uintptr_t lift;
    } key = {{sources->base, sources->chain, sources->band, sources->ar, sources->note},
             (uintptr_t)(sources->lift_chain + 2 * sources->lift_band + 4 * sources->lift_reverse_band)};
    struct answer *answer = map_get(reader->combined, (const char *)&key, sizeof key);
    if (!answer) {
        answer = ARENA_NEW(reader->arena, struct answer);
        answer->load = combine(reader, sources, &answer->fault);
        map_put(reader->combined, (const char *)&key, sizeof key, answer);
        arena_reset(reader->scratch);
    }
    *fault = answer->fault;
    return answer->load;
}
