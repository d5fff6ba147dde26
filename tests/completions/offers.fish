# offers.fish COMPLETION
#
# Reads lines. For each it prints what fish offers at its end, then an empty line.
source $argv[1]
while read -l line
    complete -C $line
    echo
end
