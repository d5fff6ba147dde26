"""Works out the figures of the tables that follow from an equation and published constants, and the
steam flow of published runs from steam_flows.csv. `fit` writes them to the tables."""
import math
import re

import numpy
from scipy.constants import Stefan_Boltzmann, convert_temperature, g

from release import digits, rows_of


def renew(figure, basis, **ends):
    """Puts new ends and a new basis into a figure. An end that stays equal keeps its spelling."""
    figure.update({end: value for end, value in ends.items() if figure[end] != value}, basis=basis)


# Heat from a warm wall to still air.

# Air at 1 atm by temperature in °C: W/(m K), m2/s and the Prandtl number (air-properties).
AIR = {25: (0.02551, 1.562e-5, 0.7296), 30: (0.02588, 1.608e-5, 0.7282), 60: (0.02808, 1.896e-5, 0.7202)}
AIR[27.5] = tuple((a + b) / 2 for a, b in zip(AIR[25], AIR[30]))
# Heights of walls in m that lose the least heat, a typical amount and the most (our choice).
HEIGHTS = (0.3, 0.15, 0.1)
# For each material its emissivities at low, typical and high (emissivity-tables; 0.87 of glass is
# the midpoint), and how its basis states them. `{}` stands for the two terms of an end.
EMISSIVITIES = {
    "stainless-steel": ((0.07, 0.16, 0.20), "emissivity 0.07, 0.16 and 0.20: {}, {}, {}"),
    "copper": ((0.05, 0.40, 0.78),
               "emissivity 0.05 (polished) and 0.78 (heavily oxidised): {0}, {2}; typical 0.40 set by us "
               "for tarnished copper: {1}"),
    "glass": ((0.80, 0.87, 0.94), "emissivity 0.80, 0.87 (midpoint) and 0.94: {}, {}, {}"),
    "aluminium": ((0.04, 0.09, 0.31),
                  "emissivity 0.04 (polished), 0.09 (commercial sheet) and 0.31 (heavily oxidised): {}, "
                  "{}, {}"),
}


def natural_convection(height, wall, room):
    """Film coefficient in W/(m2 K) of a vertical wall of this height in m, temperatures in °C, by
    Churchill and Chu over the full range (heat-transfer-formulas)."""
    middle = (wall + room) / 2
    conductivity, viscosity, prandtl = AIR[middle]
    rayleigh = (g * (wall - room) * height ** 3 * prandtl /
                (viscosity ** 2 * convert_temperature(middle, "C", "K")))
    root = 0.825 + 0.387 * rayleigh ** (1 / 6) / (1 + (0.492 / prandtl) ** (9 / 16)) ** (8 / 27)
    return root ** 2 * conductivity / height


def radiation(emissivity, wall, room):
    """Film coefficient in W/(m2 K) of radiation from a small body to a large room."""
    wall, room = convert_temperature((wall, room), "C", "K")
    return float(emissivity * Stefan_Boltzmann * (wall + room) * (wall ** 2 + room ** 2))


def wall_loss(emissivities, wall, room):
    """The ends of a heat loss, and the two terms of each."""
    terms = [(natural_convection(height, wall, room), radiation(emissivity, wall, room))
             for height, emissivity in zip(HEIGHTS, emissivities)]
    return ({end: round(sum(pair), 1) for end, pair in zip(("low", "typical", "high"), terms)},
            [f"{convection:.2f} + {rays:.2f}" for convection, rays in terms])


def air_at(temperature):
    conductivity, viscosity, prandtl = AIR[temperature]
    return (f"air at {temperature:g} °C: {conductivity:.4g} W/(m K), {viscosity * 1e5:.4g}e-5 m2/s, "
            f"Pr {prandtl:.4g}")


def renew_materials(entries):
    for material, (emissivities, words) in EMISSIVITIES.items():
        ends, terms = wall_loss(emissivities, 100, 20)
        renew(entries[material]["heat_loss"],
              "heat loss to still room air at 20 °C from a wall 0.3, 0.15 and 0.1 m high at 100 °C: "
              f"natural convection by Churchill and Chu ({air_at(60)}) plus radiation; "
              + words.format(*terms), **ends)


# Constituents of oils.

# g/mol (units-atomic-weights).
ATOMIC_WEIGHTS = {"C": 12.011, "H": 1.00794, "O": 15.9994, "N": 14.00674, "Br": 79.904, "Cl": 35.4527}
# Solubilities of terpene hydrocarbons in mmol/L, from the least to the most (fichan-1999).
HYDROCARBONS = (0.037, 0.22)


