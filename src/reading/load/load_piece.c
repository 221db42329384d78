#include "reading/load/load_piece.h"

#include "reading/load/load_numbers.h"
#include "reading/load/load_slots.h"

#include "base/number.h"

#include <math.h>

static bool refuse_phrase(struct phrase *phrase, enum diag_id id, const char *hint, const char *message)
{
    return phrase_fault(phrase->reader, id, phrase->slots.begin, phrase->at, hint, "%s", message);
}

static const char *number_text(struct phrase *phrase, double value)
{
    char text[32];
    number_print(text, value);
    return arena_copy(phrase->reader->arena, text);
}

static bool is_singular(const struct phrase *phrase)
{
    const struct word *gear = &phrase->reader->words->list.items[phrase->slots.gear_at];
    return phrase->slots.gear_named && gear->length && gear->label[gear->length - 1] != 's' &&
           gear->label[gear->length - 1] != 'S';
}

/* Settles count and side: pieces on each side, or 0 if there was no count. `noun` is for the hints. */
static bool count_per_side(struct phrase *phrase, const char *noun, enum diag_id uneven, int *per_side)
{
    struct slots *slots = &phrase->slots;
    int count = slots->count ? slots->count : slots->single && slots->gear != BAND ? 1 : 0;
    if (slots->double_at != SIZE_MAX && !slots->count)
        count = 2;
    if (!count && slots->side && !slots->pair && isnan(slots->mass_kg) && is_singular(phrase))
        count = 1; /* "chain/side", "a chain per side" */
    if (slots->pair)
        count = count ? count * 2 : 2;
    *per_side = count;
    if (!count || slots->side)
        return true;
    if (count % 2) {
        struct arena *arena = phrase->reader->arena;
        const char *hint = slots->gear == BAND && slots->label
                               ? arena_printf(arena, "write 'band %s' for one on each side, or '2 bands %s'",
                                              slots->label, slots->label)
                               : arena_printf(arena, "write '%d %ss' or '%d %s%s/side'", count + 1, noun, count, noun,
                                              count > 1 ? "s" : "");
        return refuse_phrase(
            phrase, uneven, hint,
            arena_printf(arena, "odd number of %ss with no side named: the bar would be uneven", noun));
    }
    *per_side = count / 2;
    return true;
}

/* "2 chains 30 kg": of one, or of both together? */
static bool refuse_unlinked(struct phrase *phrase, const char *noun)
{
    struct slots *slots = &phrase->slots;
    const char *mass = number_text(phrase, kg_to(slots->mass_kg, phrase->reader->style.unit));
    const char *unit = mass_unit_name(phrase->reader->style.unit), *side = slots->side ? "/side" : "";
    return refuse_phrase(
        phrase, DIAG_AMBIGUOUS_AR,
        arena_printf(phrase->reader->arena,
                     "write '%d x %s %s %s%s' if each weighs that, or '%s %s %ss%s' if all of it does", slots->count,
                     mass, unit, noun, side, mass, unit, noun, side),
        arena_printf(phrase->reader->arena, "%s %s: is it the mass of one %s or of all?", mass, unit, noun));
}

static bool refuse_side_and_total(struct phrase *phrase, const char *noun)
{
    struct slots *slots = &phrase->slots;
    struct arena *arena = phrase->reader->arena;
    const char *what = !isnan(slots->mass_kg)
                           ? arena_printf(arena, "%s %s %s",
                                          number_text(phrase, kg_to(slots->mass_kg, phrase->reader->style.unit)),
                                          mass_unit_name(phrase->reader->style.unit), noun)
                       : slots->count ? arena_printf(arena, "%d %ss", slots->count, noun)
                                      : arena_printf(arena, "%ss", noun);
    return refuse_phrase(phrase, DIAG_AMBIGUOUS_AR, arena_printf(arena, "write '%s/side' or '%s in all'", what, what),
                         "it says both per side and in all");
}

static bool common_checks(struct phrase *phrase, const char *noun)
{
    struct slots *slots = &phrase->slots;
    if (slots->side && slots->total)
        return refuse_side_and_total(phrase, noun);
    bool counted = slots->count || slots->pair || slots->double_at != SIZE_MAX;
    if (slots->each && slots->side)
        slots->mass_linked = true; /* the side was given, so the mass is that of each piece */
    if (slots->each && !slots->side) {
        if (counted && !isnan(slots->mass_kg))
            return refuse_phrase(
                phrase, DIAG_AMBIGUOUS_AR,
                arena_printf(phrase->reader->arena, "write '2 x 7 kg %s' or '2 x 7 kg %s/side'", noun, noun),
                "'each' may mean each piece or each side");
        slots->side = true;
    }
    if (counted && !isnan(slots->mass_kg) && !slots->mass_linked && !slots->count_linked)
        return refuse_unlinked(phrase, noun);
    return true;
}

