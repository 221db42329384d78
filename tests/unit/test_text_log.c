/* The plain-text log: what each line of work makes, and why a line is refused. */
#include "reading/load/load_lexemes.h"
#include "reading/log_reader.h"
#include "reading/text/text_log.h"

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static struct arena *arena;
static struct diags *diags;
static struct reading *reading;

static void begin_with(const struct reading_options *options)
{
    static struct chain chains[] = {{.label = "long", .is_default = true, .mass_kg = 8}};
    static struct band bands[] = {{.label = "b26"}};
    static struct setup setups[] = {{.name = "pegs"}};
    arena = arena_new();
    diags = diags_new(arena);
    diags_show_all(diags);
    struct gym *gym = gym_new(arena);
    gym->chains = chains, gym->chain_count = 1;
    gym->bands = bands, gym->band_count = 1;
    gym->setups = setups, gym->setup_count = 1;
    reading = reading_new(arena, gym, diags, options);
}

static void begin(void)
{
    begin_with(&(struct reading_options){.unit_said = true});
}

static void end(void)
{
    reading_free(reading);
    arena_free(arena);
}

static bool read_bytes(const char *text, size_t length)
{
    struct input *input = input_from_memory(arena, "log.txt", text, length, diags);
    *LIST_ADD(arena, &reading->log->files) = (struct log_file){.path = "log.txt"};
    bool good = read_text_log(reading, input, (uint32_t)(reading->log->files.count - 1));
    input_close(input);
    return good;
}

static bool read_text(const char *text)
{
    return read_bytes(text, strlen(text));
}

static bool same_load(const struct set *a, const struct set *b)
{
    return a->weight == b->weight && a->ar == b->ar;
}

/* "squat|100 kg|5 5 4|rpe 8|note": sets of one load together; * to failure, ~ warm-up, ! missed. */
static const char *line_of_sets(size_t from)
{
    const struct log *log = reading->log;
    const char *text = "";
    for (size_t i = from; i < log->sets.count; i++) {
        const struct set *set = &log->sets.items[i];
        const struct load whole = load_of_both(set->weight, set->ar);
        if (i == from || !same_load(set, set - 1))
            text = arena_printf(arena, "%s%s%s|%s|", text, i == from ? "" : "/", names_text(log->lifts, set->lift),
                                load_print(arena, &whole));
        text = arena_printf(arena, "%s%d%s%s%s ", text, set->reps, set->to_failure ? "*" : "",
                            set->kind == SET_WARM_UP ? "~" : "", set->kind == SET_MISSED ? "!" : "");
        bool last = i + 1 == log->sets.count || !same_load(set, set + 1);
        if (last && !isnan(set->rpe))
            text = arena_printf(arena, "%s|rpe %g", text, set->rpe);
        if (last && !isnan(set->rir))
            text = arena_printf(arena, "%s|rir %g", text, set->rir);
        if (last && !isnan(set->velocity_ms))
            text = arena_printf(arena, "%s|v %g", text, set->velocity_ms);
        if (last && set->note)
            text = arena_printf(arena, "%s|%s", text, set->note);
    }
    return text;
}

