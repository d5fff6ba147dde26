#include "cli/help_page.hpp"

#include <fmt/core.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "base/text_layout.hpp"
#include "cli/terminal.hpp"

namespace firstdrop::cli {
namespace {

// Command names are much shorter than options with their values.
constexpr int command_column = 14;
constexpr int option_column = 27;

class HelpPage : public CLI::Formatter {
 public:
  std::string make_help(const CLI::App* app, std::string name, CLI::AppFormatMode) const override {
    return make_description(app) + "\n" + make_usage(app, std::move(name)) + commands(app) +
           options(app) + make_footer(app);
  }
  std::string make_description(const CLI::App* app) const override {
    return paragraphs(app->get_description());
  }
  std::string make_usage(const CLI::App* app, std::string name) const override {
    std::string usage = fmt::format("Usage: {}", name);
    if (!app->get_subcommands({}).empty()) usage += " COMMAND";
    usage += " [OPTION]...";
    for (const CLI::Option* option : positionals(app)) usage += " " + make_option_usage(option);
    return usage + "\n";
  }
  std::string make_footer(const CLI::App* app) const override {
    const std::string footer = app->get_footer();
    return footer.empty() ? footer : "\n" + paragraphs(footer);
  }

 private:
  std::string line(std::string_view first, int column, const std::string& text) const {
    std::string lead = fmt::format("  {}", first);
    std::string out;
    if (text_width(lead) + 2 > column) {
      out = lead + "\n";
      lead.clear();
    }
    return out + wrapped(padded(lead, column), text, look_);
  }

  std::string paragraphs(const std::string& text) const {
    std::string out;
    std::size_t begin = 0;
    while (begin < text.size()) {
      const std::size_t end = std::min(text.find('\n', begin), text.size());
      const std::string one = text.substr(begin, end - begin);
      out += one.starts_with(' ') ? one + "\n" : wrapped("", one, look_);
      begin = end + 1;
    }
    return out;
  }

  static std::vector<const CLI::Option*> positionals(const CLI::App* app) {
    return app->get_options([](const CLI::Option* option) { return option->get_positional(); });
  }

  std::string commands(const CLI::App* app) const {
    std::string out;
    for (const CLI::App* command : app->get_subcommands({})) {
      const std::string about = command->get_description();
      out += line(command->get_name(), command_column, about.substr(0, about.find('\n')));
    }
    return out.empty() ? out : "\nCommands:\n" + out;
  }

  std::string options(const CLI::App* app) const {
    std::string out;
    for (const CLI::Option* option : positionals(app))
      out += line(option->get_name(true, false), option_column, option->get_description());
    if (!out.empty()) out = "\n" + out;
    return out + "\nOptions:\n" + list(app) + options_for_all(app);
  }

  // The program's own options that may also follow a command.
  std::string options_for_all(const CLI::App* app) const {
    const CLI::App* parent = app->get_parent();
    if (parent == nullptr || !app->get_fallthrough()) return {};
    const std::string out = list(parent, {parent->get_help_ptr(), parent->get_version_ptr()});
    return out.empty() ? out : "\nFor all commands:\n" + out;
  }

  std::string list(const CLI::App* app, const std::set<const CLI::Option*>& without = {}) const {
    const auto all = app->get_options([&](const CLI::Option* option) {
      return option->nonpositional() && !without.contains(option);
    });
    std::string out;
    for (const CLI::Option* option : all)
      out += line(with_value(option), option_column, about(option, all));
    return out;
  }

  // "-o, --output FILE"
  static std::string with_value(const CLI::Option* option) {
    std::string name = option->get_name(false, true);
    for (std::size_t at = 0; (at = name.find(',', at)) != std::string::npos; at += 2)
      name.replace(at, 1, ", ");
    if (!option->get_option_text().empty()) name += " " + option->get_option_text();
    return name;
  }

  // CLI11 orders the set by addresses, which differ from run to run. `all` has a stable order.
  static std::string names(const std::set<CLI::Option*>& some,
                           const std::vector<const CLI::Option*>& all) {
    std::vector<std::string> names;
    for (const CLI::Option* option : all) {
      const bool of_them = std::any_of(some.begin(), some.end(),
                                       [&](const CLI::Option* one) { return one == option; });
      if (of_them) names.push_back(option->get_name(false, false));
    }
    return joined(names, ", ");
  }

  static std::string about(const CLI::Option* option, const std::vector<const CLI::Option*>& all) {
    std::string text = option->get_description();
    if (!option->get_needs().empty())
      text += fmt::format(" (with {})", names(option->get_needs(), all));
    if (!option->get_excludes().empty())
      text += fmt::format(" (not with {})", names(option->get_excludes(), all));
    return text;
  }

  Look look_ = look_of_stdout("never");
};

}  // namespace

std::shared_ptr<CLI::FormatterBase> help_format() {
  return std::make_shared<HelpPage>();
}

}  // namespace firstdrop::cli
