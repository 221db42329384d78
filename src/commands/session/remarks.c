#include "commands/session/remarks.h"

#include "base/names.h"
#include "base/pounds.h"
#include "base/text.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

struct use /* where an AR was first seen, in reading order */
{
    uint32_t file, line;
    const struct load *ar; /* NULL: not seen yet */
};

struct snag /* where a piece of an AR first could not hang as written, and why */
{
    uint32_t file, line;
    enum hindrance hindrance; /* HINDRANCE_NONE: not so far */
    const char *label, *setup;
    double length_m, bottom_m, top_m; /* of the chain; of the bar */
};

struct body /* where a bodyweight lift first has no bodyweight: of the first lifter by name, the first set */
{
    uint32_t lift, rank, file, line;
    size_t at; /* index in the lifter's training */
    bool met;
};

struct remarks
{
    struct session *session;
    struct arena *arena;
    struct names *said;
    LIST(struct use) uses;   /* by ar_id */
    LIST(struct snag) snags; /* by ar_id */
    struct body *bodies;     /* by lift */
};

static struct place place_in(const struct session *session, uint32_t file, uint32_t line)
{
    return (struct place){.file = session->log->files.items[file].path, .line = line};
}

/* True when called with this key for the first time. */
static bool first_time(struct remarks *remarks, const char *key)
{
    size_t said = names_count(remarks->said);
    return names_add(remarks->said, key, strlen(key)) == said;
}

static const char *gear_block(struct arena *arena, const struct piece *piece, const char *label)
{
    if (piece->kind == PIECE_CHAIN)
        return arena_printf(
            arena,
            "describe it in the gym file, with your own measurements:\n[chain \"%s\"]\n%smass = ___ kg\nlength = ___ m",
            label, piece->label ? "" : "default = yes\n");
    return arena_printf(
        arena,
        "describe it in the gym file, with your own measurements:\n[band \"%s\"]\nflat = ___ m\npair = yes\n"
        "tension = ___ m : ___ kg\ntension = ___ m : ___ kg",
        label);
}

static bool gym_knows(const struct gym *gym, const struct piece *piece, const char *label)
{
    if (piece->kind == PIECE_BAND)
        return gym_band(gym, label);
    return (label ? gym_chain(gym, label) : gym_default_chain(gym)) != NULL;
}

static bool has_own_numbers(const struct piece *piece)
{
    return !isnan(piece->mass_kg) || !isnan(piece->top_kg) || !isnan(piece->bottom_kg);
}

static void remark_label(struct remarks *remarks, struct place place, const struct piece *piece, const char *label)
{
    struct session *session = remarks->session;
    const char *kind = piece->kind == PIECE_CHAIN ? "chain" : piece->kind == PIECE_BAND ? "band" : "releaser";
    if (gym_knows(session->gym, piece, label))
        return;
    char *folded = text_fold(session->arena, label ? label : "");
    if (!first_time(remarks, arena_printf(session->arena, "gear %s %s", kind, folded)))
        return;
    if (piece->kind == PIECE_RELEASER)
        diag_add(session->diags, DIAG_UNKNOWN_GEAR, place, NULL, "write their mass, as in releasers 20 kg",
                 "releasers of unknown mass: left out of the loads");
    else if (label)
        diag_add(session->diags, DIAG_UNKNOWN_GEAR, place, NULL, gear_block(session->arena, piece, label),
                 "%s \"%s\" is not in the gym file: where its load is unknown, the straight weight alone is counted",
                 kind, label);
    else
        diag_add(session->diags, DIAG_UNKNOWN_GEAR, place, NULL, gear_block(session->arena, piece, "NAME"),
                 piece->kind == PIECE_CHAIN
                     ? "chains of unknown mass: where the load is unknown, the straight weight alone is counted"
                     : "bands with no name or pull: where the load is unknown, the straight weight alone is counted");
}

static void remark_piece(struct remarks *remarks, struct place place, const struct piece *piece)
{
    struct session *session = remarks->session;
    if (!has_own_numbers(piece)) {
        if (piece->kind == PIECE_BAND && !piece->label)
            remark_label(remarks, place, &(struct piece){.kind = PIECE_BAND}, NULL);
        else
            remark_label(remarks, place, piece, piece->label);
        if (piece->label_right)
            remark_label(remarks, place, piece, piece->label_right);
    }
    if (piece->setup && !gym_setup(session->gym, piece->setup) &&
        first_time(remarks, arena_printf(session->arena, "setup %s", text_fold(session->arena, piece->setup))))
        diag_add(session->diags, DIAG_UNKNOWN_SETUP, place, NULL,
                 arena_printf(session->arena,
                              "describe it in the gym file, with your own measurement:\n[setup \"%s\"]\nheight = ___ m",
                              piece->setup),
                 "set-up \"%s\" is not in the gym file: its anchor is assumed to be on the floor under the bar",
                 piece->setup);
}

