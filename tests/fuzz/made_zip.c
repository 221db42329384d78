#include "fuzz/made_zip.h"

#include <string.h>

static uint32_t crc32_of(const unsigned char *bytes, size_t length)
{
    uint32_t crc = UINT32_MAX;
    for (size_t i = 0; i < length; i++) {
        crc ^= bytes[i];
        for (int bit = 0; bit < 8; bit++)
            crc = crc >> 1 ^ (crc & 1 ? 0xEDB88320U : 0);
    }
    return ~crc;
}

static void add(struct arena *arena, unsigned char **to, size_t *length, const void *bytes, size_t count)
{
    *to = arena_grow(arena, *to, *length, *length + count);
    memcpy(*to + *length, bytes, count);
    *length += count;
}

static size_t put(unsigned char *to, size_t at, uint32_t value, size_t bytes)
{
    for (size_t i = 0; i < bytes; i++)
        to[at + i] = (unsigned char)(value >> 8 * i);
    return at + bytes;
}

/* What a member's own header and its entry in the directory share, from the version on. */
static size_t put_facts(unsigned char *to, size_t at, const void *bytes, size_t length, size_t name_length)
{
    at = put(to, at, 20, 2);         /* version needed */
    at = put(to, at, 0, 4);          /* flags, stored */
    at = put(to, at, 0x21 << 16, 4); /* 1980-01-01 */
    at = put(to, at, crc32_of(bytes, length), 4);
    at = put(to, at, (uint32_t)length, 4);
    at = put(to, at, (uint32_t)length, 4);
    return put(to, at, (uint32_t)name_length, 4); /* no extra field */
}

void made_zip_add(struct made_zip *zip, const char *name, const void *bytes, size_t length)
{
    unsigned char header[30] = "PK\3\4", entry[46] = "PK\1\2\24";
    uint32_t offset = (uint32_t)zip->length;
    put_facts(header, 4, bytes, length, strlen(name));
    add(zip->arena, &zip->bytes, &zip->length, header, sizeof header);
    add(zip->arena, &zip->bytes, &zip->length, name, strlen(name));
    add(zip->arena, &zip->bytes, &zip->length, bytes, length);
    put_facts(entry, 6, bytes, length, strlen(name));
    put(entry, 42, offset, 4);
    add(zip->arena, &zip->directory, &zip->directory_length, entry, sizeof entry);
    add(zip->arena, &zip->directory, &zip->directory_length, name, strlen(name));
    zip->count++;
}

void made_zip_end(struct made_zip *zip)
{
    unsigned char end[22] = "PK\5\6";
    put(end, 8, zip->count, 2);
    put(end, 10, zip->count, 2);
    put(end, 12, (uint32_t)zip->directory_length, 4);
    put(end, 16, (uint32_t)zip->length, 4);
    add(zip->arena, &zip->bytes, &zip->length, zip->directory, zip->directory_length);
    add(zip->arena, &zip->bytes, &zip->length, end, sizeof end);
}
