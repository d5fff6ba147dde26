"""Checks calendars strictly against RFC 5545, because a parser accepts many faults."""

import datetime
import re
import sys

try:
    from icalendar import Calendar
except ImportError:
    sys.exit(f"{sys.executable} has no icalendar; Debian's python3 has it by python3-icalendar")

MADE_AT = datetime.datetime(2026, 6, 1, 12, 0, 5, tzinfo=datetime.timezone.utc)
EPOCH = str(int(MADE_AT.timestamp()))


def calendar_of(raw):
    """Parses a calendar with an independent parser."""
    return Calendar.from_ical(raw)


def check_lines(raw):
    """Checks line ends, lengths and characters. Returns the unfolded lines as (name, value)."""
    assert raw.endswith(b"\r\n")
    lines = raw[:-2].split(b"\r\n")
    for line in lines:
        assert len(line) <= 75, line
        assert not re.search(rb"[\x00-\x1f\x7f]", line), line
        line.decode("utf-8")  # no character is split
    unfolded = raw[:-2].replace(b"\r\n ", b"").decode("utf-8").split("\r\n")
    return [tuple(line.split(":", 1)) for line in unfolded]


def check_structure(lines):
    """Checks that components are nested correctly and have only allowed properties."""
    allowed = {
        "VCALENDAR": {"VERSION", "PRODID", "CALSCALE"},
        "VEVENT": {"UID", "DTSTAMP", "DTSTART", "DTEND", "SUMMARY", "DESCRIPTION", "TRANSP"},
        "VALARM": {"ACTION", "TRIGGER", "DESCRIPTION"},
    }
    needed = {
        "VCALENDAR": {"VERSION", "PRODID", "CALSCALE"},
        "VEVENT": {"UID", "DTSTAMP", "DTSTART", "SUMMARY", "DESCRIPTION"},
        "VALARM": {"ACTION", "TRIGGER", "DESCRIPTION"},
    }
    within = {"VCALENDAR": None, "VEVENT": "VCALENDAR", "VALARM": "VEVENT"}
    opened = []
    for name, value in lines:
        if name == "BEGIN":
            assert within[value] == (opened[-1][0] if opened else None), (value, opened)
            opened.append((value, set()))
        elif name == "END":
            component, seen = opened.pop()
            assert component == value and needed[component] <= seen, (component, seen)
        else:
            component, seen = opened[-1]
            assert name in allowed[component], (component, name)
            assert name not in seen, f"{name} twice in {component}"
            seen.add(name)
            if name in ("DTSTART", "DTEND"):  # local time without a time zone
                assert re.fullmatch(r"\d{8}T\d{6}", value), value
            if name == "DTSTAMP":
                assert value == MADE_AT.strftime("%Y%m%dT%H%M%SZ"), value
            if name in ("SUMMARY", "DESCRIPTION"):
                assert not re.search(r'(?<!\\)(\\\\)*[;,]', value), f"not escaped: {value}"
    assert not opened


def unescaped(value):
    """Undoes the escapes of a TEXT value (section 3.3.11), and drops any other backslash."""
    return re.sub(r"\\([\\;,nN])|\\", lambda m: {"n": "\n", "N": "\n"}.get(m[1], m[1]), value)


def by_key(calendar):
    events = {}
    for event in calendar.walk("VEVENT"):
        key = re.fullmatch(r"firstdrop-[0-9a-f]{16}-([a-z]+(-[a-z0-9]+)*)", event["UID"])[1]
        assert key not in events, f"{key} twice"
        events[key] = event
    return events
