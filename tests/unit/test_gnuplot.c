#include "writing/gnuplot/gnuplot.h"
#include "writing/gnuplot/render.h"
#include "writing/text/sparkline.h"

#include <check.h>
#include <dirent.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define TIME_LIMIT_S 20.0
#define COUNT(list) ((int)(sizeof(list) / sizeof *(list)))

static struct arena *arena;
static char folder[64];

static void set_up(void)
{
    arena = arena_new();
    strcpy(folder, "/tmp/tautline-gnuplot-XXXXXX");
    ck_assert_ptr_nonnull(mkdtemp(folder));
    ck_assert_int_eq(chdir(folder), 0);
}

static void tear_down(void)
{
    DIR *dir = opendir(folder);
    ck_assert_ptr_nonnull(dir);
    for (const struct dirent *entry; (entry = readdir(dir));)
        if (entry->d_name[0] != '.')
            unlink(entry->d_name);
    closedir(dir);
    rmdir(folder);
    arena_free(arena);
}

/* Made-up data of any size; `text` goes wherever a template takes text. */
static void fill_waves(struct gp_script *script, size_t weeks, const char *text)
{
    size_t waves = (weeks + 2) / 3;
    gp_block(script, "$WEEKS");
    for (size_t i = 0; i < weeks; i++) {
        double straight = 60 + 5 * (double)(i % 3) + 0.5 * (double)i;
        gp_cell_number(script, (double)(i / 3 + 1));
        gp_cell_day(script, 20458 + 7 * (int)i);
        gp_cell_number(script, straight);
        gp_cell_number(script, straight);
        gp_cell_number(script, i % 7 == 5 ? (double)NAN : straight + 8);
        gp_cell_number(script, i % 7 == 5 ? (double)NAN : straight + 16);
        gp_cell_number(script, 24 * straight);
        gp_cell_number(script, i < 3 ? (double)NAN : straight - 1);
        gp_cell_number(script, i < 3 ? (double)NAN : straight + 14);
        gp_row_end(script);
    }
    gp_block(script, "$WAVES");
    for (size_t i = 0; i < waves; i++) {
        gp_cell_number(script, (double)(i + 1));
        gp_cell_text(script, text);
        gp_cell_text(script, text);
        gp_cell_text(script, i ? text : "");
        gp_row_end(script);
    }
    gp_block(script, "$CHANGES");
    for (size_t i = 4; i < weeks && i < 30; i += 3) {
        gp_cell_number(script, (double)(i + 1));
        gp_cell_text(script, text);
        gp_row_end(script);
    }
}

static void fill_weeks(struct gp_script *script, size_t weeks, const char *text)
{
    (void)text; /* this one takes text in its parameters only */
    gp_block(script, "$WEEKS");
    for (size_t i = 0; i < weeks; i++) {
        bool trained = i % 9 != 4;
        gp_cell_day(script, 20458 + 7 * (int)i);
        gp_cell_number(script, trained ? 5000.0 : 0);
        gp_cell_number(script, trained ? 5800.0 : 0);
        gp_cell_number(script, trained ? 0.6 : (double)NAN);
        gp_cell_number(script, trained ? 0.7 : (double)NAN);
        gp_row_end(script);
    }
}

static void fill_curves(struct gp_script *script, size_t curves, const char *text)
{
    gp_block(script, "$CURVES");
    for (size_t i = 0; i < curves; i++) {
        if (i)
            gp_part_end(script);
        for (int k = 0; k <= 4; k++) {
            gp_cell_number(script, 0.8 + 0.15 * k);
            gp_cell_number(script, 100 + (double)i * k);
            gp_cell_number(script, i % 2 ? 99 + (double)i * k : (double)NAN);
            gp_cell_number(script, i % 2 ? 101 + (double)i * k : (double)NAN);
            gp_row_end(script);
        }
    }
    gp_block(script, "$ENDS");
    for (size_t i = 0; i < curves; i++) {
        gp_cell_text(script, text);
        gp_cell_number(script, 0.8);
        gp_cell_number(script, 100);
        gp_cell_number(script, 1.4);
        gp_cell_number(script, 100 + 4 * (double)i);
        gp_row_end(script);
    }
}

