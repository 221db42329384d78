#include "unit/made_findings.h"

#include <math.h>

struct made *made;
struct lifter *oda;
struct findings_options every;

void made_setup(void)
{
    made = made_new();
    every = (struct findings_options){.ids = ALL_FINDINGS};
    oda = add_lifter(made, ODA);
    oda->experience = EXPERIENCE_SEASONED;
    add_max(made, oda, "squat", "2025-12-20", MAX_KG);
}

void made_teardown(void)
{
    made_free(made);
}

const struct findings *findings_of_log(void)
{
    return findings_make(made->arena, train(made), &every);
}

static double without_last_bits(double value)
{
    return round(1e6 * value) / 1e6;
}

const char *summary(void)
{
    const struct findings *findings = findings_of_log();
    const char *text = "";
    for (size_t i = 0; i < findings->count; i++) {
        const struct finding *finding = findings->items[i];
        char day[16];
        date_print(day, finding->first->set->day);
        text = arena_printf(made->arena, "%s%s%s %s %.4g/%.4g", text, i ? "; " : "", finding_kinds[finding->id].id, day,
                            without_last_bits(finding->value), without_last_bits(finding->limit));
    }
    return text;
}

void in_week(int week, const struct load *load, int sets, int reps, enum focus focus)
{
    char iso[16];
    date_print(iso, day_of("2026-01-05") + 7 * week);
    for (int i = 0; i < sets; i++)
        add_sets(made, ODA, "squat", iso, load, 1, reps)->focus = (uint8_t)focus;
}

struct chain *add_chain(double length_m, double leader_m)
{
    struct chain *chain = ARENA_NEW(made->arena, struct chain);
    *chain = (struct chain){.label = "long", .mass_kg = 7, .length_m = length_m, .link_m = 0.05, .leader_m = leader_m};
    made->gym->chains = chain;
    made->gym->chain_count = 1;
    add_heights(made, oda, "squat", BOTTOM_M, TOP_M);
    return chain;
}

const struct load *hung(const struct piece *like)
{
    struct piece piece = *like;
    piece.mass_kg = piece.bottom_kg = piece.top_kg = piece.leader_m = NAN;
    piece.per_side = 1;
    struct load load = {.straight = STRAIGHT_MASS, .kg = 60, .pieces = &piece, .piece_count = 1};
    return load_intern(made->log->loads, &load);
}
