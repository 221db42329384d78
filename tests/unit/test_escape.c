#include "writing/escape.h"

#include <check.h>
#include <jansson.h>
#include <stdint.h>
#include <string.h>

static struct arena *arena;

static void set_up(void)
{
    arena = arena_new();
}

static void tear_down(void)
{
    arena_free(arena);
}

static const struct
{
    const char *text;
    bool safe;
    const char *csv;
} csv_cases[] = {
    {NULL, false, ""},
    {"", true, ""},
    {"squat", false, "squat"},
    {" kept ", false, "\" kept \""}, /* RFC 4180, section 2.4: spaces are part of a field; quoted, nobody strips them */
    {"kept\t", false, "\"kept\t\""},
    {"a,b", false, "\"a,b\""},
    {"a;b", false, "a;b"},
    {"5\"", false, "\"5\"\"\""},
    {"\"\"", false, "\"\"\"\"\"\""},
    {"two\nlines", false, "\"two\nlines\""},
    {"two\r\nlines", false, "\"two\r\nlines\""},
    {"\x01\x7F", false, "\x01\x7F"},
    {"bad \xFF utf8", false, "bad \xFF utf8"}, /* CSV keeps a text as it was */
    {"=1+1", false, "=1+1"},
    {"=1+1", true, "'=1+1"},
    {"+1", true, "'+1"},
    {"-1", true, "'-1"},
    {"@SUM", true, "'@SUM"},
    {"\tx", true, "\"'\tx\""},
    {"\nx", true, "\"'\nx\""},
    {"\uFF1D1+1", true, "'\uFF1D1+1"},
    {"\uFF1D1+1", false, "\uFF1D1+1"},
    {"\uFF10", true, "\uFF10"},
    {"\rx", true, "\"'\rx\""},
    {"=a,\"b\"", true, "\"'=a,\"\"b\"\"\""},
    {"a=1", true, "a=1"},
    {"'=1", true, "''=1"},
    {"''-1", true, "'''-1"},
    {"'90s squat", true, "'90s squat"},
    {"'=1", false, "'=1"},
};

START_TEST(csv)
{
    struct output *output = output_to_memory(arena);
    escape_csv(output, csv_cases[_i].text, csv_cases[_i].safe);
    ck_assert_str_eq(output_memory(output, NULL), csv_cases[_i].csv);
}
END_TEST

/* RFC 4180 to the letter, a character at a time. */
static const char *plainly_quoted(const char *text)
{
    size_t length = strlen(text);
    char *out = arena_alloc(arena, 2 * length + 3), *to = out;
    bool blanks = length && (strchr(" \t", *text) || strchr(" \t", text[length - 1]));
    if (!blanks && !strpbrk(text, ",\"\r\n"))
        return text;
    *to++ = '"';
    for (; *text; text++) {
        if (*text == '"')
            *to++ = '"';
        *to++ = *text;
    }
    *to = '"';
    return out;
}

START_TEST(csv_of_many_texts)
{
    static const char characters[] =
        "abcdefghijklmnopqrstuvwxyz\xC3\xB8\x80\xFF\xAC\xA2\x2B\x2D\x21\x23\x0B\x0C\x0E,\"\r\n\t ";
    uint64_t seed = 4180;
    for (int i = 0; i < 100000; i++) {
        char text[80] = "", to[ESCAPED_CSV_BYTES(sizeof text)] = "";
        seed = seed * 6364136223846793005u + 1442695040888963407u;
        size_t length = seed >> 33 & 31,
               kinds = seed >> 40 & 1 ? sizeof characters - 1 : sizeof characters - 7; /* half have none to quote */
        for (size_t j = 0; j < length; j++) {
            seed = seed * 6364136223846793005u + 1442695040888963407u;
            text[j] = seed >> 62 ? characters[(seed >> 33) % 26] : characters[(seed >> 33) % kinds];
        }
        const char *expected = plainly_quoted(text);
        *escape_csv_to(to, text, length, false) = 0;
        ck_assert_str_eq(to, expected);
        struct output *output = output_to_memory(arena);
        escape_csv(output, text, false);
        ck_assert_str_eq(output_memory(output, NULL), expected);
        arena_reset(arena);
    }
}
END_TEST

