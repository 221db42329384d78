/* The gym file: what each key makes, and what is said of each slip, with its line and column. */
#include "reading/gym/gym_file.h"

#include "analysis/findings/findings.h"
#include "analysis/one_rm.h"
#include "model/band.h"
#include "model/chain.h"

#include <check.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

static struct arena *arena;
static struct diags *diags;

static void begin(void)
{
    arena = arena_new();
    diags = diags_new(arena);
}

static void end(void)
{
    arena_free(arena);
}

static const struct gym *read_text(const char *text)
{
    struct gym *gym = gym_read_memory(arena, "hall/gym.ini", text, strlen(text), diags);
    ck_assert_ptr_nonnull(gym);
    return gym;
}

static const struct gym *read_clean(const char *text)
{
    const struct gym *gym = read_text(text);
    const struct diag *first = diags_first(diags);
    ck_assert_msg(!first, "%u:%u %s", first ? first->at.line : 0, first ? first->at.column : 0,
                  first ? first->message : "");
    return gym;
}

static day_number day(const char *text)
{
    day_number number;
    ck_assert(date_read_iso(text, &number));
    return number;
}

START_TEST(test_gym_block)
{
    const struct gym *gym = read_clean("\xEF\xBB\xBF; a comment\r\n"
                                       "[gym]\r\n"
                                       "  plates = 25x4 45lb 20, 15 1.25x2   ; bare ones in the unit below\r\n"
                                       "unit = lb\r\n"
                                       "bar = 45 lb\r\n"
                                       "formula = Brzycki\r\n"
                                       "dates = dmy\r\n"
                                       "u-height = 2 cm\r\n"
                                       "u-mass = 2 %\r\n"
                                       "u-tension = 4.5%\r\n");
    ck_assert_str_eq(gym->path, "hall/gym.ini");
    ck_assert_str_eq(gym->folder, "hall");
    ck_assert(gym->unit_said && gym->unit == UNIT_LB);
    ck_assert_double_eq_tol(gym->bar_kg, 45 * KG_PER_LB, 1e-12);
    ck_assert_str_eq(gym->formula, "brzycki");
    ck_assert_int_eq(gym->dates, DATES_DMY);
    ck_assert_double_eq_tol(gym->u_height_m, 0.02, 1e-12);
    ck_assert_double_eq_tol(gym->u_mass, 0.02, 1e-12);
    ck_assert_double_eq_tol(gym->u_tension, 0.045, 1e-12);
    static const double plates[] = {45, 25, 20, 15, 1.25};
    static const int pairs[] = {-1, 4, -1, -1, 2};
    ck_assert_uint_eq(gym->plate_count, 5);
    for (size_t i = 0; i < 5; i++) {
        ck_assert_double_eq_tol(gym->plates_kg[i], plates[i] * KG_PER_LB, 1e-12);
        ck_assert_int_eq(gym->plate_pairs[i], pairs[i]);
    }
}
END_TEST

START_TEST(test_formulas)
{
    static const char *const names[] = {
#define X(id, name) name,
        E1RM_FORMULAS(X)
#undef X
    };
    for (size_t i = 0; i < sizeof names / sizeof *names; i++)
        ck_assert_str_eq(read_clean(arena_printf(arena, "[gym]\nformula = %s\n", names[i]))->formula, names[i]);
}
END_TEST

/* The gym file's reader and the findings know the same limits. */
START_TEST(test_limits)
{
    for (size_t i = 0; i < LIMIT_COUNT; i++) {
        const struct gym *gym = read_clean(arena_printf(arena, "[limits]\n%s = 5 %%\n", limit_rows[i].id));
        ck_assert_str_eq(gym->limits[0].id, limit_rows[i].id);
        ck_assert_double_eq_tol(gym->limits[0].value, 0.05, 1e-12);
    }
}
END_TEST

