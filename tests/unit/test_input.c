/* Encodings, marks, line ends, and the window of lines behind the reader. */
#include "reading/input/input.h"

#include "base/text.h"

#include <check.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static struct arena *arena;
static struct diags *diags;

static void set_up(void)
{
    arena = arena_new();
    diags = diags_new(arena);
}

static void tear_down(void)
{
    arena_free(arena);
}

/* All the text of an input; closes it. */
static char *all_text(struct input *input, size_t *length)
{
    char *text = NULL;
    const char *block;
    *length = 0;
    for (size_t step; (step = input_read(input, &block)); *length += step) {
        text = arena_grow(arena, text, text ? *length + 1 : 0, *length + step + 1);
        memcpy(text + *length, block, step);
        text[*length + step] = 0;
    }
    return text ? text : arena_copy(arena, "");
}

static bool was_said(enum diag_id id)
{
    for (const struct diag *diag = diags_first(diags); diag; diag = diag->next)
        if (diag->id == id)
            return true;
    return false;
}

#define BYTES(literal) literal, sizeof(literal) - 1

static const struct
{
    const char *bytes;
    size_t length;
    const char *text, *encoding;
    bool guessed;
} encodings[] = {
    {BYTES(""), "", "UTF-8", false},
    {BYTES("a,b\n"), "a,b\n", "UTF-8", false},
    {BYTES("\xEF\xBB\xBF"
           "a"),
     "a", "UTF-8", false},
    {BYTES("\xEF\xBB\xBF"), "", "UTF-8", false},
    {BYTES("Zo\xC3\xAB \xE2\x82\xAC \xF0\x9F\x8F\x8B"), "Zo\xC3\xAB \xE2\x82\xAC \xF0\x9F\x8F\x8B", "UTF-8", false},
    {BYTES("\xFF\xFE"
           "a\0\xEB\0\n\0"),
     "a\xC3\xAB\n", "UTF-16LE", false},
    {BYTES("\xFE\xFF\0a\0\xEB\0\n"), "a\xC3\xAB\n", "UTF-16BE", false},
    {BYTES("\xFF\xFE\x3C\xD8\xCB\xDF"), "\xF0\x9F\x8F\x8B", "UTF-16LE", false},   /* a surrogate pair */
    {BYTES("D\0a\0t\0e\0;\0L\0i\0f\0t\0\n\0"), "Date;Lift\n", "UTF-16LE", false}, /* no mark */
    {BYTES("\0D\0a\0t\0e\0;\0L\0i\0f\0t\0\n"), "Date;Lift\n", "UTF-16BE", false},
    {BYTES("\xFF\xFE\0\0a\0\0\0\xEB\0\0\0"), "a\xC3\xAB", "UTF-32LE", false},
    {BYTES("\0\0\xFE\xFF\0\0\0a"), "a", "UTF-32BE", false},
    {BYTES("V\xE4stra"), "V\xC3\xA4stra", "ISO-8859-1", true},
    {BYTES("V\xE4stra \x80 \x93x\x94"), "V\xC3\xA4stra \xE2\x82\xAC \xE2\x80\x9Cx\xE2\x80\x9D", "windows-1252", true},
    {BYTES("\x80"), "\xE2\x82\xAC", "windows-1252", true},
    {BYTES("\xE4\x81\xE4"), "\xC3\xA4\xC2\x81\xC3\xA4", "windows-1252", true}, /* undefined in Windows-1252 */
    {BYTES("a\xE4"), "a\xC3\xA4", "ISO-8859-1", true}, /* the start of a letter that never comes */
    {BYTES("a\xC3"), "a\xC3\x83", "ISO-8859-1", true},
    {BYTES("\xC0\xAF"), "\xC3\x80\xC2\xAF", "ISO-8859-1", true}, /* overlong: no UTF-8 */
    /* valid letters before: only the stray byte is taken as Latin-1 */
    {BYTES("Zo\xC3\xAB V\xE4stra \xC3\xAB"), "Zo\xC3\xAB V\xC3\xA4stra \xC3\xAB", "UTF-8", true},
    {BYTES("a\r\nb\rc\n\rd\r\n\r\n"), "a\nb\nc\n\nd\n\n", "UTF-8", false},
    {BYTES("a\r"), "a\n", "UTF-8", false},
    {BYTES("\xFF\xFE"
           "a\0\r\0\n\0b\0\r\0"),
     "a\nb\n", "UTF-16LE", false},
};