static const struct
{
    const char *line, *sets;
} lines[] = {
    /* notation.md, 2 */
    {"squat 80 + 2 x 7 kg chain/side: 8x2 @7", "squat|80 kg + 2 x 7 kg chain/side|2 2 2 2 2 2 2 2 |rpe 7"},
    {"bench press 60 + band b26 doubled: 2x3", "bench press|60 kg + band b26 doubled|3 3 "},
    {"deadlift 140x3, 150x2, 160x1 @9", "deadlift|140 kg|3 /deadlift|150 kg|2 /deadlift|160 kg|1 |rpe 9"},
    {"deadlift 120x3x2", "deadlift|120 kg|3 3 "},
    {"good morning 60: 5,5,4", "good morning|60 kg|5 5 4 "},
    {"pull-up BW+10: 3x5", "pull-up|BW+10 kg|5 5 5 "},
    {"squat 5x5 @ 100 kg", "squat|100 kg|5 5 5 5 5 "},
    {"squat 110: 2x3 @ 8.5", "squat|110 kg|3 3 |rpe 8.5"},
    {"squat 120: 1x2 RPE 9", "squat|120 kg|2 |rpe 9"},
    {"squat 120: 1x2 RIR 2", "squat|120 kg|2 |rir 2"},
    {"squat 60%: 1x5", "squat|60%|5 "},
    {"bench press bar: 2x10", "bench press|bar|10 10 "},
    {"bench press 70: AMRAP 10", "bench press|70 kg|10* "},
    {"bench press 65: 8,8,10+", "bench press|65 kg|8 8 10* "},
    {"bench 80x0", "bench press|80 kg|0! "},
    {"deadlift 170: miss", "deadlift|170 kg|0! "},
    {"deadlift 100 kg: 1x5 @7 0.62 m/s", "deadlift|100 kg|5 |rpe 7|v 0.62"},
    {"~ squat 60: 1x5", "squat|60 kg|5~ "},
    {"warm-up squat 80x3", "squat|80 kg|3~ "},
    {"w-up bench press 40: 1x8", "bench press|40 kg|8~ "},
    /* the words that tautline-log(5) lists under Sets */
    {"squat 5x3 @75%", "squat|75%|3 3 3 3 3 "},
    {"squat 100: 1x3 @75%", "squat|100 kg|3 |75%"},
    {"squat 2x5 @ 100 kg + 2 chains/side", "squat|100 kg + 2 chains/side|5 5 "},
    {"squat 2x3 @11", "squat|11 kg|3 3 "},
    {"squat 170x1 miss", "squat|170 kg|0! "},
    {"squat 170 miss", "squat|170 kg|0! "},
    {"squat 100: 3,2,0", "squat|100 kg|3 2 0! "},
    {"squat 100: 3x10+", "squat|100 kg|10 10 10* "},
    {"squat 100: 1x5 felt heavy, slow", "squat|100 kg|5 |felt heavy, slow"},
    /* loads and what is behind them */
    {"squat 2x5 @ 100 kg + 2 chains/side @8 0.62 m/s good stuff",
     "squat|100 kg + 2 chains/side|5 5 |rpe 8|v 0.62|good stuff"},
    {"squat 2x5 @ 100 kg + band b26 @ pegs RIR 2", "squat|100 kg + band b26 @ pegs|5 5 |rir 2"},
    {"squat 2x5 @ 100 kg felt good", "squat|100 kg|5 5 |felt good"},
    {"squat 2x5 @ 100 kg (belt)", "squat|100 kg|5 5 |(belt)"},
    {"squat: 2x5 @ 100 kg @8", "squat|100 kg|5 5 |rpe 8"},
    {"squat 100x5@8, 110x3 @9", "squat|100 kg|5 |rpe 8/squat|110 kg|3 |rpe 9"},
    {"squat 100x5 110x3", "squat|100 kg|5 /squat|110 kg|3 "},
    {"squat 100: 1x3 @ 80% @8 fast", "squat|100 kg|3 |rpe 8|80%; fast"},
    {"squat 100: 1x5 with 2 chains/side", "squat|100 kg + 2 chains/side|5 |with 2 chains/side"},
    {"squat 100: 1x5 no chains today", "squat|100 kg|5 |no chains today"},
    {"squat 100: 1x5, 0.62 m/s", "squat|100 kg|5 |v 0.62"},
    {"squat 100: 1x5 8 RPE", "squat|100 kg|5 |rpe 8"},
    {"squat 100: 1x5 (warm-up)", "squat|100 kg|5~ "},
    {"squat 100: 1x5 rest 2:30", "squat|100 kg|5 |rest 2:30"},
    {"squat 100x5 rest 2:30", "squat|100 kg|5 |rest 2:30"},
    {"squat 100: 1x5 2 min rest", "squat|100 kg|5 |2 min rest"},
    {"squat 100: 2x5/side", "squat|100 kg|5 5 |/side"},
    {"squat 100: 1x5 missed the train", "squat|100 kg|5 |missed the train"},
    {"SQUAT 100 KG : 2X5", "squat|100 kg|5 5 "},
    {"squat 100 kg: 2×5 @ 8", "squat|100 kg|5 5 |rpe 8"},
    {"squat 102½x3", "squat|102.5 kg|3 "},
    {"squat\u00a0100\u00a0kg:\u00a02x5\u202f@8", "squat|100 kg|5 5 |rpe 8"},
    {"squat 225 lb x5", "squat|102.05828325 kg|5 "},
    {"squat 60:10", "squat|60 kg|10 "},
    {"squat 100: x5", "squat|100 kg|5 "},
    {"squat - 100: 1x5", "squat|100 kg|5 "},
    {"squat 0: 1x5", "squat||5 "},
    /* sets and repetitions in words */
    {"squat 100: 3 sets of 5", "squat|100 kg|5 5 5 "},
    {"squat 100: 2 Sets x 5 reps @8 felt good", "squat|100 kg|5 5 |rpe 8|felt good"},
    {"squat 100: 2x5 reps, 1 set of 4", "squat|100 kg|5 5 4 "},
    {"squat 100 x 5 reps x 2 sets", "squat|100 kg|5 5 "},
    {"bench press 60 x AMRAP 10", "bench press|60 kg|10* "},
    {"squat 100: 1x3 @ 0.62 m/s", "squat|100 kg|3 |v 0.62"},
    {"squat 60x5, 80x3 warm-up", "squat|60 kg|5~ /squat|80 kg|3~ "},
    {"squat 100: 1x5, 2 x 7 kg chain/side", "squat|100 kg + 2 x 7 kg chain/side|5 |2 x 7 kg chain/side"},
    /* efforts behind free words */
    {"squat 100: 1x5 felt strong @8", "squat|100 kg|5 |rpe 8|felt strong"},
    {"squat 100: 1x5 with 2 chains/side @8", "squat|100 kg + 2 chains/side|5 |rpe 8|with 2 chains/side"},
    {"squat 100: 1x5 paused, RPE 8.5, 0.5 m/s", "squat|100 kg|5 |rpe 8.5|v 0.5|paused"},
    {"squat 100: 1x5 last week was RPE 9", "squat|100 kg|5 |last week was RPE 9"},
    {"squat 100: 1x5 @8 (touch and go) @9", "squat|100 kg|5 |rpe 8|(touch and go) @9"},
    {"squat 100: 1x5 with 2 chains @ 7 kg", "squat|100 kg + 1 x 7 kg chain/side|5 |with 2 chains @ 7 kg"},
    /* names that hold numbers, the word bar, or gear */
    {"3-count pause squat 100: 1x3", "3-count pause squat|100 kg|3 "},
    {"bench 2 board press 100x3", "bench 2 board press|100 kg|3 "},
    {"low bar squat 100: 1x3", "low bar squat|100 kg|3 "},
    {"trap bar deadlift bar + 40/side: 1x3", "trap bar deadlift|bar + 80 kg|3 "},
    {"banded squat 100: 1x3", "banded squat|100 kg + bands|3 "},
    {"banded squat 100 + band b26: 1x3", "banded squat|100 kg + band b26|3 "},
    {"band pull-apart 10: 1x15", "band pull-apart|10 kg|15 "},
    /* lifts of the body */
    {"pull-up: 2x8", "pull-up|BW|8 8 "},
    {"dips 2x8 @8", "dip|BW|8 8 |rpe 8"},
    {"dip 10,8,6 hard", "dip|BW|10 8 6 |hard"},
    {"pull-up +10: 1x8", "pull-up|BW+10 kg|8 "},
    {"pull-up -10 kg: 1x8", "pull-up|BW-10 kg|8 "},
    {"pull-up BW x8", "pull-up|BW|8 "},
    {"pull-up BWx8, BW+10x5", "pull-up|BW|8 /pull-up|BW+10 kg|5 "},
    {"pull-up + 10 kg: 1x8", "pull-up|BW+10 kg|8 "},
    /* load and sets with a blank between them */
    {"OHP 40 3x6", "overhead press|40 kg|6 6 6 "},
    {"squat 100 kg + 2 chains/side 2x3 @8", "squat|100 kg + 2 chains/side|3 3 |rpe 8"},
    {"squat 100 + 2 x 7 kg chain/side 1x3", "squat|100 kg + 2 x 7 kg chain/side|3 "},
    {"overhead press 2x5 42.5", "overhead press|42.5 kg|5 5 "},
    {"squat 2x5 100 kg + 2 chains/side @8 good", "squat|100 kg + 2 chains/side|5 5 |rpe 8|good"},
    {"squat 3 sets of 5 100", "squat|100 kg|5 5 5 "},
    {"squat 2x5 75%", "squat|75%|5 5 "},
    {"SQ 100 1x5", "squat|100 kg|5 "},
    {"BP 60x5", "bench press|60 kg|5 "},
    {"DL 140x1", "deadlift|140 kg|1 "},
    {"deads 140x1", "deadlift|140 kg|1 "},
    {"CGBP 60x5", "close-grip bench press|60 kg|5 "},
    {"curl 15x10", "curl|15 kg|10 "}, /* no barbell lift: lighter than the bar is fine */
};

