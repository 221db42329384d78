#include "commands/fit/fit_block.h"

#include "commands/fit/fit.h"

#include "analysis/bands/band_comparing.h"
#include "base/number.h"
#include "base/text.h"
#include "commands/fit/fit_text.h"

#include <math.h>
#include <string.h>

/* A label as the gym file can hold it: without quotes, comment signs and line breaks. */
static char *gym_label(struct arena *arena, const char *label)
{
    char *safe = arena_copy(arena, text_visible(arena, label));
    for (char *c = safe; *c; c++)
        *c = *c == '"' ? '\'' : *c == ';' ? ',' : *c;
    return safe;
}

/* Without trailing zeros, but with at least `least` decimals. */
static const char *trimmed(struct arena *arena, double value, int least, int most)
{
    char text[64];
    int length = number_fixed(text, sizeof text, value, most);
    for (int spare = most - least; spare > 0 && text[length - 1] == '0'; spare--)
        text[--length] = 0;
    if (text[length - 1] == '.')
        text[--length] = 0;
    return arena_copy(arena, text);
}

struct block /* the contents of one [band] */
{
    const char *label, *pair, *remark; /* pair: yes, a label, or NULL: not given */
    const struct band_fitting *fitting;
    bool first; /* the first of all blocks: no empty line goes before it */
};

static void put_law(const struct fit *fit, struct output *output, const struct block *block)
{
    struct arena *arena = fit->session.arena;
    const struct band_fitting *fitting = block->fitting;
    const struct law_fit *law = &fitting->laws[fitting->use];
    if (fitting->reason != REASON_LAW_NEARER)
        return; /* what the gym file does by itself */
    enum mass_unit unit = fit->session.unit;
    const char *name = mass_unit_name(unit);
    output_printf(output, "law = %s ; c1 %s %s", band_law_name(law->law),
                  trimmed(arena, kg_to(law->fit.c1_kg, unit), 1, 3), name);
    if (law->law == LAW_MOONEY_RIVLIN)
        output_printf(output, ", c2 %s %s", trimmed(arena, kg_to(law->fit.c2_kg, unit), 1, 3), name);
    output_printf(output, ", fitted to the points above, residual %s %s\n",
                  trimmed(arena, kg_to(law->residual_kg, unit), 1, 3), name);
}

static void put_points(const struct fit *fit, struct output *output, const char *key, const struct measured_band *band)
{
    struct arena *arena = fit->session.arena;
    enum mass_unit unit = fit->session.unit;
    double unit_m = unit == UNIT_LB ? M_PER_IN : 1;
    for (size_t i = 0; i < band->count; i++)
        output_printf(output, "%s = %s %s : %s %s\n", key,
                      trimmed(arena, band->points[i].length_m / unit_m, 2, unit == UNIT_LB ? 2 : 4),
                      unit == UNIT_LB ? "in" : "m", trimmed(arena, kg_to(band->points[i].pull_kg, unit), 1, 3),
                      mass_unit_name(unit));
}

static void put_block(const struct fit *fit, struct output *output, const struct block *block)
{
    struct arena *arena = fit->session.arena;
    const struct measured_band *band = block->fitting->measured;
    char day[16];
    output_printf(output, "%s[band \"%s\"]\n", block->first ? "" : "\n", gym_label(arena, block->label));
    if (*block->remark)
        output_printf(output, "; %s\n", block->remark);
    enum mass_unit unit = fit->session.unit;
    double unit_m = unit == UNIT_LB ? M_PER_IN : 1;
    const char *length = unit == UNIT_LB ? "in" : "m";
    output_printf(output, "flat = %s %s\n", trimmed(arena, band->flat_m / unit_m, 2, unit == UNIT_LB ? 2 : 4), length);
    if (block->pair)
        output_printf(output, "pair = %s\n", gym_label(arena, block->pair));
    put_points(fit, output, "tension", band);
    if (band->down)
        put_points(fit, output, "tension-down", band->down);
    put_law(fit, output, block);
    if (band->day != NO_DAY) {
        date_print(day, band->day);
        output_printf(output, "measured = %s\n", day);
    }
}

/* --- pairs: one band as far as the gym file goes, if they match -------------------------------------------------- */

struct labelled /* the fittings with one label */
{
    size_t first, end;
    bool sided;
};

