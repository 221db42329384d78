/* Workbooks as rows: both formats, what cells hold, and archives that are made to hurt. */
#include "reading/workbook/workbook.h"

#include "reading/workbook/number_format.h"
#include "reading/workbook/xlsx_parts.h"
#include "reading/workbook/xlsx_sheet.h"
#include "unit/made_workbook.h"

#include <check.h>
#include <stdio.h>
#include <string.h>

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

/* --- what is read ------------------------------------------------------------------------------------------------ */

/* Every sheet as "NAME[its lines]", a hidden one as "NAME?[...]"; line breaks as /, U+2028 as ^. */
static const char *sheets_of(const char *bytes, size_t length)
{
    struct file_kind other;
    struct workbook *workbook = book_from_memory(arena, "year.xlsx", bytes, length, diags, &other);
    struct sheet sheet;
    const char *shown = other.what ? other.what : "";
    while (workbook && book_next_sheet(workbook, &sheet)) {
        const char *text;
        shown = arena_printf(arena, "%s%s%s[", shown, sheet.name, sheet.hidden ? "?" : "");
        for (size_t got; sheet.input && (got = input_read(sheet.input, &text));)
            shown = arena_printf(arena, "%s%.*s", shown, (int)got, text);
        shown = arena_printf(arena, "%s]%s", shown, !sheet.input || input_failed(sheet.input) ? "!" : "");
    }
    book_close(workbook);
    char *plain = arena_copy(arena, shown);
    for (char *at = plain; (at = strstr(at, SHEET_LINE_BREAK)); *at++ = '^')
        memmove(at + 1, at + 3, strlen(at + 3) + 1);
    for (char *at = plain; (at = strchr(at, '\n')); *at++ = '/')
        ;
    return plain;
}

static const char *xlsx(const char *data, const char *strings, const char *styles, const char *properties)
{
    size_t length;
    char *bytes = made_xlsx(arena, data, strings, styles, properties, &length);
    return sheets_of(bytes, length);
}

static const char *ods(const char *tables, const char *styles)
{
    size_t length;
    char *bytes = made_ods(arena, tables, styles, &length);
    return sheets_of(bytes, length);
}

static const char *first_said(void)
{
    return diags_first(diags) ? diags_first(diags)->message : "";
}

static void said(const char *what)
{
    ck_assert_msg(strstr(first_said(), what), "'%s' does not say '%s'", first_said(), what);
}

#define ROW(number, cells) "<row r=\"" #number "\">" cells "</row>"
#define DATA(rows) "<sheetData>" rows "</sheetData>"

static const char strings[] =
    "<si><t>Date</t></si><si><t xml:space=\"preserve\">front </t></si><si><r><t>blo</t></r><r><rPr><b/></rPr><t>ck "
    "pull</t></r>"
    "<rPh sb=\"0\" eb=\"1\"><t>said so</t></rPh></si><si><t>two\nlines</t></si><si><t>a_x000D__x000A_b</t></si>"
    "<si><t>5, 4</t></si><si><t>the \"top\" set</t></si><si><t/></si>";
static const char styles[] = "<numFmts><numFmt numFmtId=\"164\" formatCode=\"dd/mm/yyyy\"/><numFmt numFmtId=\"165\" "
                             "formatCode=\"0.0&quot; kg&quot;;[Red]\\-0.0&quot; kg&quot;\"/>"
                             "<numFmt numFmtId=\"166\" formatCode=\"[$-409]ddd\\ d\\ "
                             "mmm\"/></numFmts><cellStyleXfs><xf numFmtId=\"14\"/></cellStyleXfs>"
                             "<cellXfs><xf numFmtId=\"0\"/><xf numFmtId=\"14\"/><xf numFmtId=\"164\"/><xf "
                             "numFmtId=\"165\"/><xf numFmtId=\"166\"/><xf numFmtId=\"22\"/>"
                             "<xf numFmtId=\"9\"/><xf numFmtId=\"21\"/></cellXfs>";