START_TEST(csv_of_a_long_text)
{
    char *text = arena_alloc(arena, 30001);
    memset(text, '"', 30000);
    struct output *output = output_to_memory(arena);
    escape_csv(output, text, true);
    ck_assert_str_eq(output_memory(output, NULL), plainly_quoted(text));
}
END_TEST

static const struct
{
    const char *text, *json;
} json_cases[] = {
    {NULL, "\"\""},
    {"plain", "\"plain\""},
    {"a\"b\\c/", "\"a\\\"b\\\\c/\""},
    {"\b\f\n\r\t", "\"\\b\\f\\n\\r\\t\""},
    {"\x01\x1F", "\"\\u0001\\u001F\""},
    {"\x7F", "\"\x7F\""},
    {"ø 力 \xF0\x9F\x92\xAA", "\"ø 力 \xF0\x9F\x92\xAA\""},
    {"a\xFFz", "\"a\xEF\xBF\xBDz\""},
    {"\xC3", "\"\xEF\xBF\xBD\""},                                 /* cut short */
    {"\xED\xA0\x80", "\"\xEF\xBF\xBD\xEF\xBF\xBD\xEF\xBF\xBD\""}, /* a surrogate is no UTF-8 */
    {"\xC0\xAF", "\"\xEF\xBF\xBD\xEF\xBF\xBD\""},                 /* overlong */
};

START_TEST(json)
{
    struct output *output = output_to_memory(arena);
    escape_json(output, json_cases[_i].text);
    ck_assert_str_eq(output_memory(output, NULL), json_cases[_i].json);
    json_t *read = json_loads(output_memory(output, NULL), JSON_DECODE_ANY, NULL);
    ck_assert_ptr_nonnull(read);
    json_decref(read);
    const char *text = json_cases[_i].text ? json_cases[_i].text : "";
    bool plain = is_plain_in_json(text, strlen(text)); /* it may say no where it need not */
    ck_assert(!plain || strlen(json_cases[_i].json) == strlen(text) + 2);
    ck_assert(plain || strcmp(text, "plain"));
}
END_TEST

static const struct
{
    const char *text, *gnuplot;
} gnuplot_cases[] = {
    {NULL, "\"\""},
    {"Squat 100 kg", "\"Squat 100 kg\""},
    {"`id`", "\"\\140id\\140\""},
    {"a\"b", "\"a\\042b\""},
    {"it's", "\"it\\047s\""},
    {"\\140", "\"\\134\\061\\064\\060\""},            /* octal written by the user stays text */
    {"2.7, -08", "\"2\\056\\067\\054 \\055\\0608\""}, /* digits would prolong the octal number before them */
    {"$(id)", "\"\\044\\050id\\051\""},
    {"%n{/X}@", "\"\\045n\\173\\057X\\175\\100\""},
    {"a\nb", "\"a\\134x0Ab\""}, /* made visible: a cell stays on its line */
    {"ø", "\"\\303\\270\""},
    {"\xFF", "\"\\134xFF\""},
    {"\xEF\xBF\xBE", "\"\\357\\277\\275\""},                        /* U+FFFE, which XML forbids */
    {"\xE2\x80\xAE!", "\"\\134u\\173\\062\\060\\062E\\175\\041\""}, /* text turned backwards */
};

START_TEST(gnuplot)
{
    ck_assert_str_eq(escape_gnuplot(arena, gnuplot_cases[_i].text), gnuplot_cases[_i].gnuplot);
    ck_assert_str_eq(escape_gnuplot_cell(arena, gnuplot_cases[_i].text), gnuplot_cases[_i].gnuplot);
}
END_TEST

/* Whatever the byte, the string has nothing in it but letters, digits, spaces and whole octal escapes. */
START_TEST(gnuplot_every_byte)
{
    static const char harmless[] = " 0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz";
    char text[] = {'9', (char)_i, '7', 0};
    const char *escaped = escape_gnuplot(arena, text);
    size_t length = strlen(escaped);
    ck_assert_int_eq(escaped[0], '"');
    ck_assert_int_eq(escaped[length - 1], '"');
    for (size_t i = 1; i + 1 < length; i++) {
        if (escaped[i] == '\\') {
            ck_assert_uint_eq(strspn(escaped + i + 1, "01234567") >= 3, true);
            i += 3;
        } else {
            ck_assert_msg(strchr(harmless, escaped[i]), "byte %d", _i);
        }
    }
}
END_TEST