START_TEST(test_encoding)
{
    struct input *input = input_from_memory(arena, "log.csv", encodings[_i].bytes, encodings[_i].length, diags);
    size_t length;
    ck_assert_ptr_nonnull(input);
    char *text = all_text(input, &length);
    ck_assert_str_eq(text, encodings[_i].text);
    ck_assert_uint_eq(length, strlen(encodings[_i].text));
    ck_assert_str_eq(input_encoding(input), encodings[_i].encoding);
    ck_assert_int_eq(was_said(DIAG_ENCODING_GUESSED), encodings[_i].guessed);
    ck_assert(!input_failed(input) && !input_had_nul(input));
    ck_assert_int_eq(input_modified_ns(input), 0);
    input_close(input);
}
END_TEST

static const struct
{
    const char *bytes;
    size_t length;
} broken[] = {
    {BYTES("\xFF\xFE"
           "a\0b")}, /* half a character at the end */
    {BYTES("\xFF\xFE"
           "a\0\x00\xD8"
           "b\0")},                           /* half a surrogate pair */
    {BYTES("\xFF\xFE\0\0a\0\0\0\0\0\x20\0")}, /* beyond Unicode */
};

START_TEST(test_broken)
{
    struct input *input = input_from_memory(arena, "log.csv", broken[_i].bytes, broken[_i].length, diags);
    size_t length;
    if (input) {
        all_text(input, &length);
        ck_assert(input_failed(input));
        input_close(input);
    }
    ck_assert(was_said(DIAG_BAD_ENCODING));
    ck_assert_uint_eq(diags_total(diags, SEVERITY_FAILURE), 1);
}
END_TEST

START_TEST(test_nul)
{
    struct input *input = input_from_memory(arena, "log.csv", BYTES("a,b\0c\n"), diags);
    size_t length;
    char *text = all_text(input, &length);
    ck_assert_uint_eq(length, 6);
    ck_assert_mem_eq(text, "a,b\0c\n", 6);
    ck_assert(input_had_nul(input));
    input_close(input);
}
END_TEST

/* Longer than the window, with letters of all sizes and CR LF, so that every kind of cut falls on a block's end. */
static const char *const long_lines[] = {"plain 1,2,3\r\n",      "Zo\xC3\xAB\r\n", "\xE2\x82\xAC;\xE2\x82\xAC\r\n",
                                         "\xF0\x9F\x8F\x8B\r\n", "\r\n",           "x\r"};
#define LONG_ROUNDS 30000

static char *long_text(const char *line_end, size_t *length)
{
    char *text = arena_alloc(arena, LONG_ROUNDS * 6 * 16), *to = text;
    for (size_t i = 0; i < LONG_ROUNDS * 6; i++) {
        const char *line = long_lines[i % 6];
        size_t size = strcspn(line, "\r");
        memcpy(to, line, size);
        to += size;
        memcpy(to, line_end ? line_end : line + size, strlen(line_end ? line_end : line + size));
        to += strlen(line_end ? line_end : line + size);
    }
    *length = (size_t)(to - text);
    return text;
}

START_TEST(test_long_utf8)
{
    size_t length, expected_length, got_length;
    char *bytes = long_text(NULL, &length), *expected = long_text("\n", &expected_length);
    ck_assert_uint_gt(expected_length, INPUT_BLOCK_BYTES * 3);
    for (size_t shift = 0; shift < 5; shift++) { /* moves every letter over every block's end */
        struct input *input = input_from_memory(arena, "log.csv", bytes + shift, length - shift, diags);
        char *text = all_text(input, &got_length);
        ck_assert_uint_eq(got_length, expected_length - shift);
        ck_assert_mem_eq(text, expected + shift, got_length);
        input_close(input);
    }
    ck_assert_ptr_null(diags_first(diags));
}
END_TEST

