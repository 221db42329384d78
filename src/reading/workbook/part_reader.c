#include "reading/workbook/part_reader.h"

struct part_reader
{
    struct arena *own;
    struct archive *archive;
    const char *name;
    struct member *member;
    struct xml_reader *xml;
    bool at_end;
    char bytes[PART_BYTES];
};

struct part_reader *part_open(struct archive *archive, const char *name, const struct xml_events *events, void *context)
{
    struct member *member = member_open(archive, name);
    if (!member)
        return NULL;
    struct arena *own = arena_new();
    struct part_reader *part = arena_room(own, sizeof *part);
    part->own = own;
    part->archive = archive;
    part->name = arena_copy(own, name);
    part->member = member;
    part->xml = xml_reader_new(own, events, context);
    part->at_end = false;
    return part;
}

void part_close(struct part_reader *part)
{
    if (!part)
        return;
    xml_reader_free(part->xml);
    member_close(part->member);
    arena_free(part->own);
}

struct xml_reader *part_xml(struct part_reader *part)
{
    return part->xml;
}

bool part_step(struct part_reader *part)
{
    enum diag_id id;
    if (xml_reader_paused(part->xml))
        return xml_reader_feed(part->xml, NULL, 0, false);
    if (part->at_end)
        return false;
    size_t length = member_read(part->member, part->bytes, sizeof part->bytes);
    part->at_end = !length;
    return !archive_failure(part->archive, &id) && xml_reader_feed(part->xml, part->bytes, length, part->at_end);
}

const char *part_failure(const struct part_reader *part, struct arena *arena, enum diag_id *id)
{
    const char *why = archive_failure(part->archive, id);
    if (why)
        return arena_copy(arena, why);
    why = xml_reader_failure(part->xml, id);
    return why ? arena_printf(arena, "'%s' in it cannot be read: %s", part->name, why) : NULL;
}

bool part_read(struct arena *arena, struct archive *archive, const char *name, const struct xml_events *events,
               void *context, const char **why, enum diag_id *id)
{
    struct part_reader *part = part_open(archive, name, events, context);
    if (!part) {
        *why = arena_copy(arena, archive_failure(archive, id));
        return false;
    }
    *why = NULL;
    while (part_step(part))
        ;
    *why = part_failure(part, arena, id);
    part_close(part);
    return !*why;
}
