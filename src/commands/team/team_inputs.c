#include "commands/team/team_inputs.h"

#include "commands/team/team.h"

#include "base/text.h"
#include "commands/pictures/drawing.h"
#include "commands/team/team_below.h"
#include "commands/team/team_logs.h"
#include "reading/corrections/corrections.h"
#include "writing/store/store_schema.h"

#include <config.h>
#include <string.h>
#include <unistd.h>

#define FOLDER_FORMAT 5 /* counts up where the files change though the version does not */

/* --- what was used ---------------------------------------------------------------------------------------------------- */

typedef LIST(const char *) name_list;

static void note_name(struct arena *arena, struct names *seen, void *list, const char *name)
{
    name_list *names = list;
    uint32_t number;
    if (!name || names_find(seen, name, strlen(name), &number))
        return;
    names_add(seen, name, strlen(name));
    *LIST_ADD(arena, names) = arena_copy(arena, name);
}

struct used
{
    struct arena *arena;
    struct names *bands, *setups, *lifts;
    struct team_state *state;
};

static void note_ar(struct used *used, const struct load *ar)
{
    for (size_t i = 0; i < ar->piece_count; i++) {
        const struct piece *piece = &ar->pieces[i];
        used->state->any_chain |= piece->kind == PIECE_CHAIN;
        if (piece->kind != PIECE_BAND)
            continue;
        note_name(used->arena, used->bands, &used->state->bands, piece->label);
        note_name(used->arena, used->bands, &used->state->bands, piece->label_right);
        note_name(used->arena, used->setups, &used->state->setups, piece->setup);
    }
}

void team_note_used(struct arena *arena, const struct log *log, struct team_state *state)
{
    struct used used = {arena, names_new(arena), names_new(arena), names_new(arena), state};
    bool *seen = ARENA_ARRAY(arena, bool, loads_ar_count(log->loads));
    for (size_t i = 0; i < log->sets.count; i++) {
        const struct set *set = &log->sets.items[i];
        note_name(arena, used.lifts, &state->lifts, log->lift_names.items[set->lift].name);
        if (!seen[set->ar->ar_id])
            note_ar(&used, set->ar);
        seen[set->ar->ar_id] = true;
    }
}

/* --- the gym file's blocks --------------------------------------------------------------------------------------------- */

static void digest_chains(struct digester *to, const struct gym *gym)
{
    for (size_t i = 0; i < gym->chain_count; i++) {
        const struct chain *chain = &gym->chains[i];
        digest_text(to, chain->label);
        digest_count(to, chain->is_default);
        digest_count(to, chain->mass_estimated);
        digest_text(to, chain->standard);
        const double numbers[] = {chain->mass_kg, chain->length_m, chain->link_m, chain->leader_m,    chain->leader_kg,
                                  chain->size_m,  chain->longer_m, chain->pin_m,  chain->pin_aside_m, chain->pinned};
        for (size_t j = 0; j < sizeof numbers / sizeof *numbers; j++)
            digest_number(to, numbers[j]);
    }
}

static void digest_calibration(struct digester *to, const struct calibration *calibration)
{
    const double numbers[] = {calibration->flat_m, calibration->c1_kg, calibration->c2_kg, calibration->range_low_m,
                              calibration->range_high_m};
    digest_count(to, (uint64_t)calibration->measured);
    digest_count(to, calibration->law);
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++)
        digest_number(to, numbers[i]);
    digest_count(to, calibration->point_count);
    for (size_t i = 0; i < calibration->point_count; i++) {
        digest_number(to, calibration->points[i].length_m);
        digest_number(to, calibration->points[i].pull_kg);
    }
    digest_count(to, calibration->lowering_count);
    for (size_t i = 0; i < calibration->lowering_count; i++) {
        digest_number(to, calibration->lowering[i].length_m);
        digest_number(to, calibration->lowering[i].pull_kg);
    }
}

static void digest_band(struct digester *to, const struct band *band)
{
    digest_text(to, band ? band->label : NULL);
    if (!band)
        return;
    digest_count(to, band->pair);
    digest_text(to, band->partner);
    digest_number(to, band->hitch_m);
    digest_count(to, band->calibration_count);
    for (size_t i = 0; i < band->calibration_count; i++)
        digest_calibration(to, &band->calibrations[i]);
}

