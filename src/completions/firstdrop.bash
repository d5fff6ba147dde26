# Completion of firstdrop's command line for bash. The package bash-completion loads it by its name,
# firstdrop, and brings the functions that it uses.
# shellcheck shell=bash

# _firstdrop_table PROGRAM TABLE: the keys of a table, as the program has them, from the folder that
# the line names. Whatever goes wrong, there is nothing to offer, and nothing to say.
_firstdrop_table() {
  "${1/#\~\//$HOME/}" "$2" "${data[@]}" 2>/dev/null </dev/null | sed -n 's/^\([[:alnum:]][^ ]*\)  *.*/\1/p'
}

# _firstdrop_options COMMAND: what may stand behind it.
_firstdrop_options() {
  case $1 in
    '') echo --version ;;
    plan) echo --start --units --samples --jobs --json --explain --csv --ics -o --output --color ;;
    sheet) echo --start --units --samples --jobs --format -o --output ;;
    batch) echo --set --vary --brief --summary --json --units --samples --jobs -o --output ;;
    campaign) echo --units --samples --jobs --json --ics --run --format -o --output --color ;;
    new)
      echo --plant --state --cut --charge --still --method --altitude --room --coolant --hydrosol \
        --ratio --oil --oil-share --time --units --title -o --output --force
      ;;
    plants | liquids | stills) echo --json --units -o --output ;;
    findings | sources) echo --json -o --output ;;
    schemas) echo -o --output ;;
  esac
  echo --data -h --help
}

# The keys of a recipe that --set and --vary take, and those of its still.
_firstdrop_recipe_keys() {
  echo title plant state cut charge still method water water_temperature setting receiver lot start units seed \
    site site.{altitude,pressure,room,coolant,place,mains,circuit} \
    goal goal.{hydrosol,ratio,oil,oil_share,time,confidence} \
    own own.{bulk_density,oil_content,distillate_rate,boil_time,boil_water,setting,boil_setting,mains} \
    limits limits.{time,absence} \
    prices prices.{energy_per_kwh,plant_per_kg,currency} \
    still.pot.{material,volume,diameter,mass,fill_limit,minimum_water} \
    still.column.{material,volume,diameter,mass} \
    still.grid.{water_below,space,mass} \
    still.head.{material,mass,surface} \
    still.heater.{kind,power,efficiency} \
    still.condenser.{kind,wall,surface,outlet,coolant_limit,coolant,ice_per_change,flow_limit} \
    still.wall_hold_up
}

# _firstdrop_words PROGRAM KEY: what its value can be, if that is one of a few words.
_firstdrop_words() {
  case $2 in
    plant) _firstdrop_table "$1" plants ;;
    still) _firstdrop_table "$1" stills ;;
    state) echo fresh wilted dried ;;
    cut) echo whole chopped crushed ground ;;
    method) echo steam water-and-steam hydro ;;
    units) echo metric us ;;
    site.place) echo indoors outdoors ;;
    still.heater.kind) echo electric-plate induction-plate immersed-element gas-burner ;;
    still.condenser.kind) echo ice-bath reservoir run-through ;;
    still.*.material | still.condenser.wall) echo aluminium copper glass stainless-steel ;;
    color) echo auto always never ;;
    format) echo html md txt ;;
  esac
}

# _firstdrop_override PROGRAM: "key=value,value"; bash takes what stands behind the = for the word.
_firstdrop_override() {
  local values before words
  if [[ $cur != *=* ]]; then
    words=$(_firstdrop_recipe_keys)
    mapfile -t COMPREPLY < <(compgen -S = -W "$words" -- "$cur")
    compopt -o nospace
    return
  fi
  values=${cur#*=}
  before=
  [[ $prev == --vary && $values == *,* ]] && before=${values%,*},
  words=$(_firstdrop_words "$1" "${cur%%=*}")
  mapfile -t COMPREPLY < <(compgen -P "$before" -W "$words" -- "${values#"$before"}")
}

_firstdrop() {
  local cur prev words cword split
  _init_completion -s || return

  # What stands on the line already: the command, and whether what it is about is there, too.
  local command='' subject='' data=() i
  for ((i = 1; i < cword; i++)); do
    case ${words[i]} in
      --json | --explain | --csv | --ics | --brief | --summary | --force | --version | --help | -h) ;;
      --data=*) data=("${words[i]}") ;;
      --*=* | -o?*) ;;
      --data) data=(--data "${words[++i]/#\~\//$HOME/}") ;;
      -?*) ((i++)) ;;
      *)
        [[ -n $command ]] && subject=${words[i]}
        command=${command:-${words[i]}}
        ;;
    esac
  done

  case $command:$prev in
    *:--units | *:--color | *:--format | new:--state | new:--cut | new:--method)
      mapfile -t COMPREPLY < <(compgen -W "$(_firstdrop_words "$1" "${prev#--}")" -- "$cur")
      return
      ;;
    new:--plant | new:--still)
      _filedir json
      mapfile -t -O "${#COMPREPLY[@]}" COMPREPLY < <(
        compgen -W "$(_firstdrop_words "$1" "${prev#--}")" -- "$cur"
      )
      return
      ;;
    batch:--set | batch:--vary)
      _firstdrop_override "$1"
      return
      ;;
    sheet:-o | sheet:--output)
      _filedir '@(html|md|txt)'
      return
      ;;
    *:-o | *:--output)
      _filedir
      return
      ;;
    *:--data)
      _filedir -d
      return
      ;;
    *:--start | *:--samples | *:--jobs | *:--run | new:--*)
      # Nothing is known of what comes here. --force is the one option of new without a value.
      [[ $prev == --force || $prev == --help ]] || return
      ;;
  esac
  [[ $split == true ]] && return

  if [[ $cur == -* ]]; then
    mapfile -t COMPREPLY < <(compgen -W "$(_firstdrop_options "$command")" -- "$cur")
    return
  fi
  case $command in
    '')
      mapfile -t COMPREPLY < <(compgen -W 'plan batch sheet campaign new plants liquids stills
        findings sources schemas check' -- "$cur")
      ;;
    batch | check) _filedir '@(json|jsonl)' ;;
    *) [[ -n $subject ]] && return ;;&
    plan | sheet | campaign) _filedir json ;;
    plants | liquids | stills | findings | sources | schemas)
      mapfile -t COMPREPLY < <(compgen -W "$(_firstdrop_table "$1" "$command")" -- "$cur")
      ;;
  esac
} && complete -F _firstdrop firstdrop
