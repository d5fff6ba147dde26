// consumer RECIPE: a program of somebody else's that plans a recipe and prints its verdict.
#include <firstdrop/plan/planner.hpp>
#include <firstdrop/readers/recipe_json.hpp>
#include <firstdrop/readers/tables_json.hpp>
#include <fstream>
#include <iostream>
#include <iterator>
#include <stdexcept>
#include <string>

int main(int argc, char** argv) {
  using namespace firstdrop;
  if (argc != 2) return 2;
  std::ifstream file(argv[1]);
  const std::string text((std::istreambuf_iterator<char>(file)), std::istreambuf_iterator<char>());
  const Tables tables = read_tables(embedded_table_texts());
  const FileReader none = [](const std::string&) -> std::string {
    throw std::runtime_error("it names no file");
  };
  const Plan plan = make_plan(read_recipe(text, argv[1], tables, none), tables);
  std::cout << to_string(plan.verdict) << '\n';
}
