/* The nominal run of each recipe by numerical integration, as a user of GSL would do it. The
 * balances are differential equations, solved under error control. Each event is a root within the
 * integration step in which it happens. The events are boiling, first drop, a charge that can hold
 * no more water, oil that no longer waits for steam, distillate that no longer saturates its water
 * with oil, the stop, the reserve and a dry pot. A stop by clock isn't a root: a step ends at it.
 * No closed form is used.
 *
 *   steam_run VALUES.csv > results.csv
 *
 * bench_recipes writes VALUES.csv. Both tables are in SI units, and 0 stands for none.
 */
#include <gsl/gsl_errno.h>
#include <gsl/gsl_odeiv2.h>
#include <gsl/gsl_roots.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char* const values_head =
    "boiling_k,latent_heat_j_per_kg,room_k,water_heat_j_per_kg_k,first_fill_kg,"
    "pot_capacity_j_per_k,pot_loss_w_per_k,heat_warming_w,heat_boiling_w,column_capacity_j_per_k,"
    "column_loss_w_per_k,soaked_kg,hold_up_kg,uncondensed_loss,distillate_density_kg_per_m3,"
    "oil_recoverable_kg,fast_share,fast_rate_per_s,slow_rate_per_s,oil_per_steam,"
    "hydrosol_oil_kg_per_m3,mixing,"
    "condensing_heat_j_per_kg,reserve_kg,stop_hydrosol_m3,stop_clock_s\n";

/* The values of a run, in the order of the table's columns. */
struct values {
  double boiling, latent_heat, room, water_heat, first_fill;
  double pot_capacity, pot_loss, heat_warming, heat_boiling, column_capacity;
  double column_loss, soaked, hold_up, uncondensed_loss, distillate_density;
  double oil_recoverable, fast, fast_rate, slow_rate, oil_per_steam;
  double hydrosol_oil, mixing;
  double condensing_heat, reserve, stop_hydrosol, stop_clock;
};
enum { value_count = sizeof(struct values) / sizeof(double) };

struct results {
  double boil, first_drop, stop, reserve, dry;
  double distillate, distilled, vented, held, left;
  double oil_vaporised, oil_in_receiver, heat_put_in, duty;
};

enum state {
  pot_k,
  column_k,
  left_kg,
  held_kg,
  distilled_kg,
  vented_kg,
  put_in_j,
  fast_kg,    /* oil of the fast fraction still in the plant */
  slow_kg,    /* oil of the slow fraction still in the plant */
  waiting_kg, /* oil released, but not yet carried off by steam */
  vaporised_kg,
  dissolved_kg, /* of that, dissolved if oil meets only the water it came over with */
  state_size
};

enum phase { warming, steaming, running };

struct still {
  struct values v;
  enum phase phase;
  bool wet_through; /* charge and walls can hold no more water */
  bool waiting;     /* steam, not release from the plant, limits the oil */
  bool saturated;   /* the distillate brings at least as much oil as its water can hold */
  bool stopped;     /* the stop is noted; the heat stays on until the pot is dry */
  bool reserve_reached;
};

/* Steam made in the pot, and the part of it that reaches the condenser, in kg/s. */
static double steam_of(const struct values* v, const double y[]) {
  return (v->heat_boiling - v->pot_loss * (y[pot_k] - v->room)) / v->latent_heat;
}
static double vapour_of(const struct values* v, const double y[]) {
  return steam_of(v, y) - v->column_loss * (y[column_k] - v->room) / v->latent_heat;
}

/* Oil that the plant releases, and oil that the water coming over can dissolve, in kg/s. */
static double released_of(const struct values* v, const double y[]) {
  return v->fast_rate * y[fast_kg] + v->slow_rate * y[slow_kg];
}
static double held_of(const struct values* v, const double y[]) {
  return v->hydrosol_oil * vapour_of(v, y) * (1.0 - v->uncondensed_loss) / v->distillate_density;
}

static int slope(double t, const double y[], double d[], void* context) {
  (void)t;
  const struct still* still = context;
  const struct values* v = &still->v;
  memset(d, 0, state_size * sizeof(double));
  if (still->phase == warming) {
    d[put_in_j] = v->heat_warming;
    d[pot_k] = (v->heat_warming - v->pot_loss * (y[pot_k] - v->room)) /
               (v->first_fill * v->water_heat + v->pot_capacity);
    return GSL_SUCCESS;
  }
  d[put_in_j] = v->heat_boiling;
  const double steam = steam_of(v, y);
  double condensed = steam;
  if (still->phase == steaming) {
    const double lost = v->column_loss * (y[column_k] - v->room);
    d[column_k] = (steam * v->latent_heat - lost) / v->column_capacity;
  } else {
    const double vapour = vapour_of(v, y);
    condensed = steam - vapour;
    d[vented_kg] = vapour * v->uncondensed_loss;
    d[distilled_kg] = vapour - d[vented_kg];
    const double releasing = released_of(v, y);
    d[fast_kg] = -v->fast_rate * y[fast_kg];
    d[slow_kg] = -v->slow_rate * y[slow_kg];
    d[vaporised_kg] = still->waiting ? v->oil_per_steam * vapour : releasing;
    d[waiting_kg] = releasing - d[vaporised_kg];
    d[dissolved_kg] = still->saturated ? held_of(v, y) : d[vaporised_kg];
  }
  d[held_kg] = still->wet_through ? 0.0 : condensed;
  d[left_kg] = condensed - d[held_kg] - steam;
  return GSL_SUCCESS;
}

