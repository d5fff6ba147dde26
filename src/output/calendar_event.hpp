// Events of an iCalendar file (RFC 5545), times by the local clock whatever the zone ("floating").
#pragma once

#include <chrono>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "quantity/clock_time.hpp"

namespace firstdrop {

struct CalendarEvent {
  std::string key;  ///< in the UID, with that of the calendar
  LocalMinute at;
  std::optional<LocalMinute> end;
  std::string summary;  ///< in a few words
  std::string description;
  std::vector<std::chrono::minutes> alarms;  ///< before `at`
};

/// "20260620T093000", without a zone.
std::string basic_form(LocalMinute minute);

/// What is the same for a calendar that is made again, and for no other: FNV-1a of 64 bits (Fowler,
/// Noll and Vo) over the texts, the same on every machine, unlike std::hash.
std::uint64_t calendar_id(const std::vector<std::string>& texts);

/// In one line, and cut where it is longer than a phone shows beside the thing to do.
std::string short_title(const std::string& title);

/// What to say of a run between these two moments if clocks may be changed in it, as a line to add
/// to its events; else nothing. No zone is known, so the times cannot be put right.
std::string clock_change_in_words(LocalMinute from, LocalMinute to);

/// The whole file. Events with an end take up their person (OPAQUE); the others are moments.
/// `product` names the kind of calendar; `made_at` tells which of two is newer.
std::string calendar_of(const std::vector<CalendarEvent>& events, const std::string& product,
                        std::uint64_t id, std::chrono::sys_seconds made_at);

}  // namespace firstdrop
