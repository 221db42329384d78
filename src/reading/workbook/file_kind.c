#include "reading/workbook/file_kind.h"

#include <string.h>

#define SAVE_SHEET "open it where it was made and save the sheet as .xlsx, .ods or CSV"
#define TAKE_TABLE                                                                                                     \
    "tautline reads no pictures or pages: copy the table out of it into a sheet, and save that as CSV or .xlsx"
#define UNPACK "unpack it and name the logs that are in it"

struct signature
{
    const char *bytes;
    size_t length, at;
    const char *what, *hint;
};

#define SIGNATURE(bytes, at, what, hint)                                                                               \
    {                                                                                                                  \
        bytes, sizeof(bytes) - 1, at, what, hint                                                                       \
    }

/* From the formats' own specifications. The compound file holds a workbook from before 2007, or one encrypted with a
 * password. */
static const struct signature signatures[] = {
    SIGNATURE("\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1", 0, "an old binary workbook (.xls), or one with a password",
              "open it, take the password off, and save it as .xlsx, or save the sheet as CSV"),
    SIGNATURE("\x09\x08\x10\x00\x00\x06", 0, "an old binary workbook (.xls)", SAVE_SHEET),
    SIGNATURE("\x09\x08\x08\x00\x00\x05", 0, "an old binary workbook (.xls)", SAVE_SHEET),
    SIGNATURE("\x09\x04\x06\x00", 0, "an old binary workbook (.xls)", SAVE_SHEET),
    SIGNATURE("\x09\x02\x06\x00", 0, "an old binary workbook (.xls)", SAVE_SHEET),
    SIGNATURE("\x09\x00\x04\x00", 0, "an old binary workbook (.xls)", SAVE_SHEET),
    SIGNATURE("%PDF-", 0, "a PDF", TAKE_TABLE),
    SIGNATURE("\x89PNG\r\n\x1A\n", 0, "a picture (PNG)", TAKE_TABLE),
    SIGNATURE("\xFF\xD8\xFF", 0, "a picture (JPEG)", TAKE_TABLE),
    SIGNATURE("GIF87a", 0, "a picture (GIF)", TAKE_TABLE),
    SIGNATURE("GIF89a", 0, "a picture (GIF)", TAKE_TABLE),
    SIGNATURE("WEBP", 8, "a picture (WebP)", TAKE_TABLE),
    SIGNATURE("II*\0", 0, "a picture (TIFF)", TAKE_TABLE),
    SIGNATURE("MM\0*", 0, "a picture (TIFF)", TAKE_TABLE),
    SIGNATURE("ftypheic", 4, "a picture (HEIC)", TAKE_TABLE),
    SIGNATURE("ftypheix", 4, "a picture (HEIC)", TAKE_TABLE),
    SIGNATURE("ftypmif1", 4, "a picture (HEIC)", TAKE_TABLE),
    SIGNATURE("ftypavif", 4, "a picture (AVIF)", TAKE_TABLE),
    SIGNATURE("ftyp", 4, "a film", TAKE_TABLE),
    SIGNATURE("\x1F\x8B", 0, "a file packed by gzip", "unpack it first: gzip -d"),
    SIGNATURE("BZh", 0, "a file packed by bzip2", "unpack it first: bzip2 -d"),
    SIGNATURE("\xFD"
              "7zXZ\0",
              0, "a file packed by xz", "unpack it first: xz -d"),
    SIGNATURE("\x28\xB5\x2F\xFD", 0, "a file packed by Zstandard", "unpack it first: zstd -d"),
    SIGNATURE("7z\xBC\xAF\x27\x1C", 0, "an archive (7z)", UNPACK),
    SIGNATURE("Rar!\x1A\x07", 0, "an archive (RAR)", UNPACK),
    SIGNATURE("ustar", 257, "an archive (tar)", UNPACK),
    SIGNATURE("SQLite format 3", 0, "a database (SQLite)", "export its table as CSV"),
    SIGNATURE("bplist00", 0, "a binary property list", SAVE_SHEET),
    SIGNATURE("{\\rtf", 0, "a text document (RTF)", "save it as plain text"),
    SIGNATURE("\x7F"
              "ELF",
              0, "a program", "name a log"),
};

struct file_kind file_kind_of(const unsigned char *bytes, size_t length)
{
    for (size_t i = 0; i < sizeof signatures / sizeof *signatures; i++) {
        const struct signature *signature = &signatures[i];
        if (length >= signature->at + signature->length &&
            !memcmp(bytes + signature->at, signature->bytes, signature->length))
            return (struct file_kind){signature->what, signature->hint};
    }
    return (struct file_kind){0};
}

bool file_is_zip(const unsigned char *bytes, size_t length)
{
    return length >= 4 && (!memcmp(bytes, "PK\3\4", 4) || !memcmp(bytes, "PK\5\6", 4) || !memcmp(bytes, "PK\7\x08", 4));
}
