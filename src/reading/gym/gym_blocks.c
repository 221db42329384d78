#include "reading/gym/gym_blocks.h"

#include "model/band.h"
#include "model/chain.h"
#include "reading/gym/gym_file.h"
#include "reading/gym/gym_reader.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define DEFAULT_LINK_M 0.05

static struct named_line block_place(const struct gym_reader *reader)
{
    return (struct named_line){.line = reader->block_line, .column = 1};
}

static bool missing(struct gym_reader *reader, const char *hint, const char *what)
{
    struct named_line at = block_place(reader);
    return gym_say(reader, DIAG_GYM_MISSING, &at, hint, "%s \"%s\" has no %s that could be used: the block is left out",
                   reader->block->name, reader->label, what);
}

/* [gym], [limits] and [columns] go directly into the gym. */
void *open_gym(struct gym_reader *reader, const char *label)
{
    (void)label;
    return reader->gym;
}

/* --- chains ------------------------------------------------------------------------------------------------------ */

void *open_chain(struct gym_reader *reader, const char *label)
{
    struct chain_draft *draft = LIST_ADD(reader->own, &reader->chains);
    *draft = (struct chain_draft){
        .chain = {
            .label = label, .mass_kg = NAN, .length_m = NAN, .link_m = NAN, .size_m = NAN, .at = {reader->block_line}}};
    return draft;
}

/* Mass and link from the nominal size: link geometry, model/chain.h. */
static bool size_chain(struct gym_reader *reader, struct chain *chain)
{
    double pitch, width;
    bool weighed = !isnan(chain->mass_kg);
    if (!chain->standard)
        return weighed || missing(reader, "weigh it (mass = ___ kg), or give the standard: standard = DIN 766",
                                  "standard to go with its size");
    if (!chain_standard(chain->standard, chain->size_m, &pitch, &width)) {
        struct named_line at = block_place(reader);
        gym_say(reader, DIAG_GYM_VALUE, &at, "tautline knows DIN 766, DIN 763, DIN 764 and DIN 5685",
                weighed ? "%s has no chain of %g mm: the size is left out"
                        : "%s has no chain of %g mm: the block is left out",
                chain->standard, chain->size_m * 1000);
        return weighed;
    }
    if (isnan(chain->link_m))
        chain->link_m = pitch;
    if (weighed)
        return true;
    if (isnan(chain->length_m))
        return missing(reader, "give its length: the mass follows from size, standard and length", "length");
    chain->mass_kg = chain_mass_per_metre(chain->size_m, pitch, width) * chain->length_m;
    return chain->mass_estimated = true;
}

#define SAME_LENGTH 0.02 /* two strands may come to this much more or less than the chain */

/* Both strands together are the chain. */
static void take_strands(struct gym_reader *reader, const struct chain_draft *draft, struct chain *chain)
{
    double sum = draft->strands_m[0] + draft->strands_m[1];
    if (!(sum > 0))
        return;
    if (isnan(chain->length_m))
        chain->length_m = sum;
    if (fabs(sum - chain->length_m) > SAME_LENGTH * chain->length_m)
        gym_say(reader, DIAG_GYM_VALUE, &draft->strands_at,
                "give the length of both strands of one chain, hung by a link",
                "the strands come to %g m and the chain is %g m long: they are taken as equal", sum, chain->length_m);
    else
        chain->longer_m = fmax(draft->strands_m[0], draft->strands_m[1]) * chain->length_m / sum;
}

/* A chain that is held by a pin weighs otherwise than one that is not: without what it takes, it is left out. */
static bool check_pin(struct gym_reader *reader, const struct chain_draft *draft)
{
    const struct chain *chain = &draft->chain;
    if (!chain->pinned)
        return true;
    if (isnan(chain->length_m))
        return missing(reader, "a chain that a pin holds needs its length: length = ___ m", "length");
    if (chain->pin_aside_m >= chain->length_m)
        return gym_say(reader, DIAG_GYM_VALUE, &draft->pin_at,
                       "write pin = HEIGHT, DISTANCE, as in pin = 1.20 m, 0.60 m",
                       "pin: it is %g m to the side and the chain only %g m long: chain \"%s\" is left out",
                       chain->pin_aside_m, chain->length_m, chain->label);
    return true;
}

bool close_chain(struct gym_reader *reader, void *draft)
{
    struct chain *chain = &((struct chain_draft *)draft)->chain;
    take_strands(reader, draft, chain);
    if (!check_pin(reader, draft))
        return false;
    if (isnan(chain->mass_kg) && isnan(chain->size_m))
        return missing(reader, "give mass = ___ kg, or size = ___ mm with standard = DIN 766", "mass or size");
    if (!isnan(chain->size_m) && !size_chain(reader, chain))
        return false;
    if (isnan(chain->link_m))
        chain->link_m = DEFAULT_LINK_M;
    return true;
}

