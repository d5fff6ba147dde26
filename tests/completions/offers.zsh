# An interactive zsh runs this at its start, see offers.py. The Tab key then writes to $ANSWERS what
# the completion offers for the line, and an empty line. Then it clears the line.
fpath=($COMPLETIONS $fpath)
autoload -Uz compinit
compinit -u -d $ZDOTDIR/dump
unsetopt beep
LISTMAX=100000 # else zsh asks before a long list, and takes the next line's first letter as answer
PROMPT= RPROMPT=

typeset -ga offered
# All offers go through compadd. With -O, -A or -D it only filters words.
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
