/* The least that reading a workbook costs: libzip inflates one member, Expat parses it, and its elements and bytes of
 * text are counted. */
#include <expat.h>
#include <stdio.h>
#include <zip.h>

struct counts
{
    unsigned long elements, bytes;
};

static void see_start(void *counts, const XML_Char *name, const XML_Char **attributes)
{
    (void)name, (void)attributes;
    ((struct counts *)counts)->elements++;
}

static void see_end(void *counts, const XML_Char *name)
{
    (void)counts, (void)name;
}

static void see_text(void *counts, const XML_Char *text, int length)
{
    (void)text;
    ((struct counts *)counts)->bytes += (unsigned long)length;
}

int main(int argc, char **argv)
{
    static char bytes[32 * 1024];
    struct counts counts = {0};
    int error;
    zip_t *zip = argc > 2 ? zip_open(argv[1], ZIP_RDONLY, &error) : NULL;
    for (int i = 2; zip && i < argc; i++) {
        zip_file_t *file = zip_fopen(zip, argv[i], 0);
        XML_Parser parser = XML_ParserCreateNS(NULL, '\x1F');
        if (!file || !parser)
            return 1;
        XML_SetUserData(parser, &counts);
        XML_SetElementHandler(parser, see_start, see_end);
        XML_SetCharacterDataHandler(parser, see_text);
        for (zip_int64_t got; (got = zip_fread(file, bytes, sizeof bytes)) > 0;)
            if (XML_Parse(parser, bytes, (int)got, 0) != XML_STATUS_OK)
                return 1;
        XML_ParserFree(parser);
        zip_fclose(file);
    }
    printf("%lu elements, %lu bytes of text\n", counts.elements, counts.bytes);
    return !zip;
}
