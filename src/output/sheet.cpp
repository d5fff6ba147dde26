#include "firstdrop/output/sheet.hpp"

#include "firstdrop/base/error.hpp"
#include "firstdrop/output/picture.hpp"
#include "output/sheet_content.hpp"
#include "output/sheet_html.hpp"
#include "output/sheet_text.hpp"

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
