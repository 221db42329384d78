#include "commands/start/start_gear.h"

#include "commands/start/start.h"

#include "base/names.h"
#include "base/text.h"
#include "commands/start/start_blocks.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

#define LINE(...) start_line_add(start, block, (struct start_line){__VA_ARGS__})

void start_gym_blocks(struct start *start)
{
    struct start_block *block = start_block_add(
        start, "[gym]",
        "A gym file holds what logs do not: chains, bands, heights, tested maxes. tautline-gym(5) explains every block "
        "and key.\nA line that begins with ; is a comment.\n"
        "Replace each ___ by your own value and remove the ; at the beginning of its line and of the\n"
        "line with its [block]. Lines that keep their ; are not used, and tautline says what it had to assume "
        "instead.\n");
    LINE("unit", "___", .remark = "kg or lb: what a bare number in a log means",
         .question = "Unit of bare numbers in the logs, kg or lb");
    LINE("bar", "___ kg", .remark = "the bar, with its collars if they are always on; without this line, 20 kg",
         .question = "Mass of the bar, as in 20 kg");
    LINE("plates", "___", .remark = "the plates for one side, as in 25x4 20 15 10 5 2.5 1.25 (x4: four pairs)",
         .question = "Plates for one side, as in 25x4 20 15 10 5 2.5 1.25 (x4: four pairs)");
    LINE("dates", "___", .remark = "dmy or mdy, where an export writes 03/04/2026");
}

/* --- gear ---------------------------------------------------------------------------------------------------------------------- */

struct seen /* gear or a set-up of one name */
{
    enum piece_kind kind;
    bool is_setup;
    const char *label;   /* NULL: written without a label */
    const char *example; /* as written in a load */
    size_t sets;
    day_number first, last;
};

struct seen_gear
{
    struct names *keys;
    LIST(struct seen) items; /* by the number of its key */
    size_t massed_chains;    /* sets with chains given only by mass */
};

static struct seen *seen_of(struct start *start, struct seen_gear *gear, const char *kind, const char *label)
{
    char *key = arena_printf(start->arena, "%s %s", kind, label ? text_fold(start->arena, label) : "");
    uint32_t number = names_add(gear->keys, key, strlen(key));
    if (number == gear->items.count)
        *LIST_ADD(start->arena, &gear->items) = (struct seen){.label = label, .first = INT32_MAX, .last = INT32_MIN};
    return &gear->items.items[number];
}

struct ar_use /* of one AR, by its id */
{
    size_t sets;
    day_number first, last;
};

static void see(struct seen *seen, const struct ar_use *use)
{
    seen->sets += use->sets;
    seen->first = use->first < seen->first ? use->first : seen->first;
    seen->last = use->last > seen->last ? use->last : seen->last;
}

static void see_label(struct start *start, struct seen_gear *gear, const struct piece *piece, const char *label,
                      const struct ar_use *use)
{
    static const char *const kinds[] = {[PIECE_CHAIN] = "chain", [PIECE_BAND] = "band", [PIECE_RELEASER] = "releaser"};
    struct seen *seen = seen_of(start, gear, kinds[piece->kind], label);
    seen->kind = piece->kind;
    if (!seen->example)
        seen->example = pieces_print(start->arena, piece, 1);
    see(seen, use);
}

static void see_piece(struct start *start, struct seen_gear *gear, const struct piece *piece, const struct ar_use *use)
{
    bool by_numbers = !isnan(piece->mass_kg) || !isnan(piece->top_kg) || !isnan(piece->bottom_kg);
    if (!by_numbers)
        see_label(start, gear, piece, piece->label, use);
    if (!by_numbers && piece->label_right)
        see_label(start, gear, piece, piece->label_right, use);
    if (by_numbers && piece->kind == PIECE_CHAIN)
        gear->massed_chains += use->sets;
    if (piece->setup) {
        struct seen *seen = seen_of(start, gear, "setup", piece->setup);
        seen->is_setup = true;
        seen->example = pieces_print(start->arena, piece, 1);
        see(seen, use);
    }
}

