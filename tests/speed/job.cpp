// Reads, plans and models a spec.
// Entry: make_job.
#include "speed/job.h"

#include <fstream>
#include <sstream>

namespace fitup::speed {

Result<std::string> text_of(const std::string& path) {
  std::ifstream file(path);
  if (!file) return Failure{Failure::Kind::file, "reading " + path, "cannot be opened"};
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

std::unique_ptr<Job> make_job(const std::string& file_name) {
  auto text = text_of(file_name);
  if (!text) return nullptr;
  auto made = std::make_unique<Job>();
  made->name = file_name;
  made->text = *text;
  SpecResult spec = read_spec(made->name, made->text, {}, text_of);
  if (!spec.spec) {
    return nullptr;
  }
  made->spec = *std::move(spec.spec);
  made->layout = lay_out(made->spec);
  if (made->layout) {
    made->plan = make_plan(*made->layout).plan;
  }
  if (!made->plan) {
    return nullptr;
  }
  auto model = build_model(*made->plan);
  if (!model) {
    return nullptr;
  }
  made->model = std::move(model).value();
  return made;
}

}  // namespace fitup::speed