START_TEST(test_lines)
{
    for (size_t i = 0; i < sizeof lines / sizeof *lines; i++) {
        size_t before = reading->log->sets.count;
        ck_assert(read_text(arena_printf(arena, "2026-01-12\n%s\n", lines[i].line)));
        const char *sets = line_of_sets(before);
        ck_assert_msg(!strcmp(sets, lines[i].sets), "%s:\n  got    %s\n  wanted %s", lines[i].line, sets,
                      lines[i].sets);
    }
    ck_assert_uint_eq(diags_total(diags, SEVERITY_ERROR), 0);
}
END_TEST

static const struct
{
    const char *line;
    enum diag_id id;
    uint32_t column;
} refused[] = {
    {"squat heavy: 3x2", DIAG_BAD_LOAD, 1},
    {"squat 85: some sets", DIAG_BAD_REPS, 11},
    {"squat", DIAG_BAD_LINE, 1},
    {"squat 100", DIAG_BAD_LINE, 7},
    {"squat 85 + 3 chains: 3x2", DIAG_UNEVEN_CHAINS, 12},
    {"  squat 85 + 3 chains: 3x2", DIAG_UNEVEN_CHAINS, 14},
    {"knebøy 85 + 3 chains: 3x2", DIAG_UNEVEN_CHAINS, 13}, /* characters, not bytes */
    {"squat 5x5 @ 100 + 3 chains", DIAG_UNEVEN_CHAINS, 19},
    {"squat 5x5 @ 100, 3 chains", DIAG_UNEVEN_CHAINS, 18},
    {"squat 100: 3x5 with 3 chains", DIAG_UNEVEN_CHAINS, 21},
    {"squat 100 + 2 chains/side x3", DIAG_BAD_LINE, 7},
    {"squat 5x5x100", DIAG_AMBIGUOUS_WEIGHT, 7},
    {"squat 5x5", DIAG_AMBIGUOUS_WEIGHT, 7},
    {"squat 100: 3x5 RPE 12", DIAG_BAD_EFFORT, 20},
    {"squat 100: 3x5 RPE 7-8", DIAG_BAD_EFFORT, 16},
    {"squat 100: 3x5 @ 7-8", DIAG_BAD_EFFORT, 16},
    {"squat 100: 3x5 @11", DIAG_CONTRADICTION, 17},
    {"squat 100: 3x5 @ 105 kg", DIAG_CONTRADICTION, 18},
    {"squat 100: 8-10", DIAG_BAD_REPS, 12},
    {"squat 100: 3x5x2", DIAG_BAD_REPS, 12},
    {"squat 100: 5,5,8-10", DIAG_BAD_REPS, 16},
    {"squat 100: 5 5 4", DIAG_BAD_REPS, 14},
    {"squat 100: AMRAP", DIAG_BAD_REPS, 12},
    {"squat 100: 500x5", DIAG_BAD_REPS, 12},
    {"squat 100: 2x1 miss", DIAG_BAD_REPS, 16},
    {"squat 100x5x90, 100x5x90, 100x5x90", DIAG_BAD_SETS, 0},
    {"squat 102,5: 3x5", DIAG_AMBIGUOUS_WEIGHT, 7},
    {"squat 102,5x3", DIAG_AMBIGUOUS_WEIGHT, 7},
    {"squat -20: 3x5", DIAG_BAD_LOAD, 7},
    {"squat 3 x 100", DIAG_AMBIGUOUS_WEIGHT, 7},
    {"100 kg squat 5x5", DIAG_BAD_LINE, 1},
    {"squat 100 + 2 chains/side @8: 5", DIAG_AMBIGUOUS_AR, 27},
    {"squat 100: 3 sets", DIAG_BAD_REPS, 12}, /* of how many? */
    {"squat 100 x 3 sets of 5", DIAG_BAD_LINE, 7},
    {"squat 100: 3x5, 110: 2x3", DIAG_BAD_LINE, 17}, /* not 110 repetitions */
    {"squat 100: 3x5; 110 kg: 2x3", DIAG_BAD_LINE, 17},
    {"squat ~60x5", DIAG_BAD_LOAD, 7},
    {"squat + 2 chains/side: 3x5", DIAG_BAD_LOAD, 7},
    {"pull-up + band b26: 3x5", DIAG_BAD_LOAD, 9},
    {"squat 60x5, 80x3 warm-up, 100x3", DIAG_BAD_LINE, 27},
    {": 3x5", DIAG_MISSING_LIFT, 1},
    {"100: 3x5", DIAG_MISSING_LIFT, 1},
    {"80x4, 85x3", DIAG_MISSING_LIFT, 1}, /* sets are no lift's name */
    {"5x5 100", DIAG_MISSING_LIFT, 1},
    {"100 kg 3x5", DIAG_MISSING_LIFT, 1},
    {"felt tired, 3 sets only", DIAG_BAD_LINE, 13},
    {"~", DIAG_BAD_LINE, 1},
};

