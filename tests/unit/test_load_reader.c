/* Load expressions and notes: what each wording means, as the canonical expression; NULL: refused, with the column
 * (from 0) of the fault. */
#include "reading/load/load_reader.h"

#include "base/text.h"
#include "model/set.h"
#include "reading/load/load_combine.h"
#include "reading/load/load_lexemes.h"
#include "reading/load/note_reader.h"

#include <check.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

static struct arena *arena;
static struct loads *loads;
static struct load_reader *reader;
static const struct load_style kilograms = {UNIT_KG, '.'};

/* Two chains, three bands, two set-ups: enough for every kind of name. */
static const struct gym *small_gym(void)
{
    static struct chain chains[] = {{.label = "long", .is_default = true, .mass_kg = 8.4},
                                    {.label = "short", .mass_kg = 5.2}};
    static struct band bands[] = {{.label = "b11"}, {.label = "b26"}, {.label = "b48"}};
    static struct setup setups[] = {{.name = "pegs"}, {.name = "rack-top"}};
    struct gym *gym = gym_new(arena);
    gym->chains = chains, gym->chain_count = 2;
    gym->bands = bands, gym->band_count = 3;
    gym->setups = setups, gym->setup_count = 2;
    return gym;
}

static void begin(void)
{
    arena = arena_new();
    loads = loads_new(arena);
    reader = load_reader_new(arena, loads, small_gym());
}

static void end(void)
{
    load_reader_free(reader);
    arena_free(arena);
}

