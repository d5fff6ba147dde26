% The nominal run of each recipe in closed form, for all recipes at once, as a user of GNU Octave
% would write it. Usage:
%
%   octave-cli --quiet --no-init-file steam_run.m VALUES.csv > results.csv
%
% bench_recipes writes VALUES.csv. Both tables are in SI units, and 0 stands for none.

file = argv (){end};
id = fopen (file);
names = strsplit (strtrim (fgetl (id)), ",");
fclose (id);
v = cell2struct (num2cell (dlmread (file, ",", 1, 0), 1), names, 2);

% Time in which a body with a constant heat loss per kelvin warms by `rise` from room temperature.
function t = warming (capacity, loss, heat, rise)
  x = loss .* rise ./ heat;
  t = -log1p (-x) .* capacity ./ loss;
  lossless = loss == 0;
  t(lossless) = capacity(lossless) .* rise(lossless) ./ heat(lossless);
endfunction

% Time at which `left` kg of water is still in the pot. The pot loses all the steam it makes until
% charge and walls can hold no more water. From then on, condensate from the column drips back.
function t = time_until (left, v, boil, first_drop, steam, vapour)
  spare = v.first_fill_kg - v.soaked_kg - left;
  caught = min (steam .* (first_drop - boil), v.hold_up_kg);
  condensate = steam - vapour;
  fills = (v.hold_up_kg - caught) ./ condensate;
  fills(v.hold_up_kg <= caught) = 0;
  after = spare - caught;
  t = first_drop + after ./ steam;                       % the charge still takes up condensate
  late = after > steam .* fills;
  wet = first_drop + fills + (after - steam .* fills) ./ vapour;
  wet(isinf (fills)) = Inf;
  t(late) = wet(late);
  early = spare <= caught;                               % before first drop, with no drip back
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
caught_share = 1 - v.uncondensed_loss;
distillate = vapour .* caught_share ./ v.distillate_density_kg_per_m3;

by_level = first_drop + v.stop_hydrosol_m3 ./ distillate;
by_level(v.stop_hydrosol_m3 == 0) = Inf;
by_clock = v.stop_clock_s;
by_clock(by_clock == 0) = Inf;
stop = min (by_level, by_clock);
running = stop - first_drop;

distilled = vapour .* caught_share .* running;
vented = vapour .* v.uncondensed_loss .* running;
condensed = steam .* (first_drop - boil) + (steam - vapour) .* running;
taken_up = min (condensed, v.hold_up_kg);
held = v.soaked_kg + taken_up;
left = v.first_fill_kg - v.soaked_kg - steam .* (stop - boil) + condensed - taken_up;
reserve = time_until (v.reserve_kg, v, boil, first_drop, steam, vapour);
dry = time_until (0, v, boil, first_drop, steam, vapour);

% At first the distillate brings more oil than its water can dissolve, so the water is saturated.
% Later it brings less, and all of that oil dissolves. Newton's method finds two times: when oil no
% longer waits for steam (held_back), and when released oil no longer saturates the water (thin).
carries = v.oil_per_steam .* vapour ./ v.oil_recoverable_kg;
carries(v.oil_per_steam == 0) = Inf;
saturates = v.hydrosol_oil_kg_per_m3 .* distillate ./ v.oil_recoverable_kg;
left_in = @(t) [v.fast_share .* exp(-v.fast_rate_per_s .* t), ...
                (1 - v.fast_share) .* exp(-v.slow_rate_per_s .* t)];
held_back = 1 ./ carries;
thin = zeros (size (held_back));
for step = 1:60
  in = left_in (held_back);
  slope = v.fast_rate_per_s .* in(:, 1) + v.slow_rate_per_s .* in(:, 2) - carries;
  held_back -= (1 - sum (in, 2) - carries .* held_back) ./ slope;
  in = left_in (thin);
  rate = [v.fast_rate_per_s, v.slow_rate_per_s] .* in;
  slope = v.fast_rate_per_s .* rate(:, 1) + v.slow_rate_per_s .* rate(:, 2);
  thin += log (sum (rate, 2) ./ saturates) .* sum (rate, 2) ./ slope;
endfor
at_once = v.fast_share .* v.fast_rate_per_s + (1 - v.fast_share) .* v.slow_rate_per_s;
held_back(at_once <= carries) = 0;
saturated = max (max (thin, held_back), 0);
saturated(carries <= saturates) = 0;
vaporised_by = @(t) v.oil_recoverable_kg .* min (1 - sum (left_in (t), 2), ...
                                                 max (carries .* t, isinf (carries)));
vaporised = vaporised_by (running);
then = min (saturated, running);
all_holds = v.hydrosol_oil_kg_per_m3 .* distillate .* running;
as_it_comes = v.hydrosol_oil_kg_per_m3 .* distillate .* then + vaporised - vaporised_by (then);
dissolved = (1 - v.mixing) .* as_it_comes + v.mixing .* min (vaporised, all_holds);
in_receiver = max (vaporised - dissolved, 0);

put_in = v.heat_warming_w .* boil + v.heat_boiling_w .* (stop - boil);
duty = vapour .* v.condensing_heat_j_per_kg;

puts (["boil_s,first_drop_s,stop_s,reserve_s,dry_s,distillate_m3_per_s,distilled_kg,vented_kg," ...
       "held_kg,left_kg,oil_vaporised_kg,oil_in_receiver_kg,heat_put_in_j,duty_w\n"]);
results = [boil, first_drop, stop, reserve, dry, distillate, distilled, vented, held, left, ...
           vaporised, in_receiver, put_in, duty];
printf ([repmat("%.17g,", 1, 13), "%.17g\n"], results');
