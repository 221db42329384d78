#!/bin/sh
# Writes to standard output the C source that holds the files named, byte for byte:
#     plots/embed.sh plots/*.gp plots/report.css > src/writing/gnuplot/plots_embedded.c
# Bytes as numbers need no quoting that could go wrong, and od and sed are everywhere.
set -eu

echo '/* Made by plots/embed.sh from the files named below; change those. */'
echo '#include "writing/gnuplot/plots_embedded.h"'
for file in "$@"; do
    name=$(basename "$file" .gp)
    echo
    echo "static const unsigned char text_$(echo "$name" | tr . _)[] = { /* $name */"
    od -v -A n -t u1 "$file" | sed 's/  */,/g; s/^,//; s/$/,/'
    echo '};'
done
echo
echo 'const struct plot_text plots_embedded[] = {'
for file in "$@"; do
    name=$(basename "$file" .gp)
    text=text_$(echo "$name" | tr . _)
    echo "    {\"$name\", $text, sizeof $text},"
done
echo '};'
echo 'const size_t plots_embedded_count = sizeof plots_embedded / sizeof *plots_embedded;'
