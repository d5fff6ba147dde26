// Takes any text as a campaign. If the reader accepts it, plans it and checks its days.
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "campaign/campaign_json.hpp"
#include "firstdrop/base/error.hpp"
#include "plan_checks.hpp"

using namespace firstdrop;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  Campaign campaign;
  try {
    campaign = read_campaign(text, "campaign.json", fuzz::shipped_tables(), nullptr);
  } catch (const InputError& error) {
    fuzz::check_message(error.what());
    return 0;
  }
  // Each piece of work costs several plans. More pieces would test nothing new.
  constexpr std::size_t enough = 4;
  if (campaign.work.size() > enough) campaign.work.resize(enough);
  fuzz::check_campaign(campaign, text);
  return 0;
}