static void band_rows(struct gp_script *script, size_t curves, const char *block, double interval)
{
    gp_block(script, block);
    for (size_t i = 0; i < curves; i++) {
        if (i)
            gp_part_end(script);
        for (int k = 1; k <= 4; k++) {
            gp_cell_number(script, 1 + 0.2 * k);
            gp_cell_number(script, 10 * k + (double)i);
            gp_cell_number(script, i % 2 ? 10 * k + (double)i - interval : 0);
            if (interval > 0)
                gp_cell_number(script, i % 2 ? 10 * k + (double)i + interval : (double)NAN);
            gp_row_end(script);
        }
    }
}

static void fill_band(struct gp_script *script, size_t measurements, const char *text)
{
    band_rows(script, measurements, "$POINTS", 0);
    gp_block(script, "$FLATS");
    for (size_t i = 0; i < measurements; i++) {
        gp_cell_number(script, 1);
        gp_row_end(script);
    }
    band_rows(script, measurements, "$CURVES", 2);
    gp_block(script, "$NAMES");
    for (size_t i = 0; i < measurements; i++) {
        gp_cell_number(script, (double)i + 1);
        gp_cell_text(script, text);
        gp_row_end(script);
    }
}

static void fill_zones(struct gp_script *script, size_t weeks, const char *text)
{
    (void)text;
    gp_block(script, "$WEEKS");
    for (size_t i = 0; i < weeks; i++) {
        gp_cell_day(script, 20458 + 7 * (int)i);
        for (int zone = 0; zone < 5; zone++)
            gp_cell_number(script, i % 9 == 4 ? (double)NAN : (double)(zone * (int)(i % 3)));
        gp_row_end(script);
    }
}

/* Without tests, records or estimates every third time. */
static void fill_e1rm(struct gp_script *script, size_t days, const char *text)
{
    (void)text;
    gp_block(script, "$DAYS");
    for (size_t i = 0; i < days; i++) {
        gp_cell_day(script, 20458 + 3 * (int)i);
        gp_cell_number(script, i % 2 ? 100 + (double)(i % 7) : (double)NAN);
        gp_cell_number(script, i % 2 || days == 1 ? (double)NAN : 90);
        gp_cell_number(script, i % 2 || days == 1 ? (double)NAN : 120);
        gp_row_end(script);
    }
    if (days != 3)
        gp_block(script, "$TESTS");
    for (size_t i = 0; days != 3 && i < days; i += 40) {
        gp_cell_day(script, 20458 + 3 * (int)i);
        gp_cell_number(script, 110 + (double)(i / 40));
        gp_row_end(script);
    }
}

static void fill_contributions(struct gp_script *script, size_t waves, const char *text)
{
    gp_block(script, "$WAVES");
    for (size_t i = 0; i < waves; i++) {
        gp_cell_text(script, text);
        gp_cell_text(script, text);
        gp_cell_day(script, 20458 + 21 * (int)i);
        gp_cell_number(script, 70 + 0.5 * (double)i);
        gp_cell_number(script, i % 4 == 2 ? (double)NAN : 72);
        gp_cell_number(script, i % 4 == 2 ? (double)NAN : 95);
        gp_row_end(script);
    }
}

static void fill_velocity(struct gp_script *script, size_t sets, const char *text)
{
    (void)text;
    gp_block(script, "$SETS");
    for (size_t i = 0; i < sets; i++) {
        gp_cell_number(script, 0.4 + 0.05 * (double)(i % 12));
        gp_cell_number(script, 140 - 5 * (double)(i % 12));
        gp_cell_number(script, (double)(i % 3 == 2));
        gp_row_end(script);
    }
}

static void fill_planned(struct gp_script *script, size_t weeks, const char *text)
{
    gp_block(script, "$WEEKS");
    for (size_t i = 0; i < weeks; i++) {
        gp_cell_day(script, 20458 + 7 * (int)i);
        for (int pair = 0; pair < 4; pair++) {
            gp_cell_number(script, pair && i % 5 == 4 ? (double)NAN : 60 + 10 * pair);
            gp_cell_number(script, i % 3 ? (double)NAN : 61 + 10 * pair);
        }
        gp_cell_text(script, i % 3 ? text : "done");
        gp_row_end(script);
    }
}