static const struct
{
    const char *data, *rows, *properties;
} xlsx_cases[] = {
    {DATA(ROW(1, "<c r=\"A1\" t=\"s\"><v>0</v></c><c r=\"B1\" t=\"s\"><v>2</v></c>")), "March[Date,block pull/]", NULL},
    {DATA(ROW(1, "<c r=\"A1\" t=\"s\"><v>3</v></c><c r=\"B1\" t=\"s\"><v>4</v></c>")), "March[two^lines,a^b/]", NULL},
    {DATA(ROW(1, "<c r=\"A1\" t=\"s\"><v>5</v></c><c r=\"B1\" t=\"s\"><v>6</v></c>")),
     "March[\"5, 4\",\"the \"\"top\"\" set\"/]", NULL},
    /* Days, by format and epoch; times of day; percentages; a unit that the format shows. */
    {DATA(ROW(1, "<c r=\"A1\" s=\"1\"><v>46174</v></c><c r=\"B1\" s=\"2\"><v>46174</v></c><c r=\"C1\" "
                 "s=\"4\"><v>46174.0</v></c>")),
     "March[2026-06-01,2026-06-01,2026-06-01/]", NULL},
    {DATA(ROW(1, "<c r=\"A1\" s=\"1\"><v>44712</v></c>")), "March[2026-06-01/]", "date1904=\"1\""},
    {DATA(ROW(1, "<c r=\"A1\" s=\"5\"><v>46174.770833333336</v></c><c r=\"B1\" s=\"7\"><v>0.770833333333333</v></c>")),
     "March[2026-06-01 18:30,18:30:00/]", NULL},
    {DATA(ROW(1, "<c r=\"A1\" s=\"6\"><v>0.6</v></c><c r=\"B1\" s=\"3\"><v>82.5</v></c>")), "March[60%,82.5 kg/]",
     NULL},
    {DATA(ROW(1, "<c r=\"A1\" s=\"1\"><v>60</v></c><c r=\"B1\" s=\"99\"><v>5</v></c>")), "March[60,5/]",
     NULL}, /* no such day, no such style */
    {DATA(ROW(1, "<c r=\"A1\" t=\"d\"><v>2026-06-01T00:00:00</v></c>")), "March[2026-06-01T00:00:00/]", NULL},
    /* Numbers as they are written, but for the dust of calculations. */
    {DATA(ROW(1, "<c r=\"A1\"><v>82.50</v></c><c r=\"B1\"><v>82.500000000000014</v></c><c r=\"C1\"><v>1E2</v></c>")),
     "March[82.50,82.5,100/]", NULL},
    {DATA(ROW(1, "<c r=\"A1\" t=\"b\"><v>1</v></c><c r=\"B1\" t=\"e\"><v>#DIV/0!</v></c><c r=\"C1\" "
                 "t=\"str\"><f>A1&amp;\"\"</f><v>x</v></c>")),
     "March[TRUE,#DIV/0!,x/]", NULL},
    {DATA(ROW(1, "<c r=\"A1\" t=\"inlineStr\"><is><r><t>in</t></r><r><t>line</t></r><rPh><t>no</t></rPh></is></c>")),
     "March[inline/]", NULL},
    /* Sparse rows and cells; places that are not said; a formula that gives an empty text. */
    {DATA(ROW(2, "<c r=\"C2\"><v>5</v></c>") ROW(5, "<c r=\"A5\"><v>1</v></c>")), "March[/,,5///1,,/]", NULL},
    {DATA("<row><c><v>1</v></c><c><v>2</v></c></row><row><c r=\"B2\"><v>3</v></c><c><v>4</v></c></row>"),
     "March[1,2/,3,4/]", NULL},
    {DATA(ROW(1, "<c r=\"A1\"><v>1</v></c><c r=\"B1\" t=\"str\"><f>\"\"</f><v></v></c>")), "March[1/]", NULL},
    {DATA(ROW(1, "<c r=\"A1\" t=\"s\"><v>7</v></c>") ROW(2, "") ROW(3, "<c r=\"A3\" s=\"1\"/>")), "March[]", NULL},
    {"", "March[]", NULL},
    /* Merged cells: downwards, in rows that hold something; a title over several columns says nothing of each. */
    {DATA(ROW(1, "<c r=\"A1\"><v>1</v></c><c r=\"B1\"><v>7</v></c>") ROW(2, "<c r=\"B2\"><v>8</v></c>")
              ROW(4, "<c r=\"B4\"><v>9</v></c>")) "<mergeCells><mergeCell ref=\"A1:A3\"/></mergeCells>",
     "March[1,7/1,8//,9/]", NULL},
    {DATA(ROW(1, "<c r=\"A1\"><v>1</v></c>")
              ROW(2, "<c r=\"C2\"><v>8</v></c>")) "<mergeCells><mergeCell ref=\"A1:B2\"/></mergeCells>",
     "March[1/1,,8/]", NULL},
    {DATA(ROW(1, "<c r=\"B1\"><v>1</v></c>")
              ROW(3, "<c r=\"A3\"><v>8</v></c>")) "<mergeCells><mergeCell ref=\"B1:B2\"/><mergeCell "
                                                  "ref=\"B9:B8\"/><mergeCell ref=\"no\"/></mergeCells>",
     "March[,1//8,/]", NULL},
};

START_TEST(reads_xlsx)
{
    ck_assert_str_eq(xlsx(xlsx_cases[_i].data, strings, styles, xlsx_cases[_i].properties), xlsx_cases[_i].rows);
    ck_assert_str_eq(first_said(), "");
}
END_TEST

