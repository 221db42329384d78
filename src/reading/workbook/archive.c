#include "reading/workbook/archive.h"

#include <zip.h>

struct archive
{
    struct arena *arena;
    zip_t *zip;
    uint64_t left; /* remaining part of ARCHIVE_BYTES */
    const char *failure;
    enum diag_id failure_id;
};

struct member
{
    struct archive *archive;
    const char *name;
    zip_file_t *file;
    uint64_t told, packed, read; /* bytes: expanded and packed, as stated in the archive; and as read */
};

static void fail(struct archive *archive, enum diag_id id, const char *what)
{
    if (archive->failure)
        return;
    archive->failure = what;
    archive->failure_id = id;
}

/* --- the archive ------------------------------------------------------------------------------------------------- */

static struct archive *archive_from(struct arena *arena, zip_source_t *source, const char **why)
{
    zip_error_t error;
    zip_error_init(&error);
    zip_t *zip = source ? zip_open_from_source(source, ZIP_RDONLY, &error) : NULL;
    if (!zip) {
        *why = arena_copy(arena, zip_error_strerror(&error));
        zip_error_fini(&error);
        zip_source_free(source);
        return NULL;
    }
    zip_error_fini(&error);
    struct archive *archive = ARENA_NEW(arena, struct archive);
    archive->arena = arena;
    archive->zip = zip;
    archive->left = ARCHIVE_BYTES;
    if ((uint64_t)zip_get_num_entries(zip, 0) > ARCHIVE_MEMBERS)
        fail(archive, DIAG_LIMIT_REACHED, "more than 4096 members in it: this is not a workbook of a log");
    return archive;
}

struct archive *archive_open(struct arena *arena, const char *path, const char **why)
{
    zip_error_t error;
    zip_error_init(&error);
    zip_source_t *source = zip_source_file_create(path, 0, -1, &error);
    zip_error_fini(&error);
    *why = "it cannot be opened";
    return archive_from(arena, source, why);
}

struct archive *archive_of_memory(struct arena *arena, const char *bytes, size_t length, const char **why)
{
    zip_error_t error;
    zip_error_init(&error);
    zip_source_t *source = zip_source_buffer_create(bytes, length, 0, &error);
    zip_error_fini(&error);
    *why = "it cannot be opened";
    return archive_from(arena, source, why);
}

void archive_close(struct archive *archive)
{
    if (archive)
        zip_discard(archive->zip);
}

bool archive_has(struct archive *archive, const char *name)
{
    return zip_name_locate(archive->zip, name, 0) >= 0;
}

bool archive_encrypted(struct archive *archive, const char *name)
{
    zip_stat_t stat;
    return !zip_stat(archive->zip, name, 0, &stat) && (stat.valid & ZIP_STAT_ENCRYPTION_METHOD) &&
           stat.encryption_method != ZIP_EM_NONE;
}

const char *archive_failure(const struct archive *archive, enum diag_id *id)
{
    *id = archive->failure_id;
    return archive->failure;
}

/* --- one member -------------------------------------------------------------------------------------------------- */

static bool too_dense(uint64_t expanded, uint64_t packed)
{
    return expanded > ARCHIVE_RATIO_FREE && expanded / ARCHIVE_RATIO > packed;
}

/* Is the size stated in the archive within the limits? */
static bool is_allowed(struct archive *archive, const char *name, const zip_stat_t *stat)
{
    if (stat->size > ARCHIVE_MEMBER_BYTES)
        fail(archive, DIAG_LIMIT_REACHED, arena_printf(archive->arena, "'%s' in it expands to more than 1 GiB", name));
    else if (too_dense(stat->size, stat->comp_size))
        fail(archive, DIAG_LIMIT_REACHED,
             arena_printf(archive->arena, "'%s' in it expands to more than %d times its size: no log does", name,
                          (int)ARCHIVE_RATIO));
    else if (stat->size > archive->left)
        fail(archive, DIAG_LIMIT_REACHED, "it expands to more than 3 GiB in all");
    return !archive->failure;
}

struct member *member_open(struct archive *archive, const char *name)
{
    const zip_uint64_t wanted = ZIP_STAT_SIZE | ZIP_STAT_COMP_SIZE;
    zip_stat_t stat;
    if (archive->failure)
        return NULL;
    if (zip_stat(archive->zip, name, 0, &stat) || (stat.valid & wanted) != wanted) {
        fail(archive, DIAG_BAD_WORKBOOK, arena_printf(archive->arena, "a part of it is missing: '%s'", name));
        return NULL;
    }
    if (!is_allowed(archive, name, &stat))
        return NULL;
    zip_file_t *file = zip_fopen_index(archive->zip, stat.index, 0);
    if (!file) {
        fail(archive, DIAG_BAD_WORKBOOK,
             arena_printf(archive->arena, "'%s' in it cannot be read: %s", name, zip_strerror(archive->zip)));
        return NULL;
    }
    struct member *member = ARENA_NEW(archive->arena, struct member);
    *member = (struct member){.archive = archive,
                              .name = arena_copy(archive->arena, name),
                              .file = file,
                              .told = stat.size,
                              .packed = stat.comp_size};
    return member;
}

size_t member_read(struct member *member, char *to, size_t room)
{
    struct archive *archive = member->archive;
    if (archive->failure)
        return 0;
    zip_int64_t got = zip_fread(member->file, to, room);
    if (got < 0) {
        fail(archive, DIAG_BAD_WORKBOOK,
             arena_printf(archive->arena, "'%s' in it is damaged: %s", member->name, zip_file_strerror(member->file)));
        return 0;
    }
    member->read += (uint64_t)got;
    if (member->read > member->told)
        fail(archive, DIAG_BAD_WORKBOOK,
             arena_printf(archive->arena, "'%s' in it is larger than it says", member->name));
    else if (!got && member->read < member->told)
        fail(archive, DIAG_BAD_WORKBOOK, arena_printf(archive->arena, "'%s' in it ends early", member->name));
    else if ((uint64_t)got > archive->left)
        fail(archive, DIAG_LIMIT_REACHED, "it expands to more than 3 GiB in all");
    else
        archive->left -= (uint64_t)got;
    return archive->failure ? 0 : (size_t)got;
}

void member_close(struct member *member)
{
    if (member && member->file)
        zip_fclose(member->file);
    if (member)
        member->file = NULL;
}
