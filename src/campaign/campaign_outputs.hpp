// What a campaign's JSON has, declared once: see output/output.hpp.
#pragma once

#include <string>
#include <vector>

#include "campaign/campaign.hpp"
#include "output/output.hpp"

namespace firstdrop {

/// A planned campaign, with what holds for every run.
struct WrittenCampaign {
  const CampaignPlan& plan;
  std::vector<std::string> cautions;
};

const Outputs<WrittenCampaign>& written_campaign_outputs();
Document campaign_plan_document();

}  // namespace firstdrop
