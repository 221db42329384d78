/* A box that searches many names, in a page that is a plain file without a server. Its script is the only one in our
 * pages: the page's policy lists the script's digest, and the browser runs no other. */
#ifndef TAUTLINE_WRITING_HTML_SEARCH_H
#define TAUTLINE_WRITING_HTML_SEARCH_H

#include "writing/html/html.h"

extern const char html_search_policy[]; /* for the policy of the page that contains it */
/* Searches names and links them ("": no link). One per page. */
void html_search(struct html *html, const char *label, const char *const *names, const char *const *links,
                 size_t count);

#endif
