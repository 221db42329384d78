#include "writing/html/html_search.h"

#include "writing/escape.h"
#include "writing/html/html_parts.h"

#include <string.h>

/* If you change this, update the digest below: tests/team/large.sh compares them. */
static const char script[] =
    "(function(){var entries,folded,box=document.getElementById(\"search\"),found=document.getElementById(\"found\");"
    "function fold(t){return t.normalize(\"NFKD\").replace(/[\\u0300-\\u036f]/g,\"\").toLowerCase()}"
    "box.addEventListener(\"input\",function(){"
    "if(!entries){entries=JSON.parse(document.getElementById(\"names\").textContent);folded=entries.map(function(e){"
    "return fold(e[0])})}"
    "var sought=fold(box.value.trim()),count=0,i,item,link;found.textContent=\"\";"
    "for(i=0;sought&&i<folded.length&&count<50;i++){if(folded[i].indexOf(sought)<0)continue;count++;"
    "item=document.createElement(\"li\");"
    "if(entries[i][1]){link=document.createElement(\"a\");link.href=entries[i][1];link.textContent=entries[i][0];item."
    "appendChild(link)}"
    "else{item.textContent=entries[i][0]}"
    "found.appendChild(item)}})})();";

const char html_search_policy[] = "script-src 'sha256-D1fMlkbts9qRLlyVwsUf0zvGzhkzqxuPT0Z8E42MyLk='";

/* JSON inside an element: nothing in it may look like the element's end tag. */
static void put_json(struct html *html, const char *text)
{
    for (const char *at = text; *at;) {
        size_t plain = strcspn(at, "<>&");
        html_markup(html, at, plain);
        at += plain;
        if (*at)
            html_markup(html, *at == '<' ? "\\u003c" : *at == '>' ? "\\u003e" : "\\u0026", 6);
        at += *at != 0;
    }
}

static void put_entries(struct html *html, const char *const *names, const char *const *links, size_t count)
{
    struct output *json = output_to_memory(html->arena);
    output_text(json, "[");
    for (size_t i = 0; i < count; i++) {
        output_text(json, i ? ",[" : "[");
        escape_json(json, names[i]);
        output_text(json, ",");
        escape_json(json, links[i]);
        output_text(json, "]");
    }
    output_text(json, "]");
    put_json(html, output_memory(json, NULL));
}

void html_search(struct html *html, const char *label, const char *const *names, const char *const *links, size_t count)
{
    html_open(html, "p");
    html_open(html, "label");
    html_text(html, label);
    html_text(html, " ");
    html_open(html, "input");
    html_attribute(html, "type", "search");
    html_attribute(html, "id", "search");
    html_close(html);
    html_close(html);
    html_close(html);
    html_open(html, "ul");
    html_attribute(html, "id", "found");
    html_close(html);
    html_open(html, "script");
    html_attribute(html, "type", "application/json");
    html_attribute(html, "id", "names");
    html_text(html, "");
    put_entries(html, names, links, count);
    html_close(html);
    html_open(html, "script");
    html_text(html, "");
    html_markup(html, script, strlen(script));
    html_close(html);
}