START_TEST(test_refused)
{
    for (size_t i = 0; i < sizeof refused / sizeof *refused; i++) {
        end();
        begin();
        read_text(arena_printf(arena, "2026-01-12\n%s\n", refused[i].line));
        const struct diag *diag = diags_first(diags);
        ck_assert_msg(diag && reading->log->sets.count == 0, "%s was read", refused[i].line);
        ck_assert_msg(diag->id == refused[i].id && diag->at.line == 2 && diag->at.column == refused[i].column &&
                          !diag->next,
                      "%s: %s at %u", refused[i].line, diag_name(diag->id), diag->at.column);
        ck_assert_str_eq(diag->excerpt, refused[i].line);
        ck_assert_uint_eq(reading->log->files.items[0].refused, 1);
    }
}
END_TEST

/* Each word of the notation that names gear, in a load and in free words behind the sets. */
static const struct
{
    const char *word;
    enum word_kind kind;
} gear_words[] = {
#define X(word, kind, number) {word, kind},
#include "model/notation.def"
#undef X
};

START_TEST(test_gear_word)
{
    const char *word = gear_words[_i].word;
    enum word_kind kind = gear_words[_i].kind;
    if (!word_is_gear(kind))
        return;
    bool by_mass = kind == WORD_CHAIN || kind == WORD_RELEASER;
    const char *phrase = by_mass             ? arena_printf(arena, "20 kg %s", word)
                         : kind == WORD_PAIR ? arena_printf(arena, "%s of b99", word)
                                             : arena_printf(arena, "b99 %s", word);
    ck_assert(read_text(arena_printf(arena, "2026-01-12\nsquat 100 + %s: 1x3\nsquat 100: 1x3, %s\n", phrase, phrase)));
    ck_assert_uint_eq(reading->log->sets.count, 2);
    const struct set *sets = reading->log->sets.items;
    ck_assert_msg(sets[0].ar->piece_count && same_load(&sets[0], &sets[1]), "'%s' is read as %s and %s", phrase,
                  sets[0].ar->ar, sets[1].ar->ar);
}
END_TEST

static const struct
{
    const char *text, *sets;
    size_t refused;
} notebooks[] = {
    {"front squat\n80x4\n85x3x2 @8\n", "front squat|80 kg|4 /front squat|85 kg|3 3 |rpe 8", 0},
    {"80x4, 85x3\nfront squat\n80x4\n", "front squat|80 kg|4 ", 1},
    {"Squat:\n  100 kg x 5\n\n~ 60x5\nrow\n50: 2x10\n", "squat|100 kg|5 /squat|60 kg|5~ /row|50 kg|10 10 ", 0},
    {"squat 100x5\n110x3\n3x5 @ 90\n", "squat|100 kg|5 /squat|110 kg|3 /squat|90 kg|5 5 5 ", 0},
    {"zottman\n15x10\n", "zottman|15 kg|10 ", 0},                                     /* behind the date */
    {"squat\n100x5\nlegs were tired\n110x3\n", "squat|100 kg|5 |legs were tired", 1}, /* 110x3 of which lift? */
    {"box squat w/ 2 chains per side\n100x1\n120x1, no chains\n",
     "box squat|100 kg + 2 chains/side|1 /box squat|120 kg|1 |no chains", 0},
    {"squat (2 x 7 kg chain/side):\n100x2\n100 + 1 chain/side: 1x2\n",
     "squat|100 kg + 2 x 7 kg chain/side|2 /squat|100 kg + 1 chain/side|2 ", 0},
    {"bench - 2 mini bands\n40x5\n", "bench press|40 kg + band \"mini\"|5 ", 0},
    {"squat + 2 chains/side\n100x2\nbench\n60x5\n", "squat|100 kg + 2 chains/side|2 /bench press|60 kg|5 ", 0},
    {"squat with a friend\n100x2\n", "squat with a friend|100 kg|2 ", 0}, /* a name, as far as can be told */
    {"squat: 100 kg, 5 reps, 2 sets\nrow 50, 1 set of 8 reps\n", "squat|100 kg|5 5 /row|50 kg|8 ", 0},
    {"squat\n155xF\n", "squat|155 kg|0! ", 0},
    {"squat\nbench\n60x5\n", "bench press|60 kg|5 ", 1},
    {"squat 100: heavy\n110x3\n", "", 2},
    {"dips\n2x8\n", "dip|BW|8 8 ", 0},
};

