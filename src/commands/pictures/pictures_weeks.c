#include "commands/pictures/pictures_weeks.h"

#include "commands/pictures/pictures_parts.h"

#include "analysis/statistics/statistics.h"
#include "base/number.h"
#include "commands/pictures/pictures.h"

#include <math.h>
#include <string.h>

#define WEEKS_WORTH_A_PICTURE 2
#define FEWEST_POINTS 4 /* with fewer points there is no 95 % interval */

static const char *trend_words(struct arena *arena, const struct trend_slope *slope, size_t weeks)
{
    char percent[32];
    if (!slope || isnan(slope->percent_4w))
        return "";
    if (slope->fit.points < FEWEST_POINTS)
        return "; too few weeks to show a trend";
    number_fixed(percent, sizeof percent, fabs(slope->percent_4w), 1);
    if (!*slope_direction(&slope->fit))
        return arena_printf(arena, "; no trend in %zu weeks", weeks);
    return arena_printf(arena, "; it goes %s by %s %% in four weeks", slope_direction(&slope->fit), percent);
}

static const char *intensity_words(struct arena *arena, const struct trend_week *weeks, size_t count)
{
    double low = INFINITY, high = -INFINITY;
    for (size_t i = 0; i < count; i++) {
        if (isnan(weeks[i].intensity[LOAD_MEAN]))
            continue;
        low = fmin(low, weeks[i].intensity[LOAD_MEAN]);
        high = fmax(high, weeks[i].intensity[LOAD_MEAN]);
    }
    if (low > high)
        return "";
    return arena_printf(arena, " Intensity: %.0f to %.0f %% of 1RM.", 100 * low, 100 * high);
}

/* "A usual week has 2,860 kg, 13 % of it by chain and band; no trend in 52 weeks. Intensity: 60 to 81 % of 1RM." */
static const char *week_sentence(const struct pictures *pictures, const struct trend_week *weeks, size_t count,
                                 const struct trend_slope *slope)
{
    struct arena *arena = pictures->session->arena;
    double *volumes = ARENA_ARRAY(arena, double, count), all = 0, straight = 0;
    size_t trained = 0;
    for (size_t i = 0; i < count; i++) {
        if (!(weeks[i].volume_kg[LOAD_MEAN] > 0))
            continue;
        volumes[trained++] = weeks[i].volume_kg[LOAD_MEAN];
        all += weeks[i].volume_kg[LOAD_MEAN];
        straight += weeks[i].volume_kg[LOAD_STRAIGHT];
    }
    char usual[32];
    number_fixed(usual, sizeof usual, picture_load(pictures, median_of(volumes, trained)), 0);
    double by_ar = 100 * (1 - straight / all);
    const char *ar = by_ar >= 0.5 ? arena_printf(arena, ", %.0f %% of it by chain and band", by_ar) : "";
    return arena_printf(arena, "A usual week has %s %s%s%s.%s", usual, mass_unit_name(pictures->session->unit), ar,
                        trend_words(arena, slope, count), intensity_words(arena, weeks, count));
}

/* The fitted line, through the medians of week and volume as Theil and Sen's line is drawn. */
static void set_trend_line(struct drawn *drawn, const struct trend_slope *slope, const struct trend_week *weeks,
                           size_t count)
{
    if (!slope || isnan(slope->fit.slope) || !*slope_direction(&slope->fit))
        return;
    double middle = (weeks[(count - 1) / 2].week + weeks[count / 2].week) / 2.0;
    gp_set_number(drawn->script, "trend_first",
                  picture_load(drawn->pictures, slope->fit.median + slope->fit.slope * (weeks->week - middle)));
    gp_set_number(
        drawn->script, "trend_last",
        picture_load(drawn->pictures, slope->fit.median + slope->fit.slope * (weeks[count - 1].week - middle)));
}

/* A lift logged without weights has reps but no volume to draw. */
static bool has_volume(const struct trend_week *weeks, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (weeks[i].volume_kg[LOAD_MEAN] > 0)
            return true;
    return false;
}

