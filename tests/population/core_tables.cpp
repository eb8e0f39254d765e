// Prints the tables of the evidence report that need the core itself, as one JSON document.
#include "convergence_table.h"
#include "cutting_table.h"

#include <cstdio>
#include <string>

int main() {
  driftbench::base::JsonWriter writer;
  writer.begin_object().key("cutting");
  driftbench::population::write_cutting_table(writer);
  writer.key("convergence");
  driftbench::population::write_convergence_table(writer);
  writer.end_object();
  const std::string text = writer.take();
  return std::fwrite(text.data(), 1, text.size(), stdout) == text.size() ? 0 : 1;
}
