# Completion of firstdrop's command line for fish.

# The keys of a table, as the program has them, from the folder that the line names; each with the
# beginning of what is said of it. Whatever goes wrong, there is nothing to offer, and nothing to say.
function __firstdrop_table
    set -l words (commandline -opc | string replace -r '^~/' $HOME/)
    set -l data (string match -- '--data=*' $words)
    if set -l at (contains -i -- --data $words)
        set data $words[$at..(math $at + 1)]
    end
    set -l program $words[1]
    type -q -- $program; or return
    $program $argv[1] $data 2>/dev/null </dev/null |
        string match -rg '^([[:alnum:]]\S*) +(.*)$' | while read -l key
        read -l about
        printf '%s\t%s\n' $key $about
    end
end

# What stands on the line already beside options and their values: the command, and what it is about.
function __firstdrop_said
    set -l is_value no
    for word in (commandline -opc)[2..]
        if test $is_value = yes
            set is_value no
            continue
        end
        switch $word
            case --json --explain --csv --ics --brief --summary --force --version --help -h
            case '--*=*' '-o?*'
            case '-?*'
                set is_value yes
            case '*'
                echo -- $word
        end
    end
end

# Whether the command is one of these; without any, whether there is none yet.
function __firstdrop_is
    set -l said (__firstdrop_said)
    if test (count $argv) -eq 0
        test (count $said) -eq 0
    else
        contains -- "$said[1]" $argv
    end
end

# The same, where nothing has been said of what it is about.
function __firstdrop_starts
    string match -q -- '-*' (commandline -ct); and return 1
    __firstdrop_is $argv; and test (count (__firstdrop_said)) -eq 1
end

# The keys of a recipe that --set and --vary take, and those of its still; behind the = what the
# value can be, if that is one of a few words, also after a comma.
function __firstdrop_override
    set -l word (commandline -ct | string replace -r '^--(set|vary)=' '')
    set -l key (string split -m 1 = -- $word)
    if test (count $key) -lt 2
        printf '%s=\n' title plant state cut charge still method water water_temperature setting receiver lot start \
            units seed \
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
        return
    end
    set -l before $key[1]=(string match -r '.*,' -- $key[2])
    test "$before" = ''; and set before $key[1]=
    switch $key[1]
        case plant
            __firstdrop_table plants | string replace -r '^' $before
        case still
            __firstdrop_table stills | string replace -r '^' $before
        case state
            printf "$before%s\n" fresh wilted dried
        case cut
            printf "$before%s\n" whole chopped crushed ground
        case method
            printf "$before%s\n" steam water-and-steam hydro
        case units
            printf "$before%s\n" metric us
        case site.place
            printf "$before%s\n" indoors outdoors
        case still.heater.kind
            printf "$before%s\n" electric-plate induction-plate immersed-element gas-burner
        case still.condenser.kind
            printf "$before%s\n" ice-bath reservoir run-through
        case 'still.*.material' still.condenser.wall
            printf "$before%s\n" aluminium copper glass stainless-steel
    end
end

# Folders, and files with one of these endings.
function __firstdrop_files
    complete -C "'' "(commandline -ct) | string match -r '.*(?:/|\.(?:'(string join '|' $argv)'))(?:\t.*)?$'
end

# Folders alone.
function __firstdrop_folders
    complete -C "'' "(commandline -ct | string replace -r '^--data=' '') | string match -r '.*/(?:\t.*)?$'
end

complete -c firstdrop -f
complete -c firstdrop -s h -l help -d 'Print help and end'
complete -c firstdrop -n __firstdrop_is -l version -d 'Print the version and end'
complete -c firstdrop -l data -x -a '(__firstdrop_folders)' -d 'Read the tables from this folder'

complete -c firstdrop -n __firstdrop_is -a plan -d 'Plan the run that a recipe asks for'
complete -c firstdrop -n __firstdrop_is -a batch -d 'Plan many recipes, or one in many ways'
complete -c firstdrop -n __firstdrop_is -a sheet -d 'Write the sheet to work from at the bench'
complete -c firstdrop -n __firstdrop_is -a campaign -d 'Plan several recipes on one bench'
complete -c firstdrop -n __firstdrop_is -a new -d 'Write a recipe to start from'
complete -c firstdrop -n __firstdrop_is -a plants -d 'List the plants, or show one'
complete -c firstdrop -n __firstdrop_is -a liquids -d 'List constituents of oils, or show one'
complete -c firstdrop -n __firstdrop_is -a stills -d 'List the example stills, or show one'
complete -c firstdrop -n __firstdrop_is -a findings -d 'List what a plan may say, or show one'
complete -c firstdrop -n __firstdrop_is -a sources -d 'List the sources of figures, or show one'
complete -c firstdrop -n __firstdrop_is -a schemas -d 'List JSON Schemas, or write one'
complete -c firstdrop -n __firstdrop_is -a check -d 'Say all that is wrong in files'

