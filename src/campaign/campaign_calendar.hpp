/// @file
/// A campaign as an iCalendar file (RFC 5545), for the phone that calls people to the freezer and
/// to the still.
#pragma once

#include <chrono>
#include <string>

#include "campaign/campaign.hpp"

namespace firstdrop {

/// An event for each run, from heat on to CampaignRun::done_by, with an alarm in time to set up;
/// and where a day needs ice, one a day before it. Times are those of the local clock, whatever the
/// zone ("floating"). The same campaign has the same events by their UID, so that a newer file
/// replaces an older one; `made_at` tells which is newer.
/// Throws RefusedError for a campaign of which some has no day.
std::string campaign_calendar(const CampaignPlan& plan, std::chrono::sys_seconds made_at);

}  // namespace firstdrop