/* UTF-16 bytes take more room as UTF-8, which fills blocks unevenly. */
START_TEST(test_long_utf16)
{
    size_t count = INPUT_BLOCK_BYTES + 4321, got_length;
    char *bytes = arena_alloc(arena, 2 + count * 2);
    memcpy(bytes, "\xFF\xFE", 2);
    for (size_t i = 0; i < count; i++)
        memcpy(bytes + 2 + i * 2, i % 100 == 99 ? "\n\0" : "\xAC\x20", 2);
    struct input *input = input_from_memory(arena, "log.csv", bytes, 2 + count * 2, diags);
    char *text = all_text(input, &got_length), *at = text;
    ck_assert_uint_eq(got_length, count / 100 + (count - count / 100) * 3);
    for (size_t i = 0; i < count; i++) {
        const char *wanted = i % 100 == 99 ? "\n" : "\xE2\x82\xAC";
        ck_assert(!memcmp(at, wanted, strlen(wanted)));
        at += strlen(wanted);
    }
    input_close(input);
}
END_TEST

START_TEST(test_late_latin)
{
    size_t length = INPUT_BLOCK_BYTES * 2 + 100, got_length;
    char *bytes = arena_alloc(arena, length);
    memset(bytes, 'a', length);
    for (size_t i = 99; i < length; i += 100)
        bytes[i] = '\n';
    bytes[length - 50] = '\xE4';
    struct input *input = input_from_memory(arena, "log.csv", bytes, length, diags);
    char *text = all_text(input, &got_length);
    ck_assert_uint_eq(got_length, length + 1);
    ck_assert_mem_eq(text + length - 50,
                     "\xC3\xA4"
                     "a",
                     3);
    ck_assert_str_eq(input_encoding(input), "ISO-8859-1");
    ck_assert(was_said(DIAG_ENCODING_GUESSED));
    input_close(input);
}
END_TEST

START_TEST(test_head)
{
    size_t length, head_length;
    char *bytes = long_text("\n", &length);
    const char *block;
    struct input *input = input_from_memory(arena, "log.csv", bytes, length, diags);
    for (int round = 0; round < 3; round++) { /* before and between reads */
        const char *head = input_head(input, &head_length);
        ck_assert_uint_eq(head_length, INPUT_HEAD_BYTES);
        ck_assert_mem_eq(head, bytes, head_length);
        ck_assert_uint_gt(input_read(input, &block), 0);
    }
    input_close(input);
}
END_TEST

START_TEST(test_lines)
{
    struct input *input = input_from_memory(arena, "log.csv", BYTES("one\r\ntwo\r\n\r\nfour"), diags);
    static const char *const lines[] = {"one", "two", "", "four"};
    size_t length;
    for (int round = 0; round < 2; round++) { /* before reading, out of the head, and after */
        for (uint32_t i = 0; i < 4; i++)
            ck_assert_str_eq(input_line(input, arena, i + 1), lines[i]);
        ck_assert_str_eq(input_line(input, arena, 2), "two"); /* backwards too */
        ck_assert_ptr_null(input_line(input, arena, 5));
        ck_assert_ptr_null(input_line(input, arena, 0));
        all_text(input, &length);
    }
    input_close(input);
    input = input_from_memory(arena, "log.csv", BYTES("a\0b\n\0\n"), diags);
    all_text(input, &length);
    ck_assert_str_eq(input_line(input, arena, 1), "a\xE2\x90\x80"
                                                  "b");
    ck_assert_str_eq(input_line(input, arena, 2), "\xE2\x90\x80");
    input_close(input);
}
END_TEST

