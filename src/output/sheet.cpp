#include "firstdrop/output/write.hpp"
#include "output/sheet_content.hpp"
#include "output/sheet_html.hpp"
#include "output/sheet_text.hpp"

namespace firstdrop {

std::string run_sheet(const Plan& plan, SheetFormat format) {
  plan.runnable();
  const SheetContent sheet = sheet_content(plan);
  switch (format) {
    case SheetFormat::text:
      return sheet_as_text(sheet);
    case SheetFormat::markdown:
      return sheet_as_markdown(sheet);
    case SheetFormat::html:
      break;
  }
  return sheet_as_html(sheet, run_picture(plan));
}

}  // namespace firstdrop