complete -c firstdrop -n '__firstdrop_starts plan sheet campaign' -a '(__firstdrop_files json)'
complete -c firstdrop -n '__firstdrop_is batch check' -a '(__firstdrop_files json jsonl)'
for table in plants liquids stills findings sources schemas
    complete -c firstdrop -n "__firstdrop_starts $table" -a "(__firstdrop_table $table)"
end

complete -c firstdrop -n '__firstdrop_is plan sheet' -l start -x -d 'Day and time of heat on'
complete -c firstdrop -n '__firstdrop_is plan sheet batch campaign new plants liquids stills' \
    -l units -x -a 'metric us' -d 'What to weigh, pour and read in'
complete -c firstdrop -n '__firstdrop_is plan sheet batch campaign' \
    -l samples -x -d 'Runs behind the ranges'
complete -c firstdrop -n '__firstdrop_is plan sheet batch campaign' \
    -l jobs -x -d 'Threads that share the work'
complete -c firstdrop -n '__firstdrop_is plan campaign' \
    -l color -x -a 'auto always never' -d 'Colour on the terminal'
complete -c firstdrop -n '__firstdrop_is sheet campaign' \
    -l format -x -a 'html md txt' -d 'What to write'
complete -c firstdrop -n '__firstdrop_is sheet' \
    -s o -l output -x -a '(__firstdrop_files html md txt)' -d 'Write to this file'
complete -c firstdrop \
    -n '__firstdrop_is plan batch campaign new plants liquids stills findings sources schemas' \
    -s o -l output -r -F -d 'Write to this file'
complete -c firstdrop \
    -n '__firstdrop_is plan batch campaign plants liquids stills findings sources' \
    -l json -d 'Print as JSON'
complete -c firstdrop -n '__firstdrop_is plan' -l explain -d 'Every figure with its equation'
complete -c firstdrop -n '__firstdrop_is plan' -l csv -d 'The run in steps'
complete -c firstdrop -n '__firstdrop_is plan campaign' -l ics -d 'For the calendar of a phone'
complete -c firstdrop -n '__firstdrop_is campaign' -l run -x -d 'The sheet of this run'

complete -c firstdrop -n '__firstdrop_is batch' \
    -l set -x -a '(__firstdrop_override)' -d 'Put a value in place of the recipe\'s'
complete -c firstdrop -n '__firstdrop_is batch' \
    -l vary -x -a '(__firstdrop_override)' -d 'The same with several values'
complete -c firstdrop -n '__firstdrop_is batch' -l brief -d 'Short lines of the nominal run'
complete -c firstdrop -n '__firstdrop_is batch' -l summary -d 'What all of it takes and gives'

complete -c firstdrop -n '__firstdrop_is new' \
    -l plant -x -a '(__firstdrop_table plants; __firstdrop_files json)' -d 'Key or file'
complete -c firstdrop -n '__firstdrop_is new' -l state -x -a 'fresh wilted dried' -d 'Of the herb'
complete -c firstdrop -n '__firstdrop_is new' \
    -l cut -x -a 'whole chopped crushed ground' -d 'Of the herb'
complete -c firstdrop -n '__firstdrop_is new' -l charge -x -d 'How much herb'
complete -c firstdrop -n '__firstdrop_is new' \
    -l still -x -a '(__firstdrop_table stills; __firstdrop_files json)' -d 'Key or file'
complete -c firstdrop -n '__firstdrop_is new' \
    -l method -x -a 'steam water-and-steam hydro' -d 'Where the herb is'
complete -c firstdrop -n '__firstdrop_is new' -l altitude -x -d 'Of the place'
complete -c firstdrop -n '__firstdrop_is new' -l room -x -d 'Temperature of the room'
complete -c firstdrop -n '__firstdrop_is new' -l coolant -x -d 'Temperature of the coolant'
complete -c firstdrop -n '__firstdrop_is new' -l hydrosol -x -d 'Goal: so much hydrosol'
complete -c firstdrop -n '__firstdrop_is new' -l oil -x -d 'Goal: so much oil'
complete -c firstdrop -n '__firstdrop_is new' -l ratio -x -d 'Goal: this much hydrosol per kilogram of fresh herb'
complete -c firstdrop -n '__firstdrop_is new' -l oil-share -x -d 'Goal: this share of the oil'
complete -c firstdrop -n '__firstdrop_is new' -l time -x -d 'Goal: stop by the clock'
complete -c firstdrop -n '__firstdrop_is new' -l title -x -d 'What to call it'
complete -c firstdrop -n '__firstdrop_is new' -l force -d 'Write over a file that exists'