START_TEST(reads_a_workbook_without_strings_and_styles)
{
    ck_assert_str_eq(xlsx(DATA(ROW(1, "<c r=\"A1\" s=\"1\"><v>46174</v></c>")), NULL, NULL, NULL), "March[46174/]");
}
END_TEST

/* Namespaces by prefix, and those of the strict variant. */
START_TEST(prefixes_do_not_matter)
{
    const struct made_member members[] = {
        {"_rels/.rels",
         "<p:Relationships xmlns:p=\"http://schemas.openxmlformats.org/package/2006/relationships\"><p:Relationship "
         "Id=\"a\" "
         "Type=\"http://purl.oclc.org/ooxml/officeDocument/relationships/officeDocument\" "
         "Target=\"/book/w.xml\"/></p:Relationships>"},
        {"book/w.xml",
         "<x:workbook xmlns:x=\"http://purl.oclc.org/ooxml/spreadsheetml/main\" "
         "xmlns:q=\"http://purl.oclc.org/ooxml/officeDocument/relationships\">"
         "<x:sheets><x:sheet name=\"A &amp; B\" q:id=\"s1\" state=\"hidden\"/><x:sheet name=\"Chart\" q:id=\"s2\"/>"
         "<x:sheet name=\"C\" q:id=\"s3\" state=\"veryHidden\"/></x:sheets></x:workbook>"},
        {"book/_rels/w.xml.rels",
         "<p:Relationships xmlns:p=\"http://schemas.openxmlformats.org/package/2006/relationships\"><p:Relationship "
         "Id=\"s1\" "
         "Type=\"http://purl.oclc.org/ooxml/officeDocument/relationships/worksheet\" "
         "Target=\"../one.xml\"/><p:Relationship Id=\"s2\" "
         "Type=\"http://purl.oclc.org/ooxml/officeDocument/relationships/chartsheet\" "
         "Target=\"chart.xml\"/><p:Relationship Id=\"s3\" "
         "Type=\"http://purl.oclc.org/ooxml/officeDocument/relationships/worksheet\" "
         "Target=\"./two.xml\"/></p:Relationships>"},
        {"one.xml", "<x:worksheet xmlns:x=\"http://purl.oclc.org/ooxml/spreadsheetml/main\"><x:sheetData><x:row "
                    "r=\"1\"><x:c r=\"A1\"><x:v>1</x:v></x:c></x:row>"
                    "</x:sheetData></x:worksheet>"},
        {"book/two.xml",
         "<w xmlns=\"urn:any\"><sheetData><row><c t=\"inlineStr\"><is><t>2</t></is></c></row></sheetData></w>"},
        {"[Content_Types].xml", "<Types/>"},
        {NULL, NULL},
    };
    size_t length;
    char *bytes = made_archive(arena, members, &length);
    ck_assert_str_eq(sheets_of(bytes, length), "A & B?[1/]C?[2/]");
}
END_TEST

#define TABLE(name, rows) "<table:table table:name=\"" name "\">" rows "</table:table>"
#define ODS_ROW(cells) "<table:table-row>" cells "</table:table-row>"
#define TEXT_CELL(text) "<table:table-cell office:value-type=\"string\"><text:p>" text "</text:p></table:table-cell>"
#define NUMBER_CELL(value, shown)                                                                                      \
    "<table:table-cell office:value-type=\"float\" office:value=\"" value "\"><text:p>" shown                          \
    "</text:p></table:table-cell>"