START_TEST(test_chains)
{
    const struct gym *gym = read_clean(
        "[chain \"long\"]\ndefault = yes\nmass = 7.0 kg\nlength = 180 cm\nleader = 0.40 m, 0.3 kg\n"
        "[chain \"made\"]\nsize = 13 mm\nstandard = DIN 766\nlength = 2 m\n"
        "[chain plain]\nmass = 11 lb\nlink = 40 mm\nleader = 1 ft\n");
    ck_assert_uint_eq(gym->chain_count, 3);
    const struct chain *chain = gym_chain(gym, "LONG");
    ck_assert(chain->is_default && chain->mass_kg == 7 && chain->length_m == 1.8 && chain->link_m == 0.05);
    ck_assert(chain->leader_m == 0.4 && chain->leader_kg == 0.3 && !chain->mass_estimated);
    ck_assert_ptr_eq(gym_default_chain(gym), chain);
    double pitch, width;
    ck_assert(chain_standard("DIN 766", 0.013, &pitch, &width));
    chain = gym_chain(gym, "made");
    ck_assert(chain->mass_estimated);
    ck_assert_double_eq_tol(chain->mass_kg, 2 * chain_mass_per_metre(0.013, pitch, width), 1e-9);
    ck_assert_double_eq_tol(chain->link_m, pitch, 1e-12);
    chain = gym_chain(gym, "plain");
    ck_assert_double_eq_tol(chain->mass_kg, 11 * KG_PER_LB, 1e-12);
    ck_assert_double_eq_tol(chain->leader_m, M_PER_FT, 1e-12);
    ck_assert(chain->link_m == 0.04 && chain->leader_kg == 0 && isnan(chain->length_m));
}
END_TEST

START_TEST(test_strands)
{
    const struct gym *gym = read_clean("[chain \"a\"]\nmass = 10 kg\nlength = 2 m\nstrands = 0.5 m, 150 cm\n"
                                       "[chain \"b\"]\nmass = 10 kg\nstrands = 1.1 m 0.9 m\n"
                                       "[chain \"c\"]\nmass = 10 kg\nlength = 2 m\nstrands = 1.52 m, 0.51 m\n");
    ck_assert_double_eq_tol(gym_chain(gym, "a")->longer_m, 1.5, 1e-12);
    ck_assert_double_eq_tol(gym_chain(gym, "b")->length_m, 2, 1e-12);
    ck_assert_double_eq_tol(gym_chain(gym, "b")->longer_m, 1.1, 1e-12);
    ck_assert_double_eq_tol(gym_chain(gym, "c")->longer_m, 2 * 1.52 / 2.03, 1e-12); /* within 2 %: its length counts */
}
END_TEST

START_TEST(test_bands)
{
    const struct gym *gym = read_clean(
        "[band \"b26\"]\nflat = 1.04 m\npair = yes\nmeasured = 2026-05-01\ntension = 1.60 m : 25 "
        "kg\ntension = 1.2 m:12 kg\n"
        "[band \"B26\"]\nflat = 1.03 m\nhitch = 12 cm\nmeasured = 2026-01-03\ntension = 1.20 m : 12.5 "
        "kg\ntension = 1.60 m : 27.0 kg\n"
        "[band \"one\"]\nflat = 1 m\npair = b26\ntension = 2 m : 14 kg\n"
        "[band \"law\"]\nflat = 1 m\nlaw = mooney-rivlin 12.5 -1.5 kg range 1.1 m to 3 m\n"
        "[band \"fit\"]\nflat = 1 m\nlaw = neo-hookean\ntension = 2 m : 17.5 kg\ntension = 1.5 m : 10 kg\n");
    const struct band *band = gym_band(gym, "b26");
    ck_assert_uint_eq(gym->band_count, 4);
    ck_assert(band->pair && !band->partner && band->hitch_m == 0.12);
    ck_assert_uint_eq(band->calibration_count, 2);
    const struct calibration *oldest = &band->calibrations[0], *newest = &band->calibrations[1];
    ck_assert_int_eq(oldest->measured, day("2026-01-03"));
    ck_assert_int_eq(newest->measured, day("2026-05-01"));
    ck_assert(newest->point_count == 2 && newest->points[0].length_m == 1.2 && newest->points[1].pull_kg == 25);
    ck_assert(newest->law == LAW_MEASURED && isnan(newest->c1_kg) && newest->range_low_m == 1.2 &&
              newest->range_high_m == 1.6);
    band = gym_band(gym, "one");
    ck_assert(!band->pair && band->calibrations[0].one_point && band->calibrations[0].law == LAW_NEO_HOOKEAN);
    ck_assert_str_eq(band->partner, "b26");
    ck_assert_double_eq_tol(band->calibrations[0].c1_kg, 8, 1e-9); /* 14 = c (2 − 1/4) */
    const struct calibration *law = &gym_band(gym, "law")->calibrations[0];
    ck_assert(law->law == LAW_MOONEY_RIVLIN && law->c1_kg == 12.5 && law->c2_kg == -1.5 && law->range_high_m == 3);
    ck_assert_int_eq(law->measured, NO_DAY);
    const struct calibration *fit = &gym_band(gym, "fit")->calibrations[0];
    ck_assert(fit->law == LAW_NEO_HOOKEAN && !fit->one_point && fit->c1_kg > 9 && fit->c1_kg < 10.1);
}
END_TEST

