# What an interactive zsh runs at its start, see offers.py: the tabulator key writes to $ANSWERS what
# the completion offers for the line, then an empty line, and clears the line.
fpath=($COMPLETIONS $fpath)
autoload -Uz compinit
compinit -u -d $ZDOTDIR/dump
unsetopt beep
LISTMAX=100000 # or it asks before it shows a long list, and takes the next line's first letter for the answer
PROMPT= RPROMPT=

typeset -ga offered
# All that is offered goes through compadd; with -O, -A or -D it only sorts out words.
compadd() {
  local word
  local -a added
  for word in "$@"; do
    [[ $word == (-|--) ]] && break
    if [[ $word == -[a-zA-Z0-9]#[OAD]* && $word != -[JVXxPSpsiIWFrRMEo]* ]]; then
      builtin compadd "$@"
      return
    fi
  done
  builtin compadd -O added "$@"
  offered+=($added)
  builtin compadd "$@"
}

zle -C offer list-choices _main_complete
tell() {
  offered=()
  zle offer
  print -rl -- $offered '' >$ANSWERS
  BUFFER=
}
zle -N tell
bindkey '^I' tell
setopt extended_glob
print -r -- '' >$ANSWERS