static void fill_team(struct gp_script *script, size_t lifters, const char *text)
{
    gp_block(script, "$LIFTERS");
    for (size_t i = 0; i < lifters; i++) {
        gp_cell_text(script, text);
        gp_cell_number(script, i % 6 == 5 ? (double)NAN : 0.01 * ((double)(i % 5) - 2));
        gp_cell_number(script, i % 6 == 5 ? (double)NAN : 0.01 * ((double)(i % 4) - 2));
        gp_row_end(script);
    }
}

static void fill_glance(struct gp_script *script, size_t weeks, const char *text)
{
    (void)text;
    gp_block(script, "$WEEKS");
    for (size_t i = 0; i < weeks; i++) {
        gp_cell_number(script, 60 + (double)i);
        gp_cell_number(script, i % 4 ? 60 + (double)i : 80 + (double)i);
        gp_cell_number(script, i % 5 ? 59 + (double)i : (double)NAN);
        gp_cell_number(script, i % 5 ? 79 + (double)i : (double)NAN);
        gp_row_end(script);
    }
}

static void fill_spans(struct gp_script *script, size_t weeks, const char *text)
{
    gp_set_text(script, "span_name", text);
    gp_set_text(script, "other_name", text);
    gp_set_text(script, "axis_title", text);
    gp_block(script, "$WEEKS");
    for (size_t i = 0; i < weeks; i++) {
        double straight = 60 + 5 * (double)(i % 3);
        gp_cell_number(script, (double)i + 1);
        for (int k = 0; k < 6; k++)
            gp_cell_number(script, i % 5 == 3 && k < 3 ? (double)NAN : straight + (i % 4 ? 8 * (k % 3) : 0));
        gp_row_end(script);
    }
}

static void fill_year(struct gp_script *script, size_t weeks, const char *text)
{
    gp_block(script, "$STRIPS");
    gp_cell_text(script, text);
    gp_row_end(script);
    gp_block(script, "$WEEKS");
    for (size_t i = 0; i < weeks; i++) {
        double straight = 60 + 5 * (double)(i % 3);
        gp_cell_number(script, 1);
        gp_cell_day(script, 20458 + 7 * (int)i);
        gp_cell_number(script, straight);
        gp_cell_number(script, straight + 2);
        gp_cell_number(script, straight + 20);
        gp_cell_number(script, (double)(i / 3 + 1));
        gp_cell_number(script, i % 10 == 9);
        gp_row_end(script);
    }
    gp_block(script, "$GAPS");
    gp_block(script, "$CHANGES");
    for (size_t i = 1; i < weeks; i += 4) {
        gp_cell_number(script, 1);
        gp_cell_day(script, 20458 + 7 * (int)i);
        gp_cell_text(script, text);
        gp_row_end(script);
    }
    gp_block(script, "$TESTS");
    gp_cell_number(script, 1);
    gp_cell_day(script, 20460);
    gp_cell_text(script, text);
    gp_row_end(script);
}

static const struct
{
    const char *name;
    void (*fill)(struct gp_script *, size_t, const char *);
    size_t many;
} templates[] = {
    {"waves", fill_waves, 480},
    {"weeks", fill_weeks, 500},
    {"curves", fill_curves, 30},
    {"band", fill_band, 30},
    {"zones", fill_zones, 500},
    {"e1rm", fill_e1rm, 1500},
    {"contributions", fill_contributions, 160},
    {"velocity", fill_velocity, 2000},
    {"planned", fill_planned, 52},
    {"team", fill_team, 40},
    {"glance", fill_glance, 30},
    {"year", fill_year, 53},
    {"spans", fill_spans, 104},
};

/* `rows` 0: the template's own data. Returns the picture's name. */
static const char *write_script(int template_index, size_t rows, enum gp_picture picture, const char *text)
{
    struct gp_script *script = gp_new(arena, templates[template_index].name);
    ck_assert_ptr_nonnull(script);
    const char *name = gp_picture(script, picture, "picture");
    if (rows) {
        gp_set_text(script, "heading", text);
        gp_set_text(script, "sentence", text);
        gp_set_text(script, "unit", "kg");
        templates[template_index].fill(script, rows, text);
    }
    struct output *output = output_open(arena, "script.gp");
    ck_assert_ptr_nonnull(output);
    gp_write(script, output);
    ck_assert(output_commit(output));
    return name;
}

static char *content(const char *path)
{
    FILE *file = fopen(path, "rb");
    ck_assert_msg(file, "%s is not there", path);
    char *text = arena_alloc(arena, 4000001);
    text[fread(text, 1, 4000000, file)] = 0;
    fclose(file);
    return text;
}