START_TEST(test_bands_let_go)
{
    const struct gym *gym = read_clean(
        "[band \"b\"]\nflat = 1 m\ntension-down = 2 m : 16 kg\ntension = 1.5 m : 10 kg\ntension-down = 1.5 m : 8 kg\n"
        "tension = 2 m : 20 kg\ntension-down = 1.02 m : 0 kg\n"
        "[band \"law\"]\nflat = 1 m\nlaw = neo-hookean 12.5 kg range 1.1 m to 3 m\ntension-down = 2 m : 16 kg\n");
    const struct calibration *both = &gym_band(gym, "b")->calibrations[0];
    ck_assert(both->point_count == 2 && both->lowering_count == 3 && both->range_high_m == 2);
    ck_assert(both->lowering[0].length_m == 1.02 && both->lowering[0].pull_kg == 0 && both->lowering[2].pull_kg == 16);
    ck_assert_uint_eq(gym_band(gym, "law")->calibrations[0].lowering_count, 1);
}
END_TEST

START_TEST(test_people)
{
    const struct gym *gym = read_clean(
        "[lifter \"Oda Brandvik\"]\nlog = logs/oda-*.csv\nlog = logs/oda.txt\nexperience = new\nstature = 1.74 m\n"
        "bodyweight = 150 lb\ndates = mdy\nmax = comp squat 130 kg 2025-12-20\nmax = bench 90 kg 2025-12-20\n"
        "heights = Back Squat 0.78 m 1.40 m\n"
        "[lift \"squat\"]\nalias = comp squat\nsetup = Pegs\n[lift \"farmer walk\"]\nper = hand\n[lift \"ring "
        "row\"]\nbodyweight = yes\n"
        "[setup \"pegs\"]\nheight = 5 cm\noffset = -0.02 m\n"
        "[limits]\nvolume-jump = 130 %\nband-aged = off\n"
        "[columns]\nweight = kilos lifted, ballast\nweight = iron\nnote = remark of the day\n");
    const struct lifter *lifter = gym_lifter(gym, "oda brandvik");
    ck_assert(lifter->log_count == 2 && lifter->experience == EXPERIENCE_NEW && lifter->stature_m == 1.74);
    ck_assert_str_eq(lifter->logs[1], "logs/oda.txt");
    ck_assert_double_eq_tol(lifter->bodyweight_kg, 150 * KG_PER_LB, 1e-9);
    ck_assert_int_eq(lifter->dates, DATES_MDY);
    ck_assert_uint_eq(lifter->max_count, 2);
    ck_assert_str_eq(lifter->maxes[0].lift, "squat");
    ck_assert_str_eq(lifter->maxes[1].lift, "bench press");
    ck_assert(lifter->maxes[0].kg == 130 && lifter->maxes[0].day == day("2025-12-20"));
    ck_assert_double_eq_tol(lifter_heights(lifter, "squat")->top_m, 1.4, 1e-12);
    ck_assert_str_eq(gym_lift(gym, "comp squat")->setup, "Pegs");
    ck_assert(gym_lift(gym, "farmer walk")->per_hand && gym_lift(gym, "ring row")->bodyweight);
    ck_assert(gym_setup(gym, "pegs")->height_m == 0.05 && gym_setup(gym, "pegs")->offset_m == -0.02);
    ck_assert(gym->limit_count == 2 && gym->limits[0].value == 1.3 && gym->limits[1].off);
    ck_assert_uint_eq(gym->column_count, 2);
    ck_assert_uint_eq(gym->columns[0].header_count, 3);
    ck_assert_str_eq(gym->columns[0].headers[2], "iron");
}
END_TEST

