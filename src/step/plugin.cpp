// SPDX-License-Identifier: MIT
// The plug-in's two functions: a model in, a JSON document out. All lengths are millimetres.
#include <unistd.h>
#include <Standard_Failure.hxx>
#include <Standard_OutOfMemory.hxx>

#include <new>
#include <nlohmann/json.hpp>

#include "axis.hpp"
#include "boundary.hpp"
#include "model.hpp"
#include "recognise.hpp"

namespace turnwright::step {
namespace {

using Json = nlohmann::ordered_json;

RunForm form_of(const Run& run) {
  if (run.envelope) return RunForm::envelope;
  if (run.piece.form == PieceForm::arc) return RunForm::arc;
  return run.piece.form == PieceForm::free ? RunForm::free_form : RunForm::line;
}

Json run_json(const Run& run) {
  const Piece& p = run.piece;
  Json j{{"from", run.from},
         {"to", run.to},
         {"diameter_from", 2 * run.from_r},
         {"diameter_to", 2 * run.to_r}};
  const RunForm form = form_of(run);
  j["form"] = name_of(form);
  if (form == RunForm::arc) {
    j["radius"] = p.radius;
    j["centre"] = {{"z", p.centre.z}, {"r", p.centre.r}};
    j["bulges_out"] = p.upper;
  }
  return j;
}

Json runs_json(const std::vector<Run>& runs) {
  Json list = Json::array();
  for (const Run& run : runs) list.push_back(run_json(run));
  return list;
}

Json recesses_json(const std::vector<Recess>& recesses) {
  Json list = Json::array();
  for (const Recess& r : recesses)
    list.push_back({{"from", r.from},
                    {"to", r.to},
                    {"inner", 2 * r.inner},
                    {"outer", 2 * r.outer},
                    {"volume", r.volume}});
  return list;
}

Json features_json(const std::vector<Feature>& features) {
  Json list = Json::array();
  for (const Feature& f : features) {
    Json j{{"kind", name_of(f.kind)}, {"count", f.count}, {"from", f.from}, {"to", f.to}};
    j["sizes"] = Json::object();
    for (const auto& [name, value] : f.sizes) j["sizes"][name] = value;
    list.push_back(std::move(j));
  }
  return list;
}

Json solids_json(const Model& model) {
  Json list = Json::array();
  for (const TopoDS_Shape& solid : model.solids) {
    const Box box = box_of(solid);
    list.push_back(Json::array({box.x, box.y, box.z}));
  }
  return list;
}

void add_recognised(Json& j, const Model& model, const ModelRequest& request, int solid) {
  // A thousandth, of an inch a ten-thousandth: no drawing asks for more.
  const double grid = model.inch ? 25.4e-4 : 1e-3;
  const Recognised r =
      recognised(model.solids[static_cast<std::size_t>(solid) - 1], request.flip != 0, grid);
  j["solid"] = solid;
  j["verdict"] = name_of(r.verdict);
  j["turned_share"] = r.turned_share;
  j["volume"] = r.volume;
  j["outline_volume"] = r.outline_volume;
  j["void"] = {{"at", r.missing.at}, {"diameter", r.missing.diameter}};
  j["length"] = r.length;
  j["outside"] = runs_json(r.outline.outside);
  j["bore"] = runs_json(r.outline.bore);
  j["recesses"] = recesses_json(r.outline.recesses);
  j["features"] = features_json(r.features);
}

Json document(const ModelRequest& request) {
  const Model model = read_model(request.path);
  Json j{{"unit", model.inch ? "inch" : "mm"}, {"product", model.product}};
  j["faces"] = model.faces;
  j["solids"] = solids_json(model);
  const int solids = static_cast<int>(model.solids.size());
  const int solid = request.solid > 0 ? request.solid : solids == 1 ? 1 : 0;
  if (!model.read)
    j["verdict"] = name_of(ModelVerdict::unreadable);
  else if (solids == 0)
    j["verdict"] = name_of(ModelVerdict::no_solid);
  else if (solid == 0 || solid > solids)
    j["verdict"] = name_of(ModelVerdict::several_solids);
  else
    add_recognised(j, model, request, solid);
  return j;
}

bool write_all(int to, const std::string& text) {
  for (std::size_t done = 0; done < text.size();) {
    const ssize_t n = write(to, text.data() + done, text.size() - done);
    if (n <= 0) return false;
    done += static_cast<std::size_t>(n);
  }
  return true;
}

}  // namespace
}  // namespace turnwright::step

#define TURNWRIGHT_EXPORT __attribute__((visibility("default")))

extern "C" {

TURNWRIGHT_EXPORT int turnwright_step_version() { return turnwright::step::boundary_version; }

TURNWRIGHT_EXPORT int turnwright_step_read(const turnwright::step::ModelRequest* request) {
  using namespace turnwright::step;
  try {
    // What is no UTF-8 in a name is replaced.
    const std::string text =
        document(*request).dump(-1, ' ', false, Json::error_handler_t::replace);
    return write_all(request->output, text) ? 1 : 0;
  } catch (const Standard_OutOfMemory&) {
    return 2;
  } catch (const std::bad_alloc&) {
    return 2;
  } catch (const Standard_Failure&) {
    return 0;
  } catch (const std::exception&) {
    return 0;
  }
}

}  // extern "C"
