#include "model/chain.h"

#include "base/unit.h"
#include "model/geometry/catenary.h"
#include "model/numeric.h"

#include <ctype.h>
#include <math.h>
#include <stddef.h>
#include <string.h>

#define STEEL_KG_PER_M3 7850.0 /* usual engineering value */

/* What follows keeps to k λ for equal strands, so that a chain hung by its middle weighs the same to the last digit
 * however that is said. */
static bool is_uneven(const struct hung_chain *chain)
{
    return chain->strands == 2 && chain->longer_m > chain->length_m / 2;
}

double chain_shortest_strand_m(const struct hung_chain *chain)
{
    return is_uneven(chain) ? chain->length_m - chain->longer_m : chain->length_m / chain->strands;
}

double chain_longest_strand_m(const struct hung_chain *chain)
{
    return is_uneven(chain) ? chain->longer_m : chain->length_m / chain->strands;
}

static struct pinned_strand pinned_strand(const struct hung_chain *chain, double strand_m, double height_m)
{
    return (struct pinned_strand){strand_m, fmax(height_m - chain->leader_m, 0), chain->pin_m, chain->pin_aside_m};
}

/* s(h) of a strand. */
static double lifted_m(const struct hung_chain *chain, double strand_m, double height_m)
{
    if (chain->pinned) {
        struct pinned_strand strand = pinned_strand(chain, strand_m, height_m);
        return catenary_of(&strand).carried_m;
    }
    return fmin(fmax(height_m - chain->leader_m, 0), strand_m);
}

/* λ, of all strands that are alike. */
static double lifted_kg_per_m(const struct hung_chain *chain)
{
    return (is_uneven(chain) ? 1 : chain->strands) * chain->mass_kg / chain->length_m;
}

static bool is_picking_up(const struct hung_chain *chain, double strand_m, double height_m)
{
    return height_m >= chain->leader_m && height_m < chain->leader_m + strand_m;
}

/* A function of a strand: of the shortest, and where it is another one the longest is added. */
typedef double of_strand(const struct hung_chain *chain, double strand_m, double height_m);

static double over_strands(const struct hung_chain *chain, of_strand *function, double height_m)
{
    double sum = function(chain, chain_shortest_strand_m(chain), height_m);
    return is_uneven(chain) ? sum + function(chain, chain_longest_strand_m(chain), height_m) : sum;
}

/* The rest of it lies on the floor, with the chain. */
static bool leader_lies(const struct hung_chain *chain, double height_m)
{
    return chain->leader_m > 0 && height_m < chain->leader_m;
}

static double leader_load_kg(const struct hung_chain *chain, double height_m)
{
    return leader_lies(chain, height_m) ? chain->leader_kg * fmax(height_m, 0) / chain->leader_m : chain->leader_kg;
}

double chain_load_kg(const struct hung_chain *chain, double height_m)
{
    return leader_load_kg(chain, height_m) + lifted_kg_per_m(chain) * over_strands(chain, lifted_m, height_m);
}

static double picked_up(const struct hung_chain *chain, double strand_m, double height_m)
{
    if (chain->pinned) {
        struct pinned_strand strand = pinned_strand(chain, strand_m, height_m);
        return catenary_of(&strand).carried_rate;
    }
    return is_picking_up(chain, strand_m, height_m) ? 1 : 0;
}

double chain_slope_kg_per_m(const struct hung_chain *chain, double height_m)
{
    if (leader_lies(chain, height_m))
        return height_m >= 0 ? chain->leader_kg / chain->leader_m : 0;
    return lifted_kg_per_m(chain) * over_strands(chain, picked_up, height_m);
}

/* ∫ s dh from the end of the leader up to h: a parabola while links are picked up, then a line. */
static double lifted_area_m2(const struct hung_chain *chain, double strand_m, double height_m)
{
    double lifted = lifted_m(chain, strand_m, height_m);
    double above = fmax(height_m - chain->leader_m - strand_m, 0);
    return lifted * lifted / 2 + lifted * above;
}

/* A parabola up to the end of the leader, then a line. */
static double leader_integral_kg_m(const struct hung_chain *chain, double low_m, double high_m)
{
    if (!leader_lies(chain, low_m))
        return chain->leader_kg * (high_m - low_m);
    double rising_to = fmin(high_m, chain->leader_m);
    double rising = (leader_load_kg(chain, low_m) + leader_load_kg(chain, rising_to)) / 2 * (rising_to - low_m);
    return rising + chain->leader_kg * (high_m - rising_to);
}

static double load_at(double height_m, void *chain)
{
    return chain_load_kg(chain, height_m);
}