static struct labelled labelled_from(const struct fit *fit, size_t first)
{
    const struct band_fitting *all = fit->fittings.list.items;
    struct labelled group = {first, first, false};
    while (group.end < fit->fittings.list.count &&
           text_same_name(all[first].measured->label, all[group.end].measured->label))
        group.sided |= all[group.end++].measured->side != SIDE_UNSAID;
    return group;
}

static const struct band_comparison *pair_of(const struct fit *fit, const struct band_fitting *left)
{
    for (size_t i = 0; i < fit->comparisons.list.count; i++) {
        const struct band_comparison *comparison = &fit->comparisons.list.items[i];
        if (comparison->kind == LEFT_BESIDE_RIGHT && comparison->a == left)
            return comparison;
    }
    return NULL;
}

static bool is_match(const struct band_comparison *pair)
{
    return pair && !pair->differs && !isnan(pair->share) && pair->a->measured->day == pair->b->measured->day;
}

/* Every left band has a match of the same day, and there are as many right ones. */
static bool are_pairs(const struct fit *fit, const struct labelled *group)
{
    size_t matched = 0, rights = 0;
    for (size_t i = group->first; i < group->end; i++) {
        const struct band_fitting *fitting = &fit->fittings.list.items[i];
        if (fitting->measured->side == SIDE_LEFT && !is_match(pair_of(fit, fitting)))
            return false;
        matched += fitting->measured->side == SIDE_LEFT;
        rights += fitting->measured->side == SIDE_RIGHT;
    }
    return matched > 0 && matched == rights;
}

static void put_pair(const struct fit *fit, struct output *output, const struct band_comparison *pair)
{
    struct arena *arena = fit->session.arena;
    const struct measured_band *mean = band_pair_mean(arena, pair->a, pair->b);
    if (!mean)
        return;
    struct band_fittings fitted = band_fittings_make(arena, mean, 1);
    struct block block = {.label = mean->label,
                          .pair = "yes",
                          .fitting = &fitted.list.items[0],
                          .first = pair->a == fit->fittings.list.items};
    block.remark = arena_printf(arena, "left and right differ by %s %% where they differ most; this is their mean",
                                trimmed(arena, fabs(pair->worst_share) * 100, 1, 1));
    put_block(fit, output, &block);
}

static bool has_side(const struct fit *fit, const struct labelled *group, enum band_side side)
{
    for (size_t i = group->first; i < group->end; i++)
        if (fit->fittings.list.items[i].measured->side == side)
            return true;
    return false;
}

/* "b26-left", so that a log can write band b26-left/b26-right. */
static const char *side_label(struct arena *arena, const char *label, enum band_side side)
{
    return side == SIDE_UNSAID ? label : arena_printf(arena, "%s-%s", label, band_side_name(side));
}

static void put_single(const struct fit *fit, struct output *output, const struct labelled *group,
                       const struct band_fitting *fitting)
{
    struct arena *arena = fit->session.arena;
    enum band_side side = fitting->measured->side, other = side == SIDE_LEFT ? SIDE_RIGHT : SIDE_LEFT;
    const char *label = fit->fittings.list.items[group->first].measured->label;
    struct block block = {.label = side_label(arena, label, side),
                          .remark = "",
                          .fitting = fitting,
                          .first = fitting == fit->fittings.list.items};
    if (side != SIDE_UNSAID && has_side(fit, group, other)) {
        block.pair = side_label(arena, label, other);
        block.remark = arena_printf(arena, "not a matched pair, or not measured on one day; in a log, write band %s/%s",
                                    side_label(arena, label, SIDE_LEFT), side_label(arena, label, SIDE_RIGHT));
    }
    put_block(fit, output, &block);
}

void fit_blocks(const struct fit *fit, struct output *output)
{
    for (size_t i = 0; i < fit->fittings.list.count;) {
        struct labelled group = labelled_from(fit, i);
        bool pairs = group.sided && are_pairs(fit, &group);
        for (; i < group.end; i++) {
            const struct band_fitting *fitting = &fit->fittings.list.items[i];
            if (!pairs || fitting->measured->side == SIDE_UNSAID)
                put_single(fit, output, &group, fitting);
            else if (fitting->measured->side == SIDE_LEFT)
                put_pair(fit, output, pair_of(fit, fitting));
        }
    }
}
