// The words of the enumerations that tables, stills and plants hold.
#pragma once

#include "base/words.hpp"
#include "firstdrop/tables/finding.hpp"
#include "firstdrop/tables/plant.hpp"
#include "firstdrop/tables/still.hpp"

namespace firstdrop {

template <>
inline constexpr auto words_of<Method> = std::to_array<Word<Method>>({
    {Method::steam, "steam", "in a column above the pot"},
    {Method::water_and_steam, "water-and-steam", "on a grid in the pot, above the water"},
    {Method::hydro, "hydro", "in the water"},
});
template <>
inline constexpr const char* name_of_words<Method> = "method";

template <>
inline constexpr auto words_of<HeaterKind> = std::to_array<Word<HeaterKind>>({
    {HeaterKind::electric_plate, "electric-plate", "a hot plate or coil under the pot"},
    {HeaterKind::induction_plate, "induction-plate", "heats the pot's own base"},
    {HeaterKind::immersed_element, "immersed-element", "in the water, which must cover it"},
    {HeaterKind::gas_burner, "gas-burner",
     "a flame; it belongs outdoors or under strong ventilation"},
    {HeaterKind::heating_mantle, "heating-mantle", "heated cloth around a round flask"},
});

template <>
inline constexpr auto words_of<CondenserKind> = std::to_array<Word<CondenserKind>>({
    {CondenserKind::ice_bath, "ice-bath",
     "a coil or dome in still water: a bath or barrel that you may ice by hand"},
    {CondenserKind::reservoir, "reservoir", "coolant that a pump circulates from a bucket"},
    {CondenserKind::run_through, "run-through", "water from a tap, then to the drain"},
});

template <>
inline constexpr auto words_of<State> = std::to_array<Word<State>>({
    {State::fresh, "fresh", "as cut"},
    {State::wilted, "wilted", "limp, with part of its water gone"},
    {State::dried, "dried", "dry, as herbs are stored"},
});

template <>
inline constexpr auto words_of<Cut> = std::to_array<Word<Cut>>({
    {Cut::whole, "whole", "not cut up"},
    {Cut::chopped, "chopped", "cut into pieces"},
    {Cut::crushed, "crushed", "bruised or broken, so that glands and seed coats open"},
    {Cut::ground, "ground", "milled to a powder"},
});
template <>
inline constexpr const char* name_of_words<Cut> = "cut";

template <>
inline constexpr auto words_of<PlantForm> = std::to_array<Word<PlantForm>>({
    {PlantForm::leafy_herb, "leafy-herb", "leaves with their stems"},
    {PlantForm::leaf, "leaf", "leaves alone"},
    {PlantForm::flowers, "flowers", "blossoms, with or without stalks"},
    {PlantForm::needles, "needles", "of conifers, with their twigs"},
    {PlantForm::seed, "seed", "seeds, fruits and buds that are crushed"},
    {PlantForm::wood, "wood", "chips and shavings"},
    {PlantForm::root, "root", "roots and rhizomes"},
    {PlantForm::peel, "peel", "of citrus fruit"},
});

template <>
inline constexpr auto words_of<OilPer> = std::to_array<Word<OilPer>>({
    {OilPer::as_received, "as-received", "of the material with its water"},
    {OilPer::dry_matter, "dry-matter", "of what is left when all the water is gone"},
});

template <>
inline constexpr auto words_of<Distilled> = std::to_array<Word<Distilled>>({
    {Distilled::to_exhaustion, "to-exhaustion",
     "in a laboratory's apparatus, until no more oil came"},
    {Distilled::to_stated_end, "to-stated-end", "in a still like yours, until someone stopped it"},
});

template <>
inline constexpr auto words_of<Harm> = std::to_array<Word<Harm>>({
    {Harm::seizures, "seizures", "of any kind"},
    {Harm::coma, "coma", "loss of consciousness"},
    {Harm::poisoning, "poisoning",
     "serious poisoning, which may kill or harm an organ within hours"},
    {Harm::lungs, "lungs", "swallowed oil can run into the lungs"},
    {Harm::liver, "liver", "harms the liver"},
    {Harm::harmful, "harmful", "makes people ill if swallowed, with no severity given"},
    {Harm::cancer, "cancer", "causes cancer or damages genes, or is suspected of it"},
    {Harm::reproduction, "reproduction",
     "harms fertility or the unborn child, or is suspected of it"},
    {Harm::allergy, "allergy", "makes skin or airways allergic, or sets off an allergy"},
    {Harm::irritation, "irritation", "irritates or burns skin, eyes or airways"},
    {Harm::sunburn, "sunburn", "makes skin burn in the sun"},
    {Harm::fire, "fire", "its vapour catches fire"},
    {Harm::look_alike, "look-alike", "a poisonous plant can be taken for this one"},
});
template <>
inline constexpr const char* name_of_words<Harm> = "harm";

template <>
inline constexpr auto words_of<Route> = std::to_array<Word<Route>>({
    {Route::swallowed, "swallowed", "by mouth"},
    {Route::breathed, "breathed", "as vapour or spray"},
    {Route::on_skin, "on-skin", "neat or diluted"},
    {Route::in_eyes, "in-eyes", "as a splash"},
});

template <>
inline constexpr auto words_of<AtRisk> = std::to_array<Word<AtRisk>>({
    {AtRisk::infants, "infants", "up to about 30 months"},
    {AtRisk::children, "children", "above that age"},
    {AtRisk::pregnancy, "pregnancy", "pregnant women"},
    {AtRisk::epilepsy, "epilepsy", "people with epilepsy, or who have had a seizure"},
    {AtRisk::allergic, "allergic", "people allergic to this oil or to related plants"},
    {AtRisk::pets, "pets", "animals in the home"},
});

template <>
inline constexpr auto words_of<HarmfulSubstance> = std::to_array<Word<HarmfulSubstance>>({
    {HarmfulSubstance::camphor, "camphor"},
    {HarmfulSubstance::cineole, "cineole", "1,8-cineole, eucalyptol"},
    {HarmfulSubstance::estragole, "estragole", "methyl chavicol"},
    {HarmfulSubstance::menthofuran, "menthofuran"},
    {HarmfulSubstance::menthol, "menthol"},
    {HarmfulSubstance::methyleugenol, "methyleugenol"},
    {HarmfulSubstance::phenols, "phenols", "thymol, carvacrol, eugenol"},
    {HarmfulSubstance::pinocamphone, "pinocamphone", "and isopinocamphone"},
    {HarmfulSubstance::pulegone, "pulegone"},
    {HarmfulSubstance::safrole, "safrole"},
    {HarmfulSubstance::thujone, "thujone", "alpha and beta"},
});

template <>
inline constexpr auto words_of<Level> = std::to_array<Word<Level>>({
    {Level::note, "note", "good to know"},
    {Level::caution, "caution", "the run can be made, but take care"},
    {Level::refuse, "refuse", "the run must not be made as written"},
});

}  // namespace firstdrop