/* Each line of the block just read is at hand, whatever the cuts; those of long ago are not. */
START_TEST(test_window)
{
    char *bytes = arena_alloc(arena, 20 * 100000 + 1), *to = bytes;
    for (int i = 1; i <= 100000; i++)
        to += snprintf(to, 20, "line number %d\n", i);
    struct input *input = input_from_memory(arena, "log.csv", bytes, (size_t)(to - bytes), diags);
    struct arena *scratch = arena_new();
    const char *block;
    uint32_t line = 1;
    for (size_t length; (length = input_read(input, &block));) {
        for (const char *at = block; (at = memchr(at, '\n', (size_t)(block + length - at))); at++, line++) {
            char wanted[32];
            snprintf(wanted, sizeof wanted, "line number %u", line);
            ck_assert_str_eq(input_line(input, scratch, line), wanted);
        }
        arena_reset(scratch);
    }
    ck_assert_uint_eq(line, 100001);
    ck_assert_ptr_null(input_line(input, scratch, 1));
    ck_assert_ptr_null(input_line(input, scratch, 200000));
    arena_free(scratch);
    input_close(input);
}
END_TEST

START_TEST(test_line_limit)
{
    static const struct
    {
        size_t long_line, kept;
        const char *letter; /* of which the line is made */
    } lines[] = {
        {INPUT_LINE_LIMIT, INPUT_LINE_LIMIT, "x"}, /* as long as a line may be */
        {INPUT_LINE_LIMIT + 1, INPUT_LINE_LIMIT + 1, "x"},
        {INPUT_LINE_LIMIT + 3 * INPUT_BLOCK_BYTES, INPUT_LINE_LIMIT + 1, "x"},
        {3 * INPUT_LINE_LIMIT, INPUT_LINE_LIMIT + 2, "\u20ac"}, /* 1 MiB and 1 byte end after a letter's second byte */
    };
    for (size_t i = 0; i < sizeof lines / sizeof *lines; i++) {
        size_t step = strlen(lines[i].letter), length = lines[i].long_line, got;
        char *bytes = arena_alloc(arena, length + 6);
        memcpy(bytes, "a\n", 2);
        for (size_t at = 0; at < length; at += step)
            memcpy(bytes + 2 + at, lines[i].letter, step);
        memcpy(bytes + 2 + length, "\nb\n", 3);
        struct input *input = input_from_memory(arena, "log.csv", bytes, length + 5, diags);
        const char *text = all_text(input, &got);
        ck_assert(!input_failed(input));
        ck_assert_uint_eq(input_lines(input), 3);
        ck_assert_uint_eq(got, lines[i].kept + 5);
        ck_assert_mem_eq(text + got - 3, "\nb\n", 3);
        ck_assert_ptr_null(diags_first(diags));
        input_close(input);
    }
}
END_TEST

static ssize_t endless(void *context, char *to, size_t room)
{
    *(size_t *)context += room;
    memset(to, 'x', room);
    return (ssize_t)room;
}

START_TEST(test_line_end)
{
    struct input *like = input_from_memory(arena, "log.csv", "x", 1, diags);
    size_t bytes = 0, got;
    struct input_source source = {.read = endless, .context = &bytes, .like = like};
    struct input *input = input_from_source(arena, "log.csv", &source, diags);
    all_text(input, &got);
    ck_assert(input_failed(input));
    ck_assert(was_said(DIAG_LIMIT_REACHED));
    ck_assert_uint_eq(diags_first(diags)->at.line, 1);
    ck_assert_uint_lt(bytes, INPUT_LINE_END + 2 * INPUT_BLOCK_BYTES);
    input_close(input);
    input_close(like);
}
END_TEST

START_TEST(test_files)
{
    char name[] = "/tmp/test-input-XXXXXX";
    int file = mkstemp(name);
    size_t length;
    ck_assert(file >= 0 && write(file, "a\r\nb", 4) == 4 && !close(file));
    struct input *input = input_open(arena, name, diags);
    ck_assert_str_eq(all_text(input, &length), "a\nb");
    ck_assert_str_eq(input_name(input), name);
    ck_assert_int_gt(input_modified_ns(input), 0);
    input_close(input);
    unlink(name);
    ck_assert_ptr_null(diags_first(diags));
    ck_assert_ptr_null(input_open(arena, name, diags));
    ck_assert_ptr_null(input_open(arena, "/", diags)); /* a folder is no file */
    ck_assert_uint_eq(diags_total(diags, SEVERITY_FAILURE), 2);
    ck_assert(was_said(DIAG_CANNOT_READ));
}
END_TEST