static const struct
{
    const char *text, *canonical;
    size_t column;
} wordings[] = {
    {"100", "100 kg", 0},
    {"102.5kg", "102.5 kg", 0},
    {"225 lb", "102.05828325 kg", 0},
    {"225 lbs", "102.05828325 kg", 0},
    {"100 kilos", "100 kg", 0},
    {"bar", "bar", 0},
    {"60%", "60%", 0},
    {"72.5 %", "72.5%", 0},
    {"100 kg", "100 kg", 0},
    {"60", "60 kg", 0},
    {"100 + 30 kg chain", "100 kg + 30 kg chain", 0},
    {"100 + chains 30kg", "100 kg + 30 kg chain", 0},
    {"100 + 30kg of chain", "100 kg + 30 kg chain", 0},
    {"100 kg + 15 kg chain/side", "100 kg + 30 kg chain", 0},
    {"100 with 15 kg chains per side", "100 kg + 30 kg chain", 0},
    {"100 w/ 15kg ch a side", "100 kg + 30 kg chain", 0},
    {"100 plus 15 kg chain each side", "100 kg + 30 kg chain", 0},
    {"100 and 15 kg chain ea side", "100 kg + 30 kg chain", 0},
    {"100 kg, both sides 15 kg chain", "100 kg + 30 kg chain", 0},
    {"100 + 2 x 7 kg chain", "100 kg + 1 x 7 kg chain/side", 0},
    {"100 kg + 2x7kg chain/side", "100 kg + 2 x 7 kg chain/side", 0},
    {"100 + 2 chains of 7 kg per side", "100 kg + 2 x 7 kg chain/side", 0},
    {"100 + chains 2 per side", "100 kg + 2 chains/side", 0},
    {"100 + chains 2", "100 kg + 1 chain/side", 0},
    {"1,000,00", NULL, 5},
    {"100, 20", NULL, 3},
    {"100 + 12 x chain", "100 kg + 6 x chains/side", 0},            /* without the x, 6 might be a mass */
    {"100 + releasers \"abc7\"", "100 kg + releasers \"abc7\"", 0}, /* bare, it would not be understood */
    {"100 + 10 x reverse bands b26", "100 kg + 5 x reverse bands b26/side", 0},
    {"100 + chain 2/side", NULL, 12},
    {"100 + 2 chains (9 kg each) per side", "100 kg + 2 x 9 kg chain/side", 0},
    {"100 + 2 pr chains", "100 kg + 2 chains/side", 0},
    {"100 + 2 chains @ 7 kg", "100 kg + 1 x 7 kg chain/side", 0},
    {"100 + 30 lb chain", "100 kg + 13.6077711 kg chain", 0},
    {"100 + 30 kg chain in all", "100 kg + 30 kg chain", 0},
    {"100 + 15 KG CHAIN / SIDE", "100 kg + 30 kg chain", 0},
    {"100 + 2 × 7 kg chain", "100 kg + 1 x 7 kg chain/side", 0},
    {"60 + 2½ kg chain per side", "60 kg + 5 kg chain", 0},
    {"100 + chain 7 kg/side on 40 cm leader", "100 kg + 14 kg chain on 0.4 m leader", 0},
    {"100 + 2 chains/side", "100 kg + 2 chains/side", 0},
    {"100 + double chain per side", "100 kg + 2 chains/side", 0},
    {"100 + 2 chains", "100 kg + 1 chain/side", 0},
    {"100 + a pair of chains", "100 kg + 1 chain/side", 0},
    {"60 + one pair chains", "60 kg + 1 chain/side", 0},
    {"100 + 2 pairs of chains", "100 kg + 2 chains/side", 0},
    {"100 + chain long x2/side", "100 kg + 2 chains \"long\"/side", 0},
    {"140 + 2 long chains/side", "140 kg + 2 chains \"long\"/side", 0},
    {"100 + 2 x chain \"long\" per side", "100 kg + 2 chains \"long\"/side", 0},
    {"100 + 2 short chains/side", "100 kg + 2 chains \"short\"/side", 0},
    {"100 + 1 chain/side", "100 kg + 1 chain/side", 0},
    {"100 + 2 long chains/side looped", "100 kg + 2 chains \"long\"/side doubled", 0},
    {"60% + 2 chains/side", "60% + 2 chains/side", 0},
    {"100 + band b26", "100 kg + band b26", 0},
    {"100 + b26 bands", "100 kg + band b26", 0},
    {"100 + pair of b26", "100 kg + band b26", 0},
    {"100 + 2 bands b26", "100 kg + band b26", 0},
    {"60 + band b11", "60 kg + band b11", 0},
    {"100 + 2 bands b26/side", "100 kg + 2 bands b26/side", 0},
    {"100 + 2 pairs b11 bands", "100 kg + 2 bands b11/side", 0},
    {"100 + band b26 + band b11", "100 kg + band b26 + band b11", 0},
    {"100 + band b26/b48", "100 kg + band b26/b48", 0},
    {"100 + band b26 doubled", "100 kg + band b26 doubled", 0},
    {"60 + doubled b11 bands", "60 kg + band b11 doubled", 0},
    {"140 + band b26 doubled @ pegs", "140 kg + band b26 doubled @ pegs", 0},
    {"100 + straight b11 band", "100 kg + band b11", 0},
    {"100 + band b26 choked", "100 kg + band b26 choked", 0},
    {"100 + band 40 kg", "100 kg + bands 40 kg", 0},
    {"100 + 40kg bands", "100 kg + bands 40 kg", 0},
    {"100 + bands @ 40 kg top", "100 kg + bands 40 kg", 0},
    {"100 + 20 kg band/side", "100 kg + bands 40 kg", 0},
    {"100 + bands 12-40 kg", "100 kg + bands 12 kg bottom 40 kg top", 0},
    {"100 + bands 12>40kg", "100 kg + bands 12 kg bottom 40 kg top", 0},
    {"100 + bands 12 to 40 kg", "100 kg + bands 12 kg bottom 40 kg top", 0},
    {"100 + bands 40 top 12 bottom", "100 kg + bands 12 kg bottom 40 kg top", 0},
    {"140 + reverse band b48 @ rack-top", "140 kg + reverse band b48 @ rack-top", 0},
    {"140 + rev bands b11 @ rack-top", "140 kg + reverse band b11 @ rack-top", 0},
    {"90 + b26 reverse @ rack-top", "90 kg + reverse band b26 @ rack-top", 0},
    {"140 + reverse band 35 kg", "140 kg + reverse bands 35 kg", 0},
    {"140 + reverse bands 35 bottom 5 top", "140 kg + reverse bands 35 kg bottom 5 kg top", 0},
    {"100 + releasers 20 kg", "100 kg + 20 kg releaser", 0},
    {"100 + 2 x 10 kg releasers", "100 kg + 1 x 10 kg releaser/side", 0},
    {"90 + 2 chains/side + band b11", "90 kg + 2 chains/side + band b11", 0},
    {"80 kg + band b11 doubled + 15 kg chain/side", "80 kg + band b11 doubled + 30 kg chain", 0},
    {"100 + 1 chain", NULL, 6},
    {"100 + 3 chains", NULL, 6},
    {"100 + 20 kg sandbag", NULL, 12},
    {"100 stone", NULL, 4},
    {"heavy", NULL, 0},
    {"100 + bands top 40 kg, bottom 12 kg", "100 kg + bands 12 kg bottom 40 kg top", 0},
    {"100 + bands 12 at the bottom, 40 at the top", "100 kg + bands 12 kg bottom 40 kg top", 0},
    {"100 + bands, 12 bottom and 40 top", "100 kg + bands 12 kg bottom 40 kg top", 0},
    {"100 + bands 12 kg at the bottom and 40 kg at the top", "100 kg + bands 12 kg bottom 40 kg top", 0},
    {"100 + chains (15 kg/side)", "100 kg + 30 kg chain", 0},
    {"100 + band b26 (doubled)", "100 kg + band b26 doubled", 0},
    {"60 + 40", "100 kg", 0},
    {"100 + 15 kg", "115 kg", 0},
    {"100 + 5 chains", NULL, 6},
    {"100 + 7 kg chains each", "100 kg + 14 kg chain", 0},
    {"100 + 2 chains 30 kg", NULL, 6},
    {"100 + 15 kg chain/side total", NULL, 6},
    {"100 + 2 x 15 kg chain total", "100 kg + 1 x 15 kg chain/side", 0},
    {"100 + 10 chain", NULL, 6},
    {"100 + 7 chain", NULL, 6},
    {"100 + 25 chain", "100 kg + 25 kg chain", 0},
    {"100 + 7.5 chain", "100 kg + 7.5 kg chain", 0},
    {"100 + single chain", NULL, 6},
    {"100 + single chain per side", "100 kg + 1 chain/side", 0},
    {"100 + 1 band b26", NULL, 6},
    {"100 + 3 bands b26", NULL, 6},
    {"100 + 4 bands b26", "100 kg + 2 bands b26/side", 0},
    {"100 + single band b26", "100 kg + band b26", 0},
    {"100 + one band b26", NULL, 6},
    {"100 + double b26", NULL, 6},
    {"100 + double band b26", NULL, 6},
    {"100 + chains", "100 kg + chains", 0},
    {"100 with bands", "100 kg + bands", 0},
    {"100 + band x41", NULL, 12},
    {"100 + x41 band doubled", NULL, 7},
    {"100 + pair of x41", NULL, 15},
    {"100 + grip band", "100 kg + band \"grip\"", 0},
    {"100 + 2 grip bands", "100 kg + band \"grip\"", 0},
    {"100 + band 41 mm", "100 kg + band \"41 mm\"", 0},
    {"100 + 41mm band doubled", "100 kg + band \"41 mm\" doubled", 0},
    {"100 +", NULL, 4},
    {"100 + + 2 chains", NULL, 6},
    {"+ 2 chains", NULL, 0},
    {"bar + 40/side", "bar + 80 kg", 0},
    {"60/side", NULL, 0},
    {"20 + 40/side", NULL, 5},
    {"BW", "BW", 0},
    {"BW+10", "BW+10 kg", 0},
    {"BW + 10 kg + 2 chains", "BW+10 kg + 1 chain/side", 0},
    {"bw-15", "BW-15 kg", 0},
    {"bodyweight + band b26 reverse", "BW + reverse band b26", 0},
    {"100 + 7,5 kg chain", NULL, 6},
    {"1,000 kg", "1000 kg", 0},
    {"1,5", NULL, 0},
    {"100kg+2chains/side", "100 kg + 2 chains/side", 0},
    {"100 + 2chains", "100 kg + 1 chain/side", 0},
    {"100 + two chains", "100 kg + 1 chain/side", 0},
    {"100 + a chain per side", "100 kg + 1 chain/side", 0},
    {"100 + three chains per side", "100 kg + 3 chains/side", 0},
    {"100 + chain/side", "100 kg + 1 chain/side", 0},
    {"100 + chains per side", "100 kg + chains", 0},
    {"100 + b26", "100 kg + band b26", 0},
    {"100 + B26 doubled @ PEGS", "100 kg + band b26 doubled @ pegs", 0},
    {"100 + b26 on pegs", "100 kg + band b26 @ pegs", 0},
    {"100 + band b26 on the pegs", "100 kg + band b26 @ pegs", 0},
    {"100 + band b26 @ nowhere", "100 kg + band b26 @ nowhere", 0},
    {"100 + 2 x 20 kg bands", "100 kg + bands 40 kg", 0},
    {"100 + 2 bands 20 kg", NULL, 6},
    {"100 + 2 bands of 20 kg", "100 kg + bands 40 kg", 0},
    {"100 + 2 bands of 20 kg per side", "100 kg + bands 80 kg", 0},
    {"100 + bands 40-12 kg", NULL, 6},
    {"100 + reverse bands 5-35", NULL, 6},
    {"100 + reverse bands 35-5", "100 kg + reverse bands 35 kg bottom 5 kg top", 0},
    {"100 + reverse bands 35 kg bottom", "100 kg + reverse bands 35 kg", 0},
    {"100 + bands 12 kg bottom", NULL, 6},
    {"100 + 2 x b26", "100 kg + band b26", 0},
    {"100 + 2x b26/side", "100 kg + 2 bands b26/side", 0},
    {"100 + x2 b26", "100 kg + band b26", 0},
    {"100 + band b26 x2", "100 kg + band b26", 0},
    {"100 + 1 x 7 kg chain/side", "100 kg + 1 x 7 kg chain/side", 0},
    {"100 + 3 x 7 kg chain", NULL, 6},
    {"100 + 7 kg x 2 chains/side", "100 kg + 2 x 7 kg chain/side", 0},
    {"100 + 7 kg chain x2 per side", "100 kg + 2 x 7 kg chain/side", 0},
    {"100 + long chain", "100 kg + chains \"long\"", 0},
    {"100 + long chains", "100 kg + chains \"long\"", 0},
    {"100 + 2 long chains", "100 kg + 1 chain \"long\"/side", 0},
    {"100 + long chain/side + short chain/side", "100 kg + 1 chain \"long\"/side + 1 chain \"short\"/side", 0},
    {"100 + \"long\" chain/side", "100 kg + 1 chain \"long\"/side", 0},
    {"100 + chain 15 kg per side on a 0.4 m leader", "100 kg + 30 kg chain on 0.4 m leader", 0},
    {"100 + 15 kg chain/side, 40 cm leader", "100 kg + 30 kg chain on 0.4 m leader", 0},
    {"100 + 2 chains/side with 30 cm leader", "100 kg + 2 chains/side on 0.3 m leader", 0},
    {"100 + 2 chains/side, doubled", "100 kg + 2 chains/side doubled", 0},
    {"100 + half chain", "100 kg + chains \"half\"", 0},
    {"100 + 20kg of chains each side", "100 kg + 40 kg chain", 0},
    {"100 + 2 × 10kg chains on each side", "100 kg + 2 x 10 kg chain/side", 0},
    {"100 + band", "100 kg + bands", 0},
    {"100 % + 2 chains", "100% + 1 chain/side", 0},
    {"60% of 1RM + band b26", "60% + band b26", 0},
    {"heavy chains 20 kg", "+ 20 kg chain \"heavy\"", 0},
    {"100 and a pair of bands b11", "100 kg + band b11", 0},
    {"80 lb + 20 lb chain", "36.2873896 kg + 9.0718474 kg chain", 0},
    {"80# + 20# chain/side", "36.2873896 kg + 18.1436948 kg chain", 0},
    {"100 + 10 kg chain + 10 kg chain", "100 kg + 10 kg chain + 10 kg chain", 0},
    {"100 + chain 20 kg band 30 kg", NULL, 18},
    {"100 + ½ kg chain/side", "100 kg + 1 kg chain", 0},
    {"100 + weight releasers 20 kg", "100 kg + 20 kg releaser", 0},
    {"100 + releaser 10 kg/side", "100 kg + 20 kg releaser", 0},
    {"100 + releasers", "100 kg + releasers", 0},
    {"100 + bands b26 and b11", "100 kg + band b26 + band b11", 0},
    {"100 + bands: b26", "100 kg + band b26", 0},
    {"100 + 2 chains ea.", "100 kg + 2 chains/side", 0},
    {"100 + 15 kg chain ea", "100 kg + 30 kg chain", 0},
    {"100 + 2 x 7 kg chain ea.", "100 kg + 2 x 7 kg chain/side", 0},
    {"100 + 2 chains of 7 kg each", NULL, 6},
    {"100 + bands 12 - 40 kg per side", "100 kg + bands 24 kg bottom 80 kg top", 0},
    {"100 + bands 12–40 kg", "100 kg + bands 12 kg bottom 40 kg top", 0},
    {"100 + bands 12kg → 40kg", "100 kg + bands 12 kg bottom 40 kg top", 0},
    {"100 + 12-40 kg bands", "100 kg + bands 12 kg bottom 40 kg top", 0},
    {"100 + 12 to 40kg of band", "100 kg + bands 12 kg bottom 40 kg top", 0},
    {"100 + double chains", "100 kg + 1 chain/side", 0},
    {"100 kg with 2 pairs of long chains doubled", "100 kg + 2 chains \"long\"/side doubled", 0},
    {"100 + 2 chains and doubled b11", "100 kg + 1 chain/side + band b11 doubled", 0},
    {"-20", NULL, 0},
    {"100 + -20 kg chain", NULL, 6},
    {"0x10", NULL, 0},
    {"1e400", NULL, 0},
    {"100 + 999999999999 chains/side", NULL, 6},
    {"100 + chain 7 kg/side each side", "100 kg + 14 kg chain", 0},
    {"100 + 4 chains per side in all", NULL, 6},
    {"100 + bands b26 per side doubled", "100 kg + band b26 doubled", 0},
    {"100 + long chain/side", "100 kg + 1 chain \"long\"/side", 0},
    {"100 + a pair of 20 kg bands", "100 kg + bands 40 kg", 0},
    {"100 + pair of 7 kg chains", "100 kg + 1 x 7 kg chain/side", 0},
    {"body weight + 10", "BW+10 kg", 0},
    {"100 + chain weight 20 kg", "100 kg + 20 kg chain", 0},
    {"100 + band tension 40 kg", "100 kg + bands 40 kg", 0},
    {"100 + resistance band b11", "100 kg + band b11", 0},
    {"3000", NULL, 0},
    {"100 + b26 left, b48 right", NULL, 10},
    {"100 + 12 kg chain left + 12 kg chain right", NULL, 18},
    {"100 + band work", NULL, 6},
    {"100 + 2 chains/side @8", NULL, 20}, /* a mass or an effort? */
    {"100 + 2 chains @ 12", "100 kg + 1 x 12 kg chain/side", 0},
    {"BW \u2212 15", "BW-15 kg", 0},
    {"100 + bands 12\u221240 kg", "100 kg + bands 12 kg bottom 40 kg top", 0},
    {"100 + bands from 12 to 40 kg", "100 kg + bands 12 kg bottom 40 kg top", 0},
    {"100kg+15kgchain/side", "100 kg + 30 kg chain", 0},
    {"100 kg broad band", NULL, 7},
    {"100 kg band aid", NULL, 7},
    {"102,5 kg", NULL, 0},
    {"100 + 12,5 kg chain", NULL, 6},
    {"100 + chains x2", "100 kg + 1 chain/side", 0},
    {"100 + “long” chain x2/side", "100 kg + 2 chains \"long\"/side", 0},
};