enum event {
  boils,
  first_drop,
  wets_through,
  no_longer_waits,
  thins,
  level_reached,
  reserve,
  dry,
  events
};

/* Positive before an event and zero at it. Always positive for an event that can't happen now. */
static double until(const struct still* still, enum event event, const double y[]) {
  const struct values* v = &still->v;
  switch (event) {
    case boils:
      return still->phase == warming ? v->boiling - y[pot_k] : 1.0;
    case first_drop:
      return still->phase == steaming ? v->boiling - y[column_k] : 1.0;
    case wets_through:
      return still->wet_through ? 1.0 : v->hold_up - y[held_kg];
    case no_longer_waits:
      return still->waiting ? y[waiting_kg] : 1.0;
    case thins:
      return still->phase == running && still->saturated && !still->waiting
                 ? released_of(v, y) - held_of(v, y)
                 : 1.0;
    case level_reached:
      return still->stopped || v->stop_hydrosol <= 0.0
                 ? 1.0
                 : v->stop_hydrosol - y[distilled_kg] / v->distillate_density;
    case reserve:
      return still->reserve_reached ? 1.0 : y[left_kg] - v->reserve;
    default:
      return y[left_kg];
  }
}

/* An integration step, and the event that is looked for in it. */
struct within_step {
  gsl_odeiv2_step* stepper;
  const gsl_odeiv2_system* system;
  const struct still* still;
  const double* start;
  double time, length;
  enum event event;
};

static void share_of_step(const struct within_step* step, double share, double y[]) {
  double error[state_size];
  memcpy(y, step->start, state_size * sizeof(double));
  gsl_odeiv2_step_reset(step->stepper);
  gsl_odeiv2_step_apply(step->stepper, step->time, share * step->length, y, error, NULL, NULL,
                        step->system);
}

static double watched_at(double share, void* context) {
  const struct within_step* step = context;
  double y[state_size];
  share_of_step(step, share, y);
  return until(step->still, step->event, y);
}

static double root_in(struct within_step* step, gsl_root_fsolver* solver) {
  gsl_function function = {watched_at, step};
  gsl_root_fsolver_set(solver, &function, 0.0, 1.0);
  for (int i = 0; i < 100; ++i) {
    gsl_root_fsolver_iterate(solver);
    if (gsl_root_test_interval(gsl_root_fsolver_x_lower(solver), gsl_root_fsolver_x_upper(solver),
                               0.0, 1e-11) == GSL_SUCCESS) {
      break;
    }
  }
  return gsl_root_fsolver_root(solver);
}

static void note_stop(struct still* still, double time, const double y[], struct results* r) {
  const struct values* v = &still->v;
  still->stopped = true;
  r->stop = time;
  r->distilled = y[distilled_kg];
  r->vented = y[vented_kg];
  r->held = v->soaked + y[held_kg];
  r->left = y[left_kg];
  r->oil_vaporised = y[vaporised_kg];
  const double all = v->hydrosol_oil * y[distilled_kg] / v->distillate_density;
  const double if_mixed = y[vaporised_kg] > all ? y[vaporised_kg] - all : 0.0;
  r->oil_in_receiver =
      v->mixing * if_mixed + (1.0 - v->mixing) * (y[vaporised_kg] - y[dissolved_kg]);
  r->heat_put_in = y[put_in_j];
}

static void happens(struct still* still, enum event event, double time, double y[],
                    struct results* r) {
  const struct values* v = &still->v;
  switch (event) {
    case boils:
      r->boil = time;
      y[pot_k] = v->boiling;
      still->phase = steaming;
      break;
    case first_drop: {
      r->first_drop = time;
      y[column_k] = v->boiling;
      still->phase = running;
      const double vapour = vapour_of(v, y);
      r->distillate = vapour * (1.0 - v->uncondensed_loss) / v->distillate_density;
      r->duty = vapour * v->condensing_heat;
      const double releasing = released_of(v, y);
      still->waiting = v->oil_per_steam > 0.0 && releasing > v->oil_per_steam * vapour;
      still->saturated = (still->waiting ? v->oil_per_steam * vapour : releasing) > held_of(v, y);
      break;
    }
    case wets_through:
      still->wet_through = true;
      break;
    case no_longer_waits:
      y[waiting_kg] = 0.0;
      still->waiting = false;
      still->saturated = still->saturated && released_of(v, y) > held_of(v, y);
      break;
    case thins:
      still->saturated = false;
      break;
    case level_reached:
      note_stop(still, time, y, r);
      break;
    case reserve:
      r->reserve = time;
      still->reserve_reached = true;
      break;
    default:
      r->dry = time;
      break;
  }
}

