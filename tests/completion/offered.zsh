# What zsh offers: `zsh -f offered.zsh FOLDER-OF-_tautline SCRATCH <LINES`. For each line the words, one a line, then a dot. A shell of its own,
# at a pseudo-terminal, completes as at a key's touch; its compadd also writes down what it was given and found to match.
emulate -R zsh
zmodload zsh/zpty || exit 77
offered=$2/offered
zpty shell zsh -f -i

say() { # COMMAND: waits until it is done
    local said
    zpty -w shell "$1; print do''ne"
    zpty -r -m shell said '*done*'
}
say 'PS1= PS2=; unsetopt beep; stty -echo'
say "fpath=(${(q)1} \$fpath); autoload -Uz compinit && compinit -D -u; offered=${(q)offered}"
say 'compadd() {
    local -a found
    if [[ " $* " == *" -"(O|A|D)" "* ]]; then
        builtin compadd "$@"
        return
    fi
    builtin compadd -A found "$@"
    (( $#found )) && print -rl -- $found >>$offered
    builtin compadd "$@"
}'
say 'tell() { : >$offered; zle complete; zle kill-whole-line; print -n told }; zle -N tell; zle -C complete complete-word _main_complete'
say 'LISTMAX=10000; bindkey "^I" tell'
while IFS= read -r line; do
    zpty -w -n shell "$line"$'\t'
    zpty -r -m shell said '*told*'
    cat $offered
    print .
done
zpty -d shell