static int by_place(const void *a, const void *b)
{
    const struct use *left = a, *right = b;
    if (left->file != right->file)
        return left->file < right->file ? -1 : 1;
    return left->line < right->line ? -1 : left->line > right->line;
}

static void see_use(struct remarks *remarks, const struct use *seen)
{
    while (remarks->uses.count <= seen->ar->ar_id)
        (void)LIST_ADD(remarks->arena, &remarks->uses);
    struct use *use = &remarks->uses.items[seen->ar->ar_id];
    if (!use->ar || by_place(seen, use) < 0)
        *use = *seen;
}

/* --- what cannot hang as written --- */

/* Nothing else can be hindered: most gyms have neither, and their sets are not looked at. */
static bool has_pins_or_pegs(const struct gym *gym)
{
    for (size_t i = 0; i < gym->chain_count; i++)
        if (gym->chains[i].pinned)
            return true;
    for (size_t i = 0; i < gym->setup_count; i++)
        if (gym->setups[i].pegs_apart_m > 0)
            return true;
    return false;
}

static void see_snag(struct remarks *remarks, uint32_t ar_id, const struct snag *seen)
{
    while (remarks->snags.count <= ar_id)
        (void)LIST_ADD(remarks->arena, &remarks->snags);
    struct snag *snag = &remarks->snags.items[ar_id];
    bool earlier = seen->file != snag->file ? seen->file < snag->file : seen->line < snag->line;
    if (snag->hindrance == HINDRANCE_NONE || earlier)
        *snag = *seen;
}

static void see_hung(struct remarks *remarks, const struct evaluated_set *evaluated, const struct hung *hung)
{
    const struct set *set = evaluated->set;
    struct snag snag = {.file = set->file,
                        .line = set->line,
                        .hindrance = hung->hindrance,
                        .label = hung->gym_chain ? hung->gym_chain->label : hung->gym_band->label,
                        .setup = hung->setup ? hung->setup->name : NULL,
                        .length_m = hung->gym_chain ? chain_shortest_strand_m(&hung->chain) : NAN,
                        .bottom_m = evaluated->loading->bottom_m,
                        .top_m = evaluated->loading->top_m};
    see_snag(remarks, set->ar->ar_id, &snag);
}

static void see_snags(struct remarks *remarks, const struct training *training)
{
    for (size_t i = 0; i < training->count; i++) {
        const struct evaluated_set *evaluated = &training->sets[i];
        for (size_t j = 0; evaluated->loading && j < evaluated->loading->hung_count; j++)
            if (evaluated->loading->hung[j].hindrance != HINDRANCE_NONE)
                see_hung(remarks, evaluated, &evaluated->loading->hung[j]);
    }
}

static void remark_snag(struct remarks *remarks, const struct snag *snag)
{
    struct session *session = remarks->session;
    struct place place = place_in(session, snag->file, snag->line);
    if (snag->hindrance == HINDRANCE_OUT_OF_REACH)
        diag_add(
            session->diags, DIAG_CANNOT_HANG, place, NULL,
            "check length, leader and pin of the chain in the gym file, and the lifter's heights",
            "chain \"%s\": %s of it do not reach from the pin to the bar, which goes from %s to %s: its load is not "
            "known",
            snag->label, length_in_unit(session->arena, snag->length_m, session->unit),
            length_in_unit(session->arena, snag->bottom_m, session->unit),
            length_in_unit(session->arena, snag->top_m, session->unit));
    else if (snag->hindrance == HINDRANCE_CHOKED_ON_PEGS)
        diag_add(session->diags, DIAG_CANNOT_HANG, place, NULL,
                 "leave out 'choked', or name the set-up of the one peg that the band is hitched to",
                 "band \"%s\" cannot be choked round both pegs of set-up \"%s\": its load is not known", snag->label,
                 snag->setup);
}

/* True if there are bodyweight sets among them. */
static bool see_loads(struct remarks *remarks, const struct log *log)
{
    bool of_body = false;
    for (size_t i = 0; i < log->sets.count; i++) {
        const struct set *set = &log->sets.items[i];
        of_body |= set->weight->straight == STRAIGHT_BODYWEIGHT;
        if (set->ar->ar_id)
            see_use(remarks, &(struct use){set->file, set->line, set->ar});
    }
    return of_body;
}

static void remark_loads(struct remarks *remarks)
{
    const struct session *session = remarks->session;
    LIST(struct use) uses = {0};
    for (size_t i = 0; i < remarks->uses.count; i++)
        if (remarks->uses.items[i].ar)
            *LIST_ADD(session->arena, &uses) = remarks->uses.items[i];
    if (uses.count)
        qsort(uses.items, uses.count, sizeof *uses.items, by_place);
    for (size_t i = 0; i < uses.count; i++) {
        const struct load *ar = uses.items[i].ar;
        for (size_t j = 0; j < ar->piece_count; j++)
            remark_piece(remarks, place_in(session, uses.items[i].file, uses.items[i].line), &ar->pieces[j]);
    }
}

