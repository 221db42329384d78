#include "base/digest.h"

#include <errno.h>
#include <fcntl.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>
#include <xxhash.h>

#define BLOCK_BYTES ((size_t)64 * 1024)

static XXH3_state_t *state_of(struct digester *digester)
{
    return (XXH3_state_t *)digester;
}

struct digester *digester_new(void)
{
    XXH3_state_t *state = XXH3_createState();
    if (!state || XXH3_128bits_reset(state) != XXH_OK)
        abort(); /* as an arena without a handler does */
    return (struct digester *)state;
}

void digester_end(struct digester *digester, char text[DIGEST_TEXT])
{
    XXH128_hash_t hash = XXH3_128bits_digest(state_of(digester));
    snprintf(text, DIGEST_TEXT, "%016llx%016llx", (unsigned long long)hash.high64, (unsigned long long)hash.low64);
    XXH3_freeState(state_of(digester));
}

void digest_count(struct digester *digester, uint64_t count)
{
    unsigned char bytes[8]; /* little end first on every machine: folders may be gathered on another one */
    for (size_t i = 0; i < sizeof bytes; i++)
        bytes[i] = (unsigned char)(count >> (8 * i));
    XXH3_128bits_update(state_of(digester), bytes, sizeof bytes);
}

void digest_bytes(struct digester *digester, const void *bytes, size_t length)
{
    digest_count(digester, length);
    if (length)
        XXH3_128bits_update(state_of(digester), bytes, length);
}

void digest_text(struct digester *digester, const char *text)
{
    digest_count(digester, text != NULL);
    if (text)
        digest_bytes(digester, text, strlen(text));
}

void digest_number(struct digester *digester, double number)
{
    uint64_t bits = UINT64_MAX; /* all NANs are one */
    if (!isnan(number))
        memcpy(&bits, &number, sizeof bits);
    digest_count(digester, bits);
}

bool digest_open_file(int file, struct digester *digester)
{
    unsigned char block[BLOCK_BYTES];
    for (;;) {
        ssize_t got = read(file, block, sizeof block);
        if (got < 0 && errno == EINTR)
            continue;
        if (got <= 0)
            return got == 0;
        XXH3_128bits_update(state_of(digester), block, (size_t)got);
    }
}

bool digest_file(const char *path, char text[DIGEST_TEXT])
{
    struct stat status;
    int file = open(path, O_RDONLY | O_NONBLOCK | O_CLOEXEC | O_NOCTTY);
    if (file < 0)
        return false;
    int error = fstat(file, &status) ? errno : S_ISREG(status.st_mode) ? 0 : EINVAL;
    struct digester *digester = digester_new();
    if (!error && !digest_open_file(file, digester))
        error = errno;
    digester_end(digester, text);
    close(file);
    errno = error;
    return !error;
}