def renew_liquids(entries):
    """The molar mass from the formula that stands in its basis. The solubility from the logarithm
    that stands in its basis, or from those of other terpene hydrocarbons."""
    for liquid in entries.values():
        mass = liquid["molar_mass"]
        formula = re.match(r"computed from (\w+)", mass["basis"])[1]
        counts = {element: int(count or 1)
                  for element, count in re.findall(r"([A-Z][a-z]?)(\d*)", formula)}
        molar = round(sum(count * ATOMIC_WEIGHTS[element] for element, count in counts.items()), 2)
        *others, last = (f"{element} {ATOMIC_WEIGHTS[element]}" for element in counts)
        renew(mass, f"computed from {formula} with the atomic weights {', '.join(others)} and {last}",
              low=molar, typical=molar, high=molar)
        solubility = liquid.get("water_solubility", {"known": None})
        if solubility["known"] != "computed":
            continue
        basis = solubility["basis"]
        if found := re.search(r"10\^(-[\d.]+) mol/L times ([\d.]+) g/mol", basis):
            typical = digits(1000 * 10 ** float(found[1]) * molar, 3)
            ends = ("typical",) if solubility["low"] < solubility["high"] else ("low", "typical", "high")
            renew(solubility, basis[:found.start(2)] + f"{molar:g}" + basis[found.end(2):],
                  **dict.fromkeys(ends, typical))
        elif "terpene hydrocarbons" in basis:
            low, high = (moles * molar for moles in HYDROCARBONS)
            renew(solubility, "class default, no figure of this liquid: terpene hydrocarbons dissolve "
                  f"{HYDROCARBONS[0]} to {HYDROCARBONS[1]} mmol/L, that is {low:.1f} to {high:.0f} mg/L; "
                  "typical is their geometric middle",
                  low=digits(low, 2), typical=digits(math.sqrt(low * high), 2), high=digits(high, 2))


# Design defaults.


def middle_and_tenths(flows):
    """The geometric mean and the 10th and 90th percentiles."""
    low, high = numpy.quantile(flows, [0.1, 0.9])
    return {"low": digits(low, 2), "typical": digits(math.exp(numpy.mean(numpy.log(flows))), 2),
            "high": digits(high, 2)}


def renew_steam_per_charge(figure):
    rows = sorted(rows_of("steam_flows.csv"), key=lambda row: float(row["flow"]))
    flows = {use: [row for row in rows if row["use"] == use] for use in ("fit", "upper-bound")}
    ends = middle_and_tenths([float(row["flow"]) for row in flows["fit"]])
    bounded = middle_and_tenths([float(row["flow"]) for row in rows])
    renew(figure, "kg steam per kg charge and hour in published runs, at which half-lives without a flow of "
          "their own are taken to hold; one figure a study, the middle of each: "
          + ", ".join(f"{row['what']} {row['flow']}" for row in flows["fit"])
          + "; typical is their geometric mean, low and high their 10th and 90th percentiles. Left out: "
          "laboratory flasks, 3.6 to 6, and advice without a source, 3 to 5. Also left out, because they "
          f"are upper bounds: {' and '.join(row['flow'] for row in flows['upper-bound'])}; with them the "
          f"figures would be {bounded['low']:g}, {bounded['typical']:g} and {bounded['high']:g}", **ends)
    figure["source"] = [row["source"] for row in flows["fit"]]


def renew_bath_loss(figure):
    # Low is bare metal; typical and high are glass or plastic.
    ends, terms = wall_loss((0.20, 0.87, 0.94), 35, 20)
    renew(figure, "coolant vessel at 35 °C to a still room at 20 °C, walls 0.3, 0.15 and 0.1 m high: natural "
          f"convection by Churchill and Chu ({air_at(27.5)}, between the table's rows) plus radiation; bare "
          f"metal {terms[0]} (emissivity 0.20), glass-like {terms[1]} (0.87) and {terms[2]} (0.94), plastic "
          "taken to be like glass; evaporation left out", **ends)


def renew_dry_specific_heat(figure):
    """Low and typical are those of dry wood; high, protein, is read (heldman-singh-quoted)."""
    at, per_kelvin = 0.1031, 0.003867  # kJ/(kg K) (wood-heat-capacity-page)
    low, typical = (round(at + per_kelvin * float(convert_temperature(celsius, "C", "K")), 2)
                    for celsius in (20, 60))
    renew(figure, f"of plant dry matter, taken to be like dry wood, {at} + {per_kelvin} T/K: {low} at 20 °C, "
          f"{typical} at 60 °C; high is the value of protein; carbohydrate 1.55", low=low, typical=typical)


def renew_design_defaults(defaults):
    renew_steam_per_charge(defaults["steam_per_charge"])
    renew_bath_loss(defaults["bath_loss"])
    renew_dry_specific_heat(defaults["dry_specific_heat"])
    share = defaults["circuit_share"]["typical"]
    watts = round(share / 100 * 120 * 15)
    renew(defaults["least_circuit"],
          f"{share} % of 120 V and 15 A, the smallest circuit of American households",
          low=watts, typical=watts, high=watts)
