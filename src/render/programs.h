// All shader programs; each group is compiled when it is first needed, which keeps the start short.
#pragma once

#include "render/gl_objects.h"

#include <string>

namespace driftbench::render {

struct Programs {
  /// Surfaces that a guide casts its shadow on.
  struct Shaded {
    Program block, metal, jaw;
    bool is_made = false;
    bool has_jaw = false;
  };

  Shaded free_hand, guided;
  Program bench, bench_light, resolve;  ///< every look
  Program resin;                        ///< looks with a guide
  Program chip, line;                   ///< crumbs; plan and water
  Program section;
  Program slice;  ///< sections as a scan shows them

  /// What the free-hand look needs.
  void make_basic();

  /// What a look with a guide, crumbs and lines, a section, a slice, a jaw need; nothing to do when
  /// they are made.
  void make_guided();
  void make_overlay();
  void make_section();
  void make_slice();
  void make_jaw(Shaded& shaded);

  /// Empty, or why a program could not be made.
  [[nodiscard]] const std::string& problem() const { return problem_; }

 private:
  using Names = std::initializer_list<std::string_view>;

  void make(Program& program, std::string_view definitions, Names vertex, Names fragment,
            std::initializer_list<const char*> samplers);
  void make_with_volume(Program& program, std::string_view definitions, Names vertex,
                        std::string_view fragment);
  void make_with_tissue(Program& program, std::string_view definitions, std::string_view vertex,
                        std::string_view fragment);
  void make_shaded(Shaded& shaded, std::string_view definitions);

  std::string problem_;
  bool has_overlay_ = false;
  bool has_section_ = false;
  bool has_slice_ = false;
};

}  // namespace driftbench::render