START_TEST(each_wording_means_what_it_says)
{
    struct load_fault fault;
    const struct load *load = load_read(reader, wordings[_i].text, kilograms, &fault);
    if (!wordings[_i].canonical) {
        ck_assert_msg(!load, "'%s' was read as '%s'", wordings[_i].text, load ? load_print(arena, load) : "");
        ck_assert_ptr_nonnull(fault.message);
        ck_assert_uint_eq(fault.column, wordings[_i].column);
        return;
    }
    ck_assert_msg(load, "'%s' was refused: %s", wordings[_i].text, fault.message);
    ck_assert_str_eq(load_print(arena, load), wordings[_i].canonical);
}
END_TEST

START_TEST(canonical_expressions_read_back)
{
    struct load_fault fault;
    const struct load *load = load_read(reader, wordings[_i].text, kilograms, &fault);
    if (!load || !load->piece_count)
        return;
    const struct load *again = load_read(reader, arena_printf(arena, "50 kg + %s", load->ar), kilograms, &fault);
    ck_assert_msg(again, "'%s' does not read back: %s", load->ar, fault.message);
    ck_assert_str_eq(again->ar, load->ar);
    ck_assert_ptr_eq(load_read(reader, wordings[_i].text, kilograms, &fault), load);
}
END_TEST

