/* Parts of a workbook as XML events, through Expat: elements, their attributes, text. Names consist of their
 * namespace's kind and their local name, so that prefixes do not matter.
 *
 * No entities are expanded and nothing is fetched: a part that declares a document type is refused, because workbooks
 * do not have one and entities need it. Depth and the length of one piece of markup are limited. The first failure is
 * kept. */
#ifndef TAUTLINE_READING_WORKBOOK_XML_READER_H
#define TAUTLINE_READING_WORKBOOK_XML_READER_H

#include "base/arena.h"
#include "base/diag.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#define XML_DEPTH 64                           /* nested elements; a sheet has about ten */
#define XML_MARKUP_BYTES ((size_t)1024 * 1024) /* of one tag with its attributes */

/* The local name of an element or attribute: what follows the namespace. Borrowed from `name`. */
const char *xml_local(const char *name);
/* Is it this local name, in a namespace whose name ends in `space`? "" accepts a name without a namespace. */
bool xml_is(const char *name, const char *space, const char *local);
/* The value of an attribute; NULL: not there. Attributes are as Expat passes them: name, value, name, value, NULL. */
const char *xml_attribute(const char *const *attributes, const char *space, const char *local);

struct xml_events
{
    void (*start)(void *context, const char *name, const char *const *attributes);
    void (*end)(void *context, const char *name);
    void (*text)(void *context, const char *text, size_t length); /* NULL: not needed. Pieces may have any length */
};

struct xml_reader;

struct xml_reader *xml_reader_new(struct arena *arena, const struct xml_events *events, void *context);
void xml_reader_free(struct xml_reader *reader); /* NULL is allowed */
/* The next bytes of the part; after a pause, length 0 continues with those it has. False: a failure. */
bool xml_reader_feed(struct xml_reader *reader, const char *bytes, size_t length, bool last);
/* Call this within an event: feed returns after it, and keeps the bytes that are left. */
void xml_reader_pause(struct xml_reader *reader);
bool xml_reader_paused(const struct xml_reader *reader);
/* Call this within an event: there are no further events, and feed returns false. The text is copied. */
void xml_reader_fail(struct xml_reader *reader, enum diag_id id, const char *what);
/* NULL: nothing went wrong. */
const char *xml_reader_failure(const struct xml_reader *reader, enum diag_id *id);

#endif