double chain_integral_kg_m(const struct hung_chain *chain, double low_m, double high_m)
{
    if (chain->pinned)
        return numeric_integral(load_at, (void *)chain, low_m, high_m);
    double area = over_strands(chain, lifted_area_m2, high_m) - over_strands(chain, lifted_area_m2, low_m);
    return leader_integral_kg_m(chain, low_m, high_m) + lifted_kg_per_m(chain) * area;
}

static bool strand_reaches(const struct hung_chain *chain, double strand_m, double height_m)
{
    struct pinned_strand strand = pinned_strand(chain, strand_m, height_m);
    return catenary_reaches(&strand);
}

bool chain_reaches(const struct hung_chain *chain, double height_m)
{
    return !chain->pinned || strand_reaches(chain, chain_shortest_strand_m(chain), height_m);
}

double chain_level_pull_kg(const struct hung_chain *chain, double height_m)
{
    struct pinned_strand strand = pinned_strand(chain, chain_longest_strand_m(chain), height_m);
    return chain->pinned ? chain->mass_kg / chain->length_m * catenary_of(&strand).level_m : 0;
}

double chain_clearance_m(const struct hung_chain *chain, double top_m)
{
    if (chain->pinned)
        return NAN;
    double strand_m = chain_shortest_strand_m(chain);
    return strand_m - lifted_m(chain, strand_m, top_m) - chain->link_m;
}

double chain_resting_share(const struct hung_chain *chain, double bottom_m, double top_m)
{
    double lifted = over_strands(chain, lifted_m, top_m) - over_strands(chain, lifted_m, bottom_m);
    return lifted / (is_uneven(chain) ? chain->length_m : chain_shortest_strand_m(chain));
}

double chain_thrust_kg(const struct hung_chain *chain, double height_m, double speed_ms)
{
    if (!(speed_ms > 0))
        return 0;
    return chain_slope_kg_per_m(chain, height_m) * speed_ms * speed_ms / STANDARD_GRAVITY_MS2;
}

/* The link is a wire bent along its centre line, so its volume is section times length (Pappus). */
double chain_mass_per_metre(double wire_m, double pitch_m, double width_m)
{
    double centre_line = 2 * (pitch_m - width_m) + M_PI * (width_m + wire_m);
    double section = M_PI * wire_m * wire_m / 4;
    return STEEL_KG_PER_M3 * section * centre_line / pitch_m;
}

/* Pitches: DIN 763:1990-12 table 1; DIN 766:1986-01, DIN 764 and DIN 5685 form A as industrial suppliers' tables have
 * them. Inner widths: DIN 763 fixes 1.8 d, DIN 766 tabulates 1.2 d. The other two have none: the one of these that
 * brings the formula nearer to the tabulated mass is taken, 1.2 d for DIN 764 and 1.8 d for DIN 5685. */
static const struct
{
    const char *standard;
    double wire_mm, pitch_mm, width_mm;
} standard_chains[] = {
    {"din766", 6, 18.5, 7.2}, {"din766", 8, 24, 9.6},    {"din766", 10, 28, 12},    {"din766", 13, 36, 15.6},
    {"din766", 16, 45, 19.2}, {"din763", 6, 42, 10.8},   {"din763", 7, 49, 12.6},   {"din763", 8, 52, 14.4},
    {"din763", 10, 65, 18},   {"din763", 13, 82, 23.4},  {"din763", 16, 100, 28.8}, {"din764", 10, 35, 12},
    {"din764", 13, 45, 15.6}, {"din764", 16, 56, 19.2},  {"din5685", 6, 24, 10.8},  {"din5685", 8, 32, 14.4},
    {"din5685", 10, 40, 18},  {"din5685", 13, 52, 23.4},
};

#define SIZE_SLACK_MM 0.01

/* Letters and digits only, small; cut where longer than any standard's name. */
static void squeeze_standard(char squeezed[static 16], const char *standard)
{
    size_t length = 0;
    for (const char *c = standard; *c && length < 15; c++)
        if (isalnum((unsigned char)*c))
            squeezed[length++] = (char)tolower((unsigned char)*c);
    squeezed[length] = 0;
}

bool chain_standard(const char *standard, double wire_m, double *pitch_m, double *width_m)
{
    char name[16];
    if (!standard)
        return false;
    squeeze_standard(name, standard);
    for (size_t i = 0; i < sizeof standard_chains / sizeof *standard_chains; i++) {
        if (strcmp(name, standard_chains[i].standard) ||
            !(fabs(wire_m * 1000 - standard_chains[i].wire_mm) <= SIZE_SLACK_MM))
            continue;
        *pitch_m = standard_chains[i].pitch_mm / 1000;
        *width_m = standard_chains[i].width_mm / 1000;
        return true;
    }
    return false;
}