static const struct
{
    const char *text, *ar; /* "": no AR */
    size_t column;
    unsigned negated;
    const char *unread;
} notes[] = {
    {"2 chains/side", "2 chains/side", 0, 0, NULL},
    {"15 kg chain per side", "30 kg chain", 0, 0, NULL},
    {"band b26, felt fast", "band b26", 0, 0, NULL},
    {"bands 12-40 kg", "bands 12 kg bottom 40 kg top", 0, 0, NULL},
    {"no chains today", "", 0, 1, NULL},
    {"without bands", "", 0, 2, NULL},
    {"chain removed", "", 0, 1, NULL},
    {"took the bands off", "", 0, 2, NULL},
    {"felt like a chain", "", 0, 0, "felt like a chain"},
    {"band-aid on the thumb", "", 0, 0, NULL},
    {"chained to the desk all week", "", 0, 0, NULL},
    {"broad band was down", "", 0, 0, "broad band was down"},
    {"1 chain", NULL, 0, 0, NULL},
    {"3 chains/side", "3 chains/side", 0, 0, NULL},
    {"20 kg chain", "20 kg chain", 0, 0, NULL},
    {"+ 2 chains/side", "2 chains/side", 0, 0, NULL},
    {"+ grip band", "band \"grip\"", 0, 0, NULL},
    {"grip band (reverse)", "reverse band \"grip\"", 0, 0, NULL},
    {"bands: grip doubled", "band \"grip\" doubled", 0, 0, NULL},
    {"+ chains (5 kg)", "5 kg chain", 0, 0, NULL},
    {"chain 5 kg total", "5 kg chain", 0, 0, NULL},
    {"good, no chains, band b26", "band b26", 0, 1, NULL},
    {"bands felt great", "bands", 0, 0, NULL},
    {"chains were loud", "chains", 0, 0, NULL},
    {"felt good. 2 chains/side. paused", "2 chains/side", 0, 0, NULL},
    {"used 2 chains per side", "2 chains/side", 0, 0, NULL},
    {"next time 2 chains/side", "", 0, 0, "next time 2 chains/side"},
    {"plan: 3 chains", "", 0, 0, "plan: 3 chains"},
    {"2 sets with chains", "", 0, 0, "2 sets with chains"},
    {"with bands", "bands", 0, 0, NULL},
    {"chains", "chains", 0, 0, NULL},
    {"head band", "", 0, 0, "head band"},
    {"felt strong with 2 chains", "", 0, 0, "felt strong with 2 chains"},
    {"slow; band b26 doubled; belt on", "band b26 doubled", 0, 0, NULL},
    {"2 chains/side (felt heavy)", "2 chains/side", 0, 0, NULL},
    {"2 chains/side (no belt)", "2 chains/side", 0, 0, NULL},
    {"2 chains/side (next time three)", "2 chains/side", 0, 0, NULL},
    {"felt ok (2 chains/side)", "2 chains/side", 0, 0, NULL},
    {"felt ok [b26 doubled], slow", "band b26 doubled", 0, 0, NULL},
    {"(belt on) 2 chains/side", "2 chains/side", 0, 0, NULL},
    {"next time (2 chains/side)", "", 0, 0, "next time (2 chains/side)"},
    {"no belt (2 chains/side)", "2 chains/side", 0, 0, NULL},
    {"2 chains/side (no bands)", "2 chains/side", 0, AR_WORD_BAND, NULL},
    {"2 chains (7 kg each) per side", "2 x 7 kg chain/side", 0, 0, NULL},
    {"2 chains/side no belt", "", 0, AR_WORD_CHAIN, "2 chains/side no belt"},
    {"b26 off today", "", 0, AR_WORD_BAND, NULL},
    {"\"2 chains/side\"", "", 0, 0, "\"2 chains/side\""},
    {"\u201c2 chains/side\u201d", "", 0, 0, "\u201c2 chains/side\u201d"},
    {"band aid on the thumb", "", 0, 0, NULL},
    {"bands 12,5 kg", NULL, 6, 0, NULL}, /* a decimal comma in a file of decimal points */
    {"chain 12,5", NULL, 6, 0, NULL},
    {"2 chains/side felt 3,5 of 5", "2 chains/side", 0, 0, NULL},
    {"2 chains/side @8", "2 chains/side", 0, 0, NULL},
    {"2 chains/side then 1 chain/side", "2 chains/side", 0, 0, "then 1 chain/side"},
    {"b26 [left] b48 [right]", NULL, 5, 0, NULL},
    {"b26 left / b48 right", NULL, 4, 0, NULL},
    {"2 chains/side right knee sore", "2 chains/side", 0, 0, NULL},
    {"b26 right after the break", "", 0, 0, "b26 right after the break"},
    {"left b26", "", 0, 0, "left b26"},
    {"band pull-aparts between sets", "", 0, 0, NULL},
    {"band work after, 2 chains/side", "2 chains/side", 0, 0, NULL},
    {"warm-up without chains, then 2 chains/side", "", 0, 1, "then 2 chains/side"},
    {"removed 1 chain", "", 0, 1, NULL},
    {"5 chain links on floor", "", 0, 0, "5 chain links on floor"},
    {"band b26 on the last set", "", 0, 0, "band b26 on the last set"},
    {"b26", "", 0, 0, "b26"},
    {"b26 doubled", "band b26 doubled", 0, 0, NULL},
    {"pair of b26 at pegs", "band b26", 0, 0, NULL},
    {"+ 2 chains/side, belt on", "2 chains/side", 0, 0, NULL},
    {"+ band b11 x2", "band b11", 0, 0, NULL},
    {"+ b11 band per side", "band b11", 0, 0, NULL},
    {"+ b99 band choked", "band b99 choked", 0, 0, NULL},
    {"+ 3 chains each side, tempo 3-1-1", "3 chains/side", 0, 0, NULL},
    {"+ 12.5 kg chain", "12.5 kg chain", 0, 0, NULL},
    {"+ chain 1x5kg per side", "1 x 5 kg chain/side", 0, 0, NULL},
    {"chains on", "chains", 0, 0, NULL},
    {"chains 2/side", "2 chains/side", 0, 0, NULL},
    {"swapped bands after set 2", "", 0, 0, "swapped bands after set 2"},
    {"band tension felt off", "bands", 0, 0, NULL},
    {"reverse band 35 kg", "reverse bands 35 kg", 0, 0, NULL},
    {"releasers 20 kg", "20 kg releaser", 0, 0, NULL},
    {"tempo 3,1,1 with chain 20 kg", "", 0, 0, "1 with chain 20 kg"},
    {"watch band broke", "", 0, 0, "watch band broke"},
    {"2 x 7 kg chains / side + band b11", "2 x 7 kg chain/side + band b11", 0, 0, NULL},
    {"slow off the chest with chains", "", 0, 0, "slow off the chest with chains"},
    {"chains felt off", "chains", 0, 0, NULL},
    {"took chains off", "", 0, 1, NULL},
    {"grip band", "band \"grip\"", 0, 0, NULL},
    {"grip bands felt good", "", 0, 0, "grip bands felt good"},
    {"+ grip band felt good", "band \"grip\"", 0, 0, NULL},
    {"2 chains/side; no bands", "2 chains/side", 0, 2, NULL},
    {"2 chains/side + band b11, no belt", "2 chains/side + band b11", 0, 0, NULL},
    {"first set no bands\nthen b26", "", 0, AR_WORD_BAND, "then b26"},
    {"band b26\nfelt fast", "band b26", 0, 0, NULL},
    /* labels that are common words, and no chain is spoken of */
    {"long day at work", "", 0, 0, NULL},
    {"long", "", 0, 0, NULL},
    {"short on sleep", "", 0, 0, NULL},
    {"short of time; long drive", "", 0, 0, NULL},
    {"2 long days", "", 0, 0, NULL},
    {"5 short hours of sleep", "", 0, 0, NULL},
    {"long warm-up, 2 chains/side", "2 chains/side", 0, 0, NULL},
    {"used long", "", 0, 0, NULL},
    {"not long enough", "", 0, 0, NULL},
    {"+ long", "", 0, 0, NULL},
    {"\"long\" day", "", 0, 0, NULL},
    /* the same labels beside a word for gear, a count or a side */
    {"2 long/side", "2 chains \"long\"/side", 0, 0, NULL},
    {"2 x long per side", "2 chains \"long\"/side", 0, 0, NULL},
    {"2 long", "1 chain \"long\"/side", 0, 0, NULL},
    {"long chains", "chains \"long\"", 0, 0, NULL},
    {"chain \"short\"", "chains \"short\"", 0, 0, NULL},
    {"long x2/side, felt good", "2 chains \"long\"/side", 0, 0, NULL},
    {"short chain/side", "1 chain \"short\"/side", 0, 0, NULL},
    {"b26/b48 doubled", "band b26/b48 doubled", 0, 0, NULL},
    /* ", doubled" belongs to a band before it, and to nothing else */
    {"mini band, doubled", "band \"mini\" doubled", 0, 0, NULL},
    {"2 bands b26/side, choked, slow", "2 bands b26/side choked", 0, 0, NULL},
    {"band b26, doubled over", "band b26", 0, 0, NULL},
    {"2 chains/side, doubled", "2 chains/side", 0, 0, NULL},
    /* each word for gear, hard against a number */
    {"2chains/side", "2 chains/side", 0, 0, NULL},
    {"20kgchains", "20 kg chain", 0, 0, NULL},
    {"20kgch", "20 kg chain", 0, 0, NULL},
    {"", "", 0, 0, NULL},
};