static void digest_setup(struct digester *to, const struct setup *setup)
{
    digest_text(to, setup ? setup->name : NULL);
    if (!setup)
        return;
    digest_number(to, setup->height_m);
    digest_number(to, setup->offset_m);
    digest_number(to, setup->spread_m);
    digest_number(to, setup->pegs_apart_m);
    digest_number(to, setup->peg_diameter_m);
    digest_number(to, setup->bar_diameter_m);
}

static void digest_lift(struct digester *to, const struct gym *gym, const struct lift *lift)
{
    digest_text(to, lift ? lift->name : NULL);
    if (!lift)
        return;
    digest_count(to, lift->bodyweight);
    digest_count(to, lift->per_hand);
    digest_text(to, lift->setup);
    digest_setup(to, lift->setup ? gym_setup(gym, lift->setup) : NULL);
}

static void digest_lifter(struct digester *to, const struct lifter *lifter)
{
    digest_text(to, lifter->name);
    digest_count(to, lifter->experience);
    digest_count(to, lifter->dates);
    digest_number(to, lifter->stature_m);
    digest_number(to, lifter->bodyweight_kg);
    digest_count(to, lifter->max_count);
    for (size_t i = 0; i < lifter->max_count; i++) {
        digest_text(to, lifter->maxes[i].lift);
        digest_number(to, lifter->maxes[i].kg);
        digest_count(to, (uint64_t)lifter->maxes[i].day);
    }
    for (size_t i = 0; i < lifter->height_count; i++) {
        digest_text(to, lifter->heights[i].lift);
        digest_number(to, lifter->heights[i].bottom_m);
        digest_number(to, lifter->heights[i].top_m);
    }
    for (size_t i = 0; i < lifter->ar_line_count; i++) {
        digest_text(to, lifter->ar_lines[i].lift);
        digest_count(to, (uint64_t)lifter->ar_lines[i].first);
        digest_count(to, (uint64_t)lifter->ar_lines[i].last);
        digest_count(to, lifter->ar_lines[i].focus);
        digest_text(to, lifter->ar_lines[i].expression);
    }
}

/* [gym], [limits], [columns], and the names of all gear and lifts, which decide how a word in a log is read. */
static void digest_gym(struct digester *to, const struct gym *gym)
{
    const double numbers[] = {gym->bar_kg, gym->u_height_m, gym->u_mass, gym->u_mass_sized, gym->u_tension};
    digest_count(to, gym->unit_said);
    digest_count(to, gym->unit);
    digest_text(to, gym->formula);
    digest_count(to, gym->dates);
    digest_count(to, gym->ar_stays);
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++)
        digest_number(to, numbers[i]);
    digest_count(to, gym->plate_count);
    for (size_t i = 0; i < gym->plate_count; i++) {
        digest_number(to, gym->plates_kg[i]);
        digest_count(to, (uint64_t)gym->plate_pairs[i]);
    }
    digest_count(to, gym->limit_count);
    for (size_t i = 0; i < gym->limit_count; i++) {
        digest_text(to, gym->limits[i].id);
        digest_number(to, gym->limits[i].value);
        digest_count(to, gym->limits[i].off);
    }
    for (size_t i = 0; i < gym->column_count; i++) {
        digest_text(to, gym->columns[i].field);
        for (size_t j = 0; j < gym->columns[i].header_count; j++)
            digest_text(to, gym->columns[i].headers[j]);
    }
}

static void digest_labels(struct digester *to, const struct gym *gym)
{
    digest_count(to, gym->lifter_count == 1); /* decides whose log it is when the log does not name a lifter */
    digest_count(to, gym->chain_count);
    for (size_t i = 0; i < gym->chain_count; i++)
        digest_text(to, gym->chains[i].label);
    digest_count(to, gym->band_count);
    for (size_t i = 0; i < gym->band_count; i++)
        digest_text(to, gym->bands[i].label);
    digest_count(to, gym->setup_count);
    for (size_t i = 0; i < gym->setup_count; i++)
        digest_text(to, gym->setups[i].name);
    digest_count(to, gym->lift_count);
    for (size_t i = 0; i < gym->lift_count; i++) {
        digest_text(to, gym->lifts[i].name);
        digest_count(to, gym->lifts[i].bodyweight); /* decides what may take the place of the weight */
        digest_count(to, gym->lifts[i].alias_count);
        for (size_t j = 0; j < gym->lifts[i].alias_count; j++)
            digest_text(to, gym->lifts[i].aliases[j]);
    }
}

