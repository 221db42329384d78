/* A box that finds one of many names, in a page that is a file and has no server to ask. Its script is the only one
 * that a page of ours has: the page's policy names the script's digest, and the browser runs no other. */
#ifndef TAUTLINE_WRITING_HTML_SEARCH_H
#define TAUTLINE_WRITING_HTML_SEARCH_H

#include "writing/html/html.h"

extern const char html_search_policy[]; /* of the page that it is in */
/* Finds names and links them ("": no link). One a page. */
void html_search(struct html *html, const char *label, const char *const *names, const char *const *links,
                 size_t count);

#endif
