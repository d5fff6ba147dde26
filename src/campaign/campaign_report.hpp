/// @file
/// A planned campaign as JSON for other programs.
#pragma once

#include <string>

#include "campaign/campaign.hpp"

namespace firstdrop {

/// Format version 1: plain numbers in keys that end in their unit, ranges as p10/p50/p90, local
/// times as "2026-07-06T09:00". Keys that don't apply are left out.
std::string campaign_json(const CampaignPlan& plan);

}  // namespace firstdrop
