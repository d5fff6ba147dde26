#!/usr/bin/python3
"""Writes the reference tables of water beside this script.

Needs Debian's python3-iapws, a general-purpose package by other hands; it is no part of the build.
Run it again only when that package changes:  /usr/bin/python3 make_water_tables.py
"""
import pathlib
import subprocess

import iapws
from iapws import IAPWS95, IAPWS97
from iapws._iapws import _Ice, _Viscosity

here = pathlib.Path(__file__).resolve().parent
module_version = (pathlib.Path(iapws.__file__).parent / "VERSION").read_text().strip()
deb_version = subprocess.run(
    ["dpkg-query", "--show", "--showformat=${Version}", "python3-iapws"],
    check=True, capture_output=True, text=True).stdout
origin = (f"computed by Debian package python3-iapws {deb_version}, module iapws {module_version}, "
          "with make_water_tables.py")


def write(name, remarks, columns, rows):
    lines = [f"# {remark}" for remark in [*remarks, origin]]
    lines.append(",".join(columns))
    lines += [",".join(format(value, ".10g") for value in row) for row in rows]
    (here / name).write_text("\n".join(lines) + "\n", encoding="utf-8")


def saturation_row(celsius):
    kelvin = celsius + 273.15
    liquid, vapour = IAPWS97(T=kelvin, x=0), IAPWS97(T=kelvin, x=1)
    scientific = IAPWS95(T=kelvin, x=0)
    return (celsius, liquid.P * 1e6, scientific.P * 1e6, liquid.h, vapour.h, vapour.h - liquid.h,
            liquid.rho, vapour.rho, _Viscosity(vapour.rho, kelvin), _Viscosity(0.0, kelvin))


write("water_saturation.csv",
      ["Saturated water and steam by IAPWS-IF97; p95_pa by IAPWS-95;",
       "mu_g_pas by IAPWS R12-08 at rho_g, mu_thin_pas the same at zero density."],
      ["t_c", "p_pa", "p95_pa", "h_f_kj_per_kg", "h_g_kj_per_kg", "h_fg_kj_per_kg",
       "rho_f_kg_per_m3", "rho_g_kg_per_m3", "mu_g_pas", "mu_thin_pas"],
      [saturation_row(t) for t in [1, *range(5, 131, 5)]])


def supplementary_row(kelvin):
    return (kelvin, IAPWS95._Liquid_Enthalpy(kelvin), IAPWS95._Vapor_Enthalpy(kelvin),
            IAPWS95._Liquid_Density(kelvin), IAPWS95._Vapor_Density(kelvin))


write("water_sr1_86.csv",
      ["Saturated water and steam by the auxiliary equations of IAPWS SR1-86(1992)."],
      ["t_k", "h_f_kj_per_kg", "h_g_kj_per_kg", "rho_f_kg_per_m3", "rho_g_kg_per_m3"],
      [supplementary_row(t) for t in [273.16, *range(280, 641, 30), 645, 647, 647.096]])


def subcooled_row(celsius):
    state = IAPWS97(T=celsius + 273.15, P=0.101325)
    return celsius, state.rho, state.h, state.cp


write("water_subcooled.csv",
      ["Liquid water at 101.325 kPa by IAPWS-IF97, region 1."],
      ["t_c", "rho_kg_per_m3", "h_kj_per_kg", "cp_kj_per_kg_k"],
      [subcooled_row(t) for t in [*range(0, 96, 5), 99]])

melting_point = 273.152519  # K, at 101.325 kPa, IAPWS R10-06
ice = _Ice(melting_point, 0.101325)["h"]
water = IAPWS95(T=melting_point, P=0.101325).h
write("ice_melting.csv",
      ["Melting of ice at 101.325 kPa: ice by IAPWS R10-06, water by IAPWS-95."],
      ["t_k", "h_ice_kj_per_kg", "h_water_kj_per_kg", "melting_heat_kj_per_kg"],
      [(melting_point, ice, water, water - ice)])
