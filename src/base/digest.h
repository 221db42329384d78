/* Digests: has anything changed since last time? XXH3, 128 bits, of libxxhash. Not for secrets: it withstands chance
 * and not malice.
 *
 * What is added goes in with its length, so that "ab" + "c" and "a" + "bc" differ. */
#ifndef TAUTLINE_BASE_DIGEST_H
#define TAUTLINE_BASE_DIGEST_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#define DIGEST_TEXT 33 /* bytes of one as text: 32 hexadecimal digits and a NUL */

struct digester;

struct digester *digester_new(void);
/* Writes the digest of all that was added, and frees the digester. */
void digester_end(struct digester *digester, char text[DIGEST_TEXT]);

void digest_bytes(struct digester *digester, const void *bytes, size_t length);
void digest_text(struct digester *digester, const char *text); /* NULL is not "" */
void digest_number(struct digester *digester, double number);  /* NAN is a number like others */
void digest_count(struct digester *digester, uint64_t count);

/* The bytes of an open file, from its current position. False: errno says why. */
bool digest_open_file(int file, struct digester *digester);

/* Of a regular file's bytes. It never waits: a pipe or a device is refused with EINVAL. False: errno says why. */
bool digest_file(const char *path, char text[DIGEST_TEXT]);

#endif
