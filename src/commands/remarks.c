#include "commands/remarks.h"

#include "base/names.h"
#include "base/text.h"

#include <math.h>
#include <string.h>

struct remarks
{
    struct session *session;
    struct map *seen; /* key of a remark to the count of sets */
};

struct seen
{
    size_t sets;
    const struct set *first;
    const struct piece *piece;
};

static struct place place_of(const struct session *session, const struct set *set)
{
    return (struct place){.file = session->log->files.items[set->file].path, .line = set->line};
}

/* Counts a set under a key; true the first time. */
static bool first_time(struct remarks *remarks, const char *key, const struct set *set, const struct piece *piece)
{
    struct seen *seen = map_get(remarks->seen, key, strlen(key));
    if (seen) {
        seen->sets++;
        return false;
    }
    seen = ARENA_NEW(remarks->session->arena, struct seen);
    *seen = (struct seen){1, set, piece};
    map_put(remarks->seen, key, strlen(key), seen);
    return true;
}

static const char *gear_block(struct arena *arena, const struct piece *piece, const char *label)
{
    if (piece->kind == PIECE_CHAIN)
        return arena_printf(arena, "describe it in the gym file:\n[chain \"%s\"]\n%smass = 7.0 kg\nlength = 1.80 m", label,
                            piece->label ? "" : "default = yes\n");
    return arena_printf(arena, "describe it in the gym file, with your own measurements:\n[band \"%s\"]\nflat = 1.04 m\npair = yes\n"
                               "tension = 1.60 m : 27.0 kg\ntension = 2.00 m : 38.5 kg", label);
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

static void remark_label(struct remarks *remarks, const struct set *set, const struct piece *piece, const char *label)
{
    struct session *session = remarks->session;
    const char *kind = piece->kind == PIECE_CHAIN ? "chain" : piece->kind == PIECE_BAND ? "band" : "releaser";
    if (gym_knows(session->gym, piece, label))
        return;
    char *folded = text_fold(session->arena, label ? label : "");
    if (!first_time(remarks, arena_printf(session->arena, "gear %s %s", kind, folded), set, piece))
        return;
    if (piece->kind == PIECE_RELEASER)
        diag_add(session->diags, DIAG_UNKNOWN_GEAR, place_of(session, set), NULL, "write their mass, as in releasers 20 kg", "releasers of unknown mass: left out of the loads");
    else if (label)
        diag_add(session->diags, DIAG_UNKNOWN_GEAR, place_of(session, set), NULL, gear_block(session->arena, piece, label),
                 "%s \"%s\" is not in the gym file: the straight weight stands for the unknown end", kind, label);
    else
        diag_add(session->diags, DIAG_UNKNOWN_GEAR, place_of(session, set), NULL, gear_block(session->arena, piece, piece->kind == PIECE_CHAIN ? "NAME" : "NAME"),
                 piece->kind == PIECE_CHAIN ? "chains of unknown mass: the straight weight stands for the unknown end"
                                            : "bands with no name or pull: the straight weight stands for the unknown end");
}

static void remark_piece(struct remarks *remarks, const struct set *set, const struct piece *piece)
{
    struct session *session = remarks->session;
    if (!has_own_numbers(piece)) {
        if (piece->kind == PIECE_BAND && !piece->label)
            remark_label(remarks, set, &(struct piece){.kind = PIECE_BAND}, NULL);
        else
            remark_label(remarks, set, piece, piece->label);
        if (piece->label_right)
            remark_label(remarks, set, piece, piece->label_right);
    }
    if (piece->setup && !gym_setup(session->gym, piece->setup) &&
        first_time(remarks, arena_printf(session->arena, "setup %s", text_fold(session->arena, piece->setup)), set, piece))
        diag_add(session->diags, DIAG_UNKNOWN_SETUP, place_of(session, set), NULL,
                 arena_printf(session->arena, "describe it in the gym file:\n[setup \"%s\"]\nheight = 0.05 m", piece->setup),
                 "set-up \"%s\" is not in the gym file: the anchor is taken to be on the floor under the bar", piece->setup);
}

static void remark_loads(struct remarks *remarks)
{
    struct session *session = remarks->session;
    const struct log *log = session->log;
    bool *done = ARENA_ARRAY(session->arena, bool, loads_count(log->loads));
    for (size_t i = 0; i < log->sets.count; i++) {
        const struct set *set = &log->sets.items[i];
        if (done[set->load->id])
            continue;
        done[set->load->id] = true;
        for (size_t j = 0; j < set->load->piece_count; j++)
            remark_piece(remarks, set, &set->load->pieces[j]);
    }
}

static void remark_percents(struct remarks *remarks)
{
    const struct session *session = remarks->session;
    const struct training *training = session->training;
    for (size_t i = 0; i < training->without_max_count; i++) {
        const struct set *set = training->without_max[i];
        if (!first_time(remarks, arena_printf(session->arena, "percent %u:%u", set->file, set->line), set, NULL))
            continue; /* a line is refused once, however many sets it holds */
        struct place at = place_of(session, set);
        const char *excerpt = NULL;
        for (size_t j = 0; j < session->log->percents.count; j++) {
            const struct percent_use *use = &session->log->percents.items[j];
            if (&session->log->sets.items[use->set] != set)
                continue;
            at.column = use->column;
            at.length = use->length;
            excerpt = use->excerpt;
        }
        char day[16];
        date_print(day, set->day);
        diag_add(session->diags, DIAG_NO_ONE_RM, at, excerpt, NULL, "%s: no 1RM of %s is tested on or before %s", load_print(session->arena, set->load),
                 session->log->lift_names.items[set->lift].name, day);
    }
}

/* A lift of the body whose lifter's bodyweight nobody says: repetitions count, loads do not. One note a lift. */
static void remark_bodies(struct remarks *remarks)
{
    struct session *session = remarks->session;
    const struct log *log = session->log;
    for (size_t i = 0; i < session->training->count; i++) {
        const struct lifted *lifted = &session->training->sets[i];
        if (lifted->set->load->straight != STRAIGHT_BODYWEIGHT || !isnan(lifted->effect->straight_kg))
            continue;
        if (first_time(remarks, arena_printf(session->arena, "body %u", lifted->set->lift), lifted->set, NULL))
            diag_add(session->diags, DIAG_NO_WEIGHT, place_of(session, lifted->set), NULL, NULL,
                     "%s: bodyweight is not known: repetitions are counted, loads left empty", log->lift_names.items[lifted->set->lift].name);
    }
}

void remarks_add(struct session *session)
{
    struct remarks remarks = {session, map_new(session->arena)};
    remark_loads(&remarks);
    remark_percents(&remarks);
    remark_bodies(&remarks);
}
