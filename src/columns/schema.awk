# The JSON Schema of a table: its title and its columns from a .def of this folder, all of them required.
/^\/\* title: / { title = substr($0, 11, length($0) - 13) }
/^COLUMN\(/ { match($0, /"[a-z0-9_]+"/); name[++count] = substr($0, RSTART, RLENGTH) }
/^ +\{"description": / { sub(/^ +/, ""); sub(/\)$/, ""); property[count] = $0 }
END {
    print "{\n  \"$schema\": \"https://json-schema.org/draft/2020-12/schema\",\n  \"title\": \"" title "\","
    print "  \"type\": \"object\",\n  \"properties\": {"
    for (i = 1; i <= count; i++) print "    " name[i] ": " property[i] (i < count ? "," : "")
    print "  },\n  \"required\": ["
    for (i = 1; i <= count; i++) {
        word = name[i] (i < count ? "," : "")
        if (line && length(line) + 1 + length(word) > 118) { print line; line = "" }
        line = line ? line " " word : "    " word
    }
    print line "\n  ],\n  \"additionalProperties\": false\n}"
}