START_TEST(test_notebook)
{
    ck_assert(read_text(arena_printf(arena, "2026-01-12\n%s", notebooks[_i].text)));
    ck_assert_str_eq(line_of_sets(0), notebooks[_i].sets);
    ck_assert_uint_eq(reading->log->files.items[0].refused, notebooks[_i].refused);
    ck_assert_uint_eq(diags_total(diags, SEVERITY_ERROR), notebooks[_i].refused);
}
END_TEST

static const struct
{
    const char *line, *hint;
} hints[] = {
    {"squat 100 + 2 chains/side x3", "write squat 100 + 2 chains/side: 1x3"},
    {"squat 5x5x100", "write squat 100: 5x5"},
    {"squat 5x5", "write squat, then the load, then : 5x5; or correct the weight"},
    {"100 kg squat 5x5", "write squat 100 kg: 5x5"},
    {"80x4, 85x3", "write LIFT 80x4, 85x3, or the lift on a line of its own above"},
};

START_TEST(test_own_line_in_hint)
{
    read_text(arena_printf(arena, "2026-01-12\n%s\n", hints[_i].line));
    ck_assert_str_eq(diags_first(diags)->hint, hints[_i].hint);
}
END_TEST

START_TEST(test_header)
{
    ck_assert(read_text(
        "bodyweight: 180\nunit: lb\nlifter: Oda  Brandvik\n2026-01-12\nsquat 100: 1x5\nunit: kg\nbodyweight: "
        "82\nLifter: Ulf\n"
        "squat 100: 1x5\n2026-01-13\ndecimal: comma\nsquat 102,5x3, 105,5x2 @8,5 0,62 m/s\nsquat 90: 5,5,4\n"));
    const struct set *sets = reading->log->sets.items;
    ck_assert_uint_eq(reading->log->sets.count, 7);
    ck_assert_str_eq(names_text(reading->log->lifters, sets[0].lifter), "Oda Brandvik");
    ck_assert_double_eq_tol(sets[0].weight->kg, 100 * KG_PER_LB, 1e-9);
    ck_assert_double_eq_tol(sets[0].bodyweight_kg, 180 * KG_PER_LB, 1e-9); /* in the header, the unit may stand below */
    ck_assert_str_eq(names_text(reading->log->lifters, sets[1].lifter), "Ulf");
    ck_assert(sets[1].weight->kg == 100 && sets[1].bodyweight_kg == 82);
    ck_assert(sets[2].weight->kg == 102.5 && sets[2].reps == 3 && isnan(sets[2].rpe));
    ck_assert(sets[3].weight->kg == 105.5 && sets[3].rpe == 8.5 && sets[3].velocity_ms == 0.62);
    ck_assert(sets[6].reps == 4);
    ck_assert_ptr_null(diags_first(diags));
    ck_assert(read_text("unit: stone\nlifter:\nbodyweight: 5\ndecimal: dot\n2026-01-12\nsquat 100: 1x5\n"));
    ck_assert_uint_eq(diags_total(diags, SEVERITY_ERROR), 4);
}
END_TEST

static const struct
{
    const char *line, *day;
    enum focus focus;
    const char *note;
} sessions[] = {
    {"2026-01-12", "2026-01-12", FOCUS_UNSAID, NULL},
    {"2026-01-12  speed", "2026-01-12", FOCUS_SPEED, NULL},
    {"2026-01-12 Volume, slept badly", "2026-01-12", FOCUS_VOLUME, "slept badly"},
    {"2026-01-12 lower body", "2026-01-12", FOCUS_UNSAID, "lower body"},
    {"2026-01-12T18:30 test", "2026-01-12", FOCUS_TEST, NULL},
    {"12.1.2026: skill", "2026-01-12", FOCUS_SKILL, NULL},
    {"Mon 12 January 2026 strength", "2026-01-12", FOCUS_STRENGTH, NULL},
    {"13/01/2026", "2026-01-13", FOCUS_UNSAID, NULL},
    {"2026-01-12 - speed", "2026-01-12", FOCUS_SPEED, NULL},
    {"Date: 2026-01-12", "2026-01-12", FOCUS_UNSAID, NULL},
    {"session 2026-01-12 volume", "2026-01-12", FOCUS_VOLUME, NULL},
    {"# 2026-01-12 speed", "2026-01-12", FOCUS_SPEED, NULL},
    {"## Mon 12 Jan 2026 upper body", "2026-01-12", FOCUS_UNSAID, "upper body"},
};

