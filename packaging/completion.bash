# Bash completion for snarewright. Commands, options and presets come from the program itself.
_snarewright()
{
    local program=${COMP_WORDS[0]} command=${COMP_WORDS[1]} current=${COMP_WORDS[COMP_CWORD]} choices
    COMPREPLY=()

    if ((COMP_CWORD == 1)); then
        choices="--help --version $("$program" --help | sed -n 's/^  \([a-z][a-z]*\)  .*/\1/p')"
    elif [[ $current == -* ]]; then
        choices="--help $("$program" "$command" --help | sed -n 's/^  \(--[a-z0-9-]*\).*/\1/p')"
    else
        # The drums are the first table that the program lists.
        choices=$("$program" presets | sed -n -e '/^$/q' -e '2,$s/ .*//p')
        mapfile -t COMPREPLY < <(compgen -f -- "$current")
    fi

    mapfile -t -O ${#COMPREPLY[@]} COMPREPLY < <(compgen -W "$choices" -- "$current")
} 2> /dev/null

complete -o filenames -F _snarewright snarewright