static const struct
{
    const char *tables, *rows, *styles;
} ods_cases[] = {
    {TABLE("Log", ODS_ROW(TEXT_CELL("Date") NUMBER_CELL("82.5", "82,5"))), "Log[Date,82.5/]", NULL},
    {TABLE("Log", ODS_ROW(NUMBER_CELL("82.5", "82.5 kg") NUMBER_CELL("180", "180 lbs") NUMBER_CELL("5", "5 reps"))),
     "Log[82.5 kg,180 lb,5/]", NULL},
    {TABLE("Log", ODS_ROW("<table:table-cell office:value-type=\"date\" "
                          "office:date-value=\"2026-06-01\"><text:p>1/6</text:p></table:table-cell>"
                          "<table:table-cell office:value-type=\"time\" "
                          "office:time-value=\"PT18H30M05S\"><text:p>18:30</text:p></table:table-cell>"
                          "<table:table-cell office:value-type=\"percentage\" "
                          "office:value=\"0.6\"><text:p>60%</text:p></table:table-cell>"
                          "<table:table-cell office:value-type=\"boolean\" "
                          "office:boolean-value=\"true\"><text:p>WAHR</text:p></table:table-cell>")),
     "Log[2026-06-01,18:30:05,60%,TRUE/]", NULL},
    /* Paragraphs, breaks, blanks; a comment and a drawing are not the cell's text. */
    {TABLE("Log",
           ODS_ROW(
               "<table:table-cell office:value-type=\"string\"><office:annotation><text:p>not "
               "this</text:p></office:annotation>"
               "<text:p>one<text:s text:c=\"2\"/>and "
               "<text:span>a</text:span><text:line-break/>half</text:p><text:p>two</text:p>"
               "<draw:frame><draw:text-box><text:p>nor this</text:p></draw:text-box></draw:frame></table:table-cell>")),
     "Log[one  and a^half^two/]", NULL},
    {TABLE("Log", ODS_ROW("<table:table-cell office:value-type=\"string\" "
                          "office:string-value=\"told\"><text:p>shown</text:p></table:table-cell>")),
     "Log[told/]", NULL},
    /* Repeated cells and rows; a million empty ones are nothing. */
    {TABLE("Log",
           ODS_ROW("<table:table-cell table:number-columns-repeated=\"2\" office:value-type=\"float\" "
                   "office:value=\"5\"/><table:table-cell "
                   "table:number-columns-repeated=\"16382\"/>") "<table:table-row "
                                                                "table:number-rows-repeated="
                                                                "\"2\">" NUMBER_CELL("7", "7") "</"
                                                                                               "table:table-row><"
                                                                                               "table:table-row "
                                                                                               "table:number-rows-"
                                                                                               "repeated="
                                                                                               "\"1048573\"><"
                                                                                               "table:table-cell "
                                                                                               "table:number-"
                                                                                               "columns-repeated="
                                                                                               "\"16384\"/></"
                                                                                               "table:table-row>"),
     "Log[5,5/7,/7,/]", NULL},
    {TABLE("Log", "<table:table-row table:number-rows-repeated=\"2\"><table:table-cell/></table:table-row>" ODS_ROW(
                      NUMBER_CELL("7", "7"))),
     "Log[//7/]", NULL},
    /* Merged cells. */
    {TABLE("Log", ODS_ROW("<table:table-cell table:number-rows-spanned=\"2\" office:value-type=\"float\" "
                          "office:value=\"1\"/>" NUMBER_CELL("2", "2"))
                      ODS_ROW("<table:covered-table-cell office:value-type=\"float\" office:value=\"9\"/>" NUMBER_CELL(
                          "3", "3")) ODS_ROW("<table:table-cell/>" NUMBER_CELL("4", "4"))),
     "Log[1,2/1,3/,4/]", NULL},
    /* Several sheets, one of them hidden, rows within groups and a header. */
    {TABLE("A", ODS_ROW(NUMBER_CELL("1", "1"))) "<table:table table:name=\"B\" "
                                                "table:style-name=\"ta2\"><table:table-header-rows>" ODS_ROW(
                                                    NUMBER_CELL("2", "2")) "</"
                                                                           "table:table-header-rows><table:table-row-"
                                                                           "group>" ODS_ROW(NUMBER_CELL(
                                                                               "3", "3")) "</"
                                                                                          "table:table-row-"
                                                                                          "group></"
                                                                                          "table:"
                                                                                          "table>" TABLE("C", ""),
     "A[1/]B?[2/3/]C[]",
     "<style:style style:name=\"ta1\"><style:table-properties table:display=\"true\"/></style:style><style:style "
     "style:name=\"ta2\">"
     "<style:table-properties table:display=\"false\"/></style:style>"},
};

START_TEST(reads_ods)
{
    ck_assert_str_eq(ods(ods_cases[_i].tables, ods_cases[_i].styles), ods_cases[_i].rows);
    ck_assert_str_eq(first_said(), "");
}
END_TEST

/* A formula whose value is not there refuses its row, with the cell's place. */
START_TEST(unknown_values_refuse_their_row)
{
    ck_assert_str_eq(xlsx(DATA(ROW(1, "<c r=\"A1\"><v>1</v></c>")
                                   ROW(2, "<c r=\"A2\"><v>2</v></c><c r=\"C2\"><f>A1*2</f><v></v></c>")
                                       ROW(3, "<c r=\"A3\"><v>3</v></c>")),
                          NULL, NULL, NULL),
                     "March[1//3/]");
    said("a formula whose value is not in the workbook");
    const struct place at = diags_first(diags)->at;
    ck_assert_str_eq(at.file, "year.xlsx:March");
    ck_assert_uint_eq(at.line, 2);
    ck_assert_uint_eq(at.column, 3);
    ck_assert(at.sheet);
    ck_assert_str_eq(diags_first(diags)->excerpt, "2");
}
END_TEST

START_TEST(unknown_values_of_ods)
{
    ck_assert_str_eq(
        ods(TABLE("Log", ODS_ROW("<table:table-cell table:formula=\"of:=[.A1]\"/>" NUMBER_CELL("1", "1"))), NULL),
        "Log[/]");
    said("a formula whose value is not in the workbook");
}
END_TEST

