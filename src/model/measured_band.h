/* What was measured of bands: readings as written down, and the points of each band, side and day that they come to.
 * Plain data.
 *
 * Lengths in metres, end to end; pulls in kg, of the whole loop. */
#ifndef TAUTLINE_MODEL_MEASURED_BAND_H
#define TAUTLINE_MODEL_MEASURED_BAND_H

#include "base/date.h"
#include "base/diag.h"
#include "model/gear.h"

#include <stdbool.h>
#include <stddef.h>

/* Pulls at one length may differ by this share of their mean, or by SCALE_STEP_KG: 2.8 standard uncertainties, the
 * repeatability limit of ISO 5725-6 (from memory) at the 3 % that a band's tension is taken to be known to. */
#define REPEATABILITY (2.8 * 0.03)
#define SCALE_STEP_KG 0.2

enum band_way /* rubber follows one curve while it is stretched and a lower one while it is let go */
{
    WAY_UNSAID, /* stretched, as most measure */
    WAY_UP,
    WAY_DOWN
};

enum band_side
{
    SIDE_UNSAID,
    SIDE_LEFT,
    SIDE_RIGHT
};

struct pull_reading /* one pull at one length */
{
    const char *label;
    enum band_side side;
    enum band_way way;
    day_number day; /* NO_DAY: undated */
    double length_m;
    bool is_extension; /* length_m is what the band is longer than flat */
    double pull_kg;
    double flat_m; /* as its line says; NAN */
    struct place at;
    const char *excerpt; /* the line as written */
};

struct measured_point /* all readings at one length */
{
    double length_m, pull_kg; /* the mean */
    double spread_kg;         /* largest less smallest */
    size_t readings;
    struct place at; /* of the first */
    const char *excerpt;
};

struct measured_band
{
    const char *label;
    enum band_side side;
    enum band_way way;                /* WAY_DOWN: the other one's `down` */
    const struct measured_band *down; /* the same band let go; NULL: not measured */
    day_number day;
    double flat_m;
    struct measured_point *points; /* longer than flat; by rising length, with rising pulls; never none */
    size_t count;
    size_t readings; /* that the points rest on */
    struct place at; /* of its first reading */
};

#endif
