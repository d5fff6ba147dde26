#include "output/sheet.hpp"

#include "output/sheet_html.hpp"
#include "output/sheet_text.hpp"

namespace firstdrop {

std::string sheet_in(SheetFormat format, const SheetContent& sheet,
                     const std::function<std::string()>& picture) {
  switch (format) {
    case SheetFormat::text:
      return sheet_as_text(sheet);
    case SheetFormat::markdown:
      return sheet_as_markdown(sheet);
    case SheetFormat::html:
      break;
  }
  return sheet_as_html(sheet, picture ? picture() : "");
}

std::string run_sheet(const Plan& plan, SheetFormat format) {
  plan.runnable();
  return sheet_in(format, sheet_content(plan), [&] { return run_picture(plan); });
}

}  // namespace firstdrop