START_TEST(notes_hold_ar_only_where_a_clause_begins_with_it)
{
    struct load_fault fault;
    const struct note_ar *note = note_read(reader, notes[_i].text, kilograms, &fault);
    if (!notes[_i].ar) {
        ck_assert_msg(!note, "'%s' was not refused", notes[_i].text);
        ck_assert_uint_eq(fault.column, notes[_i].column);
        return;
    }
    ck_assert_msg(note, "'%s' was refused: %s", notes[_i].text, fault.message);
    ck_assert_str_eq(note->ar ? note->ar->ar : "", notes[_i].ar);
    ck_assert_uint_eq(note->negated, notes[_i].negated);
    ck_assert_str_eq(note->unread ? note->unread : "", notes[_i].unread ? notes[_i].unread : "");
}
END_TEST

static const struct
{
    const char *text, *ar;
    unsigned limit;
    const char *unread;
} limits[] = {
    {"2 chains/side", "2 chains/side", AR_LIMIT_NONE, NULL},
    {"2 chains/side, last set without", "2 chains/side", AR_LIMIT_NOT_LAST, NULL},
    {"2 chains/side last set no chains", "2 chains/side", AR_LIMIT_NOT_LAST, NULL},
    {"2 chains/side, all but the last", "2 chains/side", AR_LIMIT_NOT_LAST, NULL},
    {"2 chains/side, except on the last set", "2 chains/side", AR_LIMIT_NOT_LAST, NULL},
    {"2 chains/side, without on the last set", "2 chains/side", AR_LIMIT_NOT_LAST, NULL},
    {"2 chains/side, first 5 sets", "2 chains/side", AR_LIMIT_FIRST + 5, NULL},
    {"first two sets only, 2 chains/side", "2 chains/side", AR_LIMIT_FIRST + 2, NULL},
    {"2 chains/side (first 3 sets)", "2 chains/side", AR_LIMIT_FIRST + 3, NULL},
    {"2 chains/side, first set only", "2 chains/side", AR_LIMIT_FIRST + 1, NULL},
    {"2 chains/side, only the top set", "2 chains/side", AR_LIMIT_TOP_SET, NULL},
    {"2 chains/side on the top set only", "2 chains/side", AR_LIMIT_TOP_SET, NULL},
    {"2 chains/side, all sets", "2 chains/side", AR_LIMIT_NONE, NULL},
    {"2 chains/side for all 5 sets", "2 chains/side", AR_LIMIT_NONE, NULL},
    {"2 chains/side, last rep slow", "2 chains/side", AR_LIMIT_NONE, NULL},
    {"2 chains/side, better than last week", "2 chains/side", AR_LIMIT_NONE, NULL},
    {"2 chains/side, sets 2 to 4", "2 chains/side", AR_LIMIT_OTHER, "sets 2 to 4"},
    {"2 chains/side, first 2 sets without", "2 chains/side", AR_LIMIT_OTHER, "first 2 sets without"},
    {"2 chains/side, last 3 sets only", "2 chains/side", AR_LIMIT_OTHER, "last 3 sets only"},
    {"2 chains/side, first 3 sets, last set without", "2 chains/side", AR_LIMIT_OTHER, NULL},
    {"last set without chains", "", AR_LIMIT_NONE, NULL},
    {"only the top set", "", AR_LIMIT_NONE, NULL},
};

