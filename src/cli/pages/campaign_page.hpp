// A campaign as a page for the terminal: what it takes and gives first, then day by day.
#pragma once

#include <string>

#include "campaign/campaign.hpp"
#include "cli/terminal.hpp"

namespace firstdrop::cli {

std::string campaign_page(const CampaignPlan& plan, const Look& look);

/// Only the title, the verdict, and why some of the work can't be done.
std::string campaign_head(const CampaignPlan& plan, const Look& look);

}  // namespace firstdrop::cli
