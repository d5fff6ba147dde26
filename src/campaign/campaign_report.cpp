#include "campaign/campaign_report.hpp"

#include "campaign/campaign_content.hpp"
#include "campaign/campaign_outputs.hpp"

namespace firstdrop {

std::string campaign_json(const CampaignPlan& plan) {
  return document_text(written_campaign_outputs(), {plan, campaign_content(plan).always}, true);
}

}  // namespace firstdrop