START_TEST(parameters_and_data_come_first)
{
    struct gp_script *script = gp_new(arena, "waves");
    ck_assert_str_eq(gp_picture(script, GP_SVG, "squat speed"), "squat-speed.svg");
    gp_set_number(script, "width", 900);
    gp_set_number(script, "nothing", NAN);
    gp_set_text(script, "unit", "`x`");
    gp_block(script, "$A");
    gp_cell_number(script, 1.0 / 3);
    gp_cell_number(script, INFINITY);
    gp_cell_text(script, "END_OF_A\n");
    gp_cell_day(script, 20465);
    gp_row_end(script);
    gp_block(script, "$B");
    gp_cell_number(script, 2);
    gp_row_end(script);
    gp_part_end(script);
    gp_cell_number(script, -3);
    gp_row_end(script);
    struct output *output = output_to_memory(arena);
    gp_write(script, output);
    const char *text = output_memory(output, NULL);
    ck_assert_ptr_nonnull(strstr(text, "\npicture = \"svg\"\n"
                                       "picture_name = \"squat\\055speed\\056svg\"\n"
                                       "width = 900\n"
                                       "nothing = NaN\n"
                                       "unit = \"\\140x\\140\"\n"
                                       "\n"
                                       "$A << END_OF_A\n"
                                       "0.333333333 NaN \"END\\137OF\\137A\\134x0A\" 2026-01-12\n"
                                       "END_OF_A\n"
                                       "$B << END_OF_B\n"
                                       "2\n\n\n-3\n"
                                       "END_OF_B\n"));
    ck_assert_ptr_nonnull(strstr(text, "# Waves of one lift side by side"));
}
END_TEST

START_TEST(only_templates_that_exist)
{
    ck_assert_ptr_null(gp_new(arena, "nothing"));
    ck_assert_ptr_null(gp_new(arena, "style"));
}
END_TEST

START_TEST(picture_name_runs_nothing)
{
    struct gp_script *script = gp_new(arena, "weeks");
    ck_assert_str_eq(gp_picture(script, GP_PNG, "| touch canary"), "touch-canary.png");
    ck_assert_str_eq(gp_picture(script, GP_DUMB, "../../etc/x"), "etc-x.txt");
}
END_TEST

/* Each template draws its own data, one row and many, and gnuplot has nothing to say about it. */
static void draw(int template_index, size_t rows, enum gp_picture picture)
{
    const char *name = write_script(template_index, rows, picture, "A lift of a name that is long, but not too long");
    struct render render = render_script(arena, "script.gp", TIME_LIMIT_S);
    ck_assert_msg(render.result == RENDER_DONE, "%s, %zu rows: %s", templates[template_index].name, rows,
                  render.message);
    ck_assert_str_eq(render.message, "");
    ck_assert_uint_gt(strlen(content(name)), 0);
}

START_TEST(draws_without_a_warning)
{
    draw(_i, 0, GP_SVG);
    draw(_i, 1, GP_PNG);
    draw(_i, 2, GP_DUMB);
    draw(_i, 5, GP_SVG);
    draw(_i, templates[_i].many, GP_SVG);
}
END_TEST

#define TWENTY "aaaaaaaaaaaaaaaaaaaa"
static const char *const hostile[] = {
    "`touch canary`",
    "\"; system('touch canary'); x=\"",
    "'; system(\"touch canary\"); x='",
    "$(touch canary)",
    "\\\"`touch canary`",
    "a\n!touch canary\n",
    "\nsystem 'touch canary'\n",
    "END_OF_WEEKS\n`touch canary`",
    "END_OF_WAVES",
    "%n%s%n %d%%",
    "{/Symbol a}_{b}^2 @heading",
    "\\140touch canary\\140",
    "# NaN ? , ; |",
    "</text><script>&amp;",
    "\xFF\xFE\xC3 \x01\x7F \xEF\xBF\xBE",
    "力士 Łukasz e\xCC\x81 \xE2\x80\xAE gnitfil",
    TWENTY TWENTY TWENTY TWENTY TWENTY TWENTY TWENTY TWENTY TWENTY TWENTY, /* one word, longer than two lines */
    " ",
};

