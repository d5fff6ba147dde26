# The course of a run, from the timeline of its plan:
#
#   firstdrop plan rosemary-for-oil.json --csv -o run.csv
#   gnuplot -c timeline.gnuplot run.csv run.svg      a picture
#   gnuplot -c timeline.gnuplot run.csv              on the terminal, in plain characters
#
# Water in the pot and hydrosol above; oil with its range from the 10th to the 90th percentile, and
# the coolant where there is a vessel of it, below.

csv = ARG1
if (csv eq "") { print "Which CSV? gnuplot -c timeline.gnuplot run.csv [run.svg]"; exit status 2 }

set datafile separator comma
set datafile columnheaders

stats csv using "at_min":"pot_water_ml" name "water" nooutput
stats csv using "at_min":"hydrosol_ml" name "hydrosol" nooutput
# The eighth column, oil_ml, is empty for a plant of whose oil nothing is known.
stats csv using (valid(8) ? 1 : 0) name "known" nooutput
oil_max_y = 0
if (known_max > 0) { stats csv using "at_min":"oil_p90_ml" name "oil" nooutput }
# The eleventh column, reservoir_c, is empty in a run with coolant run through: no vessel warms up.
stats csv using (valid(11) ? 1 : 0) name "coolant" nooutput
print sprintf("%d moments to %.17g min; most water %.17g mL, hydrosol %.17g mL, oil %.17g mL", \
              water_records, water_max_x, water_max_y, hydrosol_max_y, oil_max_y)

if (ARG2 eq "") {
  set terminal dumb 79 42
} else {
  set terminal svg size 800,700 font "sans-serif,14" background "white"
  set output ARG2
}

set multiplot layout 1 + (known_max > 0 ? 1 : 0) + (coolant_max > 0 ? 1 : 0), 1
set xrange [0:water_max_x]
set yrange [0:*]
set lmargin 10
set key outside above horizontal
set ylabel "mL"
plot csv using "at_min":"pot_water_ml" with lines linewidth 2 title "water in the pot", \
     csv using "at_min":"hydrosol_ml" with lines linewidth 2 dashtype 2 title "hydrosol"
if (coolant_max == 0) { set xlabel "minutes from heat on" }
if (known_max > 0) {
plot csv using "at_min":"oil_p10_ml":"oil_p90_ml" with filledcurves fillstyle pattern 4 \
         title "oil, 10 to 90 %", \
     csv using "at_min":"oil_ml" with lines linewidth 2 title "oil"
}
if (coolant_max > 0) {
  set ylabel "°C"
  set xlabel "minutes from heat on"
  plot csv using "at_min":"reservoir_c" with lines linewidth 2 title "coolant"
}
unset multiplot