/* --- what is refused --------------------------------------------------------------------------------------------- */

static const struct
{
    const char *data, *says;
} bad_sheets[] = {
    {DATA(ROW(1, "<c r=\"A1\" t=\"s\"><v>99</v></c>")), "refers to a text that the workbook lacks"},
    {DATA(ROW(1, "<c r=\"A1\" t=\"s\"><v>-1</v></c>")), "refers to a text that the workbook lacks"},
    {DATA(ROW(1, "<c r=\"A1\"><v>1</v></c>") ROW(1, "<c r=\"A1\"><v>2</v></c>")), "row 1 comes after row 1"},
    {DATA(ROW(1, "<c r=\"B1\"><v>1</v></c><c r=\"A1\"><v>2</v></c>")), "the cells of row 1 are not in order"},
    {DATA(ROW(1, "<c r=\"XFD1\"><v>1</v></c>")), "cells beyond column 4096"},
    {DATA(ROW(1, "<c r=\"99\"><v>1</v></c>")), "a cell without a place"},
    {DATA(ROW(4294967295, "<c><v>1</v></c>")), "a row without a number"},
    {DATA(ROW(3999999999, "<c><v>1</v></c>")), "rows beyond 1048576"},
    {DATA("<row r=\"0\"><c><v>1</v></c></row>"), "a row without a number"},
    {"<sheetData><row>", "it is damaged: mismatched tag"},
    {DATA(ROW(1, "<c><v>&lol;</v></c>")), "it is damaged: undefined entity"},
    {"<a><a><a><a><a><a><a><a><a><a><a><a><a><a><a><a><a><a><a><a><a><a><a><a><a><a><a><a><a><a><a><a>"
     "<a><a><a><a><a><a><a><a><a><a><a><a><a><a><a><a><a><a><a><a><a><a><a><a><a><a><a><a><a><a><a><a>",
     "more than 64 deep"},
};

START_TEST(refuses_a_sheet)
{
    const char *shown = xlsx(bad_sheets[_i].data, NULL, NULL, NULL);
    ck_assert_msg(strchr(shown, '!'), "%s", shown);
    said(bad_sheets[_i].says);
    ck_assert_str_eq(diags_first(diags)->at.file, "year.xlsx:March");
}
END_TEST

static const char *repeated(const char *text, size_t times)
{
    size_t length = strlen(text);
    char *all = arena_alloc(arena, length * times + 1);
    for (size_t i = 0; i < times; i++)
        memcpy(all + i * length, text, length);
    return all;
}

START_TEST(refuses_an_entity)
{
    const struct made_member members[] = {
        {"mimetype", "application/vnd.oasis.opendocument.spreadsheet"},
        {"content.xml",
         "<!DOCTYPE a [<!ENTITY b \"ha\"><!ENTITY c \"&b;&b;&b;&b;\"><!ENTITY d \"&c;&c;&c;&c;\">]><a>&d;</a>"},
        {NULL, NULL},
    };
    size_t length;
    char *bytes = made_archive(arena, members, &length);
    sheets_of(bytes, length);
    said("declares a document type");
}
END_TEST

START_TEST(refuses_a_bomb)
{
    const char *data = arena_printf(
        arena, DATA("%s"), repeated("                                                                ", 200000));
    ck_assert_str_eq(xlsx(data, NULL, NULL, NULL), "March[]!");
    said("more than 200 times its size");
}
END_TEST

START_TEST(refuses_a_long_tag)
{
    static const char half[] = "abcdefghijklmnopqrstuvwxyz0123456789";
    char *noise = arena_alloc(arena, 3000001); /* which does not shrink to nothing */
    uint32_t seed = 1;
    for (size_t i = 0; i < 3000000; i++)
        noise[i] = half[(seed = seed * 1664525 + 1013904223) >> 27];
    ck_assert_str_eq(xlsx(arena_printf(arena, "<sheetData a=\"%s\"/>", noise), NULL, NULL, NULL), "March[]!");
    said("one tag of more than 1 MiB");
}
END_TEST

START_TEST(refuses_a_billion_cells)
{
    ods(TABLE("Log", "<table:table-row table:number-rows-repeated=\"1000000\"><table:table-cell "
                     "table:number-columns-repeated=\"1000\" office:value-type=\"float\" "
                     "office:value=\"5\"/></table:table-row>"),
        NULL);
    said("more than 16 million cells");
}
END_TEST

START_TEST(refuses_repeats_beyond_all_sheets)
{
    ods(TABLE("Log", "<table:table-row table:number-rows-repeated=\"4294967295\"><table:table-cell "
                     "office:value-type=\"float\" office:value=\"5\"/></table:table-row>"),
        NULL);
    said("rows beyond 1048576");
    diags = diags_new(arena);
    ods(TABLE("Log", ODS_ROW("<table:table-cell table:number-columns-repeated=\"4294967296\" "
                             "office:value-type=\"float\" office:value=\"5\"/>")),
        NULL);
    said("cells beyond column 4096");
}
END_TEST

