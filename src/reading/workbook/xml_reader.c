#include "reading/workbook/xml_reader.h"

#include <config.h>
#include <expat.h>
#include <string.h>

/* A newer Expat wants these names, an older one has others. */
#if HAVE_DECL_XML_GETCURRENTBYTEINDEX64
#define LINE_NUMBER XML_GetCurrentLineNumber64
#define BYTE_INDEX XML_GetCurrentByteIndex64
#else
#define LINE_NUMBER XML_GetCurrentLineNumber
#define BYTE_INDEX XML_GetCurrentByteIndex
#endif

#define SEPARATOR '\x1F' /* between namespace and local name: it cannot occur in either */

struct xml_reader
{
    struct arena *arena;
    XML_Parser parser;
    const struct xml_events *events;
    void *context;
    unsigned depth;
    uint64_t fed;
    const char *failure;
    enum diag_id failure_id;
};

/* --- names ------------------------------------------------------------------------------------------------------- */

const char *xml_local(const char *name)
{
    const char *separator = strrchr(name, SEPARATOR);
    return separator ? separator + 1 : name;
}

bool xml_is(const char *name, const char *space, const char *local)
{
    const char *separator = strrchr(name, SEPARATOR);
    if (!separator)
        return !*space && !strcmp(name, local);
    size_t wanted = strlen(space), given = (size_t)(separator - name);
    return wanted && wanted <= given && !strcmp(separator + 1, local) && !memcmp(separator - wanted, space, wanted);
}

const char *xml_attribute(const char *const *attributes, const char *space, const char *local)
{
    for (; *attributes; attributes += 2)
        if (xml_is(attributes[0], space, local))
            return attributes[1];
    return NULL;
}

/* --- events ------------------------------------------------------------------------------------------------------ */

void xml_reader_fail(struct xml_reader *reader, enum diag_id id, const char *what)
{
    if (!reader->failure) {
        reader->failure = arena_copy(reader->arena, what);
        reader->failure_id = id;
    }
    XML_StopParser(reader->parser, XML_FALSE);
}

static void see_start(void *context, const XML_Char *name, const XML_Char **attributes)
{
    struct xml_reader *reader = context;
    if (reader->failure)
        return;
    if (++reader->depth > XML_DEPTH)
        xml_reader_fail(reader, DIAG_LIMIT_REACHED, "elements more than 64 deep: no workbook has them");
    else
        reader->events->start(reader->context, name, (const char *const *)attributes);
}

static void see_end(void *context, const XML_Char *name)
{
    struct xml_reader *reader = context;
    if (reader->failure)
        return;
    reader->depth--;
    reader->events->end(reader->context, name);
}

static void see_text(void *context, const XML_Char *text, int length)
{
    struct xml_reader *reader = context;
    if (!reader->failure)
        reader->events->text(reader->context, text, (size_t)length);
}

static void see_doctype(void *context, const XML_Char *name, const XML_Char *system, const XML_Char *public,
                        int internal)
{
    (void)name, (void)system, (void)public, (void)internal;
    xml_reader_fail(context, DIAG_BAD_WORKBOOK,
                    "it declares a document type and entities, which no workbook does: it may be made to do harm");
}

/* --- the reader -------------------------------------------------------------------------------------------------- */

struct xml_reader *xml_reader_new(struct arena *arena, const struct xml_events *events, void *context)
{
    struct xml_reader *reader = ARENA_NEW(arena, struct xml_reader);
    *reader = (struct xml_reader){.arena = arena, .events = events, .context = context};
    reader->parser = XML_ParserCreateNS(NULL, SEPARATOR);
    if (!reader->parser)
        arena_out_of_memory(0);
    XML_SetUserData(reader->parser, reader);
    XML_SetElementHandler(reader->parser, see_start, see_end);
    if (events->text)
        XML_SetCharacterDataHandler(reader->parser, see_text);
    XML_SetStartDoctypeDeclHandler(reader->parser, see_doctype);
    XML_SetParamEntityParsing(reader->parser, XML_PARAM_ENTITY_PARSING_NEVER);
    return reader;
}

void xml_reader_free(struct xml_reader *reader)
{
    if (reader)
        XML_ParserFree(reader->parser);
}

static void fail_by_expat(struct xml_reader *reader)
{
    enum XML_Error error = XML_GetErrorCode(reader->parser);
    if (error == XML_ERROR_NO_MEMORY)
        arena_out_of_memory(0);
    xml_reader_fail(reader, DIAG_BAD_WORKBOOK,
                    arena_printf(reader->arena, "it is damaged: %s, in line %lu of its XML", XML_ErrorString(error),
                                 (unsigned long)LINE_NUMBER(reader->parser)));
}

void xml_reader_pause(struct xml_reader *reader)
{
    XML_StopParser(reader->parser, XML_TRUE);
}

bool xml_reader_paused(const struct xml_reader *reader)
{
    XML_ParsingStatus status;
    XML_GetParsingStatus(reader->parser, &status);
    return status.parsing == XML_SUSPENDED;
}

bool xml_reader_feed(struct xml_reader *reader, const char *bytes, size_t length, bool last)
{
    if (reader->failure)
        return false;
    reader->fed += length;
    enum XML_Status status = xml_reader_paused(reader) ? XML_ResumeParser(reader->parser)
                                                       : XML_Parse(reader->parser, bytes, (int)length, last);
    if (status == XML_STATUS_ERROR && !reader->failure)
        fail_by_expat(reader);
    if (status == XML_STATUS_SUSPENDED)
        return !reader->failure;
    int64_t seen = BYTE_INDEX(reader->parser);
    if (!last && seen >= 0 && reader->fed - (uint64_t)seen > XML_MARKUP_BYTES)
        xml_reader_fail(reader, DIAG_LIMIT_REACHED, "one tag of more than 1 MiB: no workbook has it");
    return !reader->failure;
}

const char *xml_reader_failure(const struct xml_reader *reader, enum diag_id *id)
{
    *id = reader->failure_id;
    return reader->failure;
}