void drop_chain(struct gym_reader *reader)
{
    reader->chains.count--;
}

/* --- bands ------------------------------------------------------------------------------------------------------- */

void *open_band(struct gym_reader *reader, const char *label)
{
    struct band_draft *draft = LIST_ADD(reader->own, &reader->bands);
    *draft = (struct band_draft){.label = label,
                                 .hitch_m = NAN,
                                 .calibration = {.measured = NO_DAY,
                                                 .flat_m = NAN,
                                                 .c1_kg = NAN,
                                                 .c2_kg = NAN,
                                                 .range_low_m = NAN,
                                                 .range_high_m = NAN,
                                                 .at = {reader->block_line}}};
    return draft;
}

static int by_length(const void *left, const void *right)
{
    const struct point_draft *a = left, *b = right;
    if (a->point.length_m != b->point.length_m)
        return a->point.length_m < b->point.length_m ? -1 : 1;
    return a->at.line < b->at.line ? -1 : 1;
}

/* Leaves out points that contradict the flat length or another point. False: the pull falls, and which point is wrong
 * is unknown. `of`: what is then left out. */
static bool sort_points(struct gym_reader *reader, const struct band_draft *draft, struct point_drafts *drafts,
                        const char *of)
{
    struct point_draft *points = drafts->list.items;
    size_t kept = 0;
    if (drafts->list.count)
        qsort(points, drafts->list.count, sizeof *points, by_length);
    for (size_t i = 0; i < drafts->list.count; i++) {
        const struct point_draft *last = kept ? &points[kept - 1] : NULL;
        if (points[i].point.length_m <= draft->calibration.flat_m) {
            gym_say(reader, DIAG_GYM_VALUE, &points[i].at, "give the stretched length, from end to end",
                    "this length is not above the flat length: the point is left out");
        } else if (last && last->point.length_m == points[i].point.length_m) {
            if (last->point.pull_kg != points[i].point.pull_kg)
                gym_say(reader, DIAG_GYM_VALUE, &points[i].at, NULL,
                        "line %u gives another pull at the same length: this point is left out", last->at.line);
        } else if (last && last->point.pull_kg > points[i].point.pull_kg) {
            return gym_say(reader, DIAG_GYM_VALUE, &points[i].at, "measure again: a band pulls more the longer it is",
                           "the pull falls from %g to %g kg as the length grows: %s\"%s\" of line %u is left out",
                           last->point.pull_kg, points[i].point.pull_kg, of, draft->label, draft->calibration.at.line);
        } else {
            points[kept++] = points[i];
        }
    }
    drafts->list.count = kept;
    return true;
}

static struct tension_point *points_of(struct gym_reader *reader, const struct point_drafts *drafts)
{
    struct tension_point *points = ARENA_ARRAY(reader->arena, struct tension_point, drafts->list.count);
    for (size_t i = 0; i < drafts->list.count; i++)
        points[i] = drafts->list.items[i].point;
    return points;
}

static void copy_points(struct gym_reader *reader, struct band_draft *draft)
{
    struct calibration *calibration = &draft->calibration;
    calibration->point_count = draft->points.list.count;
    calibration->points = points_of(reader, &draft->points);
    calibration->lowering_count = draft->lowering.list.count;
    calibration->lowering = points_of(reader, &draft->lowering);
    if (draft->range_said || !calibration->point_count)
        return;
    calibration->range_low_m = calibration->points[0].length_m;
    calibration->range_high_m = calibration->points[calibration->point_count - 1].length_m;
}

/* One point allows only one coefficient: neo-Hookean, whatever was asked for. */
static void choose_law(struct gym_reader *reader, struct band_draft *draft)
{
    struct calibration *calibration = &draft->calibration;
    if (draft->coefficients_said)
        return;
    calibration->one_point = calibration->point_count == 1;
    if (calibration->one_point && draft->law_said && calibration->law != LAW_NEO_HOOKEAN) {
        struct named_line at = block_place(reader);
        gym_say(reader, DIAG_GYM_REMARK, &at, "measure at a second length",
                "one point is too few for this law: neo-Hookean is used");
    }
    if (calibration->one_point)
        calibration->law = LAW_NEO_HOOKEAN;
}

/* T = (λ − λ⁻²)(c1 + c2/λ) is positive over the whole range if its second factor is positive at both ends. */
static bool is_pulling(const struct calibration *calibration)
{
    double stretch = calibration->range_high_m / calibration->flat_m;
    return calibration->c1_kg + calibration->c2_kg > 0 && calibration->c1_kg + calibration->c2_kg / stretch > 0;
}

