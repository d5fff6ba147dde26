/// @file
/// A planned campaign as a page to print, or to keep as text.
#pragma once

#include <string>

#include "campaign/campaign.hpp"

namespace firstdrop {

/// One self-contained page without scripts or requests, for A4 or US Letter in black and white. Why
/// some work has no day comes first. Refused work has no amounts.
std::string campaign_html(const CampaignPlan& plan);

/// The same page as GitHub Flavored Markdown, with task lists and tables.
std::string campaign_markdown(const CampaignPlan& plan);

}  // namespace firstdrop
