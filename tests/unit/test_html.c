#include "writing/html/html.h"
#include "writing/html/html_svg.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>

static struct arena *arena;
static struct output *output;
static struct html *html;

static void begin(void)
{
    arena = arena_new();
    output = output_to_memory(arena);
    html = html_new(arena, output);
}

static void end(void)
{
    output_discard(output);
    arena_free(arena);
}

static const char *written(void)
{
    return output_memory(output, NULL);
}

static void has(const char *part)
{
    ck_assert_msg(strstr(written(), part) != NULL, "no %s in\n%s", part, written());
}

static void has_not(const char *part)
{
    ck_assert_msg(strstr(written(), part) == NULL, "%s in\n%s", part, written());
}

START_TEST(elements_nest_and_text_is_text)
{
    html_open_class(html, "p", "a \"b\"");
    html_attribute(html, "title", "<&'\">");
    html_text(html, "1 < 2 & \"3\"");
    html_put(html, "code", NULL, "</p>");
    html_close(html);
    ck_assert_str_eq(written(),
                     "<p class=\"a &quot;b&quot;\" title=\"&lt;&amp;&#39;&quot;&gt;\">1 &lt; 2 &amp; &quot;3&quot;"
                     "<code>&lt;/p&gt;</code></p>\n");
}
END_TEST

START_TEST(a_page_closes_what_is_open)
{
    html_page_open(html, "</title><script>", "report.css");
    html_open(html, "main");
    html_heading(html, 9, "deep");
    html_page_close(html);
    has("<!DOCTYPE html>\n<html lang=\"en\">");
    has("content=\"default-src &#39;none&#39;; style-src &#39;unsafe-inline&#39;; img-src data:\"");
    has("<title>&lt;/title&gt;&lt;script&gt;</title>");
    has("prefers-color-scheme: dark"); /* the styles are in it */
    has("<h6>deep</h6>\n</main>\n</body>\n</html>\n");
    has_not("</meta>");
}
END_TEST

START_TEST(ids_are_safe_and_differ)
{
    ck_assert_str_eq(html_id(html, "Back Squat, <speed>"), "s-back-squat-speed");
    ck_assert_str_eq(html_id(html, "back squat speed"), "s-back-squat-speed-2");
    ck_assert_str_eq(html_id(html, "back_squat"), "s-back-squat");
    ck_assert_str_eq(html_id(html, ""), "s-unnamed");
}
END_TEST

struct row
{
    const char *name;
    double kg;
};

static void get_name(const void *row, struct cell *cell)
{
    cell_text(cell, ((const struct row *)row)->name);
}

static void get_kg(const void *row, struct cell *cell)
{
    cell_number(cell, ((const struct row *)row)->kg);
}

static const struct column columns[] = {
    {"name", "name", QUANTITY_PLAIN, 0, get_name},
    {"hidden", NULL, QUANTITY_PLAIN, 0, get_name},
    {"top_kg", "top, kg", QUANTITY_LOAD, 1, get_kg},
};

START_TEST(tables_are_those_of_text)
{
    html_table_open(html, "Loads", columns, 3, UNIT_LB);
    html_table_row(html, &(struct row){"<b>", 100});
    html_table_row(html, &(struct row){"none", 0.0 / 0.0});
    html_table_close(html);
    has("<caption>Loads</caption>");
    has("<th scope=\"col\">name</th><th scope=\"col\">top, lb</th>");
    has("<tr><th class=\"word\" scope=\"row\">&lt;b&gt;</th><td class=\"number\">220.5</td></tr>");
    has("<td class=\"word\"></td></tr>");
}
END_TEST

START_TEST(words_that_are_numbers_stand_right)
{
    static const char *const titles[] = {"when", "what"};
    static const char *const numbers[] = {"12.5", "-3", "+0.5", "55 %"};
    static const char *const words[] = {"2026-01-12", "3 chains", "", "1-2", "%", "."};
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++) {
        html_table_of_words(html, "c", titles, 2, (const char *const[]){"1", numbers[i]}, 2);
        has(arena_printf(arena, "<td class=\"number\">%s</td>", numbers[i]));
    }
    for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
        html_table_of_words(html, "c", titles, 2, (const char *const[]){"1", words[i]}, 2);
        has(arena_printf(arena, "<td class=\"word\">%s</td>", words[i]));
    }
}
END_TEST

#define PICTURE(body)                                                                                                  \
    "<?xml version=\"1.0\"?>\n<svg \n width=\"9\" height=\"6\"\n viewBox=\"0 0 9 6\"\n "                               \
    "xmlns=\"http://www.w3.org/2000/svg\">\n"                                                                          \
    "<title>Gnuplot</title>\n<desc>by a program</desc>\n" body "</svg>\n"

START_TEST(a_picture_becomes_part_of_the_page)
{
    const char *svg = PICTURE(
        "<defs>\n\t<path id='a' d='M0,0'/>\n\t<path id='unused' d='M0,0'/>\n"
        "<filter id='f'><feFlood result='bgnd'/></filter></defs>\n"
        "<g id=\"plot\" ><use xlink:href='#a' x='1'/></g><g fill=\"none\">\n</g><text>x &lt; y</text>");
    ck_assert(html_svg(html, svg, "a \"b\""));
    ck_assert(html_svg(html, svg, "again"));
    has("<svg viewBox=\"0 0 9 6\" role=\"img\" aria-label=\"a &quot;b&quot;\">");
    has("<path id='p1-a' d='M0,0'/>");
    has("<g id=\"p1-plot\" ><use href='#p1-a' x='1'/></g>");
    has("<use href='#p2-a' x='1'/>");
    has("<text>x &lt; y</text></svg>");
    has_not("unused");
    has_not("<filter");
    has_not("xlink");
    has_not("xmlns");
    has_not("<title>");
    has_not("fill=\"none\"");
    has_not("<?xml");
}
END_TEST

START_TEST(what_is_no_picture_stays_out)
{
    static const char *const others[] = {"",
                                         "plain text",
                                         "<svg>",
                                         "<svg viewBox=\"0 0 1 1\">",
                                         PICTURE("<script>x</script>"),
                                         PICTURE("<foreignObject/>"),
                                         PICTURE("<a href='x'/>"),
                                         PICTURE("<image/>"),
                                         PICTURE("<!-- x -->")};
    for (size_t i = 0; i < sizeof others / sizeof *others; i++)
        ck_assert_msg(!html_svg(html, others[i], "x"), "taken: %s", others[i]);
    ck_assert_str_eq(written(), "");
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("html");
    TCase *cases = tcase_create("html");
    suite_add_tcase(suite, cases);
    tcase_add_checked_fixture(cases, begin, end);
    tcase_add_test(cases, elements_nest_and_text_is_text);
    tcase_add_test(cases, a_page_closes_what_is_open);
    tcase_add_test(cases, ids_are_safe_and_differ);
    tcase_add_test(cases, tables_are_those_of_text);
    tcase_add_test(cases, words_that_are_numbers_stand_right);
    tcase_add_test(cases, a_picture_becomes_part_of_the_page);
    tcase_add_test(cases, what_is_no_picture_stays_out);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