static const struct
{
    const char *text, *html;
} html_cases[] = {
    {NULL, ""},
    {"a < b & c > d", "a &lt; b &amp; c &gt; d"},
    {"</td><script>", "&lt;/td&gt;&lt;script&gt;"},
    {"\" onload='x'", "&quot; onload=&#39;x&#39;"},
    {"&amp;", "&amp;amp;"},
    {"tab\there", "tab\\x09here"},
    {"Łukasz 力", "Łukasz 力"},
    {"\xFE", "\\xFE"},
    {"\xEF\xBF\xBE", "\xEF\xBF\xBD"},
};

START_TEST(html)
{
    struct output *output = output_to_memory(arena);
    escape_html(output, html_cases[_i].text);
    ck_assert_str_eq(output_memory(output, NULL), html_cases[_i].html);
}
END_TEST

static const struct
{
    const char *text, *name;
} file_name_cases[] = {
    {NULL, "unnamed"},
    {"", "unnamed"},
    {"...", "unnamed"},
    {"../../etc/passwd", "etc-passwd"},
    {".hidden", "hidden"},
    {"-rf", "rf"},
    {"Oda Brandvik", "Oda-Brandvik"},
    {"  Oda   Brandvik  ", "Oda-Brandvik"},
    {"good_morning", "good_morning"},
    {"Åse Ødegård", "Åse-Ødegård"},
    {"a/b\\c:d*e?f", "a-b-c-d-e-f"},
    {"line\nbreak", "line-break"},
    {"力 squat", "力-squat"},
    {"bad\xFF", "bad"},
    {"|reboot", "reboot"},
    {"\xE2\x80\xAE"
     "abc",
     "abc"},
};

START_TEST(file_name)
{
    ck_assert_str_eq(escape_file_name(arena, file_name_cases[_i].text), file_name_cases[_i].name);
}
END_TEST

START_TEST(file_name_is_cut_between_characters)
{
    char text[201];
    for (size_t i = 0; i < 200; i += 2)
        memcpy(text + i, "ø", 2);
    text[200] = 0;
    ck_assert_uint_eq(strlen(escape_file_name(arena, text)), 80);
    memmove(text + 1, text, 199);
    text[0] = 'x';
    text[199] = 0;
    ck_assert_uint_eq(strlen(escape_file_name(arena, text)), 79);
}
END_TEST

#define COUNT(list) ((int)(sizeof(list) / sizeof *(list)))

/* What is unquoted is then what was meant. */
START_TEST(csv_undone)
{
    static const char *const texts[] = {"=1", "-1", "'=1", "''@x", "'", "''", "'90s", "", "a", "\uFF1D1", "'\uFF1D1"};
    for (size_t i = 0; i < COUNT(texts); i++) {
        struct output *output = output_to_memory(arena);
        escape_csv(output, texts[i], true);
        ck_assert_str_eq(escape_csv_undone(output_memory(output, NULL)), texts[i]);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("escape");
    TCase *cases = tcase_create("escape");
    tcase_add_checked_fixture(cases, set_up, tear_down);
    tcase_add_loop_test(cases, csv, 0, COUNT(csv_cases));
    tcase_add_test(cases, csv_undone);
    tcase_add_test(cases, csv_of_many_texts);
    tcase_add_test(cases, csv_of_a_long_text);
    tcase_add_loop_test(cases, json, 0, COUNT(json_cases));
    tcase_add_loop_test(cases, gnuplot, 0, COUNT(gnuplot_cases));
    tcase_add_loop_test(cases, gnuplot_every_byte, 1, 256);
    tcase_add_loop_test(cases, html, 0, COUNT(html_cases));
    tcase_add_loop_test(cases, file_name, 0, COUNT(file_name_cases));
    tcase_add_test(cases, file_name_is_cut_between_characters);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_ENV);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed != 0;
}