/* One slip a row: what is said, where, and with which words in the message or hint. */
static const struct
{
    const char *text;
    enum diag_id id;
    uint32_t line, column;
    const char *words;
} slips[] = {
    {"mass = 3\n", DIAG_GYM_SYNTAX, 1, 1, "before the first"},
    {"[gym]\nno equals\n", DIAG_GYM_SYNTAX, 2, 1, "no ="},
    {"[gym]\n  = 3\n", DIAG_GYM_SYNTAX, 2, 3, "no key"},
    {"[chain \"a\"\nmass = 1 kg\n", DIAG_GYM_SYNTAX, 1, 1, "]"},
    {"[chain \"a]\nmass = 1 kg\n", DIAG_GYM_SYNTAX, 1, 1, "quote"},
    {"[gym] bar = 20 kg\n", DIAG_GYM_SYNTAX, 1, 1, "after the ]"},
    {"[band \"b\"]\nflat = 1 m\ntension = 2 m : 3 kg\ntension 1 m : 3 kg = 1\n", DIAG_GYM_SYNTAX, 4, 1, ":"},
    {"[chian \"a\"]\n", DIAG_GYM_BLOCK, 1, 2, "'chain'"},
    {"[chain]\n", DIAG_GYM_BLOCK, 1, 2, "label"},
    {"[gym \"hall\"]\n", DIAG_GYM_BLOCK, 1, 2, "no label"},
    {"[setup \"2nd\"]\nheight = 1 m\n", DIAG_GYM_BLOCK, 1, 1, "letter"},
    {"[gym]\n   bra = 20 kg\n", DIAG_GYM_KEY, 2, 4, "'bar'"},
    {"[gym]\nwheels = 4\n", DIAG_GYM_KEY, 2, 1, "plates"},
    {"[columns]\nwieght = a\n", DIAG_GYM_KEY, 2, 1, "'weight'"},
    {"[gym]\nbar = 20\n", DIAG_GYM_UNIT, 2, 7, "no unit"},
    {"[gym]\nbar = 20 m\n", DIAG_GYM_UNIT, 2, 7, "is a length, but a mass is needed"},
    {"[gym]\nbar = 20 stone\n", DIAG_GYM_UNIT, 2, 10, "not a unit of mass"},
    {"[setup \"s\"]\nheight = 1 m\nspread = 3 kg\n", DIAG_GYM_UNIT, 3, 10, "is a mass, but a length is needed"},
    {"[gym]\nu-mass = 2\n", DIAG_GYM_UNIT, 2, 10, "percentage"},
    {"[gym]\nbar = heavy\n", DIAG_GYM_VALUE, 2, 7, "not a number"},
    {"[gym]\nbar = 20,5 kg\n", DIAG_GYM_VALUE, 2, 7, "decimal"},
    {"[gym]\nbar = 2000 kg\n", DIAG_GYM_VALUE, 2, 7, "range"},
    {"[gym]\nbar = 20 kg or so\n", DIAG_GYM_VALUE, 2, 13, "'or so'"},
    {"[gym]\nbar =\n", DIAG_GYM_VALUE, 2, 1, "no value"},
    {"[gym]\nplates = 20 x\n", DIAG_GYM_VALUE, 2, 13, "not a number"},
    {"[gym]\nplates = 20x0\n", DIAG_GYM_VALUE, 2, 10, "range"},
    {"[gym]\nformula = eply\n", DIAG_GYM_VALUE, 2, 11, "'epley'"},
    {"[gym]\ndates = us\n", DIAG_GYM_VALUE, 2, 9, "iso"},
    {"[chain \"a\"]\nmass = 1 kg\ndefault = maybe\n", DIAG_GYM_VALUE, 3, 11, "yes"},
    {"[chain \"a\"]\nmass = 1 kg\nleader = 0.3 m; 0.2 kg\n", DIAG_GYM_VALUE, 3, 15, "not a number"},
    {"[chain \"a\"]\nsize = 13 mm\nstandard = DIN 1\nlength = 1 m\n", DIAG_GYM_VALUE, 1, 1, "13 mm"},
    {"[chain \"c\"]\nmass = 9 kg\nlength = 2 m\nstrands = 1.5 m, 0.7 m\n", DIAG_GYM_VALUE, 4, 11, "equal"},
    {"[chain \"c\"]\nmass = 9 kg\nlength = 2 m\nstrands = 1.5 m\n", DIAG_GYM_VALUE, 4, 16, ""},
    {"[band \"b\"]\nflat = 1 m\ntension = 2 m 3 kg\ntension = 2 m : 3 kg\n", DIAG_GYM_VALUE, 3, 11, ":"},
    {"[band \"b\"]\nflat = 1 m\ntension = 0.9 m : 3 kg\ntension = 2 m : 3 kg\n", DIAG_GYM_VALUE, 3, 11, "flat"},
    {"[band \"b\"]\nflat = 1 m\ntension = 2 m : 3 kg\ntension = 2 m : 4 kg\n", DIAG_GYM_VALUE, 4, 11, "line 3"},
    {"[band \"b\"]\nflat = 1 m\ntension = 2 m : 9 kg\ntension = 1.5 m : 10 kg\n", DIAG_GYM_VALUE, 3, 11, "falls"},
    {"[band \"b\"]\nflat = 1 m\ntension = 2 m : 9 kg\ntension-down = 2 m 3 kg\n", DIAG_GYM_VALUE, 4, 16, ":"},
    {"[band \"b\"]\nflat = 1 m\ntension = 2 m : 9 kg\ntension-down = 2 m : 3 kg\ntension-down = 1.5 m : 4 kg\n",
     DIAG_GYM_VALUE, 4, 16, "falls"},
    {"[band \"b\"]\nflat = 1 m\ntension = 2 m : 9 kg\ntension = 1.5 m : 5 kg\ntension-down = 1.5 m : 5.5 kg\n",
     DIAG_GYM_REMARK, 5, 16, "let go"},
    {"[band \"b\"]\nflat = 1 m\ntension = 2 m : 3 kg\npair = c\n", DIAG_GYM_VALUE, 4, 8, "'c'"},
    {"[band \"b\"]\nflat = 1 m\nlaw = mooney-rivlin 3 kg range 1 m to 2 m\ntension = 2 m : 3 kg\n", DIAG_GYM_VALUE, 3,
     7, "2 coefficients"},
    {"[band \"b\"]\nflat = 1 m\nlaw = neo-hookean -3 range 1.1 m to 2 m\n", DIAG_GYM_VALUE, 1, 1, "push"},
    {"[band \"b\"]\nflat = 1 m\nlaw = neo-hookean 3 range 2 m to 1.1 m\ntension = 2 m : 3 kg\n", DIAG_GYM_VALUE, 3, 26,
     "shorter"},
    {"[band \"b\"]\nflat = 1 m\nlaw = mooney-rivln 3 kg\ntension = 2 m : 3 kg\n", DIAG_GYM_VALUE, 3, 7,
     "mooney-rivlin"},
    {"[band \"b\"]\nflat = 1 m\nlaw = measured\ntension = 2 m : 3 kg\n", DIAG_GYM_REMARK, 1, 1, "one point"},
    {"[lifter \"L\"]\nmax = squat 130 kg 2025-13-01\n", DIAG_GYM_VALUE, 2, 20, "not a date"},
    {"[lifter \"L\"]\nmax = squat 130 kg\n", DIAG_GYM_VALUE, 2, 19, "missing"},
    {"[lifter \"L\"]\nmax = 130 kg 2025-12-01\n", DIAG_GYM_VALUE, 2, 7, "no lift"},
    {"[lifter \"L\"]\nmax = sqaut 130 kg 2025-12-01\n", DIAG_GYM_REMARK, 2, 7, "'squat'"},
    {"[lifter \"L\"]\nheights = squat 1.4 m 0.78 m\n", DIAG_GYM_VALUE, 2, 17, "below"},
    {"[lifter \"L\"]\nheights = squat 0.7 m 1.4 m\nheights = back squat 0.7 m 1.4 m\n", DIAG_GYM_DOUBLED, 3, 11,
     "squat"},
    {"[lift \"squat\"]\nsetup = pegs\n", DIAG_GYM_VALUE, 2, 9, "'pegs'"},
    {"[lift \"a\"]\nalias = c\n[lift \"b\"]\nalias = C\n", DIAG_GYM_DOUBLED, 4, 9, "\"a\""},
    {"[limits]\nchain-swing = off\n", DIAG_GYM_REMARK, 2, 1, "chain-swings"},
    {"[limits]\nband-aged = soon\n", DIAG_GYM_VALUE, 2, 13, "not a number"},
    {"[gym]\nbar = 20 kg\nbar = 25 kg\n", DIAG_GYM_DOUBLED, 3, 1, "twice"},
    {"[gym]\nbar = 20 kg\n[ gym ]\nbar = 25 kg\n", DIAG_GYM_DOUBLED, 3, 3, "line 1"},
    {"[chain \"a\"]\nmass = 1 kg\n[chain \"A\"]\nmass = 2 kg\n", DIAG_GYM_DOUBLED, 3, 2, "line 1"},
    {"[chain \"a\"]\nmass = 1 kg\ndefault = yes\n[chain \"b\"]\nmass = 2 kg\ndefault = yes\n", DIAG_GYM_DOUBLED, 6, 11,
     "line 3"},
    {"[band \"b\"]\nflat = 1 m\ntension = 2 m : 3 kg\n[band \"b\"]\nflat = 1 m\ntension = 2 m : 4 kg\n",
     DIAG_GYM_DOUBLED, 4, 1, "line 1"},
    {"[gym]\nplates = 20 10 20\n", DIAG_GYM_DOUBLED, 2, 16, "twice"},
    {"[chain \"a\"]\nlength = 1 m\n", DIAG_GYM_MISSING, 1, 1, "mass or size"},
    {"[chain \"a\"]\nsize = 13 mm\nlength = 1 m\n", DIAG_GYM_MISSING, 1, 1, "standard"},
    {"[band \"b\"]\ntension = 2 m : 3 kg\n", DIAG_GYM_MISSING, 1, 1, "flat"},
    {"[band \"b\"]\nflat = 1 m\n", DIAG_GYM_MISSING, 1, 1, "tension"},
    {"[band \"b\"]\nflat = 1 m\nlaw = neo-hookean 3 kg\n", DIAG_GYM_MISSING, 1, 1, "range"},
    {"[setup \"s\"]\noffset = 1 m\n", DIAG_GYM_MISSING, 1, 1, "height"},
    {"[gym]\n; caf\xC3\xA9\nbar = caf\xC3\xA9 kg\n", DIAG_GYM_VALUE, 3, 7, "caf\xC3\xA9"},
};