START_TEST(a_text_that_is_shown_often_does_not_wait_in_memory)
{
    const char *text = repeated("long ", 100000), *rows = repeated("<row><c t=\"s\"><v>0</v></c></row>", 2000);
    size_t length;
    char *bytes = made_xlsx(arena, arena_printf(arena, DATA("%s"), rows),
                            arena_printf(arena, "<si><t>%s</t></si>", text), NULL, NULL, &length);
    struct file_kind other;
    struct workbook *workbook = book_from_memory(arena, "year.xlsx", bytes, length, diags, &other);
    struct sheet sheet;
    ck_assert(book_next_sheet(workbook, &sheet));
    const char *block;
    size_t sum = 0;
    for (size_t got; (got = input_read(sheet.input, &block)); sum += got)
        ;
    ck_assert_uint_gt(sum, 200000000);
    ck_assert(input_failed(sheet.input));
    said("more than 256 MiB of text");
    book_close(workbook);
}
END_TEST

/* Each cut of a workbook, and each byte of one changed, is refused or read: nothing falls over, and a wrong checksum is
 * never silent. */
START_TEST(cut_and_changed_archives)
{
    size_t length;
    char *bytes = made_xlsx(arena, DATA(ROW(1, "<c r=\"A1\" t=\"s\"><v>0</v></c><c r=\"B1\"><v>82.5</v></c>")), strings,
                            styles, NULL, &length);
    const char *whole = sheets_of(bytes, length);
    ck_assert_str_eq(whole, "March[Date,82.5/]");
    for (size_t cut = 0; cut < length; cut++) {
        diags = diags_new(arena);
        const char *shown = sheets_of(bytes, cut);
        ck_assert_msg(!strcmp(shown, "an archive (zip) without a workbook in it") ||
                          (*first_said() && !strstr(shown, "Date")),
                      "cut at %zu: %s", cut, shown);
    }
    for (size_t at = 0; at < length; at++) {
        diags = diags_new(arena);
        bytes[at] = (char)(bytes[at] ^ 0x41);
        const char *shown = sheets_of(bytes, length);
        ck_assert_msg(*first_said() || !strcmp(shown, whole) || !strstr(shown, "March[Date"),
                      "byte %zu changed gives %s in silence", at, shown);
        bytes[at] = (char)(bytes[at] ^ 0x41);
    }
}
END_TEST

static const struct
{
    const char *member, *says;
} others[] = {
    {"xl/workbook.bin", "a binary workbook (.xlsb)"},
    {"Index/Document.iwa", "a Numbers document"},
    {"word/document.xml", "a text document (.docx)"},
    {"../../../etc/passwd", "an archive (zip) without a workbook in it"},
};

START_TEST(names_other_archives)
{
    const struct made_member members[] = {{others[_i].member, "x"}, {NULL, NULL}};
    size_t length;
    char *bytes = made_archive(arena, members, &length);
    ck_assert_str_eq(sheets_of(bytes, length), others[_i].says);
    ck_assert_str_eq(first_said(), "");
}
END_TEST

START_TEST(names_an_encrypted_workbook)
{
    const struct made_member members[] = {
        {"mimetype", "application/vnd.oasis.opendocument.spreadsheet"},
        {"content.xml", "\x8F\x1C"},
        {"META-INF/manifest.xml", "<m:manifest "
                                  "xmlns:m=\"urn:oasis:names:tc:opendocument:xmlns:manifest:1.0\"><m:file-entry><m:"
                                  "encryption-data/></m:file-entry></m:manifest>"},
        {NULL, NULL},
    };
    size_t length;
    char *bytes = made_archive(arena, members, &length);
    ck_assert_str_eq(sheets_of(bytes, length), "a workbook with a password, encrypted");
}
END_TEST

START_TEST(a_part_that_leads_out_of_the_archive_is_missing)
{
    const struct made_member members[] = {
        {"_rels/.rels",
         "<R xmlns=\"a\"><Relationship Id=\"a\" Type=\"x/officeDocument\" Target=\"../../../../etc/passwd\"/></R>"},
        {"[Content_Types].xml", "<Types/>"},
        {NULL, NULL},
    };
    size_t length;
    char *bytes = made_archive(arena, members, &length);
    sheets_of(bytes, length);
    said("a part of it is missing: 'etc/passwd'");
}
END_TEST

/* --- parts ------------------------------------------------------------------------------------------------------- */

