// The shape of an implant and of the driver that holds it.
#pragma once

#include "render/mesh.h"
#include "specimen/kit.h"

namespace driftbench::render {

/// Height of the handpiece's lower edge above the platform.
inline constexpr double kDriverLength_mm = 12.0;
inline constexpr double kDriverRadius_mm = 1.1;

/// Threaded body up to its platform, which is open for the driver. Right-handed: turned clockwise
/// seen from the platform it goes in. Frame: centre of the end in the origin, axis +z.
[[nodiscard]] MeshData implant_mesh(const specimen::Implant& implant);

/// Driver, its lower end on the platform at z = 0.
[[nodiscard]] MeshData driver_mesh(const specimen::Implant& implant);

}  // namespace driftbench::render