/* Numbers of lines have 32 bits: they must not begin again at 0. */
START_TEST(test_too_many_lines)
{
    size_t length = 4 * INPUT_BLOCK_BYTES;
    char *text = arena_alloc(arena, length);
    for (size_t i = 0; i < length; i++)
        text[i] = i % 2 ? '\n' : 'x';
    struct input *input = input_from_memory(arena, "log.csv", text, length, diags);
    input_count_from(input, UINT32_MAX - INPUT_BLOCK_BYTES / 2); /* the next block's lines still have numbers */
    size_t blocks = 0;
    for (const char *read; input_read(input, &read);)
        blocks++;
    ck_assert_uint_eq(blocks, 2);
    ck_assert(input_failed(input));
    ck_assert_int_eq(diags_first(diags)->id, DIAG_LIMIT_REACHED);
    ck_assert(strstr(diags_first(diags)->message, "4294967295 lines"));
    input_close(input);
}
END_TEST

/* Parts of a file beside it: bytes, decoded each by itself; the last goes on to where the file ends by then. */
START_TEST(test_parts)
{
    char name[] = "/tmp/test-input-XXXXXX";
    int file = mkstemp(name);
    size_t length;
    ck_assert(file >= 0 && write(file, "a,b\r\nc,d\ne", 10) == 10);
    struct input *whole = input_open(arena, name, diags);
    struct input *first = input_open_part(arena, whole, 0, 5, diags),
                 *middle = input_open_part(arena, whole, 5, 9, diags);
    ck_assert_str_eq(all_text(first, &length), "a,b\n");
    ck_assert_uint_eq(input_lines(first), 1);
    ck_assert_str_eq(all_text(middle, &length), "c,d\n");
    ck_assert(!input_ended_early(first) && !input_ended_early(middle));
    ck_assert(write(file, "\nf\n", 3) == 3);
    struct input *last = input_open_part(arena, whole, 9, 10, diags);
    ck_assert_str_eq(all_text(last, &length), "e\nf\n");
    ck_assert_str_eq(all_text(whole, &length), "a,b\nc,d\ne"); /* its head was read before */
    ck_assert(!ftruncate(file, 7));
    struct input *cut = input_open_part(arena, whole, 5, 9, diags);
    ck_assert_str_eq(all_text(cut, &length), "c,");
    ck_assert(input_ended_early(cut) && !input_ended_early(last));
    struct input *const all[] = {first, middle, last, cut, whole};
    for (size_t i = 0; i < sizeof all / sizeof *all; i++)
        input_close(all[i]);
    close(file);
    unlink(name);
    ck_assert_ptr_null(diags_first(diags));
}
END_TEST

#define COUNT(list) ((int)(sizeof list / sizeof *list))

int main(void)
{
    Suite *suite = suite_create("input");
    TCase *cases = tcase_create("input");
    tcase_add_checked_fixture(cases, set_up, tear_down);
    tcase_add_loop_test(cases, test_encoding, 0, COUNT(encodings));
    tcase_add_loop_test(cases, test_broken, 0, COUNT(broken));
    tcase_add_test(cases, test_nul);
    tcase_add_test(cases, test_long_utf8);
    tcase_add_test(cases, test_long_utf16);
    tcase_add_test(cases, test_late_latin);
    tcase_add_test(cases, test_head);
    tcase_add_test(cases, test_lines);
    tcase_add_test(cases, test_window);
    tcase_add_test(cases, test_line_limit);
    tcase_add_test(cases, test_line_end);
    tcase_add_test(cases, test_files);
    tcase_add_test(cases, test_too_many_lines);
    tcase_add_test(cases, test_parts);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_ENV);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
