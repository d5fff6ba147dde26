# offers.bash COMPLETION
#
# Reads pairs of lines: a command line, then its words, separated by tabs. The last word is the one
# at the cursor. For each pair it prints what the completion offers, then an empty line.
source /usr/share/bash-completion/bash_completion
source "$1"
compopt() { :; }  # the real one works only while a line is being edited

while IFS= read -r COMP_LINE && IFS= read -r words; do
  IFS=$'\t' read -ra COMP_WORDS <<<"$words"
  [[ $words == *$'\t' ]] && COMP_WORDS+=('')
  COMP_CWORD=$((${#COMP_WORDS[@]} - 1))
  COMP_POINT=${#COMP_LINE}
  COMP_TYPE=63 COMP_KEY=9 COMPREPLY=()
  _firstdrop "${COMP_WORDS[0]}" "${COMP_WORDS[COMP_CWORD]}" "${COMP_WORDS[COMP_CWORD - 1]}"
  ((${#COMPREPLY[@]})) && printf '%s\n' "${COMPREPLY[@]}"
  echo
done
