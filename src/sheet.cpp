#include "firstdrop/sheet.hpp"

#include "firstdrop/error.hpp"
#include "firstdrop/picture.hpp"
#include "sheet_content.hpp"
#include "sheet_html.hpp"
#include "sheet_text.hpp"

namespace firstdrop {

std::string run_sheet(const Plan& plan, SheetFormat format) {
  if (!plan.may_be_run()) {
    throw RangeError("a refused plan has no run sheet");
  }
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
