/* Hanging chain. Masses in kg, lengths and heights in metres above the floor. All functions are pure.
 *
 *   λ = m / l     s(h) = clamp(h − e, 0, l / k)     C(h) = q clamp(h / e, 0, 1) + k λ s(h)
 *
 * m, l mass and length of one chain; e, q length and mass of its leader; k strands: 1 by its end, 2 by its middle.
 *
 * Hung by another link than the middle one, a chain has two strands of unequal length, l1 + l2 = l:
 *
 *   C(h) = q clamp(h / e, 0, 1) + λ (clamp(h − e, 0, l1) + clamp(h − e, 0, l2))
 *
 * Pinned, s(h) is what the bar carries of a strand that hangs from a leader and from its pin:
 * model/geometry/catenary.h. Its leader is taken to hang straight down. */
#ifndef TAUTLINE_MODEL_CHAIN_H
#define TAUTLINE_MODEL_CHAIN_H

#include <stdbool.h>

struct hung_chain
{
    double mass_kg, length_m; /* length above 0 */
    double leader_m, leader_kg;
    int strands; /* 1 or 2 */
    double link_m;
    double longer_m; /* of two strands, the longer one; 0: they are equal */
    bool pinned;     /* each strand's other end is held by a pin at pin_m, pin_aside_m to the side; of two, on either */
    double pin_m, pin_aside_m;
};

/* The end of the shortest strand is the first to leave the floor; where all are equal, they are one. */
double chain_shortest_strand_m(const struct hung_chain *chain);
double chain_longest_strand_m(const struct hung_chain *chain);

/* Load that one chain and its leader add with the bar at height_m; 0 ≤ load ≤ leader_kg + mass_kg, unless it is pinned.
 * A bar lower than its leader is long leaves the rest of it on the floor. NAN: a pinned one is too short. */
double chain_load_kg(const struct hung_chain *chain, double height_m);
/* dC/dh, kg/m: q / e while the leader is being picked up, λ for each
 * strand of which links are, 0 while all hangs. At a kink: upward. */
double chain_slope_kg_per_m(const struct hung_chain *chain, double height_m);
/* ∫ C dh from low_m to high_m, kg·m; closed form. Of a pinned chain by quadrature, between two bends of its load. */
double chain_integral_kg_m(const struct hung_chain *chain, double low_m, double high_m);
/* Does it reach from its pins to the bar at that height? A chain without pins reaches everywhere. */
bool chain_reaches(const struct hung_chain *chain, double height_m);
/* What a pinned chain pulls the bar to the side, its longest strand alone: two pull against each other. */
double chain_level_pull_kg(const struct hung_chain *chain, double height_m);
/* Metres of chain still on the floor (per strand, of the shortest) less one link; below 0 the chain swings. NAN: it
 * is pinned. */
double chain_clearance_m(const struct hung_chain *chain, double top_m);
/* Share of the chain's own mass that comes to rest between top and bottom, on the floor or on its pin: k (s_t − s_b) /
 * l, of unequal strands their sum. */
double chain_resting_share(const struct hung_chain *chain, double bottom_m, double top_m);
/* Thrust of picking up a moving chain at bar speed v on the way up, in kg: k λ v² / g; of a leader q v² / (e g); 0
 * where neither is picked up. */
double chain_thrust_kg(const struct hung_chain *chain, double height_m, double speed_ms);

/* Mass per metre from the nominal wire diameter d, pitch p (inner length) and inner width b of a straight-sided,
 * round-ended link:
 *   L = 2 (p − b) + π (b + d)     q = ρ (π d²/4) L / p     ρ = 7850 kg/m³ */
double chain_mass_per_metre(double wire_m, double pitch_m, double width_m);
/* Pitch and inner width of a standard's chain of that size: "DIN 766", "DIN 763", "DIN 764", "DIN 5685" (form A);
 * blanks and case do not matter. Widths not tabulated are 1.2 d or 1.8 d. False: no such size or standard. */
bool chain_standard(const char *standard, double wire_m, double *pitch_m, double *width_m);

#endif
