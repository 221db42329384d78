#include "analysis/plan/plates.h"

#include "base/number.h"

#include <gsl/gsl_math.h>
#include <math.h>
#include <stdint.h>

#define THOUSANDTHS 1000.0
#define NOT_WHOLE 1e-6        /* of a thousandth: rounding errors of kg_from() are far smaller */
#define SAME_SUM_KG 1e-7      /* smaller differences count as the same load */
#define NEVER UINT32_MAX      /* no choice of plates makes this sum */
#define MOST_WORK (32u << 20) /* limit on sums times plates in one search */
#define HEAVIEST_TARGET_KG 5000.0
#define MOST_NAMED 4

static const double plates_in_kg[] = {25, 20, 15, 10, 5, 2.5, 1.25};
static const double plates_in_lb[] = {45 * KG_PER_LB, 35 * KG_PER_LB, 25 * KG_PER_LB,
                                      10 * KG_PER_LB, 5 * KG_PER_LB,  2.5 * KG_PER_LB};

struct rack rack_of_gym(const struct gym *gym)
{
    struct rack rack = {gym->bar_kg, gym->plates_kg, gym->plate_pairs, gym->plate_count, gym->unit, false};
    if (rack.count)
        return rack;
    bool pounds = gym->unit == UNIT_LB;
    rack.plates_kg = pounds ? plates_in_lb : plates_in_kg;
    rack.count = pounds ? sizeof plates_in_lb / sizeof *plates_in_lb : sizeof plates_in_kg / sizeof *plates_in_kg;
    rack.pairs = NULL;
    rack.assumed = true;
    return rack;
}

double rack_step_kg(const struct rack *rack)
{
    return rack->count ? 2 * rack->plates_kg[rack->count - 1] : NAN;
}

/* --- the sums that plates of one unit can make ------------------------------------------------------------------------- */

/* Sums of plates of one unit, in steps of the greatest common divisor of their thousandths. */
struct sums
{
    double step_kg;
    size_t count;     /* sums 0 .. count − 1 */
    uint32_t **used;  /* by plate of this unit and by sum: how many of it; all plates before it were tried too */
    uint32_t *fewest; /* number of plates for each sum; NEVER */
    size_t *plates;   /* indexes in the rack, lightest first */
    size_t *weights;  /* in steps */
    size_t plate_count;
};

static double thousandths(double kg, enum mass_unit unit)
{
    return kg_to(kg, unit) * THOUSANDTHS;
}

static bool is_whole(double kg, enum mass_unit unit)
{
    double value = thousandths(kg, unit);
    return fabs(value - round(value)) < NOT_WHOLE;
}

static enum mass_unit unit_of_plate(double kg)
{
    return !is_whole(kg, UNIT_KG) && is_whole(kg, UNIT_LB) ? UNIT_LB : UNIT_KG;
}

static size_t common_divisor(size_t a, size_t b)
{
    while (b) {
        size_t rest = a % b;
        a = b;
        b = rest;
    }
    return a;
}

/* Adds up to `limit` plates of a weight to what the plates before can make. f_new(s) = min over k of f(s − k w) + k
 * is a minimum over a window that slides along the sums with the same remainder; if tied, the larger k, so that
 * heavier plates, which come last, replace lighter ones. */
static void add_plate(const uint32_t *before, uint32_t *after, uint32_t *used, size_t count, size_t weight,
                      size_t limit, size_t *queue)
{
    for (size_t rest = 0; rest < weight && rest < count; rest++) {
        size_t head = 0, tail = 0;
        for (size_t j = 0, sum = rest; sum < count; j++, sum += weight) {
            if (before[sum] != NEVER) {
                while (tail > head && before[rest + queue[tail - 1] * weight] + (j - queue[tail - 1]) > before[sum])
                    tail--;
                queue[tail++] = j;
            }
            while (head < tail && j - queue[head] > limit)
                head++;
            bool reached = head < tail;
            used[sum] = reached ? (uint32_t)(j - queue[head]) : 0;
            after[sum] = reached ? before[rest + queue[head] * weight] + used[sum] : NEVER;
        }
    }
}

static void choose_plates(struct arena *scratch, struct sums *sums, const struct rack *rack, enum mass_unit unit)
{
    size_t divisor = 0;
    sums->plates = ARENA_ARRAY(scratch, size_t, rack->count);
    sums->weights = ARENA_ARRAY(scratch, size_t, rack->count);
    for (size_t i = rack->count; i-- > 0;) {
        size_t weight = (size_t)round(thousandths(rack->plates_kg[i], unit));
        bool at_hand = !rack->pairs || rack->pairs[i];
        if (unit_of_plate(rack->plates_kg[i]) != unit || !weight || !at_hand)
            continue;
        sums->plates[sums->plate_count] = i;
        sums->weights[sums->plate_count++] = weight;
        divisor = common_divisor(weight, divisor);
    }
    for (size_t i = 0; i < sums->plate_count; i++)
        sums->weights[i] /= divisor;
    sums->step_kg = divisor ? kg_from((double)divisor / THOUSANDTHS, unit) : 1;
}