START_TEST(notes_limit_themselves_in_three_forms)
{
    struct load_fault fault;
    const struct note_ar *note = note_read(reader, limits[_i].text, kilograms, &fault);
    ck_assert_msg(note, "'%s' was refused", limits[_i].text);
    ck_assert_str_eq(note->ar ? note->ar->ar : "", limits[_i].ar);
    ck_assert_msg(note->limit == limits[_i].limit, "'%s' has the limit %u", limits[_i].text, note->limit);
    if (limits[_i].unread)
        ck_assert_pstr_eq(note->unread, limits[_i].unread);
}
END_TEST

/* Each word of the notation that names gear, in a phrase that is AR by it. */
static const struct
{
    const char *word;
    enum word_kind kind;
} gear_words[] = {
#define X(word, kind, number) {word, kind},
#include "model/notation.def"
#undef X
};

static const char *phrase_with(const char *word, enum word_kind kind)
{
    switch (kind) {
    case WORD_CHAIN:
        return arena_printf(arena, "20 kg %s", word);
    case WORD_RELEASER:
        return arena_printf(arena, "20 kg %s", word);
    case WORD_BAND:
        return arena_printf(arena, "b99 %s", word);
    case WORD_PAIR:
        return arena_printf(arena, "%s of b99", word);
    default: /* reverse, choked, doubled */
        return arena_printf(arena, "b99 %s", word);
    }
}

START_TEST(each_word_for_gear_is_read_in_cell_and_note)
{
    struct load_fault fault;
    if (!word_is_gear(gear_words[_i].kind))
        return;
    const char *text = phrase_with(gear_words[_i].word, gear_words[_i].kind);
    const struct load *cell = ar_cell_read(reader, text, AR_COLUMN_ANY, false, kilograms, &fault);
    ck_assert_msg(cell && cell->piece_count, "the cell '%s' was not read", text);
    const struct note_ar *note = note_read(reader, text, kilograms, &fault);
    ck_assert_msg(note && note->ar, "the note '%s' was not read", text);
    ck_assert_str_eq(note->ar->ar, cell->ar);
}
END_TEST

