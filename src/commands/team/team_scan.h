/* Reads JSON that this program wrote, from memory and in one pass, without building a tree: measured, a tree of each
 * lifter's state took most of a night in which nothing changed. What is not JSON, or is not what the caller asks for,
 * is never misread: scan_end() tells whether all of it was JSON. */
#ifndef TAUTLINE_COMMANDS_TEAM_SCAN_H
#define TAUTLINE_COMMANDS_TEAM_SCAN_H

#include <stdbool.h>
#include <stddef.h>

struct scan
{
    char *at;
    int depth; /* of arrays and objects that are open */
    bool bad;
};

/* `text` ends with a NUL. It is changed: texts are unescaped in place, and are valid as long as it is. */
struct scan scan_of(char *text, size_t length);
bool scan_end(struct scan *scan); /* true: everything was read, and it was JSON */

/* for (bool any = scan_begin(scan, '{'); any && scan_more(scan, '}');) reads a member's name and value each time.
 * scan_begin() skips a value of another type, and then gives false. */
bool scan_begin(struct scan *scan, char opening);
bool scan_more(struct scan *scan, char closing);
const char *scan_name(struct scan *scan);

/* A value of another type is skipped, and gives "", 0 or false. */
const char *scan_text(struct scan *scan);
double scan_number(struct scan *scan);
bool scan_true(struct scan *scan);
void scan_skip(struct scan *scan);
bool scan_at(struct scan *scan, char opening); /* does the next value begin so? */

#endif