/* All sums up to `most_kg`. False: too many. */
static bool make_sums(struct arena *scratch, struct sums *sums, const struct rack *rack, enum mass_unit unit,
                      double most_kg)
{
    choose_plates(scratch, sums, rack, unit);
    sums->count = sums->plate_count ? (size_t)(most_kg / sums->step_kg) + 2 : 1;
    if (sums->count > MOST_WORK / (sums->plate_count + 1))
        return false;
    sums->fewest = ARENA_ARRAY(scratch, uint32_t, sums->count);
    sums->used = ARENA_ARRAY(scratch, uint32_t *, sums->plate_count);
    size_t *queue = ARENA_ARRAY(scratch, size_t, sums->count);
    uint32_t *before = ARENA_ARRAY(scratch, uint32_t, sums->count);
    for (size_t i = 1; i < sums->count; i++)
        sums->fewest[i] = NEVER;
    for (size_t i = 0; i < sums->plate_count; i++) {
        int pairs = rack->pairs ? rack->pairs[sums->plates[i]] : -1;
        uint32_t *known = sums->fewest;
        sums->used[i] = ARENA_ARRAY(scratch, uint32_t, sums->count);
        add_plate(known, before, sums->used[i], sums->count, sums->weights[i], pairs < 0 ? SIZE_MAX : (size_t)pairs,
                  queue);
        sums->fewest = before;
        before = known;
    }
    return true;
}

/* --- the nearest of them ----------------------------------------------------------------------------------------------- */

struct pick /* one sum in each unit */
{
    size_t in_kg, in_lb;
    double side_kg, error_kg;
    uint32_t plates;
};

static bool is_better(const struct pick *pick, const struct pick *best)
{
    double nearer = fabs(best->error_kg) - fabs(pick->error_kg);
    if (fabs(nearer) > SAME_SUM_KG)
        return nearer > 0;
    if (fabs(pick->side_kg - best->side_kg) > SAME_SUM_KG)
        return pick->side_kg < best->side_kg;
    return pick->plates < best->plates;
}

static void offer(struct pick *best, const struct sums *sums, size_t in_kg, size_t in_lb, double side_kg)
{
    struct pick pick = {in_kg, in_lb, 0, 0, sums[UNIT_KG].fewest[in_kg] + sums[UNIT_LB].fewest[in_lb]};
    pick.side_kg = (double)in_kg * sums[UNIT_KG].step_kg + (double)in_lb * sums[UNIT_LB].step_kg;
    pick.error_kg = pick.side_kg - side_kg;
    if (is_better(&pick, best))
        *best = pick;
}

/* Combines each sum in kilograms with the sums in pounds just below and above the remainder. The remainder shrinks as
 * the kilograms grow, so one pass over each is enough. */
static struct pick nearest(const struct sums *sums, double side_kg)
{
    const struct sums *in_kg = &sums[UNIT_KG], *in_lb = &sums[UNIT_LB];
    struct pick best = {0, 0, 0, -side_kg, 0};
    size_t above = in_lb->count; /* the least sum in pounds above the remainder */
    size_t below = in_lb->count - 1;
    for (size_t i = 0; i < in_kg->count; i++) {
        if (in_kg->fewest[i] == NEVER)
            continue;
        double wanted_kg = side_kg - (double)i * in_kg->step_kg;
        while (below && (in_lb->fewest[below] == NEVER || (double)below * in_lb->step_kg > wanted_kg)) {
            above = in_lb->fewest[below] == NEVER ? above : below;
            below--;
        }
        offer(&best, sums, i, below, side_kg);
        if (above < in_lb->count)
            offer(&best, sums, i, above, side_kg);
    }
    return best;
}

static void take_plates(struct plate_choice *choice, const struct sums *sums, size_t sum)
{
    for (size_t i = sums->plate_count; i-- > 0;) {
        uint32_t used = sums->used[i][sum];
        choice->pairs[sums->plates[i]] = (int)used;
        choice->plates += used;
        sum -= used * sums->weights[i];
    }
}

/* --- the fewest plates ------------------------------------------------------------------------------------------------- */

static bool has_fewer(const struct pick *pick, const struct pick *best)
{
    return pick->plates != best->plates ? pick->plates < best->plates : is_better(pick, best);
}

