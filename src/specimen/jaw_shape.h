// A piece of jaw as shapes: the exact geometry that distances and voxels come from.
#pragma once

#include "specimen/jaw.h"
#include "specimen/ridge.h"
#include "specimen/tissue.h"
#include "specimen/trabeculae.h"
#include "specimen/tube.h"

#include <optional>
#include <vector>

namespace driftbench::specimen {

/// Width of the ligament space and thickness of the bone plate that lines a socket.
///
/// Source: ligament 0.15 to 0.38 mm, usual text figure 0.2; lining plate own assumption
inline constexpr double kLigament_mm = 0.2;
inline constexpr double kLiningPlate_mm = 0.4;

/// The shapes of a section.
///
/// Frame: jaw frame of the spec
class Jaw {
 public:
  /// Whether spongy bone gets its trabeculae (some 30 ms); distances do not need them.
  enum class Texture { kTrabeculae, kNone };

  /// Contract: validated(spec) holds.
  explicit Jaw(const JawSpec& spec, Texture texture = Texture::kTrabeculae);

  [[nodiscard]] const JawSpec& spec() const { return spec_; }

  [[nodiscard]] const Ridge& ridge() const { return ridge_; }

  /// Mandibular canal; nothing elsewhere.
  [[nodiscard]] const std::optional<Tube>& canal() const { return canal_; }

  /// Loop and opening of the mental foramen.
  [[nodiscard]] const std::optional<Tube>& foramen() const { return foramen_; }

  [[nodiscard]] const std::optional<Tube>& nasopalatine() const { return nasopalatine_; }

  [[nodiscard]] const std::optional<LoftedBody>& sinus() const { return sinus_; }

  [[nodiscard]] const std::optional<LoftedBody>& nose() const { return nose_; }

  [[nodiscard]] const std::vector<ToothShape>& teeth() const { return teeth_; }

  [[nodiscard]] const std::optional<ToothShape>& socket() const { return socket_; }

  [[nodiscard]] const Trabeculae& trabeculae() const { return trabeculae_; }

  /// Signed distance to the outer surface of the bone, holes not counted; negative inside.
  [[nodiscard]] double bone_mm(const math::Vec3& p) const;

 private:
  JawSpec spec_;
  Ridge ridge_;
  std::vector<ToothShape> teeth_;
  std::optional<ToothShape> socket_;
  std::optional<Tube> canal_;
  std::optional<Tube> foramen_;
  std::optional<Tube> nasopalatine_;
  std::optional<LoftedBody> sinus_;
  std::optional<LoftedBody> nose_;
  Trabeculae trabeculae_;
};

}  // namespace driftbench::specimen
