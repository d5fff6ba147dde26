/// @file
/// Campaigns from JSON text.
#pragma once

#include <string>
#include <string_view>

#include "campaign/campaign.hpp"
#include "firstdrop/readers/recipe_json.hpp"
#include "firstdrop/tables/tables.hpp"
#include "readers/key.hpp"

namespace firstdrop {

/// Reads a campaign and the recipes that it names, as strictly as read_recipe() does. `read_file`
/// returns the text of a file by its path relative to the campaign.
/// Throws InputError. In its faults, `file` names the text; faults in a recipe's file have that
/// file's name.
Campaign read_campaign(std::string_view text, const std::string& file, const Tables& tables,
                       const FileReader& read_file);

/// The keys of a campaign; see readers/key.hpp.
Document campaign_document();

}  // namespace firstdrop
