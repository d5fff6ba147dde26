/// @file
/// A campaign as an iCalendar file (RFC 5545), so that a phone can remind people of the freezer and
/// the still.
#pragma once

#include <chrono>
#include <string>

#include "campaign/campaign.hpp"

namespace firstdrop {

/// An event for each run, from the start of heating to CampaignRun::done_by, with an alarm in time
/// to set up. A day that needs ice also has an event one day earlier. Times are local, without a
/// time zone ("floating"). The same campaign gives its events the same UIDs, so a newer file
/// replaces an older one; `made_at` tells which is newer.
/// Throws RefusedError for a campaign in which some work has no day.
std::string campaign_calendar(const CampaignPlan& plan, std::chrono::sys_seconds made_at);

}  // namespace firstdrop