static const struct
{
    const char *text;
    enum ar_column column;
    unsigned header;
    enum mass_unit unit;
    char decimal;
    const char *ar; /* NULL: refused */
} cells[] = {
    {"30", AR_COLUMN_CHAIN, false, UNIT_KG, '.', "30 kg chain"},
    {"30", AR_COLUMN_CHAIN, false, UNIT_LB, '.', "13.6077711 kg chain"},
    {"7,5", AR_COLUMN_CHAIN, false, UNIT_KG, ',', "7.5 kg chain"},
    {"2", AR_COLUMN_CHAIN, false, UNIT_KG, '.', NULL}, /* a count or a mass? */
    {"2", AR_COLUMN_CHAIN, true, UNIT_KG, '.', "2 kg chain"},
    {"8", AR_COLUMN_CHAIN, false, UNIT_KG, '.', "8 kg chain"},
    {"2 chains/side", AR_COLUMN_CHAIN, false, UNIT_KG, '.', "2 chains/side"},
    {"2 x 10", AR_COLUMN_CHAIN, false, UNIT_KG, '.', "1 x 10 kg chain/side"},
    {"15 kg/side", AR_COLUMN_CHAIN, false, UNIT_KG, '.', "30 kg chain"},
    {"1 chain", AR_COLUMN_CHAIN, false, UNIT_KG, '.', NULL},
    {"40", AR_COLUMN_BAND, false, UNIT_KG, '.', "bands 40 kg"},
    {"3000", AR_COLUMN_BAND, false, UNIT_KG, '.', NULL},
    {"1001", AR_COLUMN_CHAIN, true, UNIT_KG, '.', NULL},
    {"b26", AR_COLUMN_BAND, false, UNIT_KG, '.', "band b26"},
    {"b77 doubled", AR_COLUMN_BAND, false, UNIT_KG, '.', "band b77 doubled"},
    {"12-40 kg", AR_COLUMN_BAND, false, UNIT_KG, '.', "bands 12 kg bottom 40 kg top"},
    {"none", AR_COLUMN_BAND, false, UNIT_KG, '.', ""},
    {"0", AR_COLUMN_CHAIN, false, UNIT_KG, '.', ""},
    {"false", AR_COLUMN_CHAIN, false, UNIT_KG, '.', ""},
    {"Yes", AR_COLUMN_CHAIN, false, UNIT_KG, '.', "chains"},
    {"x", AR_COLUMN_BAND, false, UNIT_KG, '.', "bands"},
    {"b26", AR_COLUMN_CHAIN, false, UNIT_KG, '.', NULL}, /* a band in a column of chains */
    {"long", AR_COLUMN_BAND, false, UNIT_KG, '.', NULL},
    {"", AR_COLUMN_ANY, false, UNIT_KG, '.', ""},
    {"-", AR_COLUMN_ANY, false, UNIT_KG, '.', ""},
    {"+ 2 chains/side + band b11", AR_COLUMN_ANY, false, UNIT_KG, '.', "2 chains/side + band b11"},
    {"30", AR_COLUMN_ANY, false, UNIT_KG, '.', NULL},
    {"2 chains", AR_COLUMN_CHAIN, AR_HEADER_UNIT, UNIT_KG, '.', "1 chain/side"},
    {"15", AR_COLUMN_CHAIN, AR_HEADER_SIDE, UNIT_KG, '.', "30 kg chain"},
    {"15 kg", AR_COLUMN_CHAIN, AR_HEADER_SIDE, UNIT_KG, '.', "30 kg chain"},
    {"15/side", AR_COLUMN_CHAIN, AR_HEADER_SIDE, UNIT_KG, '.', "30 kg chain"},
    {"15 kg in all", AR_COLUMN_CHAIN, AR_HEADER_SIDE, UNIT_KG, '.', "15 kg chain"},
    {"2 chains", AR_COLUMN_CHAIN, AR_HEADER_SIDE, UNIT_KG, '.', "2 chains/side"},
    {"2 chains in all", AR_COLUMN_CHAIN, AR_HEADER_SIDE, UNIT_KG, '.', "1 chain/side"},
    {"2 chains", AR_COLUMN_CHAIN, AR_HEADER_SIDE | AR_HEADER_UNIT, UNIT_KG, '.', "2 chains/side"},
    {"1 chain", AR_COLUMN_CHAIN, AR_HEADER_SIDE, UNIT_KG, '.', "1 chain/side"},
    {"2 x 7 kg", AR_COLUMN_CHAIN, AR_HEADER_SIDE, UNIT_KG, '.', "2 x 7 kg chain/side"},
    {"2", AR_COLUMN_CHAIN, AR_HEADER_SIDE, UNIT_KG, '.', NULL},
    {"2", AR_COLUMN_CHAIN, AR_HEADER_SIDE | AR_HEADER_PLURAL, UNIT_KG, '.', "2 chains/side"},
    {"2", AR_COLUMN_CHAIN, AR_HEADER_SIDE | AR_HEADER_PLURAL | AR_HEADER_UNIT, UNIT_KG, '.', "4 kg chain"},
    {"2", AR_COLUMN_BAND, AR_HEADER_SIDE, UNIT_KG, '.', NULL},
    {"2", AR_COLUMN_BAND, AR_HEADER_SIDE | AR_HEADER_PLURAL, UNIT_KG, '.', "2 bands/side"},
    {"20", AR_COLUMN_BAND, AR_HEADER_SIDE, UNIT_KG, '.', "bands 40 kg"},
    {"b26", AR_COLUMN_BAND, AR_HEADER_SIDE, UNIT_KG, '.', "band b26"},
    {"2 bands b26", AR_COLUMN_BAND, AR_HEADER_SIDE, UNIT_KG, '.', "2 bands b26/side"},
    {"none", AR_COLUMN_CHAIN, AR_HEADER_SIDE, UNIT_KG, '.', ""},
    {"100 kg", AR_COLUMN_ANY, false, UNIT_KG, '.', NULL},
};

START_TEST(columns_say_what_a_bare_number_is)
{
    struct load_fault fault;
    struct load_style style = {cells[_i].unit, cells[_i].decimal};
    const struct load *load = ar_cell_read(reader, cells[_i].text, cells[_i].column, cells[_i].header, style, &fault);
    if (!cells[_i].ar) {
        ck_assert_ptr_null(load);
        ck_assert_ptr_nonnull(fault.message);
        return;
    }
    ck_assert_msg(load, "'%s' was refused: %s", cells[_i].text, fault.message);
    ck_assert_str_eq(load->ar, cells[_i].ar);
}
END_TEST