/* Sums within half the smallest plate of the target on each side; false: none. */
static bool fewest(const struct sums *sums, const struct rack *rack, double side_kg, double least_side_kg,
                   struct pick *best)
{
    const struct sums *in_kg = &sums[UNIT_KG], *in_lb = &sums[UNIT_LB];
    double room_kg = rack->count ? rack->plates_kg[rack->count - 1] / 2 + SAME_SUM_KG : 0;
    bool found = false;
    for (size_t i = 0; i < in_kg->count; i++) {
        double rest_kg = side_kg - (double)i * in_kg->step_kg;
        if (in_kg->fewest[i] == NEVER || rest_kg < -room_kg)
            continue;
        double from = ceil((rest_kg - room_kg) / in_lb->step_kg), to = floor((rest_kg + room_kg) / in_lb->step_kg);
        for (size_t j = from > 0 ? (size_t)from : 0; j < in_lb->count && (double)j <= to; j++) {
            struct pick pick = {i, j, (double)i * in_kg->step_kg + (double)j * in_lb->step_kg, 0,
                                in_kg->fewest[i] + in_lb->fewest[j]};
            pick.error_kg = pick.side_kg - side_kg;
            if (in_lb->fewest[j] == NEVER || pick.side_kg < least_side_kg - SAME_SUM_KG ||
                (found && !has_fewer(&pick, best)))
                continue;
            *best = pick;
            found = true;
        }
    }
    return found;
}

static bool choose(struct arena *arena, const struct rack *rack, double target_kg, double least_kg, bool want_fewest,
                   struct plate_choice *choice)
{
    if (!(fabs(target_kg) <= HEAVIEST_TARGET_KG))
        return false;
    struct arena *scratch = arena_new();
    struct sums sums[] = {[UNIT_KG] = {0}, [UNIT_LB] = {0}};
    double side_kg = GSL_MAX_DBL((target_kg - rack->bar_kg) / 2, 0);
    /* A sum that exceeds the target by more than its heaviest plate is nearer without that plate. */
    double most_kg = side_kg + (rack->count ? rack->plates_kg[0] : 0);
    bool searched = make_sums(scratch, &sums[UNIT_KG], rack, UNIT_KG, most_kg) &&
                    make_sums(scratch, &sums[UNIT_LB], rack, UNIT_LB, most_kg);
    if (searched) {
        struct pick pick = {0};
        if (!want_fewest || !fewest(sums, rack, side_kg, (least_kg - rack->bar_kg) / 2, &pick))
            pick = nearest(sums, side_kg);
        *choice = (struct plate_choice){.pairs = ARENA_ARRAY(arena, int, rack->count)};
        take_plates(choice, &sums[UNIT_KG], pick.in_kg);
        take_plates(choice, &sums[UNIT_LB], pick.in_lb);
        choice->kg = rack->bar_kg;
        for (size_t i = 0; i < rack->count; i++)
            choice->kg += 2 * choice->pairs[i] * rack->plates_kg[i];
        choice->error_kg = choice->kg - target_kg;
    }
    arena_free(scratch);
    return searched;
}

bool plates_nearest(struct arena *arena, const struct rack *rack, double target_kg, struct plate_choice *choice)
{
    return choose(arena, rack, target_kg, 0, false, choice);
}

bool plates_fewest(struct arena *arena, const struct rack *rack, double target_kg, double least_kg,
                   struct plate_choice *choice)
{
    return choose(arena, rack, target_kg, least_kg, true, choice);
}

/* Many equal plates are counted, a few are listed one by one, as they go on the bar. */
static char *add_names(struct arena *arena, char *text, const char *name, int pairs)
{
    const char *join = text ? " + " : "";
    if (pairs > MOST_NAMED)
        return arena_printf(arena, "%s%s%d x %s", text ? text : "", join, pairs, name);
    for (int i = 0; i < pairs; i++, join = " + ")
        text = arena_printf(arena, "%s%s%s", text ? text : "", join, name);
    return text;
}

char *plates_print(struct arena *arena, const struct rack *rack, const struct plate_choice *choice)
{
    char *text = NULL, number[32];
    for (size_t i = 0; i < rack->count; i++) {
        double kg = rack->plates_kg[i];
        enum mass_unit unit = is_whole(kg, rack->unit) ? rack->unit : unit_of_plate(kg);
        number_print(number, round(thousandths(kg, unit)) / THOUSANDTHS);
        text = add_names(arena, text,
                         unit == rack->unit ? number : arena_printf(arena, "%s %s", number, mass_unit_name(unit)),
                         choice->pairs[i]);
    }
    return text ? text : arena_copy(arena, "bar only");
}