START_TEST(test_sessions)
{
    for (size_t i = 0; i < sizeof sessions / sizeof *sessions; i++) {
        size_t before = reading->log->sets.count;
        ck_assert(read_text(arena_printf(arena, "%s\nsquat 100: 1x5\nsquat 90: 1x5\n", sessions[i].line)));
        const struct set *set = &reading->log->sets.items[before];
        char day[16];
        date_print(day, set->day);
        ck_assert_str_eq(day, sessions[i].day);
        ck_assert_int_eq(set->focus, sessions[i].focus);
        ck_assert_pstr_eq(set->note, sessions[i].note);
        ck_assert_ptr_null(set[1].note);
    }
    ck_assert_ptr_null(diags_first(diags));
}
END_TEST

START_TEST(test_refused_sessions)
{
    ck_assert(read_text("squat 80: 1x5\n"
                        "2026-02-30 speed\n"
                        "squat 90: 1x5\n"
                        "note: lost?\n"
                        "\n"
                        "# a comment\n"
                        "2026-02-28\n"
                        "squat 100: 1x5\n"
                        "2026-03-01 and then 3x5\n"));
    static const struct
    {
        enum diag_id id;
        uint32_t line;
    } said[] = {{DIAG_NO_SESSION, 1},
                {DIAG_BAD_DATE, 2},
                {DIAG_UNDER_BAD_DATE, 3},
                {DIAG_UNDER_BAD_DATE, 4},
                {DIAG_BAD_LINE, 9}};
    const struct diag *diag = diags_first(diags);
    for (size_t i = 0; i < sizeof said / sizeof *said; i++, diag = diag->next)
        ck_assert_msg(diag && diag->id == said[i].id && diag->at.line == said[i].line, "%zu", i);
    ck_assert_ptr_null(diag);
    ck_assert_uint_eq(reading->log->sets.count, 1);
    ck_assert_uint_eq(reading->log->files.items[0].refused, 5);
    ck_assert_uint_eq(reading->log->files.items[0].lines, 9);
}
END_TEST

/* The date above, or the file's name, has the year that a date leaves out; a step back of half a year is the next. */
START_TEST(test_dates_without_year)
{
    ck_assert(read_text("Mon 2 March 2026\nsquat 90: 1x5\nFri 6 March\nsquat 95: 1x5\n28.12. speed\nsquat 99: 1x5\n"
                        "Jan 3\nsquat 100: 1x5\n"));
    static const char *const days[] = {"2026-03-02", "2026-03-06", "2026-12-28", "2027-01-03"};
    ck_assert_uint_eq(reading->log->sets.count, 4);
    for (size_t i = 0; i < 4; i++) {
        const struct set *set = &reading->log->sets.items[i];
        char day[16];
        date_print(day, set->day);
        ck_assert_str_eq(day, days[i]);
        ck_assert_int_eq(set->assumed, i ? ASSUMED_YEAR : 0);
    }
    ck_assert_uint_eq(diags_first(diags)->id, DIAG_ASSUMED_YEAR);
    ck_assert_uint_eq(diags_first(diags)->at.line, 3);
    end();
    begin();
    read_text("Fri 6 March\nsquat 95: 1x5\n");
    ck_assert_uint_eq(diags_first(diags)->id, DIAG_BAD_DATE);
    ck_assert_uint_eq(reading->log->sets.count, 0);
}
END_TEST

static const struct
{
    const char *text, *sets;
    size_t refused;
} date_lines[] = {
    {"2026-01-12 squat 100x5, 110x3\nbench 60x5\n", "squat|100 kg|5 /squat|110 kg|3 /bench press|60 kg|5 ", 0},
    {"2026-01-12 speed: squat 60 + 2 chains/side: 1x2\n", "squat|60 kg + 2 chains/side|2 ", 0},
    {"2026-01-12 squats\n100x5\n", "squat|100 kg|5 |squats", 0},
    {"2026-01-12 squats\nbench 60x5\n70x5\n", "bench press|60 kg|5 |squats/bench press|70 kg|5 ", 0},
    {"2026-01-12 squat day\n100x5\n", "", 1},
    {"2026-01-12 did only 3x5\n", "", 1},
    {"2026-01-12\nsquat 100x5\n# 2026-01-13 was a holiday\n110x5\n", "squat|100 kg|5 /squat|110 kg|5 ", 0},
};

START_TEST(test_date_lines)
{
    read_text(date_lines[_i].text);
    ck_assert_str_eq(line_of_sets(0), date_lines[_i].sets);
    ck_assert_uint_eq(diags_total(diags, SEVERITY_ERROR), date_lines[_i].refused);
}
END_TEST

/* Words above the first date are a title, which may say the year. */
START_TEST(test_title)
{
    ck_assert(read_text("Oda's log 2026\nall in kilos\n\nFri 6 March\nsquat 95: 1x5\n"));
    ck_assert_uint_eq(reading->log->sets.count, 1);
    ck_assert_int_eq(reading->log->sets.items[0].assumed, ASSUMED_YEAR);
    ck_assert_uint_eq(diags_total(diags, SEVERITY_ERROR), 0);
}
END_TEST

/* The columns of a refusal behind a date are those of the file's line. */
START_TEST(test_column_behind_date)
{
    read_text("Mon 12 Jan 2026 \xE2\x80\x93 squat 5x5x100\n");
    ck_assert_uint_eq(diags_first(diags)->at.column, 25);
}
END_TEST