/* A band let go pulls less than stretched to the same length: where it does not, the two may be swapped. */
static void check_lowering(struct gym_reader *reader, const struct band_draft *draft)
{
    const struct band_curve *stretched = band_curve_new(reader->own, &draft->calibration);
    for (size_t i = 0; stretched && i < draft->lowering.list.count; i++) {
        const struct point_draft *point = &draft->lowering.list.items[i];
        if (!band_pulls_more_let_go(stretched, &point->point))
            continue;
        gym_say(reader, DIAG_GYM_REMARK, &point->at,
                "tension is the pull while the band is stretched, tension-down while it is let go; are they swapped?",
                "band \"%s\" pulls more when let go than when stretched to the same length", draft->label);
        return;
    }
}

bool close_band(struct gym_reader *reader, void *draft_pointer)
{
    struct band_draft *draft = draft_pointer;
    struct calibration *calibration = &draft->calibration;
    struct named_line at = block_place(reader);
    if (isnan(calibration->flat_m))
        return missing(reader, "give the length of the loop laid flat: flat = ___ m", "flat length");
    if (!sort_points(reader, draft, &draft->points, "band "))
        return false;
    if (!sort_points(reader, draft, &draft->lowering, "tension-down of band "))
        draft->lowering.list.count = 0;
    if (!draft->points.list.count && !draft->coefficients_said)
        return missing(reader, "give tension = ___ m : ___ kg, or a law with its coefficients", "tension");
    copy_points(reader, draft);
    choose_law(reader, draft);
    if (draft->coefficients_said && isnan(calibration->range_high_m))
        return missing(reader, "write law = mooney-rivlin ___ kg ___ kg range ___ m to ___ m", "range of its law");
    if (calibration->range_high_m <= calibration->flat_m)
        return gym_say(reader, DIAG_GYM_VALUE, &at, NULL,
                       "the law's range ends within the flat length: band \"%s\" is left out", draft->label);
    if (draft->coefficients_said && !is_pulling(calibration))
        return gym_say(reader, DIAG_GYM_VALUE, &at, "coefficients are in kg, at a stretch of length over flat length",
                       "by its law the band would push: band \"%s\" is left out", draft->label);
    check_lowering(reader, draft);
    return true;
}

void drop_band(struct gym_reader *reader)
{
    reader->bands.count--;
}

/* --- set-ups, lifters, lifts ------------------------------------------------------------------------------------- */

static bool is_letter(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c & 0x80);
}

void *open_setup(struct gym_reader *reader, const char *label)
{
    struct named_line at = block_place(reader);
    if (!is_letter(*label)) {
        gym_say(reader, DIAG_GYM_BLOCK, &at, NULL,
                "a set-up's name begins with a letter, and \"%s\" does not: it is left out", label);
        return NULL;
    }
    struct setup *setup = LIST_ADD(reader->arena, &reader->setups);
    *setup = (struct setup){.name = label, .height_m = NAN, .at = {reader->block_line}};
    return setup;
}

/* One peg in front of the bar's path and one behind it, with room between them. */
static bool check_pegs(struct gym_reader *reader, const struct setup *setup)
{
    struct named_line at = block_place(reader);
    double half_m = setup->pegs_apart_m / 2;
    if (!(half_m > 0))
        return true;
    if (setup->pegs_apart_m <= setup->peg_diameter_m)
        return gym_say(reader, DIAG_GYM_VALUE, &at, "pegs = is the distance between their middles",
                       "the pegs of set-up \"%s\" are %g m apart and %g m wide: the block is left out", setup->name,
                       setup->pegs_apart_m, setup->peg_diameter_m);
    if (fabs(setup->offset_m) >= half_m)
        return gym_say(reader, DIAG_GYM_VALUE, &at, "offset = is that of the middle between the two pegs",
                       "the bar's path does not go between the pegs of set-up \"%s\": the block is left out",
                       setup->name);
    return true;
}

bool close_setup(struct gym_reader *reader, void *draft)
{
    const struct setup *setup = draft;
    if (isnan(setup->height_m))
        return missing(reader, "give the anchor's height above the floor: height = ___ m", "height");
    return check_pegs(reader, setup);
}

void drop_setup(struct gym_reader *reader)
{
    reader->setups.count--;
}

void *open_lifter(struct gym_reader *reader, const char *label)
{
    struct lifter_draft *draft = LIST_ADD(reader->own, &reader->lifters);
    draft->lifter = (struct lifter){.name = label, .stature_m = NAN, .bodyweight_kg = NAN, .at = {reader->block_line}};
    return draft;
}

void *open_lift(struct gym_reader *reader, const char *label)
{
    struct lift_draft *draft = LIST_ADD(reader->own, &reader->lifts);
    draft->lift = (struct lift){.name = label, .at = {reader->block_line}};
    return draft;
}