START_TEST(test_slips)
{
    for (size_t i = 0; i < sizeof slips / sizeof *slips; i++) {
        diags = diags_new(arena);
        read_text(slips[i].text);
        const struct diag *diag = diags_first(diags);
        ck_assert_msg(diag, "nothing said of %s", slips[i].text);
        ck_assert_msg(diag->id == slips[i].id && diag->at.line == slips[i].line && diag->at.column == slips[i].column &&
                          (strstr(diag->message, slips[i].words) || (diag->hint && strstr(diag->hint, slips[i].words))),
                      "%s: %s at %u:%u: %s (%s)", slips[i].text, diag_name(diag->id), diag->at.line, diag->at.column,
                      diag->message, diag->hint ? diag->hint : "");
        ck_assert_msg(!diag->next, "%s: then %s", slips[i].text, diag->next ? diag->next->message : "");
    }
}
END_TEST

/* What is wrong is left out, the rest is used; a block that was left out leaves nothing to the next. */
START_TEST(test_rest_is_used)
{
    const struct gym *gym = read_text(
        "[band \"bad\"]\nflat = 1 m\ntension = 1.5 m : 9 kg\ntension = 2 m : 8 kg\nhitch = 3 cm\n"
        "[band \"good\"]\nflat = 1.04 m\ntension = 1.6 m : 27 kg\ntension = 1.2 m : 12 kg\n"
        "[chain \"bad\"]\ndefault = yes\nlength = 1 m\n"
        "[chain \"good\"]\nmass = 7 kg\nlength = 9 stone\n");
    ck_assert_uint_eq(gym->band_count, 1);
    ck_assert(gym->bands[0].calibrations[0].point_count == 2 && isnan(gym->bands[0].hitch_m));
    ck_assert_uint_eq(gym->chain_count, 1);
    ck_assert(!gym->chains[0].is_default && isnan(gym->chains[0].length_m));
    ck_assert_uint_eq(diags_total(diags, SEVERITY_ERROR), 3);
}
END_TEST