/* Chains and releasers: given by mass or by count. */
static bool make_heavy(struct phrase *phrase, struct piece *piece, const char *noun)
{
    struct slots *slots = &phrase->slots;
    if (!isnan(slots->top_kg) || !isnan(slots->bottom_kg))
        return refuse_phrase(phrase, DIAG_BAD_LOAD,
                             arena_printf(phrase->reader->arena, "write the mass of the %s", noun),
                             "bottom and top go with bands");
    if (slots->rig == RIG_CHOKED || slots->reverse || slots->label_right)
        return refuse_phrase(phrase, DIAG_BAD_LOAD, NULL, "a word for bands in a phrase about chains");
    if (!common_checks(phrase, noun) || !count_per_side(phrase, noun, DIAG_UNEVEN_CHAINS, &piece->per_side))
        return false;
    piece->mass_kg = slots->mass_kg;
    if (!piece->per_side && !isnan(piece->mass_kg) && slots->side)
        piece->mass_kg *= 2;
    return !phrase_is_absurd(phrase->reader, piece->mass_kg, phrase->slots.begin, phrase->at);
}

static bool check_double(struct phrase *phrase)
{
    struct slots *slots = &phrase->slots;
    const char *name = slots->label ? slots->label : "NAME";
    return slots->double_at == SIZE_MAX ||
           phrase_fault(
               phrase->reader, DIAG_AMBIGUOUS_AR, slots->double_at, slots->double_at + 1,
               arena_printf(phrase->reader->arena,
                            "write 'band %s doubled' for one folded round its anchor, or '2 bands %s/side' for two",
                            name, name),
               "'double' may mean folded or two of them");
}

/* How many pieces a mass refers to: "2 x 20 kg bands", "a pair of 20 kg bands". */
static int pieces_linked(const struct slots *slots)
{
    int count = slots->count ? slots->count : 1;
    return slots->count_linked || slots->mass_linked ? (slots->pair ? count * 2 : count) : 1;
}

/* A band given by its pull: totals at the ends. */
static bool make_pull(struct phrase *phrase, struct piece *piece)
{
    struct slots *slots = &phrase->slots;
    double times = (slots->side ? 2 : 1) * pieces_linked(slots);
    if (slots->count && slots->count % 2 && !slots->side && !slots->total)
        return count_per_side(phrase, "band", DIAG_UNEVEN_BANDS, &piece->per_side);
    double *said = slots->reverse ? &slots->bottom_kg : &slots->top_kg;
    if (!isnan(slots->mass_kg)) {
        if (!isnan(*said))
            return refuse_phrase(phrase, DIAG_AMBIGUOUS_AR, "write bottom and top as 12-40 kg",
                                 "there are more than two pulls for the band's two ends");
        *said = slots->mass_kg;
    }
    bool both = !isnan(slots->bottom_kg) && !isnan(slots->top_kg);
    if (isnan(*said))
        return refuse_phrase(phrase, DIAG_AMBIGUOUS_AR,
                             slots->reverse ? "write 'reverse bands 35 bottom 5 top'" : "write '40 top 12 bottom'",
                             slots->reverse ? "only the top is given" : "only the bottom is given");
    if (both && (slots->reverse ? slots->bottom_kg < slots->top_kg : slots->bottom_kg > slots->top_kg))
        return refuse_phrase(phrase, DIAG_BAD_LOAD,
                             slots->reverse ? "write the pull at the bottom first: 35-5 kg"
                                            : "write the pull at the bottom first: 12-40 kg",
                             slots->reverse ? "a reverse band takes off the most at the bottom"
                                            : "a band pulls more at the top than at the bottom");
    piece->bottom_kg = both || slots->reverse ? slots->bottom_kg * times : 0;
    piece->top_kg = both || !slots->reverse ? slots->top_kg * times : 0;
    piece->other_end_said = both;
    return !phrase_is_absurd(phrase->reader, fmax(piece->bottom_kg, piece->top_kg), slots->begin, phrase->at);
}

static bool make_band(struct phrase *phrase, struct piece *piece)
{
    struct slots *slots = &phrase->slots;
    if (!isnan(slots->leader_m))
        return refuse_phrase(phrase, DIAG_BAD_LOAD, NULL, "a leader goes with a chain");
    if (!check_double(phrase) || !common_checks(phrase, "band"))
        return false;
    piece->label_right = slots->label_right;
    piece->reverse = slots->reverse;
    if (!isnan(slots->mass_kg) || !isnan(slots->top_kg) || !isnan(slots->bottom_kg))
        return make_pull(phrase, piece);
    if (!count_per_side(phrase, "band", DIAG_UNEVEN_BANDS, &piece->per_side))
        return false;
    if (!piece->per_side && (slots->label || slots->side))
        piece->per_side = 1; /* bands come in pairs: only a label means one on each side */
    return true;
}

bool slots_piece(struct phrase *phrase, struct piece *piece)
{
    struct slots *slots = &phrase->slots;
    *piece = (struct piece){.rig = slots->rig,
                            .label = slots->label,
                            .setup = slots->setup,
                            .mass_kg = NAN,
                            .bottom_kg = NAN,
                            .top_kg = NAN,
                            .leader_m = slots->leader_m};
    if ((phrase->reader->header & AR_HEADER_SIDE) && !slots->total && !slots->side) {
        slots->side = true;
        slots->single |= slots->label && !slots->gear_named; /* the name of a chain alone means one of them */
    }
    if (slots->gear == CHAIN || slots->gear == RELEASER) {
        piece->kind = slots->gear == CHAIN ? PIECE_CHAIN : PIECE_RELEASER;
        return make_heavy(phrase, piece, slots->gear == CHAIN ? "chain" : "releaser");
    }
    piece->kind = PIECE_BAND;
    return make_band(phrase, piece);
}
