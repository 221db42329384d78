#include "writing/html/html_svg.h"

#include "writing/html/html.h"

#include "base/text.h"
#include "writing/html/html_parts.h"

#include <ctype.h>
#include <string.h>

/* Every element that gnuplot's svg terminal draws with. A picture with any other element is rejected. */
static bool is_drawing(const char *name, size_t length)
{
    static const char *const elements[] = {
        "g",   "path", "rect",    "circle",   "ellipse", "line",    "polyline",    "polygon", "text", "tspan",
        "use", "defs", "pattern", "clipPath", "filter",  "feFlood", "feComposite", "title",   "desc", "svg"};
    for (size_t i = 0; i < sizeof elements / sizeof *elements; i++)
        if (strlen(elements[i]) == length && !strncmp(elements[i], name, length))
            return true;
    return false;
}

static bool only_drawing(const char *svg)
{
    for (const char *at = svg; (at = strchr(at, '<')); at++) {
        const char *name = at + 1 + (at[1] == '/');
        size_t length = 0;
        while (isalpha((unsigned char)name[length]))
            length++;
        if (!is_drawing(name, length))
            return false;
    }
    return true;
}

/* The value of an attribute of the tag at `tag`; NULL: it has none. */
static const char *attribute(struct arena *arena, const char *tag, const char *name)
{
    const char *end = strchr(tag, '>');
    const char *at = strstr(tag, arena_printf(arena, "%s=\"", name));
    if (!end || !at || at > end)
        return NULL;
    at += strlen(name) + 2;
    return arena_text(arena, at, strcspn(at, "\""));
}

/* Marks and filters that a picture defines but does not use, which is most of them. Their elements end in "/>" or
 * "</filter>". */
static size_t unused_length(struct arena *arena, const char *svg, const char *element)
{
    const char *end = strchr(element, '>');
    const char *id = strstr(element, " id='");
    if (!end || !id || id > end)
        return 0;
    id += 5;
    const char *word = arena_text(arena, id, strcspn(id, "'"));
    if (strstr(svg, arena_printf(arena, "#%s'", word)) || strstr(svg, arena_printf(arena, "#%s)", word)) ||
        strstr(svg, arena_printf(arena, "#%s\"", word)))
        return 0;
    if (text_starts(element, "<filter")) {
        const char *close = strstr(element, "</filter>");
        return close ? (size_t)(close - element) + 9 : 0;
    }
    return end[-1] == '/' ? (size_t)(end - element) + 1 : 0;
}

/* Every other group that gnuplot writes is empty. */
static size_t empty_group_length(const char *group)
{
    const char *end = strchr(group, '>');
    if (!end)
        return 0;
    const char *next = end + 1 + strspn(end + 1, "\n\t ");
    return text_starts(next, "</g>") ? (size_t)(next - group) + 4 : 0;
}

/* The length of what can be left out at `at`: titles (browsers show them as tooltips), descriptions, unused marks,
 * blank lines. */
static size_t needless_length(struct arena *arena, const char *svg, const char *at, bool in_defs)
{
    const char *close = NULL;
    if (text_starts(at, "<title>"))
        close = strstr(at, "</title>");
    else if (text_starts(at, "<desc>"))
        close = strstr(at, "</desc>");
    if (close)
        return (size_t)(strchr(close, '>') - at) + 1;
    if (in_defs && *at == '<')
        return unused_length(arena, svg, at);
    if (text_starts(at, "<g "))
        return empty_group_length(at);
    if (*at == '\n' || *at == '\t') {
        size_t blank = strspn(at, "\n\t ");
        return at[blank] == '<' ? blank : 0;
    }
    return 0;
}

/* Where an id or a reference to one begins, the length of its prefix: id=' id=" href='# url(# . */
static size_t reference_length(const char *at)
{
    static const char *const leads[] = {" id='", " id=\"", "href='#", "href=\"#", "url(#"};
    for (size_t i = 0; i < sizeof leads / sizeof *leads; i++)
        if (text_starts(at, leads[i]))
            return strlen(leads[i]);
    return 0;
}

/* Most bytes of a picture are coordinates, at which none of the above can begin. */
static bool is_plain(char byte)
{
    switch (byte) {
    case '<':
    case '\n':
    case '\t':
    case ' ':
    case 'h':
    case 'u':
    case 'x':
        return false;
    default:
        return true;
    }
}

static void put_drawing(struct html *html, const char *svg, const char *body, const char *end)
{
    const char *prefix = arena_printf(html->arena, "p%u-", ++html->pictures);
    bool in_defs = false;
    const char *run = body;
    for (const char *at = body; at < end;) {
        if (is_plain(*at)) {
            at++;
            continue;
        }
        if (text_starts(at, "<defs>") || text_starts(at, "</defs>"))
            in_defs = at[1] == 'd';
        size_t needless = needless_length(html->arena, svg, at, in_defs);
        size_t lead = needless ? 0 : reference_length(at);
        bool outdated = !needless && text_starts(at, "xlink:"); /* href is enough, and HTML has no other */
        if (!needless && !lead && !outdated) {
            at++;
            continue;
        }
        html_markup(html, run, (size_t)(at - run) + lead);
        if (lead)
            html_markup(html, prefix, strlen(prefix));
        at += needless + lead + (outdated ? 6 : 0);
        run = at;
    }
    html_markup(html, run, (size_t)(end - run));
}

bool html_svg(struct html *html, const char *svg, const char *label)
{
    const char *tag = strstr(svg, "<svg");
    const char *body = tag ? strchr(tag, '>') : NULL, *end = body ? strstr(body, "</svg>") : NULL;
    if (!end || !only_drawing(tag))
        return false;
    const char *view = attribute(html->arena, tag, "viewBox");
    html_open(html, "svg");
    html_attribute(html, "viewBox", view ? view : "0 0 900 600");
    html_attribute(html, "role", "img");
    html_attribute(html, "aria-label", label);
    put_drawing(html, svg, body + 1, end);
    html_close(html);
    return true;
}