static void digest_used(struct digester *to, const struct gym *gym, const struct team_state *state)
{
    if (state->any_chain)
        digest_chains(to, gym);
    for (size_t i = 0; i < state->bands.count; i++) {
        const struct band *band = gym_band(gym, state->bands.items[i]);
        digest_band(to, band);
        digest_band(to, band && band->partner ? gym_band(gym, band->partner) : NULL);
    }
    for (size_t i = 0; i < state->setups.count; i++)
        digest_setup(to, gym_setup(gym, state->setups.items[i]));
    for (size_t i = 0; i < state->lifts.count; i++)
        digest_lift(to, gym, gym_lift(gym, state->lifts.items[i]));
}

/* --- all of it ------------------------------------------------------------------------------------------------------------- */

static void digest_options(struct digester *to, const struct options *options, bool has_gnuplot)
{
    digest_count(to, options->log_unit_said);
    digest_count(to, options->log_unit);
    digest_count(to, options->dates);
    digest_count(to, options->ar_stays);
    digest_count(to, options->formula_said);
    digest_count(to, options->formula);
    digest_count(to, options->spreadsheet_safe);
    digest_count(to, drawing_kind(options->render));
    digest_count(to, drawing_wanted(options->render));
    digest_count(to, drawing_wanted(options->render) && has_gnuplot);
    digest_count(to, options->picture_width);
    digest_count(to, options->picture_height);
}

/* Digests what may correct the log: corrections.csv in its folder and in the folders above it, up to the folder that
 * the gym file names. */
static void digest_corrections(struct digester *to, const char *path, const char *root)
{
    struct arena *scratch = arena_new();
    char digest[DIGEST_TEXT];
    for (const char *folder = text_folder(scratch, path);; folder = text_folder(scratch, folder)) {
        if (digest_file(text_path(scratch, folder, CORRECTIONS_NAME), digest))
            digest_text(to, digest);
        if (strlen(folder) <= strlen(root) || !strchr(folder, '/'))
            break;
    }
    arena_free(scratch);
}

static void digest_logs(struct digester *to, const struct team_lifter *lifter)
{
    digest_count(to, lifter->group && lifter->group->first == lifter);
    digest_count(to, lifter->unmatched.count);
    for (size_t i = 0; i < lifter->unmatched.count; i++)
        digest_text(to, lifter->unmatched.items[i]);
    for (size_t i = 0; i < lifter->arguments.count; i++) {
        const struct team_argument *argument = lifter->arguments.items[i];
        digest_text(to, argument->path);
        digest_count(to, team_argument_shared(argument));
        digest_count(to, argument->files.count);
        for (size_t j = 0; j < argument->files.count; j++) {
            digest_text(to, argument->files.items[j].path);
            digest_text(to, argument->files.items[j].file->digest);
            digest_corrections(to, argument->files.items[j].path, argument->path);
        }
    }
}

/* The week that holds today is not over, which matters as long as it has sets; otherwise the day of the run makes no
 * difference. */
static week_number week_that_matters(const struct team *team, const struct team_state *state)
{
    week_number today = week_of(team->today);
    return today > state->last_week ? state->last_week + 1 : today;
}

const char *team_key(struct arena *arena, const struct team *team, const struct team_lifter *lifter,
                     const struct team_state *state)
{
    char text[DIGEST_TEXT];
    struct digester *to = digester_new();
    digest_text(to, PACKAGE_VERSION);
    digest_count(to, FOLDER_FORMAT);
    digest_count(to, store_version()); /* changes with the columns of the files */
    digest_options(to, team->options, team->has_gnuplot);
    digest_logs(to, lifter);
    digest_gym(to, team->gym);
    digest_labels(to, team->gym);
    digest_lifter(to, lifter->block);
    digest_used(to, team->gym, state);
    digest_count(to, (uint64_t)week_that_matters(team, state));
    digester_end(to, text);
    return arena_copy(arena, text);
}

static bool outputs_stand(const struct team *team, const struct team_lifter *lifter)
{
    int folder = below_folder(team->lifters_folder, lifter->folder);
    bool all = folder >= 0;
    for (size_t i = 0; i < lifter->state->outputs.count && all; i++) {
        int64_t bytes = -1;
        all = below_is_file(folder, lifter->state->outputs.items[i].name, &bytes) &&
              bytes == lifter->state->outputs.items[i].bytes;
    }
    if (folder >= 0)
        close(folder);
    return all;
}

bool team_is_current(struct arena *arena, const struct team *team, const struct team_lifter *lifter)
{
    const struct team_state *state = lifter->state;
    return state && *state->key && !strcmp(state->key, team_key(arena, team, lifter, state)) &&
           outputs_stand(team, lifter);
}