static const struct
{
    const char *base, *chain, *band, *note;
    bool lift_band;
    const char *canonical; /* NULL: refused as a contradiction */
} combined[] = {
    {"100", NULL, NULL, "2 chains/side", false, "100 kg + 2 chains/side"},
    {"100 + 2 chains/side", NULL, NULL, "2 chains per side", false, "100 kg + 2 chains/side"},
    {"100 + 30 kg chain", NULL, NULL, "15 kg chain/side", false, "100 kg + 30 kg chain"},
    {"100 + 2 chains/side", NULL, NULL, "2 x 8.4 kg chain/side", false, "100 kg + 2 chains/side"}, /* the gym's chain */
    {"100 + 2 chains/side", NULL, NULL, "16.8 kg chain/side", false, "100 kg + 2 chains/side"},
    {"100 + band b11 + 2 chains/side", NULL, NULL, "2 chains/side + band b11", false,
     "100 kg + band b11 + 2 chains/side"},
    {"100 + 2 chains/side", NULL, NULL, "chains were loud", false, "100 kg + 2 chains/side"},
    {"100 + chains", NULL, NULL, "2 chains/side", false, "100 kg + 2 chains/side"},
    {"100 + 2 chains/side", NULL, NULL, "3 chains/side", false, NULL},
    {"100 + 30 kg chain", NULL, NULL, "20 kg chain", false, NULL},
    {"100 + 2 chains/side", NULL, NULL, "no chains today", false, NULL},
    {"100 + 2 chains/side", NULL, NULL, "no bands today", false, "100 kg + 2 chains/side"},
    {"100 + band b26", NULL, NULL, "2 chains/side", false, NULL},
    {"100", "20 kg", "b11", NULL, false, "100 kg + 20 kg chain + band b11"},
    {"100", "20 kg", "b11", "b11 + 20 kg chain", false, "100 kg + 20 kg chain + band b11"},
    {"100", "20 kg", NULL, "band b11", false, NULL},
    {NULL, "20 kg", NULL, NULL, false, "+ 20 kg chain"},
    {"100", NULL, NULL, NULL, true, "100 kg + bands"},
    {"100", NULL, NULL, "band b26", true, "100 kg + band b26"},
    {"100", NULL, NULL, "without bands", true, "100 kg"},
    {"100", NULL, NULL, "no chains, band b26", false, "100 kg + band b26"},
};

START_TEST(cells_add_up_agree_or_contradict)
{
    struct load_fault fault;
    struct load_sources sources = {.lift_band = combined[_i].lift_band};
    if (combined[_i].base)
        sources.base = load_read(reader, combined[_i].base, kilograms, &fault);
    if (combined[_i].chain)
        sources.chain = ar_cell_read(reader, combined[_i].chain, AR_COLUMN_CHAIN, false, kilograms, &fault);
    if (combined[_i].band)
        sources.band = ar_cell_read(reader, combined[_i].band, AR_COLUMN_BAND, false, kilograms, &fault);
    if (combined[_i].note)
        sources.note = note_read(reader, combined[_i].note, kilograms, &fault);
    const struct load *load = load_combine(reader, &sources, &fault);
    if (!combined[_i].canonical) {
        ck_assert_msg(!load, "read as %s", load ? load_print(arena, load) : "");
        ck_assert_int_eq(fault.id, DIAG_CONTRADICTION);
        return;
    }
    ck_assert_msg(load, "refused: %s", fault.message);
    ck_assert_str_eq(load_print(arena, load), combined[_i].canonical);
}
END_TEST

START_TEST(the_file_says_unit_and_decimal_sign)
{
    struct load_fault fault;
    const struct load *load = load_read(reader, "225", (struct load_style){UNIT_LB, '.'}, &fault);
    ck_assert_double_eq_tol(load->kg, 102.05828325, 1e-9); /* 225 x 0.45359237, NIST SP 811 App. B.8 */
    load = load_read(reader, "100 + 7,5 kg chain/side", (struct load_style){UNIT_KG, ','}, &fault);
    ck_assert_str_eq(load_print(arena, load), "100 kg + 15 kg chain");
    load = load_read(reader, "102.5", (struct load_style){UNIT_KG, ','}, &fault);
    ck_assert_double_eq(load->kg, 102.5);
    load = load_read(reader, "1.000", (struct load_style){UNIT_KG, ','}, &fault);
    ck_assert_double_eq(load->kg, 1000);
}
END_TEST

START_TEST(a_gym_without_gear_knows_no_labels)
{
    struct load_fault fault;
    struct load_reader *bare = load_reader_new(arena, loads_new(arena), gym_new(arena));
    ck_assert_str_eq(load_read(bare, "100 + 2 chains/side", kilograms, &fault)->ar, "2 chains/side");
    ck_assert_str_eq(load_read(bare, "100 + band b26 doubled", kilograms, &fault)->ar, "band b26 doubled");
    ck_assert_str_eq(load_read(bare, "100 + pair of b26", kilograms, &fault)->ar, "band b26");
    ck_assert_ptr_null(load_read(bare, "100 + sandbag", kilograms, &fault));
    load_reader_free(bare);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("load expressions");
    TCase *tests = tcase_create("reading");
    tcase_add_checked_fixture(tests, begin, end);
    tcase_add_loop_test(tests, each_wording_means_what_it_says, 0, sizeof wordings / sizeof *wordings);
    tcase_add_loop_test(tests, canonical_expressions_read_back, 0, sizeof wordings / sizeof *wordings);
    tcase_add_loop_test(tests, notes_hold_ar_only_where_a_clause_begins_with_it, 0, sizeof notes / sizeof *notes);
    tcase_add_loop_test(tests, notes_limit_themselves_in_three_forms, 0, sizeof limits / sizeof *limits);
    tcase_add_loop_test(tests, each_word_for_gear_is_read_in_cell_and_note, 0, sizeof gear_words / sizeof *gear_words);
    tcase_add_loop_test(tests, columns_say_what_a_bare_number_is, 0, sizeof cells / sizeof *cells);
    tcase_add_loop_test(tests, cells_add_up_agree_or_contradict, 0, sizeof combined / sizeof *combined);
    tcase_add_test(tests, the_file_says_unit_and_decimal_sign);
    tcase_add_test(tests, a_gym_without_gear_knows_no_labels);
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_ENV);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
