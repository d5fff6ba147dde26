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
    std::string out;
    std::string group = CLI::OptionDefaults().get_group();
    for (const CLI::Option* option : by_group(app)) {
      if (without.contains(option)) continue;
      if (option->get_group() != group) out += "\n" + option->get_group() + ":\n";
      group = option->get_group();
      out += line(with_value(option), option_column, help_of(option, app));
    }
    return out;
  }

  // The options without a group of their own come first.
  static std::vector<const CLI::Option*> by_group(const CLI::App* app) {
    auto options = app->get_options([](const CLI::Option* one) { return one->nonpositional(); });
    std::stable_partition(options.begin(), options.end(), [](const CLI::Option* one) {
      return one->get_group() == CLI::OptionDefaults().get_group();
    });
    return options;
  }

  // "-o, --output FILE"
  static std::string with_value(const CLI::Option* option) {
    std::string name = option->get_name(false, true);
    for (std::size_t at = 0; (at = name.find(',', at)) != std::string::npos; at += 2)
      name.replace(at, 1, ", ");
    if (!option->get_option_text().empty()) name += " " + option->get_option_text();
    return name;
  }

  Look look_ = look_of_stdout("never");
};

}  // namespace

std::vector<std::string> names_of(const std::set<CLI::Option*>& some, const CLI::App* app) {
  std::vector<std::string> names;
  for (const CLI::Option* option : app->get_options({})) {
    const bool of_them = std::any_of(some.begin(), some.end(),
                                     [&](const CLI::Option* one) { return one == option; });
    if (of_them) names.push_back(option->get_name(false, false));
  }
  return names;
}

std::string help_of(const CLI::Option* option, const CLI::App* app) {
  std::string text = option->get_description();
  if (!option->get_needs().empty())
    text += fmt::format(" Only with {}.", joined(names_of(option->get_needs(), app), ", "));
  if (!option->get_excludes().empty())
    text += fmt::format(" Not with {}.", joined(names_of(option->get_excludes(), app), ", "));
  return text;
}

std::shared_ptr<CLI::FormatterBase> help_format() {
  return std::make_shared<HelpPage>();
}

}  // namespace firstdrop::cli
