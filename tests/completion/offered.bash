# What bash offers, as offered.zsh has it: `bash --norc offered.bash SCRIPT <LINES`. Paths are readline's own affair: what is asked of it
# stands in brackets.
source "$1"
compopt() { echo "[$*]"; }
[[ $(complete -p tautline) == *"-F _tautline tautline" ]] || echo "_tautline is not registered"
while IFS= read -r line; do
    words=${line//=/ = } # as COMP_WORDBREAKS has it
    read -r -a COMP_WORDS <<<"$words"
    [[ $words == *' ' ]] && COMP_WORDS+=('')
    [[ $line == *= ]] && unset 'COMP_WORDS[-1]'
    COMP_CWORD=$((${#COMP_WORDS[@]} - 1))
    _tautline
    printf '%s\n' "${COMPREPLY[@]}"
    echo .
done
