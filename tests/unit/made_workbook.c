#include "unit/made_workbook.h"

#include <check.h>
#include <string.h>
#include <zip.h>

char *made_archive(struct arena *arena, const struct made_member *members, size_t *length)
{
    zip_error_t error;
    zip_source_t *source = zip_source_buffer_create(NULL, 0, 0, &error);
    zip_t *zip = zip_open_from_source(source, ZIP_TRUNCATE, &error);
    ck_assert_ptr_nonnull(zip);
    zip_source_keep(source);
    for (; members->name; members++) {
        zip_source_t *text = zip_source_buffer(zip, members->text, strlen(members->text), 0);
        ck_assert_int_ge(zip_file_add(zip, members->name, text, ZIP_FL_ENC_UTF_8), 0);
    }
    ck_assert_int_eq(zip_close(zip), 0);
    zip_stat_t stat;
    ck_assert_int_eq(zip_source_stat(source, &stat), 0);
    *length = (size_t)stat.size;
    char *bytes = arena_alloc(arena, *length + 1);
    ck_assert_int_eq(zip_source_open(source), 0);
    ck_assert_int_eq(zip_source_read(source, bytes, *length), (zip_int64_t)*length);
    zip_source_close(source);
    zip_source_free(source);
    return bytes;
}

#define HEAD "<?xml version=\"1.0\" encoding=\"UTF-8\" standalone=\"yes\"?>\n"
#define OFFICE_RELATIONS "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
#define RELATIONSHIPS "<Relationships xmlns=\"http://schemas.openxmlformats.org/package/2006/relationships\">"
#define RELATION(id, type, target)                                                                                     \
    "<Relationship Id=\"" id "\" Type=\"" OFFICE_RELATIONS "/" type "\" Target=\"" target "\"/>"

char *made_xlsx(struct arena *arena, const char *data, const char *strings, const char *styles, const char *properties,
                size_t *length)
{
    const char *workbook = arena_printf(arena,
                                        HEAD "<workbook " MADE_MAIN " xmlns:r=\"" OFFICE_RELATIONS
                                             "\"><workbookPr %s/><sheets>"
                                             "<sheet name=\"March\" sheetId=\"1\" r:id=\"rId1\"/></sheets></workbook>",
                                        properties ? properties : "");
    struct made_member members[8] = {
        {"[Content_Types].xml", HEAD "<Types xmlns=\"http://schemas.openxmlformats.org/package/2006/content-types\"/>"},
        {"_rels/.rels", HEAD RELATIONSHIPS RELATION("rId1", "officeDocument", "xl/workbook.xml") "</Relationships>"},
        {"xl/workbook.xml", workbook},
        {"xl/_rels/workbook.xml.rels", HEAD RELATIONSHIPS RELATION("rId1", "worksheet", "worksheets/sheet1.xml")
                                           RELATION("rId2", "styles", "styles.xml") RELATION(
                                               "rId3", "sharedStrings", "/xl/sharedStrings.xml") "</Relationships>"},
        {"xl/worksheets/sheet1.xml", arena_printf(arena, HEAD "<worksheet " MADE_MAIN ">%s</worksheet>", data)},
    };
    size_t count = 5;
    if (strings)
        members[count++] = (struct made_member){"xl/sharedStrings.xml",
                                                arena_printf(arena, HEAD "<sst " MADE_MAIN ">%s</sst>", strings)};
    if (styles)
        members[count++] = (struct made_member){
            "xl/styles.xml", arena_printf(arena, HEAD "<styleSheet " MADE_MAIN ">%s</styleSheet>", styles)};
    return made_archive(arena, members, length);
}

#define OASIS "urn:oasis:names:tc:opendocument:xmlns:"

char *made_ods(struct arena *arena, const char *tables, const char *styles, size_t *length)
{
    const char *content = arena_printf(
        arena,
        HEAD "<office:document-content xmlns:office=\"" OASIS "office:1.0\" xmlns:table=\"" OASIS
             "table:1.0\" xmlns:text=\"" OASIS "text:1.0\" xmlns:style=\"" OASIS "style:1.0\" xmlns:draw=\"" OASIS
             "drawing:1.0\"><office:automatic-styles>%s"
             "</office:automatic-styles><office:body><office:spreadsheet>%s</office:spreadsheet></office:body>"
             "</office:document-content>",
        styles ? styles : "", tables);
    const struct made_member members[] = {
        {"mimetype", "application/vnd.oasis.opendocument.spreadsheet"}, {"content.xml", content}, {NULL, NULL}};
    return made_archive(arena, members, length);
}