START_TEST(paths_of_parts)
{
    ck_assert_str_eq(part_path(arena, "xl/workbook.xml", "worksheets/sheet1.xml"), "xl/worksheets/sheet1.xml");
    ck_assert_str_eq(part_path(arena, "xl/workbook.xml", "/xl/styles.xml"), "xl/styles.xml");
    ck_assert_str_eq(part_path(arena, "xl/workbook.xml", "../a/./b.xml"), "a/b.xml");
    ck_assert_str_eq(part_path(arena, "xl/workbook.xml", "../../../b.xml"), "b.xml");
    ck_assert_str_eq(part_path(arena, "", "xl/workbook.xml"), "xl/workbook.xml");
}
END_TEST

/* ECMA-376, part 1, 18.8.30 gives most of these codes as examples. */
static const struct
{
    const char *code;
    enum number_kind kind;
    uint8_t unit;
} formats[] = {
    {"General", NUMBER_PLAIN, 0},
    {"0.00", NUMBER_PLAIN, 0},
    {"#,##0.00_);[Red]\\(#,##0.00\\)", NUMBER_PLAIN, 0},
    {"0%", NUMBER_PERCENT, 0},
    {"0.00E+00", NUMBER_PLAIN, 0},
    {"@", NUMBER_PLAIN, 0},
    {"mm-dd-yy", NUMBER_DAY, 0},
    {"d-mmm", NUMBER_DAY, 0},
    {"mmm-yy", NUMBER_DAY, 0},
    {"mmmm", NUMBER_DAY, 0},
    {"h:mm AM/PM", NUMBER_TIME, 0},
    {"mm:ss", NUMBER_TIME, 0},
    {"[h]:mm:ss", NUMBER_TIME, 0},
    {"m/d/yy h:mm", NUMBER_DAY_TIME, 0},
    {"[$-F800]dddd\\,\\ mmmm\\ dd\\,\\ yyyy", NUMBER_DAY, 0},
    {"0.0\" kg\"", NUMBER_PLAIN, 1},
    {"0 \"lbs\"", NUMBER_PLAIN, 2},
    {"0\" reps\"", NUMBER_PLAIN, 0},
    {"0.0\\ \\k\\g", NUMBER_PLAIN, 1},
    {"[Red]0", NUMBER_PLAIN, 0},
    {"\"day\" 0", NUMBER_PLAIN, 0},
    {"\"open", NUMBER_PLAIN, 0},
    {"[open", NUMBER_PLAIN, 0},
    {"\\", NUMBER_PLAIN, 0},
    {"", NUMBER_PLAIN, 0},
};

START_TEST(number_formats)
{
    const struct number_format format = number_format_read(formats[_i].code);
    ck_assert_int_eq(format.kind, formats[_i].kind);
    ck_assert_int_eq(format.unit, formats[_i].unit);
}
END_TEST

START_TEST(references)
{
    uint32_t column, row;
    ck_assert_ptr_nonnull(cell_reference("C14", &column, &row));
    ck_assert(column == 3 && row == 14);
    ck_assert_str_eq(cell_reference("$AA$1048576:B2", &column, &row), ":B2");
    ck_assert(column == 27 && row == 1048576);
    ck_assert_ptr_null(cell_reference("14", &column, &row));
    ck_assert_ptr_null(cell_reference("C", &column, &row));
    char letters[SHEET_LETTERS];
    ck_assert_str_eq(sheet_column_letters(letters, 1), "A");
    ck_assert_str_eq(sheet_column_letters(letters, 26), "Z");
    ck_assert_str_eq(sheet_column_letters(letters, 27), "AA");
    ck_assert_str_eq(sheet_column_letters(letters, 16384), "XFD");
    ck_assert_str_eq(sheet_column_letters(letters, 0), "");
}
END_TEST

/* --- for tests/workbooks.sh -------------------------------------------------------------------------------------- */

static void write_bytes(const char *folder, const char *name, const char *bytes, size_t length)
{
    FILE *file = fopen(arena_printf(arena, "%s/%s", folder, name), "wb");
    ck_assert_ptr_nonnull(file);
    ck_assert_uint_eq(fwrite(bytes, 1, length, file), length);
    ck_assert_int_eq(fclose(file), 0);
}

static void write_xlsx(const char *folder, const char *name, const char *data, const char *strings_of)
{
    size_t length;
    char *bytes = made_xlsx(arena, data, strings_of, NULL, NULL, &length);
    write_bytes(folder, name, bytes, length);
}

static void write_archive(const char *folder, const char *name, const struct made_member *members)
{
    size_t length;
    char *bytes = made_archive(arena, members, &length);
    write_bytes(folder, name, bytes, length);
}

#define TEXT(place, text) "<c r=\"" place "\" t=\"inlineStr\"><is><t>" text "</t></is></c>"

/* A good workbook and some that are made to hurt. */
static const char *folder;