/* What is no date but was meant as one ends the session above all the same. */
START_TEST(test_incomplete_dates)
{
    static const char *const written[] = {"2026 02 12", "30 Feb", "31.02."};
    for (size_t i = 0; i < sizeof written / sizeof *written; i++) {
        end();
        begin();
        read_text(arena_printf(arena, "2026-01-12\nsquat 90: 1x5\n%s\nsquat 100: 1x5\n", written[i]));
        const struct diag *diag = diags_first(diags);
        ck_assert_msg(diag && diag->id == DIAG_BAD_DATE && diag->at.line == 3, "%s", written[i]);
        ck_assert(diag->next && diag->next->id == DIAG_UNDER_BAD_DATE);
        ck_assert_uint_eq(reading->log->sets.count, 1);
    }
}
END_TEST

/* Day or month first: the whole file decides. */
START_TEST(test_date_order)
{
    ck_assert(!read_text("03/04/2026\nsquat 100: 1x5\n05/04/2026\nsquat 100: 1x5\n"));
    ck_assert(reading->log->sets.count == 0 && diags_first(diags)->id == DIAG_UNSETTLED_DATES);
    ck_assert(read_text("03/04/2026\nsquat 100: 1x5\n13/04/2026\nsquat 100: 1x5\n"));
    char day[16];
    date_print(day, reading->log->sets.items[0].day);
    ck_assert_str_eq(day, "2026-04-03");
    end();
    begin_with(&(struct reading_options){.dates = DATES_MDY});
    ck_assert(read_text("03/04/2026\nsquat 100: 1x5\n13/04/2026\nsquat 100: 1x5\n"));
    date_print(day, reading->log->sets.items[0].day);
    ck_assert_str_eq(day, "2026-03-04");
    ck_assert_uint_eq(reading->log->sets.count, 1);
    ck_assert_uint_eq(diags_total(diags, SEVERITY_ERROR), 2);
}
END_TEST

START_TEST(test_notes)
{
    ck_assert(read_text("2026-01-12 upper\nnote: slept badly\nsquat 100: 2x5 easy\nnote: felt good\nbench 60: "
                        "1x5\nnote: used 2 chains\n"
                        "squat bad\n2026-01-13\nnotes: late\nbench 60: 1x5\n"));
    const struct set *sets = reading->log->sets.items;
    ck_assert_str_eq(sets[0].note, "upper; slept badly; easy; felt good");
    ck_assert_str_eq(sets[1].note, sets[0].note);
    ck_assert_str_eq(sets[2].note, "used 2 chains");
    ck_assert_uint_eq(sets[2].ar->piece_count, 0); /* a note: line is prose */
    ck_assert_str_eq(sets[3].note, "late");
    ck_assert_uint_eq(diags_first(diags)->id, DIAG_UNREAD_CLAUSE);
    ck_assert_uint_eq(diags_first(diags)->at.column, 7);
}
END_TEST

START_TEST(test_set_aside)
{
    ck_assert(read_text(
        "2026-01-12\nplank 3x60 s\nplank: 60s\nrun 5 km in 25:00\nfarmer walk 40 kg: 3x20 m\nsquat 0: 2x5\n"));
    ck_assert_uint_eq(reading->log->files.items[0].aside, 4);
    ck_assert_uint_eq(reading->log->asides.count, 3);
    ck_assert_uint_eq(reading->log->asides.items[0].count, 2);
    ck_assert_str_eq(names_text(reading->log->lifts, reading->log->asides.items[2].lift), "farmer walk");
    ck_assert_uint_eq(diags_total(diags, SEVERITY_NOTE), 4); /* three lifts, and a squat without weight */
    ck_assert_uint_eq(diags_total(diags, SEVERITY_ERROR), 0);
}
END_TEST

START_TEST(test_assumed_unit)
{
    end();
    begin_with(&(struct reading_options){0});
    ck_assert(read_text("2026-01-12\nsquat 100: 1x5\nsquat 100 kg: 1x5\nsquat 60%: 1x5\nsquat 100 kg + 20 chain: "
                        "1x5\nunit: kg\nsquat 100: 1x5\n"));
    static const bool assumed[] = {true, false, false, true, false};
    for (size_t i = 0; i < sizeof assumed / sizeof *assumed; i++)
        ck_assert_msg(reading->log->sets.items[i].assumed == (assumed[i] ? ASSUMED_UNIT : 0), "%zu", i);
    ck_assert_uint_eq(diags_first(diags)->id, DIAG_ASSUMED_UNIT);
    ck_assert_uint_eq(reading->log->percents.count, 1);
    ck_assert_uint_eq(reading->log->percents.items[0].column, 7);
    ck_assert_uint_eq(reading->log->percents.items[0].length, 3);
}
END_TEST

/* What would be lost in a note, or taken for what it is not. */
static const struct
{
    const char *line;
    size_t sets; /* 0: refused */
    double kg;
    const char *ar;
} hidden[] = {
    {"squat 80x5 + 2 x 8 kg chain/side", 1, 80, "2 x 8 kg chain/side"},
    {"squat 80x5 + 2x8kg chain/side", 1, 80, "2 x 8 kg chain/side"},
    {"squat 80x5 + 2 x 8 kg chain/side, 85x3", 0, 0, NULL},
    {"squat 80x5, 85x3", 2, 80, ""},
    {"squat 80x5, 3x5 felt easy", 0, 0, NULL},
    {"squat 80x5 kg", 1, 80, ""},
    {"squat 80x5 lb", 0, 0, NULL},
    {"bench 60 grip band doubled 6x3", 0, 0, NULL},
    {"bench 60 band 5x5", 0, 0, NULL},
    {"bench 60 + grip band doubled 6x3", 6, 60, "band \"grip\" doubled"},
    {"squat 80 chains 7x2", 0, 0, NULL},
    {"squat 2 chains/side: 3x5", 3, 0, "2 chains/side"},
    {"squat 20 kg chain: 3x5", 3, 0, "20 kg chain"},
};

