#include "campaign/documents.hpp"

#include "campaign/campaign_json.hpp"
#include "readers/documents.hpp"

namespace firstdrop {

std::vector<Document> documents() {
  return {
      document("recipe",
               "What `firstdrop plan` plans: a plant, a still, and what you want. Only recipe, "
               "plant and still are needed.",
               recipe_fields()),
      document("still",
               "A still of your own, in a file that a recipe names. A plain quantity is taken as "
               "exact; an object gives its range and where it comes from. `firstdrop stills KEY "
               "--json` writes one to change into yours.",
               still_fields()),
      document("plant",
               "A plant of your own, in a file that a recipe names. A plain quantity is taken as "
               "exact and measured; an object gives its range and where it comes from. `firstdrop "
               "plants KEY --json` writes one to change into yours.",
               plant_fields()),
      campaign_document(),
  };
}

}  // namespace firstdrop
