// What the page of a campaign says, in any format.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "campaign/campaign.hpp"

namespace firstdrop {

/// Something to have, buy, freeze or pour.
struct CampaignAmount {
  std::string what;
  std::string amount;
  std::string how;
  bool to_tick = true;  ///< something to get ready, not only to know
};

/// One entry of the work.
struct CampaignItem {
  std::string title;
  std::string subject;  ///< plant, state, cut, method, still
  std::string order;    ///< "6 kg of harvest"
  std::vector<std::string> problems;
  std::string runs;   ///< "8 runs of 200 g"; empty, like all below, if no run has a day
  std::string each;   ///< what goes into one run, and when it stops
  std::string gives;  ///< product of all its runs
  std::vector<std::string> cautions;
};

struct CampaignRow {
  std::string number;
  std::string heat_on;  ///< "09:00"; on the next day, "00:10 +1d"
  std::string stop;
  std::string done_by;
  std::string what;
};

struct CampaignDayList {
  std::string day;  ///< "Mon 2026-07-06"
  std::vector<CampaignAmount> ready;
  std::vector<CampaignRow> rows;
};

struct CampaignContent {
  std::string title;
  std::string summary;  ///< number of runs and days, with the first and last day
  std::string example;  ///< stills with invented figures; empty if there are none
  Verdict verdict = Verdict::go;
  std::string verdict_words;
  std::vector<CampaignItem> items;
  std::vector<CampaignAmount> totals;
  std::vector<CampaignDayList> days;
  std::vector<std::string> notes;   ///< how to read the page
  std::vector<std::string> always;  ///< cautions for every run
  std::string footing;
};

CampaignContent campaign_content(const CampaignPlan& plan);

/// The worst verdict of its plans; refused if some of the work has no day.
Verdict verdict_of(const CampaignPlan& plan);

/// The number of a day's runs for each index in CampaignPlan::work.
std::map<std::size_t, int> runs_by_work(const CampaignDay& day);

/// "Mon 2026-07-06".
std::string day_with_weekday(LocalDay day);

/// What goes into one run of this work, and at which level or time it stops.
std::string one_run_in_words(const CampaignWork& work);

/// What all its runs give: hydrosol and oil, with their ranges.
std::string yield_in_words(const CampaignWork& work);

}  // namespace firstdrop