static void see_loads(struct start *start, struct seen_gear *gear)
{
    const struct log *log = start->log;
    struct ar_use *uses = ARENA_ARRAY(start->arena, struct ar_use, loads_ar_count(log->loads));
    for (size_t i = 0; i < log->sets.count; i++) {
        const struct set *set = &log->sets.items[i];
        struct ar_use *use = &uses[set->ar->ar_id];
        use->first = !use->sets || set->day < use->first ? set->day : use->first;
        use->last = !use->sets || set->day > use->last ? set->day : use->last;
        use->sets++;
    }
    for (uint32_t id = 0; id < loads_ar_count(log->loads); id++) {
        const struct load *ar = loads_ars(log->loads)[id];
        for (size_t j = 0; uses[id].sets && j < ar->piece_count; j++)
            see_piece(start, gear, &ar->pieces[j], &uses[id]);
    }
}

static const char *where_seen(struct start *start, const struct seen *seen)
{
    char first[16], last[16];
    date_print(first, seen->first);
    date_print(last, seen->last);
    const char *sets = seen->sets == 1 ? "a set" : arena_printf(start->arena, "%zu sets", seen->sets);
    return seen->first == seen->last
               ? arena_printf(start->arena, "in %s of %s, as in '%s'", sets, first, seen->example)
               : arena_printf(start->arena, "in %s from %s to %s, as in '%s'", sets, first, last, seen->example);
}

/* A name that a gym file cannot hold gets a comment instead of a block. */
static struct start_block *block_of(struct start *start, const char *kind, const char *label, const char *about)
{
    if (start_can_stand(start->arena, label))
        return start_block_add(start, arena_printf(start->arena, "[%s \"%s\"]", kind, label), about);
    start_block_add(
        start, NULL,
        arena_printf(start->arena, "%s\nA gym file cannot hold this name: write it differently in the log.\n", about));
    return NULL;
}

static void put_chain(struct start *start, const struct seen *seen)
{
    const char *label = seen->label ? seen->label : "usual";
    const char *about = seen->label ? arena_printf(start->arena, "Chain \"%s\": %s.\n", label, where_seen(start, seen))
                                    : arena_printf(start->arena, "Chains without a name: %s. Choose any name.\n",
                                                   where_seen(start, seen));
    struct start_block *block = block_of(start, "chain", label, about);
    if (!block)
        return;
    if (!seen->label)
        LINE("default", "yes", .value = "yes", .remark = "what '2 chains' means where no name is written");
    LINE("mass", "___ kg", .remark = "one piece, weighed without its leader", .needed = true,
         .question = arena_printf(start->arena, "Chain \"%s\": mass of one piece without its leader, as in 7.0 kg",
                                  label));
    LINE("length", "___ m", .remark = "hung straight, end to end: its links x the inner length of one",
         .question = arena_printf(start->arena, "Chain \"%s\": its length, as in 1.80 m", label));
    LINE("link", "___ mm", .remark = "inner length of one link: at least this much must stay on the floor");
    LINE("leader", "___ m, ___ kg", .remark = "length and mass of what carries it from the bar",
         .question = arena_printf(start->arena, "Chain \"%s\": length and mass of its leader, as in 0.40 m, 0.3 kg",
                                  label));
}

static void put_band(struct start *start, const struct seen *seen)
{
    if (!seen->label) {
        start_block_add(start, NULL,
                        arena_printf(start->arena,
                                     "Bands without a name or pull: %s. Name them in the log, as in 'band b26'.\n",
                                     where_seen(start, seen)));
        return;
    }
    struct start_block *block = block_of(
        start, "band", seen->label,
        arena_printf(start->arena, "Band \"%s\": %s.\n", seen->label, where_seen(start, seen)));
    if (!block)
        return;
    LINE("flat", "___ m", .remark = "the loop laid flat, end to end, unstretched", .needed = true,
         .question = arena_printf(start->arena, "Band \"%s\": the loop laid flat, end to end, as in 1.04 m",
                                  seen->label));
    LINE("pair", "yes", .value = "yes", .remark = "yes: a matched pair, one on each side");
    for (int i = 0; i < 4; i++)
        LINE("tension", "___ m : ___ kg", .needed = !i,
             .remark = i == 0   ? "length end to end under load : pull of ONE band"
                       : i == 3 ? "longer than training stretches it"
                                : NULL,
             .question = arena_printf(start->arena,
                                      "Band \"%s\": a length and the pull of one band at it, as in 1.60 m : 27.0 kg",
                                      seen->label));
    LINE("measured", "DATE", .remark = "the day, as in 2026-01-03: bands age");
}

