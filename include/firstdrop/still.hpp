// What the still table holds.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "firstdrop/method.hpp"
#include "firstdrop/quantity.hpp"
#include "firstdrop/source.hpp"

namespace firstdrop {

enum class HeaterKind { electric_plate, induction_plate, immersed_element, gas_burner };
enum class CondenserKind {
  ice_bath,     ///< coil or dome in a bath that is iced by hand
  reservoir,    ///< coolant pumped round from a bucket
  run_through,  ///< coolant from a tap, to the drain
};

std::string to_string(HeaterKind kind);
std::string to_string(CondenserKind kind);

struct Pot {
  std::string material;         ///< key in the material table
  Cited<Volume> volume;         ///< to the brim
  Cited<Length> diameter;       ///< inside
  Cited<Mass> mass;             ///< of the empty pot, what must be heated with the water
  Cited<Fraction> fill_limit;   ///< share of the volume that may be filled, with room for boiling
  Cited<Volume> minimum_water;  ///< least that must cover the base or the immersed element
};

/// The vessel above the pot that holds the charge (steam).
struct Column {
  std::string material;
  Cited<Volume> volume;
  Cited<Length> diameter;
  Cited<Mass> mass;
};

/// The grid in the pot that carries the charge above the water (water-and-steam).
struct Grid {
  Cited<Volume> water_below;  ///< water that fits under the grid, to the grid
  Cited<Volume> space;        ///< room for the charge above the grid
  Cited<Mass> mass;           ///< of grid and basket
};

/// Lid, dome and vapour path up to the condenser.
struct Head {
  std::string material;
  Cited<Mass> mass;
  Cited<Area> surface;  ///< outside surface that loses heat to the room
};

struct Heater {
  HeaterKind kind = HeaterKind::electric_plate;
  Cited<Power> power;                         ///< rated, at full setting
  std::optional<Cited<Fraction>> efficiency;  ///< else that of its kind
};

struct Condenser {
  CondenserKind kind = CondenserKind::reservoir;
  std::string wall;                             ///< material of the condensing surface
  Cited<Area> surface;                          ///< condensing surface
  Cited<Temperature> outlet;                    ///< the distillate should leave no warmer than this
  Cited<Temperature> coolant_limit;             ///< warmest coolant allowed
  std::optional<Cited<Volume>> coolant;         ///< bath or reservoir filling, ice included
  std::optional<Cited<Mass>> ice_per_change;    ///< ice that one change can take; zero for none
  std::optional<Cited<VolumeFlow>> flow_limit;  ///< most that the tap or hose gives (run-through)
};

struct Still {
  std::string key;
  std::string title;
  std::string about;
  std::vector<Method> methods;  ///< the first is the default
  Pot pot;
  std::optional<Column> column;
  std::optional<Grid> grid;
  Head head;
  Heater heater;
  Condenser condenser;
  Cited<Mass> wall_hold_up;  ///< water that clings to column, head and condenser
};

}  // namespace firstdrop