START_TEST(hostile_text_is_only_text)
{
    for (int i = 0; i < COUNT(templates); i++) {
        const char *name = write_script(i, 3, GP_SVG, hostile[_i]);
        struct render render = render_script(arena, "script.gp", TIME_LIMIT_S);
        ck_assert_msg(render.result == RENDER_DONE && !*render.message, "%s: %s", templates[i].name, render.message);
        ck_assert_ptr_nonnull(strstr(content(name), "</svg>"));
        ck_assert_int_ne(access("canary", F_OK), 0);
    }
}
END_TEST

/* Markup and format signs stand in the picture as they were written. */
START_TEST(markup_does_not_act)
{
    const char *name = write_script(0, 3, GP_SVG, "{/Bold x}_2 %d `y` \\101");
    ck_assert_int_eq(render_script(arena, "script.gp", TIME_LIMIT_S).result, RENDER_DONE);
    ck_assert_ptr_nonnull(strstr(content(name), "{/Bold x}_2 %d `y` \\101"));
}
END_TEST

/* Who cannot see it reads the heading and the sentence, and of each series what it is: nothing of the program that
 * drew. */
START_TEST(an_svg_says_what_it_shows)
{
    for (int i = 0; i < COUNT(templates); i++) {
        struct gp_script *script = gp_new(arena, templates[i].name);
        const char *name = gp_picture(script, GP_SVG, "said");
        gp_set_text(script, "heading", "Squat, <speed> waves");
        gp_set_text(script, "sentence", "Each wave is heavier & longer.");
        templates[i].fill(script, 5, "text");
        struct output *output = output_open(arena, "said.gp");
        gp_write(script, output);
        ck_assert(output_commit(output));
        ck_assert_int_eq(render_script(arena, "said.gp", TIME_LIMIT_S).result, RENDER_DONE);
        gp_describe(script, arena, "./said.gp");
        const char *svg = content(name);
        ck_assert_msg(strstr(svg, "<title>Squat, &lt;speed&gt; waves</title>\n"
                                  "<desc>Each wave is heavier &amp; longer.</desc>"),
                      "%s: no title", templates[i].name);
        ck_assert_msg(!strstr(svg, "<title>$") && !strstr(svg, "<title>gnuplot") && !strstr(svg, "GNUPLOT"),
                      "%s: words of the program", templates[i].name);
        ck_assert_ptr_nonnull(strstr(svg, "</svg>"));
    }
}
END_TEST

static void make_file(const char *path, const char *text, mode_t mode)
{
    FILE *file = fopen(path, "w");
    ck_assert_ptr_nonnull(file);
    fputs(text, file);
    fclose(file);
    chmod(path, mode);
}

START_TEST(errors_of_a_script_are_told)
{
    make_file("-bad script.gp", "plot nonsense(\n", 0644);
    struct render render = render_script(arena, "-bad script.gp", TIME_LIMIT_S);
    ck_assert_int_eq(render.result, RENDER_FAILED);
    ck_assert_uint_gt(strlen(render.message), 0);
    ck_assert_int_eq(render_script(arena, "missing.gp", TIME_LIMIT_S).result, RENDER_FAILED);
}
END_TEST

START_TEST(much_talk_is_cut)
{
    make_file("talk.gp", "do for [i=1:20000] { print \"a line of talk\" }\n", 0644);
    struct render render = render_script(arena, "talk.gp", TIME_LIMIT_S);
    ck_assert_int_eq(render.result, RENDER_DONE);
    ck_assert_uint_eq(strlen(render.message), 2000);
}
END_TEST

START_TEST(slow_script_is_ended)
{
    make_file("slow.gp", "system('sleep 30')\n", 0644);
    ck_assert_int_eq(render_script(arena, "slow.gp", 0.3).result, RENDER_TIME_OUT);
}
END_TEST

START_TEST(picture_appears_beside_the_script)
{
    mkdir("sub", 0755);
    make_file("sub/s.gp", "set terminal dumb\nset output 'here.txt'\nplot [0:1] x\n", 0644);
    ck_assert_int_eq(render_script(arena, "sub/s.gp", TIME_LIMIT_S).result, RENDER_DONE);
    ck_assert_int_eq(access("sub/here.txt", F_OK), 0);
    unlink("sub/here.txt");
    unlink("sub/s.gp");
    rmdir("sub");
}
END_TEST