struct tools {
  gsl_odeiv2_step* stepper; /* for the integration */
  gsl_odeiv2_step* aside;   /* for the root search within a step */
  gsl_odeiv2_control* control;
  gsl_odeiv2_evolve* evolve;
  gsl_root_fsolver* solver;
};

/* False if the pot isn't dry after `longest` seconds, if it is dry before the stop, or if the
 * integration fails. */
static bool integrate(const struct values* values, const struct tools* tools, struct results* r) {
  const double longest = 1e8;
  struct still still = {.v = *values, .wet_through = values->hold_up <= 0.0};
  const gsl_odeiv2_system system = {slope, NULL, state_size, &still};
  double y[state_size] = {0.0};
  y[pot_k] = y[column_k] = values->room;
  y[left_kg] = values->first_fill - values->soaked;
  y[fast_kg] = values->oil_recoverable * values->fast;
  y[slow_kg] = values->oil_recoverable * (1.0 - values->fast);
  gsl_odeiv2_step_reset(tools->stepper);
  gsl_odeiv2_evolve_reset(tools->evolve);

  double time = 0.0;
  double step = 1e-3;
  while (time < longest) {
    const bool until_clock = !still.stopped && values->stop_clock > 0.0;
    const double end = until_clock ? values->stop_clock : longest;
    double before[state_size];
    memcpy(before, y, sizeof before);
    const double begin = time;
    if (gsl_odeiv2_evolve_apply(tools->evolve, tools->control, tools->stepper, &system, &time, end,
                                &step, y) != GSL_SUCCESS) {
      return false;
    }
    double first = 2.0;
    enum event which = events;
    for (enum event event = boils; event < events; ++event) {
      if (until(&still, event, before) <= 0.0 || until(&still, event, y) > 0.0) continue;
      struct within_step within = {tools->aside, &system,      &still, before,
                                   begin,        time - begin, event};
      const double share = root_in(&within, tools->solver);
      if (share < first) {
        first = share;
        which = event;
      }
    }
    if (which == events) {
      if (until_clock && time >= end) note_stop(&still, time, y, r);
      continue;
    }
    const struct within_step within = {tools->aside, &system,      &still, before,
                                       begin,        time - begin, which};
    share_of_step(&within, first, y);
    time = begin + first * (time - begin);
    happens(&still, which, time, y, r);
    if (which == dry) return still.stopped;
    /* The balances have changed. Start again with a step so short that no event can be missed. */
    step = 1e-3;
    gsl_odeiv2_step_reset(tools->stepper);
    gsl_odeiv2_evolve_reset(tools->evolve);
  }
  return false;
}

static bool read_values(char* line, struct values* v) {
  double numbers[value_count] = {0};
  char* rest = line;
  for (int i = 0; i < value_count; ++i) {
    char* end;
    numbers[i] = strtod(rest, &end);
    if (end == rest) return false;
    rest = end + (*end == ',');
  }
  memcpy(v, numbers, sizeof numbers);
  return true;
}

int main(int argc, char** argv) {
  FILE* file = argc == 2 ? fopen(argv[1], "r") : NULL;
  char line[4096];
  if (!file || !fgets(line, sizeof line, file) || strcmp(line, values_head) != 0) {
    fprintf(stderr, "steam_run VALUES.csv: there is no such table\n");
    return 2;
  }
  /* Tolerances are just tight enough for results within 1e-6, even of a milligram of oil. Tighter
   * ones would slow it down in a comparison of speed. */
  const gsl_odeiv2_step_type* method = gsl_odeiv2_step_rk8pd;
  const struct tools tools = {
      gsl_odeiv2_step_alloc(method, state_size), gsl_odeiv2_step_alloc(method, state_size),
      gsl_odeiv2_control_y_new(1e-12, 1e-9), gsl_odeiv2_evolve_alloc(state_size),
      gsl_root_fsolver_alloc(gsl_root_fsolver_brent)};
  puts(
      "boil_s,first_drop_s,stop_s,reserve_s,dry_s,distillate_m3_per_s,distilled_kg,vented_kg,"
      "held_kg,left_kg,oil_vaporised_kg,oil_in_receiver_kg,heat_put_in_j,duty_w");
  int row = 0;
  while (fgets(line, sizeof line, file)) {
    struct values values;
    struct results r = {0};
    ++row;
    if (!read_values(line, &values) || !integrate(&values, &tools, &r)) {
      fprintf(stderr, "steam_run: no run in row %d\n", row);
      return 1;
    }
    printf("%.17g,%.17g,%.17g,%.17g,%.17g,%.17g,%.17g,%.17g,%.17g,%.17g,%.17g,%.17g,%.17g,%.17g\n",
           r.boil, r.first_drop, r.stop, r.reserve, r.dry, r.distillate, r.distilled, r.vented,
           r.held, r.left, r.oil_vaporised, r.oil_in_receiver, r.heat_put_in, r.duty);
  }
  fclose(file);
  gsl_root_fsolver_free(tools.solver);
  gsl_odeiv2_evolve_free(tools.evolve);
  gsl_odeiv2_control_free(tools.control);
  gsl_odeiv2_step_free(tools.aside);
  gsl_odeiv2_step_free(tools.stepper);
  return 0;
}
