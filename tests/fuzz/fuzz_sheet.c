/* The XML layer: the parts of a workbook, whatever their bytes. An input that begins with "o" is the content of an .ods
 * behind that letter; any other one is a sheet of an .xlsx, its shared strings and its styles, each behind a record
 * separator (0x1E). */
#include "fuzz/made_zip.h"
#include "fuzz/target.h"
#include "fuzz/workbook_target.h"

#include <string.h>

const char target_name[] = "sheet";

#define OFFICE "http://schemas.openxmlformats.org/officeDocument/2006/relationships"

static void add_text(struct made_zip *zip, const char *name, const char *text)
{
    made_zip_add(zip, name, text, strlen(text));
}

static void add_xlsx(struct made_zip *zip, const char *bytes, size_t length)
{
    static const char *const parts[] = {"s.xml", "t.xml", "f.xml"};
    add_text(zip, "_rels/.rels", "<R><Relationship Id=\"a\" Type=\"x/officeDocument\" Target=\"w.xml\"/></R>");
    add_text(zip, "w.xml", "<w xmlns:r=\"" OFFICE "\"><sheets><sheet name=\"March\" r:id=\"s\"/></sheets></w>");
    add_text(zip, "_rels/w.xml.rels",
             "<R><Relationship Id=\"s\" Type=\"x/worksheet\" Target=\"s.xml\"/><Relationship Id=\"t\" "
             "Type=\"x/sharedStrings\" "
             "Target=\"t.xml\"/><Relationship Id=\"f\" Type=\"x/styles\" Target=\"f.xml\"/></R>");
    add_text(zip, "[Content_Types].xml", "<Types/>");
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++) {
        const char *end = memchr(bytes, 0x1E, length);
        size_t part = end ? (size_t)(end - bytes) : length;
        if (part)
            made_zip_add(zip, parts[i], bytes, part);
        bytes += end ? part + 1 : part;
        length -= end ? part + 1 : part;
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    struct made_zip zip = {.arena = arena_new()};
    if (length && *bytes == 'o')
        made_zip_add(&zip, "content.xml", bytes + 1, length - 1);
    else
        add_xlsx(&zip, (const char *)bytes, length);
    made_zip_end(&zip);
    target_workbook((const char *)zip.bytes, zip.length);
    arena_free(zip.arena);
    return 0;
}