START_TEST(a_night_without_a_locale_is_drawn_without_a_word)
{
    setenv("LC_ALL", "C", 1); /* each test is a process of its own */
    write_script(0, 3, GP_SVG, "180\xC2\xB0");
    struct render render = render_script(arena, "script.gp", TIME_LIMIT_S);
    ck_assert_msg(render.result == RENDER_DONE && !*render.message, "%s", render.message);
}
END_TEST

START_TEST(gnuplot_is_looked_for_in_absolute_folders_only)
{
    make_file("gnuplot", "#!/bin/sh\ntouch canary\n", 0755);
    make_file("s.gp", "print 1\n", 0644);
    const char *path = arena_copy(arena, getenv("PATH"));
    setenv("PATH", ".::", 1);
    ck_assert_ptr_null(render_find_gnuplot(arena));
    ck_assert_int_eq(render_script(arena, "s.gp", TIME_LIMIT_S).result, RENDER_NO_GNUPLOT);
    setenv("PATH", arena_printf(arena, "relative:%s", folder), 1);
    ck_assert_str_eq(render_find_gnuplot(arena), arena_printf(arena, "%s/gnuplot", folder));
    unsetenv("PATH");
    ck_assert_ptr_null(render_find_gnuplot(arena));
    setenv("PATH", path, 1); /* the tests after this one may run in the same process */
}
END_TEST

static const struct
{
    double values[9];
    size_t count;
    struct sparkline_style style;
    const char *line;
} lines[] = {
    {{0}, 0, {0}, ""},
    {{1, 2, 3, 4, 5, 6, 7, 8}, 8, {0}, "▁▂▃▄▅▆▇█"},
    {{1, 2, 3, 4, 5, 6, 7, 8}, 8, {.ascii = true}, ".:-=+*#@"},
    {{5, 5, 5}, 3, {0}, "▄▄▄"},
    {{5, 5, 5}, 3, {.from_zero = true}, "███"},
    {{0, 0}, 2, {.from_zero = true, .ascii = true}, "=="},
    {{1, NAN, 8, INFINITY}, 4, {0}, "▁ █ "},
    {{NAN, NAN}, 2, {0}, "  "},
    {{0, 2, 7, 9, 4, 5}, 6, {.width = 3, .ascii = true}, ".@+"}, /* means 1, 8, 4.5 */
    {{-4, 4}, 2, {0}, "▁█"},
};

START_TEST(sparklines)
{
    ck_assert_str_eq(sparkline(arena, lines[_i].values, lines[_i].count, &lines[_i].style), lines[_i].line);
}
END_TEST

static TCase *drawing_cases(void)
{
    TCase *cases = tcase_create("drawing");
    tcase_add_checked_fixture(cases, set_up, tear_down);
    tcase_set_timeout(cases, 120);
    tcase_add_loop_test(cases, draws_without_a_warning, 0, COUNT(templates));
    tcase_add_test(cases, a_night_without_a_locale_is_drawn_without_a_word);
    tcase_add_loop_test(cases, hostile_text_is_only_text, 0, COUNT(hostile));
    tcase_add_test(cases, markup_does_not_act);
    tcase_add_test(cases, an_svg_says_what_it_shows);
    tcase_add_test(cases, errors_of_a_script_are_told);
    tcase_add_test(cases, much_talk_is_cut);
    tcase_add_test(cases, slow_script_is_ended);
    tcase_add_test(cases, picture_appears_beside_the_script);
    return cases;
}

int main(void)
{
    Suite *suite = suite_create("gnuplot");
    TCase *cases = tcase_create("scripts");
    tcase_add_checked_fixture(cases, set_up, tear_down);
    tcase_add_test(cases, parameters_and_data_come_first);
    tcase_add_test(cases, only_templates_that_exist);
    tcase_add_test(cases, picture_name_runs_nothing);
    tcase_add_test(cases, gnuplot_is_looked_for_in_absolute_folders_only);
    tcase_add_loop_test(cases, sparklines, 0, COUNT(lines));
    suite_add_tcase(suite, cases);
    struct arena *scratch = arena_new();
    if (render_find_gnuplot(scratch))
        suite_add_tcase(suite, drawing_cases());
    else
        puts("gnuplot is not on PATH: nothing is drawn");
    arena_free(scratch);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_ENV);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed != 0;
}
