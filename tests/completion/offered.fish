# What fish offers, as offered.zsh has it: `fish --no-config offered.fish SCRIPT <LINES`. Descriptions are cut off.
source $argv[1]
while read --local line
    complete -C $line | string replace -r '\t.*' ''
    echo .
end