START_TEST(write_all)
{
    size_t length;
    const char *good = DATA(
        ROW(1, TEXT("A1", "Date") TEXT("B1", "Exercise") TEXT("C1", "Weight (kg)") TEXT("D1", "Reps"))
            ROW(2, TEXT("A2", "2026-03-02") TEXT("B2", "squat") "<c r=\"C2\"><v>100</v></c><c r=\"D2\"><v>5</v></c>")
                ROW(3, TEXT("A3", "2026-03-02") TEXT("B3", "squat") TEXT("C3", "heavy") "<c r=\"D3\"><v>5</v></c>"));
    write_xlsx(folder, "good.xlsx", good, NULL);
    char *bytes = made_xlsx(arena, good, NULL, NULL, NULL, &length);
    write_bytes(folder, "cut.xlsx", bytes, length * 2 / 3);
    const struct made_member *entities = (const struct made_member[]){
        {"content.xml", "<!DOCTYPE a [<!ENTITY b \"ha\"><!ENTITY c \"&b;&b;&b;&b;\">]><a>&c;</a>"}, {NULL, NULL}};
    write_archive(folder, "entities.ods", entities);
    const struct made_member *dots = (const struct made_member[]){
        {"_rels/.rels", "<R><Relationship Id=\"a\" Type=\"x/officeDocument\" Target=\"../../../../etc/passwd\"/></R>"},
        {"[Content_Types].xml", "<T/>"},
        {"../../evil", "x"},
        {NULL, NULL}};
    write_archive(folder, "dots.xlsx", dots);
    write_xlsx(folder, "bomb.xlsx",
               arena_printf(arena, DATA("%s"),
                            repeated("                                                                ", 1000000)),
               NULL);
    write_xlsx(folder, "deep.xlsx", repeated("<a>", 1000), NULL);
    write_xlsx(folder, "dimensions.xlsx",
               "<dimension ref=\"A1:XFD4000000\"/>" DATA(ROW(4000000, "<c r=\"A4000000\"><v>1</v></c>")), NULL);
    write_xlsx(folder, "columns.xlsx", DATA(ROW(1, "<c r=\"XFD1\"><v>1</v></c>")), NULL);
    bytes = made_ods(arena,
                     TABLE("Log", "<table:table-row table:number-rows-repeated=\"1000000\"><table:table-cell "
                                  "table:number-columns-repeated=\"1000\" "
                                  "office:value-type=\"float\" office:value=\"5\"/></table:table-row>"),
                     NULL, &length);
    write_bytes(folder, "repeated.ods", bytes, length);
    bytes = made_xlsx(arena, good, NULL, NULL, NULL, &length);
    for (size_t at = 0; at + 46 < length; at++) /* the checksum of the sheet in the directory */
        if (!memcmp(bytes + at, "PK\1\2", 4) && !memcmp(bytes + at + 46, "xl/worksheets", 13))
            bytes[at + 16] ^= 1;
    write_bytes(folder, "checksum.xlsx", bytes, length);
}
END_TEST

#define COUNT(list) ((int)(sizeof(list) / sizeof *(list)))

static void add_tests(TCase *all)
{
    tcase_add_loop_test(all, reads_xlsx, 0, COUNT(xlsx_cases));
    tcase_add_test(all, reads_a_workbook_without_strings_and_styles);
    tcase_add_test(all, prefixes_do_not_matter);
    tcase_add_loop_test(all, reads_ods, 0, COUNT(ods_cases));
    tcase_add_test(all, unknown_values_refuse_their_row);
    tcase_add_test(all, unknown_values_of_ods);
    tcase_add_loop_test(all, refuses_a_sheet, 0, COUNT(bad_sheets));
    tcase_add_test(all, refuses_an_entity);
    tcase_add_test(all, refuses_a_bomb);
    tcase_add_test(all, refuses_a_long_tag);
    tcase_add_test(all, refuses_a_billion_cells);
    tcase_add_test(all, refuses_repeats_beyond_all_sheets);
    tcase_add_test(all, a_text_that_is_shown_often_does_not_wait_in_memory);
    tcase_add_test(all, cut_and_changed_archives);
    tcase_add_loop_test(all, names_other_archives, 0, COUNT(others));
    tcase_add_test(all, names_an_encrypted_workbook);
    tcase_add_test(all, a_part_that_leads_out_of_the_archive_is_missing);
    tcase_add_test(all, paths_of_parts);
    tcase_add_loop_test(all, number_formats, 0, COUNT(formats));
    tcase_add_test(all, references);
}

int main(int argc, char **argv)
{
    folder = argc == 3 && !strcmp(argv[1], "--write") ? argv[2] : NULL;
    TCase *all = tcase_create("workbook");
    tcase_add_checked_fixture(all, set_up, tear_down);
    tcase_set_timeout(all, 60);
    if (folder)
        tcase_add_test(all, write_all);
    else
        add_tests(all);
    Suite *suite = suite_create("workbook");
    suite_add_tcase(suite, all);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed != 0;
}