static void put_setup(struct start *start, const struct seen *seen)
{
    struct start_block *block = block_of(
        start, "setup", seen->label,
        arena_printf(start->arena, "Set-up \"%s\": %s.\n", seen->label, where_seen(start, seen)));
    if (!block)
        return;
    LINE(
        "height", "___ m", .remark = "the anchor above the floor; of reverse bands, above the bar", .needed = true,
        .question = arena_printf(start->arena, "Set-up \"%s\": its anchor above the floor, as in 0.05 m", seen->label));
    LINE("spread", "___ m", .remark = "sideways from each anchor to its band's place on the bar");
    LINE("offset", "___ m", .remark = "fore-aft from the anchor to the path of the bar");
}

static bool is_known(const struct start *start, const struct seen *seen)
{
    if (seen->is_setup)
        return gym_setup(start->known, seen->label);
    if (seen->kind == PIECE_CHAIN)
        return seen->label ? gym_chain(start->known, seen->label) : gym_default_chain(start->known);
    return seen->kind == PIECE_BAND && seen->label && gym_band(start->known, seen->label);
}

/* Text for all blocks of a kind is written once, above the first. */
static const char chains_about[] = "--- Chains ---\n"
                                   "Weigh one piece on a kitchen or luggage scale, without its leader and collar; "
                                   "where it is too heavy, weigh 1 m of it and multiply by\n"
                                   "its length. Weigh each piece: those of one name should agree within 2 %. The "
                                   "leader is the strap or light chain between bar and\n"
                                   "chain: long enough that nearly all of the chain lies on the floor at the bottom of "
                                   "the lift, and one link still does at the top.\n";
static const char bands_about[] = "--- Bands ---\n"
                                  "flat: lay the band flat and measure it. tension: hook one end to something that "
                                  "cannot move and a hanging scale to the other; pull\n"
                                  "slowly to a length, wait some seconds, read length and pull. Measure four lengths "
                                  "or more, the longest beyond what training uses\n"
                                  "('tautline fit' reads a whole table of them). Measure both bands of a pair: if they "
                                  "differ by more than 5 %, they are not a pair.\n"
                                  "Never pull a band that is nicked, cracked or sticky; wear safety glasses and stand "
                                  "to its side, out of its line.\n";
static const char setups_about[] = "--- Set-ups: where bands hang ---\n"
                                   "Measure with a tape, from the floor to the middle of what the band hangs from.\n";

static void put_kind(struct start *start, const struct seen_gear *gear, const char *about, bool setups,
                     enum piece_kind kind)
{
    static void (*const put[])(struct start *,
                               const struct seen *) = {[PIECE_CHAIN] = put_chain, [PIECE_BAND] = put_band};
    bool first = true;
    for (size_t i = 0; i < gear->items.count; i++) {
        const struct seen *seen = &gear->items.items[i];
        if (seen->is_setup != setups || (!setups && seen->kind != kind) || is_known(start, seen))
            continue;
        if (first)
            start_block_add(start, NULL, about);
        first = false;
        (setups ? put_setup : put[kind])(start, seen);
    }
}

void start_gear_blocks(struct start *start)
{
    struct seen_gear gear = {.keys = names_new(start->arena)};
    see_loads(start, &gear);
    put_kind(start, &gear, chains_about, false, PIECE_CHAIN);
    if (gear.massed_chains && !start->gym_there)
        start_block_add(
            start, NULL,
            arena_printf(
                start->arena,
                "Chains logged by their mass, in %zu %s: give a [chain \"NAME\"] with mass and length, and tautline "
                "works out\n"
                "how much of them hangs at each height; a logged mass within 2 %% of it counts as that chain.\n",
                gear.massed_chains, gear.massed_chains == 1 ? "set" : "sets"));
    put_kind(start, &gear, bands_about, false, PIECE_BAND);
    put_kind(start, &gear, setups_about, true, PIECE_CHAIN);
}