START_TEST(test_hidden_loads)
{
    read_text(arena_printf(arena, "2026-01-12\n%s\n", hidden[_i].line));
    const struct log *log = reading->log;
    ck_assert_msg(log->sets.count == hidden[_i].sets, "%s: %zu sets", hidden[_i].line, log->sets.count);
    ck_assert_uint_eq(diags_total(diags, SEVERITY_ERROR), hidden[_i].sets == 0);
    if (!hidden[_i].sets)
        return;
    const struct load load = load_of_both(log->sets.items[0].weight, log->sets.items[0].ar);
    ck_assert_msg(!strcmp(load.ar, hidden[_i].ar), "%s: %s", hidden[_i].line, load.ar);
    ck_assert_double_eq(load.straight == STRAIGHT_NONE ? 0 : load.kg, hidden[_i].kg);
}
END_TEST

/* A second lifter's sets keep nothing that a header said of the first; what the file said of its numbers goes on. */
START_TEST(test_bodyweight_ends_with_its_lifter)
{
    ck_assert(
        read_text("unit: lb\nbodyweight: 180\nlifter: Oda\n2026-01-12\nsquat 100: 1x5\nlifter: Ulf\nsquat 100: 1x5\n"
                  "lifter: Oda\nsquat 100: 1x5\n"));
    const struct set *sets = reading->log->sets.items;
    ck_assert_uint_eq(reading->log->sets.count, 3);
    ck_assert_double_eq_tol(sets[0].bodyweight_kg, 180 * KG_PER_LB, 1e-9);
    ck_assert(isnan(sets[1].bodyweight_kg) && isnan(sets[2].bodyweight_kg));
    ck_assert_double_eq_tol(sets[1].weight->kg, 100 * KG_PER_LB, 1e-9);
}
END_TEST

/* A plain weight of a lift of the body is added to it once the bodyweight is known. */
START_TEST(test_body_weight)
{
    ck_assert(read_text("2026-01-12\npull-up 10: 1x5\nbodyweight: 80\npull-up 10: 1x5\n"));
    ck_assert_int_eq(reading->log->sets.items[0].weight->straight, STRAIGHT_MASS);
    ck_assert_int_eq(reading->log->sets.items[1].weight->straight, STRAIGHT_BODYWEIGHT);
}
END_TEST

/* A NUL, no line end at the end, CR LF, and lines across blocks. */
START_TEST(test_bytes)
{
    static const char nul[] = "2026-01-12\r\nsquat 1\0 00: 1x5\r\nsquat 100x5";
    ck_assert(read_bytes(nul, sizeof nul - 1));
    ck_assert(diags_first(diags)->id == DIAG_NUL_BYTE && diags_first(diags)->at.line == 2);
    ck_assert_uint_eq(reading->log->sets.count, 1);
    size_t count = INPUT_BLOCK_BYTES * 2 / 14;
    char *text = arena_alloc(arena, count * 16 + 32), *to = text + sprintf(text, "2026-01-12\n");
    for (size_t i = 0; i < count; i++)
        to += sprintf(to, "squat 100: 1x5\n");
    ck_assert(read_bytes(text, (size_t)(to - text)));
    ck_assert_uint_eq(reading->log->sets.count, count + 1);
    ck_assert_uint_eq(reading->log->files.items[1].refused, 0);
    char *endless = arena_alloc(arena, 6001);
    memset(endless, 'x', 6000);
    read_text(arena_printf(arena, "2026-01-12\nsquat 100: 1x5 %s\nnote: %s\n", endless, endless));
    ck_assert_uint_eq(reading->log->files.items[2].refused, 1);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("text log");
    TCase *cases = tcase_create("all");
    tcase_add_checked_fixture(cases, begin, end);
    tcase_set_timeout(cases, 60);
    tcase_add_test(cases, test_lines);
    tcase_add_test(cases, test_refused);
    tcase_add_loop_test(cases, test_gear_word, 0, sizeof gear_words / sizeof *gear_words);
    tcase_add_loop_test(cases, test_notebook, 0, sizeof notebooks / sizeof *notebooks);
    tcase_add_loop_test(cases, test_own_line_in_hint, 0, sizeof hints / sizeof *hints);
    tcase_add_test(cases, test_header);
    tcase_add_test(cases, test_sessions);
    tcase_add_test(cases, test_refused_sessions);
    tcase_add_test(cases, test_incomplete_dates);
    tcase_add_test(cases, test_dates_without_year);
    tcase_add_loop_test(cases, test_date_lines, 0, sizeof date_lines / sizeof *date_lines);
    tcase_add_test(cases, test_title);
    tcase_add_test(cases, test_column_behind_date);
    tcase_add_test(cases, test_date_order);
    tcase_add_test(cases, test_notes);
    tcase_add_test(cases, test_set_aside);
    tcase_add_test(cases, test_assumed_unit);
    tcase_add_loop_test(cases, test_hidden_loads, 0, sizeof hidden / sizeof *hidden);
    tcase_add_test(cases, test_body_weight);
    tcase_add_test(cases, test_bodyweight_ends_with_its_lifter);
    tcase_add_test(cases, test_bytes);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
