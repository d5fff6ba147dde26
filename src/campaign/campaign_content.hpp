// What the page of a campaign says, whatever the format.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "campaign/campaign.hpp"

namespace firstdrop {

/// What to have, buy, freeze or pour.
struct CampaignAmount {
  std::string what;
  std::string amount;
  std::string how;
  bool to_tick = true;  ///< something to get ready, not only to know
};

/// One kind of work.
struct CampaignItem {
  std::string title;
  std::string subject;  ///< plant, state, cut, method, still
  std::string order;    ///< "6 kg of harvest"
  std::vector<std::string> problems;
  std::string runs;   ///< "8 runs of 200 g"; empty, as all below, where none is to be done
  std::string each;   ///< what goes into one, and when it stops
  std::string gives;  ///< all of them
  std::vector<std::string> cautions;
};

struct CampaignRow {
  std::string number;
  std::string heat_on;  ///< "09:00"; of the day after, "00:10 +1d"
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
  std::string summary;  ///< how many runs, on how many days, from when to when
  std::string example;  ///< stills whose figures are invented; empty where there are none
  Verdict verdict = Verdict::go;
  std::string verdict_words;
  std::vector<CampaignItem> items;
  std::vector<CampaignAmount> totals;
  std::vector<CampaignDayList> days;
  std::vector<std::string> notes;   ///< how to read it
  std::vector<std::string> always;  ///< cautions of every run
  std::string footing;
};

CampaignContent campaign_content(const CampaignPlan& plan);

/// Of the worst plan in it; refused if some of the work has no place.
Verdict verdict_of(const CampaignPlan& plan);

/// How many of a day's runs are of which work.
std::map<std::size_t, int> runs_by_work(const CampaignDay& day);

/// "Mon 2026-07-06".
std::string day_with_weekday(LocalDay day);

/// What goes into one run of this work, and at which level or time it stops.
std::string one_run_in_words(const CampaignWork& work);

/// What so much work gives: hydrosol and oil, with their ranges.
std::string yield_in_words(const CampaignWork& work);

}  // namespace firstdrop
