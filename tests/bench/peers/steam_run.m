% The typical run of each recipe in closed form, all recipes at once: what somebody who works with
% GNU Octave would write. Usage:
%
%   octave-cli --quiet --no-init-file steam_run.m VALUES.csv > results.csv
%
% VALUES.csv is what bench_recipes writes; both tables are in SI units, and 0 stands for none.

file = argv (){end};
id = fopen (file);
names = strsplit (strtrim (fgetl (id)), ",");
fclose (id);
v = cell2struct (num2cell (dlmread (file, ",", 1, 0), 1), names, 2);

% Time for a body with a constant loss per kelvin to warm by `rise`, from the room's temperature on.
function t = warming (capacity, loss, heat, rise)
  x = loss .* rise ./ heat;
  t = -log1p (-x) .* capacity ./ loss;
  lossless = loss == 0;
  t(lossless) = capacity(lossless) .* rise(lossless) ./ heat(lossless);
endfunction

% Time at which `left` of water is in the pot. Steam is lost to the pot until the charge holds its
% fill; from then on what condenses in the column drips back.
function t = time_until (left, v, boil, first_drop, steam, vapour)
  spare = v.first_fill_kg - v.soaked_kg - left;
  caught = min (steam .* (first_drop - boil), v.hold_up_kg);
  condensate = steam - vapour;
  fills = (v.hold_up_kg - caught) ./ condensate;
  fills(v.hold_up_kg <= caught) = 0;
  after = spare - caught;
  t = first_drop + after ./ steam;                       % the charge still takes it up
  late = after > steam .* fills;
  wet = first_drop + fills + (after - steam .* fills) ./ vapour;
  wet(isinf (fills)) = Inf;
  t(late) = wet(late);
  early = spare <= caught;                               % before any drips back
  soon = boil + spare ./ steam;
  t(early) = soon(early);
endfunction

rise = v.boiling_k - v.room_k;
pot_lost = v.pot_loss_w_per_k .* rise;
boil = warming (v.first_fill_kg .* v.water_heat_j_per_kg_k + v.pot_capacity_j_per_k, ...
                v.pot_loss_w_per_k, v.heat_warming_w, rise);
net = v.heat_boiling_w - pot_lost;
steam = net ./ v.latent_heat_j_per_kg;
first_drop = boil + warming (v.column_capacity_j_per_k, v.column_loss_w_per_k, net, rise);
vapour = (net - v.column_loss_w_per_k .* rise) ./ v.latent_heat_j_per_kg;
caught_share = 1 - v.vent_share;
distillate = vapour .* caught_share ./ v.distillate_density_kg_per_m3;

by_level = first_drop + v.stop_hydrosol_m3 ./ distillate;
by_level(v.stop_hydrosol_m3 == 0) = Inf;
by_clock = v.stop_clock_s;
by_clock(by_clock == 0) = Inf;
stop = min (by_level, by_clock);
running = stop - first_drop;

distilled = vapour .* caught_share .* running;
vented = vapour .* v.vent_share .* running;
condensed = steam .* (first_drop - boil) + (steam - vapour) .* running;
taken_up = min (condensed, v.hold_up_kg);
held = v.soaked_kg + taken_up;
left = v.first_fill_kg - v.soaked_kg - steam .* (stop - boil) + condensed - taken_up;
reserve = time_until (v.reserve_kg, v, boil, first_drop, steam, vapour);
dry = time_until (0, v, boil, first_drop, steam, vapour);

released = 1 - (1 - v.washed_share) .* exp (-v.release_rate_per_s .* running);
carried = v.oil_per_steam .* vapour .* running;
carried(v.oil_per_steam == 0) = Inf;
vaporised = min (v.oil_recoverable_kg .* released, carried);
in_receiver = max (vaporised - v.hydrosol_oil_kg_per_m3 .* distillate .* running, 0);

put_in = v.heat_warming_w .* boil + v.heat_boiling_w .* (stop - boil);
duty = vapour .* v.condensing_heat_j_per_kg;

puts (["boil_s,first_drop_s,stop_s,reserve_s,dry_s,distillate_m3_per_s,distilled_kg,vented_kg," ...
       "held_kg,left_kg,oil_vaporised_kg,oil_in_receiver_kg,heat_put_in_j,duty_w\n"]);
results = [boil, first_drop, stop, reserve, dry, distillate, distilled, vented, held, left, ...
           vaporised, in_receiver, put_in, duty];
printf ([repmat("%.17g,", 1, 13), "%.17g\n"], results');