static void remark_percents(struct remarks *remarks, const struct training *training)
{
    const struct session *session = remarks->session;
    for (size_t i = 0; i < training->without_max_count; i++) {
        const struct set *set = training->without_max[i];
        if (!first_time(remarks, arena_printf(session->arena, "percent %u:%u", set->file, set->line)))
            continue; /* one report per line, however many sets it holds */
        struct place at = place_in(session, set->file, set->line);
        const char *excerpt = NULL;
        for (size_t j = 0; j < session->log->percents.count; j++) {
            const struct percent_use *use = &session->log->percents.items[j];
            if (&session->log->sets.items[use->set] != set)
                continue;
            at.sheet = use->sheet;
            at.column = use->column;
            at.length = use->length;
            excerpt = use->excerpt;
        }
        char day[16];
        date_print(day, set->day);
        const struct load whole = load_of_both(set->weight, set->ar);
        diag_add(session->diags, DIAG_NO_ONE_RM, at, excerpt, NULL, "%s: no 1RM of %s was tested on or before %s",
                 load_print(session->arena, &whole), session->log->lift_names.items[set->lift].name, day);
    }
}

static int by_rank(const void *a, const void *b)
{
    const struct body *left = a, *right = b;
    if (left->rank != right->rank)
        return left->rank < right->rank ? -1 : 1;
    return left->at < right->at ? -1 : left->at > right->at;
}

static void see_body(struct remarks *remarks, const struct body *seen)
{
    struct body *body = &remarks->bodies[seen->lift];
    if (!body->met || by_rank(seen, body) < 0)
        *body = *seen;
}

static void see_bodies(struct remarks *remarks, const struct training *training)
{
    for (size_t i = 0; i < training->count; i++) {
        const struct evaluated_set *evaluated = &training->sets[i];
        const struct set *set = evaluated->set;
        if (set->weight->straight == STRAIGHT_BODYWEIGHT && isnan(evaluated->effect->straight_kg))
            see_body(remarks,
                     &(struct body){set->lift, training->lifter_ranks[set->lifter], set->file, set->line, i, true});
    }
}

/* A bodyweight lift of a lifter whose bodyweight is not given: the reps are counted, the loads are not. One note per
 * lift. */
static void remark_bodies(struct remarks *remarks)
{
    const struct session *session = remarks->session;
    size_t count = 0;
    for (size_t i = 0; i < names_count(session->log->lifts); i++)
        if (remarks->bodies[i].met)
            remarks->bodies[count++] = remarks->bodies[i];
    if (count)
        qsort(remarks->bodies, count, sizeof *remarks->bodies, by_rank);
    for (size_t i = 0; i < count; i++)
        diag_add(session->diags, DIAG_NO_WEIGHT, place_in(session, remarks->bodies[i].file, remarks->bodies[i].line),
                 NULL, NULL, "%s: bodyweight is not known, so the reps are counted and the loads left empty",
                 session->log->lift_names.items[remarks->bodies[i].lift].name);
}

struct remarks *remarks_new(struct arena *arena, struct session *session)
{
    struct remarks *remarks = ARENA_NEW(arena, struct remarks);
    remarks->session = session;
    remarks->arena = arena;
    remarks->said = names_new(arena);
    remarks->bodies = ARENA_ARRAY(arena, struct body, names_count(session->log->lifts));
    return remarks;
}

void remarks_see(struct remarks *remarks, const struct training *training)
{
    bool of_body = see_loads(remarks, training->log);
    remark_percents(remarks, training);
    if (of_body)
        see_bodies(remarks, training);
    if (has_pins_or_pegs(remarks->session->gym))
        see_snags(remarks, training);
}

void remarks_join(struct remarks *remarks, const struct remarks *part)
{
    for (size_t i = 0; i < part->uses.count; i++)
        if (part->uses.items[i].ar)
            see_use(remarks, &part->uses.items[i]);
    for (size_t i = 0; i < part->snags.count; i++)
        if (part->snags.items[i].hindrance != HINDRANCE_NONE)
            see_snag(remarks, (uint32_t)i, &part->snags.items[i]);
    for (size_t i = 0; i < names_count(remarks->session->log->lifts); i++)
        if (part->bodies[i].met)
            see_body(remarks, &part->bodies[i]);
}

void remarks_finish(struct remarks *remarks)
{
    remark_bodies(remarks);
    remark_loads(remarks);
    for (size_t i = 0; i < remarks->snags.count; i++)
        remark_snag(remarks, &remarks->snags.items[i]);
}

void remarks_add(struct session *session)
{
    struct remarks *remarks = remarks_new(session->arena, session);
    remarks_see(remarks, session->training);
    remarks_finish(remarks);
}
