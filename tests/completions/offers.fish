# offers.fish COMPLETION: reads lines, and prints what fish offers at the end of each, then an empty
# line.
source $argv[1]
while read -l line
    complete -C $line
    echo
end