static void add_volume(struct pictures *pictures, const struct trend_week *weeks, size_t count,
                       const struct trend_slope *slope)
{
    struct drawn drawn = picture_begin(
        pictures, &(struct picture_of){PICTURE_WEEKS, weeks->lifter, weeks->lift, FOCUS_UNSAID, "weeks", "weeks",
                                       "volume and intensity by week", week_sentence(pictures, weeks, count, slope)});
    DATA_TITLES(&drawn, "week of", "volume by straight weight, kg", "volume by mean load, kg",
                "intensity of straight weight", "intensity of mean load");
    set_trend_line(&drawn, slope, weeks, count);
    gp_block(drawn.script, "$WEEKS");
    for (size_t i = 0; i < count; i++) {
        both_day(&drawn, week_monday(weeks[i].week));
        both_load(&drawn, weeks[i].volume_kg[LOAD_STRAIGHT], 0);
        both_load(&drawn, weeks[i].volume_kg[LOAD_MEAN], 0);
        both_share(&drawn, weeks[i].intensity[LOAD_STRAIGHT], 1);
        both_share(&drawn, weeks[i].intensity[LOAD_MEAN], 1);
        both_end(&drawn);
    }
}

static const char *zone_sentence(struct arena *arena, const double zones[ZONES], double all)
{
    return arena_printf(arena,
                        "Of %.0f reps with a known 1RM, %.0f %% were below 70 %% of it, %.0f %% from 70 to 80 %%, "
                        "%.0f %% at 80 %% and above.",
                        all, 100 * (zones[0] + zones[1]) / all, 100 * zones[2] / all,
                        100 * (zones[3] + zones[4]) / all);
}

static void add_zones(struct pictures *pictures, const struct trend_week *weeks, size_t count)
{
    double zones[ZONES] = {0}, all = 0;
    for (size_t i = 0; i < count; i++) {
        for (int z = 0; z < ZONES; z++) {
            double lifts = isnan(weeks[i].zone_lifts[z]) ? 0 : weeks[i].zone_lifts[z];
            zones[z] += lifts;
            all += lifts;
        }
    }
    if (!(all > 0))
        return;
    struct drawn drawn = picture_begin(
        pictures, &(struct picture_of){PICTURE_ZONES, weeks->lifter, weeks->lift, FOCUS_UNSAID, "zones", "zones",
                                       "reps by intensity", zone_sentence(pictures->session->arena, zones, all)});
    DATA_TITLES(&drawn, "week of", "reps below 55 % of 1RM", "55 to 70 %", "70 to 80 %", "80 to 90 %",
                "90 % and above");
    gp_block(drawn.script, "$WEEKS");
    for (size_t i = 0; i < count; i++) {
        both_day(&drawn, week_monday(weeks[i].week));
        for (int z = 0; z < ZONES; z++)
            both_number(&drawn, weeks[i].zone_lifts[z], 0);
        both_end(&drawn);
    }
}

void add_weeks(struct pictures *pictures)
{
    size_t week_count, slope_count;
    const struct trend_week *weeks = session_weeks(pictures->session, &week_count);
    const struct trend_slope *slopes = session_volume_slopes(pictures->session, &slope_count);
    for (size_t i = 0, end; i < week_count; i = end) {
        for (end = i; end < week_count && weeks[end].all_lifts == weeks[i].all_lifts &&
                      !strcmp(weeks[end].lift, weeks[i].lift) && !strcmp(weeks[end].lifter, weeks[i].lifter);
             end++)
            ;
        if (end - i < WEEKS_WORTH_A_PICTURE || weeks[i].all_lifts || !has_volume(&weeks[i], end - i) ||
            !lift_wanted(pictures, weeks[i].lifter, weeks[i].lift))
            continue;
        add_volume(pictures, &weeks[i], end - i, trend_volume_slope_find(slopes, slope_count, &weeks[i]));
        add_zones(pictures, &weeks[i], end - i);
    }
}
