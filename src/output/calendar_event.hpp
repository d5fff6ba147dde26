// Events of an iCalendar file (RFC 5545). Times are those of the local clock in any zone
// ("floating").
#pragma once

#include <chrono>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "quantity/clock_time.hpp"

namespace firstdrop {

struct CalendarEvent {
  std::string key;  ///< in the UID, together with the calendar's id
  LocalMinute at;
  std::optional<LocalMinute> end;
  std::string summary;  ///< in a few words
  std::string description;
  std::vector<std::chrono::minutes> alarms;  ///< before `at`
};

/// "20260620T093000", without a zone.
std::string basic_form(LocalMinute minute);

/// An id that stays the same when a calendar is made again, and differs for any other calendar. It
/// is the 64-bit FNV-1a hash (Fowler, Noll and Vo) of the texts. Unlike std::hash, it is the same
/// on every machine.
std::uint64_t calendar_id(const std::vector<std::string>& texts);

/// Puts a title on one line, and cuts it where it is longer than a phone shows beside the thing to
/// do.
std::string short_title(const std::string& title);

/// A line to add to a run's events if clocks may change between these two moments, otherwise empty.
/// The zone isn't known, so the times can't be corrected.
std::string clock_change_in_words(LocalMinute from, LocalMinute to);

/// The whole file. Events with an end mark the person as busy (OPAQUE); the others are moments.
/// `product` names the kind of calendar; `made_at` tells which of two files is newer.
std::string calendar_of(const std::vector<CalendarEvent>& events, const std::string& product,
                        std::uint64_t id, std::chrono::sys_seconds made_at);

}  // namespace firstdrop