/* inih would cut these in silence. */
START_TEST(test_long_lines)
{
    const char *text = arena_printf(arena, "[chain \"%0*d\"]\nmass = 1 kg ; %0*d\n# %0*d\nlength = 1 m%*s1\n", 70, 1,
                                    150, 2, 180, 3, 180, "");
    const struct gym *gym = read_text(text);
    ck_assert_uint_eq(gym->chain_count, 1);
    ck_assert_uint_eq(strlen(gym->chains[0].label), 70);
    const struct diag *diag = diags_first(diags);
    ck_assert(diag && !diag->next && diag->id == DIAG_GYM_SYNTAX && diag->at.line == 4);
}
END_TEST

START_TEST(test_odd_bytes)
{
    static const char wide[] = "\xFF\xFE[\0g\0y\0m\0]\0\n\0u\0n\0i\0t\0=\0l\0b\0\n\0";
    const struct gym *gym = gym_read_memory(arena, "gym.ini", wide, sizeof wide - 1, diags);
    ck_assert(gym && gym->unit_said && gym->unit == UNIT_LB && !diags_first(diags));
    static const char nul[] = "[gym]\nbar = 25 kg\nunit = k\0g\n";
    gym = gym_read_memory(arena, "gym.ini", nul, sizeof nul - 1, diags);
    ck_assert(gym && gym->bar_kg == 25 && !gym->unit_said);
    ck_assert(diags_first(diags) && diags_first(diags)->at.line == 3);
    ck_assert_ptr_null(gym_read(arena, "/nowhere/gym.ini", diags));
    ck_assert_uint_eq(diags_total(diags, SEVERITY_FAILURE), 1);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("gym file");
    TCase *cases = tcase_create("all");
    tcase_add_checked_fixture(cases, begin, end);
    tcase_add_test(cases, test_gym_block);
    tcase_add_test(cases, test_formulas);
    tcase_add_test(cases, test_limits);
    tcase_add_test(cases, test_chains);
    tcase_add_test(cases, test_strands);
    tcase_add_test(cases, test_bands);
    tcase_add_test(cases, test_bands_let_go);
    tcase_add_test(cases, test_people);
    tcase_add_test(cases, test_slips);
    tcase_add_test(cases, test_rest_is_used);
    tcase_add_test(cases, test_long_lines);
    tcase_add_test(cases, test_odd_bytes);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
