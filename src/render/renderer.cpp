#include "render/renderer.h"

#include "render/renderer_impl.h"

namespace driftbench::render {

Renderer::Renderer() : impl_(std::make_unique<Impl>()) {}

Renderer::~Renderer() = default;

void Renderer::forget() {
  const Smoothing smoothing = impl_->smoothing;
  impl_ = std::make_unique<Impl>();
  impl_->smoothing = smoothing;
}

void Renderer::upload(const volume::Volume& volume) {
  if (!impl_->is_made) {
    impl_->make();
  }
  if (problem().empty() && impl_->volume.upload(volume)) {
    impl_->bench_light_is_current = false;
  }
}

void Renderer::update(const volume::Volume& volume, const volume::VoxelBox& box) {
  if (problem().empty()) {
    impl_->volume.update(volume, box);
  }
}

const std::string& Renderer::problem() const {
  return impl_->programs.problem();
}

void Renderer::set_smoothing(Smoothing smoothing) {
  impl_->smoothing = smoothing;
}

}  // namespace driftbench::render
