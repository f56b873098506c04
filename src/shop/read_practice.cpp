// SPDX-License-Identifier: MIT
// The practice of the trade: one value a row, each within what a lathe shop can mean.
#include <algorithm>
#include <variant>

#include "record.hpp"

namespace turnwright {
namespace {

constexpr UnitOf<Compliance::dimension> um_per_N{"um/N", 1, 1000000};

/// A record of the practice by name, where it goes, and the range in its unit that makes sense.
struct PracticeRow {
  std::string_view name;
  std::variant<Length Practice::*, Speed Practice::*, Compliance Practice::*, double Practice::*,
               int Practice::*>
      member;
  Unit unit;
  double low, high;

  template <Dim D>
  constexpr PracticeRow(std::string_view words, Quantity<D> Practice::*where, const UnitOf<D>& its,
                        double least, double most)
      : name(words), member(where), unit(its), low(least), high(most) {}
  constexpr PracticeRow(std::string_view words, double Practice::*where, double least, double most)
      : name(words), member(where), unit(unit::ratio), low(least), high(most) {}
  constexpr PracticeRow(std::string_view words, int Practice::*where, int least, int most)
      : name(words), member(where), unit(unit::ratio), low(least), high(most) {}
};
constexpr PracticeRow practice_rows[] = {
    {"thread blank under size", &Practice::thread_blank_under_size, unit::mm, 0, 0.5},
    {"rough turning grade", &Practice::rough_grade, 8, 14},
    {"rough turning roughness", &Practice::rough_roughness, unit::um, 0.8, 50},
    {"O-ring groove width", &Practice::o_ring_width, 1, 2},
    {"O-ring groove depth", &Practice::o_ring_depth, 0.5, 1},
    {"least run-out groove", &Practice::least_runout_groove, 0.5, 10},
    {"least wall", &Practice::least_wall, unit::mm, 0.01, 5},
    {"least cored hole", &Practice::least_cored, unit::mm, 1, 500},
    {"drilled under fit", &Practice::drilled_under_fit, unit::mm, 0.1, 10},
    {"drilled under size", &Practice::drilled_under_size, unit::mm, 0.1, 10},
    {"finest reamed grade", &Practice::finest_reamed, 4, 12},
    {"coarsest reamed grade", &Practice::coarsest_reamed, 4, 12},
    {"left for grinding", &Practice::left_for_grinding, unit::mm, 0.01, 3},
    {"ground seat turned to", &Practice::ground_seat_turned_to, unit::mm, 0.005, 0.5},
    {"finest turned", &Practice::finest_turned, unit::um, 0.01, 6.3},
    {"ground seat roughness", &Practice::ground_seat_roughness, unit::um, 0.2, 25},
    {"flange in front", &Practice::flange_in_front, unit::mm, 0, 1000},
    {"largest form radius", &Practice::largest_form_radius, unit::mm, 0, 100},
    {"most set over", &Practice::most_set_over, unit::mm, 0, 100},
    {"full grip", &Practice::full_grip, 0.05, 3},
    {"fair grip", &Practice::fair_grip, 0.02, 3},
    {"short grip", &Practice::short_grip, 0.005, 1},
    {"usual grip", &Practice::usual_grip, 0.02, 3},
    {"least grip", &Practice::least_grip, unit::mm, 1, 100},
    {"least short grip", &Practice::least_short_grip, unit::mm, 0.5, 100},
    {"rim grip", &Practice::rim_grip, 0.005, 1},
    {"length out", &Practice::length_out, 0.2, 10},
    {"least rim grip", &Practice::least_rim_grip, unit::mm, 0, 100},
    {"lever grip", &Practice::lever_grip, 0, 2},
    {"disc", &Practice::disc, 0, 10},
    {"short grip clearance", &Practice::short_grip_clearance, unit::mm, 0, 50},
    {"grip inside edge", &Practice::grip_inside_edge, unit::mm, 0, 50},
    {"chuck ratio", &Practice::chuck_ratio, 0.5, 20},
    {"centre ratio", &Practice::centre_ratio, 0.5, 30},
    {"short grip centre ratio", &Practice::short_grip_centre_ratio, 0.1, 30},
    {"overhang depth", &Practice::overhang_depth, 0.005, 1},
    {"parting ratio", &Practice::parting_ratio, 1, 20},
    {"rest needed", &Practice::rest_needed, 1, 60},
    {"rest ratio", &Practice::rest_ratio, 1, 50},
    {"mostly plain", &Practice::mostly_plain, 0, 1},
    {"check margin", &Practice::check_margin, 1, 10},
    {"soft jaws grade", &Practice::soft_jaws_grade, 1, 18},
    {"soft jaws roughness", &Practice::soft_jaws_roughness, unit::um, 0.05, 25},
    {"thin wall", &Practice::thin_wall, 0, 0.5},
    {"bar by hand", &Practice::bar_by_hand, 0, 10000},
    {"least mandrel", &Practice::least_mandrel, unit::mm, 0.5, 100},
    {"mandrel grade", &Practice::mandrel_grade, 1, 18},
    {"rated grip", &Practice::rated_grip, 0.1, 1},
    {"unbalanced", &Practice::unbalanced, 0.05, 1},
    {"overlap", &Practice::overlap, unit::mm, 0, 20},
    {"facing stick-out", &Practice::facing_stick_out, 0.1, 10},
    {"facing share", &Practice::facing_share, 0.05, 1},
    {"dog length", &Practice::dog_length, unit::mm, 0, 300},
    {"driver length", &Practice::driver_length, unit::mm, 0, 100},
    {"finish depth of fits", &Practice::finish_depth_fit, unit::mm, 0.05, 10},
    {"finish depth", &Practice::finish_depth, unit::mm, 0.05, 10},
    {"finish allowance on CNC", &Practice::finish_allowance_cnc, unit::mm, 0.05, 5},
    {"finish allowance on manual lathes", &Practice::finish_allowance_manual, unit::mm, 0.05, 5},
    {"finish allowance on slight work", &Practice::finish_allowance_small, unit::mm, 0.05, 5},
    {"slight work", &Practice::slight_work, unit::mm, 0, 100},
    {"axial allowance", &Practice::axial_allowance, unit::mm, 0, 5},
    {"approach", &Practice::approach, unit::mm, 0.1, 50},
    {"plunge approach", &Practice::plunge_approach, unit::mm, 0.1, 50},
    {"clear of work", &Practice::clear_of_work, unit::mm, 0, 200},
    {"tailstock travel", &Practice::tailstock_travel, unit::mm, 0, 2000},
    {"through by", &Practice::through_by, unit::mm, 0, 50},
    {"face last", &Practice::face_last, unit::mm, 0.02, 5},
    {"face in one", &Practice::face_in_one, unit::mm, 0.02, 10},
    {"face depth", &Practice::face_depth, unit::mm, 0.1, 20},
    {"casting face depth", &Practice::casting_face_depth, unit::mm, 0.1, 30},
    {"shortest shoulder", &Practice::shortest_shoulder, unit::mm, 0.1, 50},
    {"scale depth", &Practice::scale_depth, unit::mm, 0, 10},
    {"depth slack", &Practice::depth_slack, 0, 0.5},
    {"sliver", &Practice::sliver, unit::mm, 0, 5},
    {"more than allowance", &Practice::more_than_allowance, unit::mm, 0, 5},
    {"sideways worth", &Practice::sideways_worth, 0.05, 5},
    {"least recess", &Practice::least_recess, unit::mm, 0, 50},
    {"smallest edge", &Practice::smallest_edge, unit::mm, 0, 1},
    {"two equal cuts to", &Practice::two_equal_cuts_to, 1, 18},
    {"fine to", &Practice::fine_to, 1, 18},
    {"one trial cut to", &Practice::one_trial_cut_to, 1, 18},
    {"two trial cuts to", &Practice::two_trial_cuts_to, 1, 18},
    {"lengths gauged as", &Practice::lengths_gauged_as, 1, 18},
    {"threads gauged as", &Practice::threads_gauged_as, 1, 18},
    {"bending matters to", &Practice::bending_matters_to, 1, 18},
    {"lighter feed", &Practice::lighter_feed, 0.1, 0.99},
    {"side turning share", &Practice::side_turning_share, 0.05, 1},
    {"plunge share", &Practice::plunge_share, 0.05, 1},
    {"wide in tools", &Practice::wide_in_tools, 1, 50},
    {"wide in depths", &Practice::wide_in_depths, 0, 50},
    {"groove floor cut", &Practice::groove_floor_cut, unit::mm, 0, 5},
    {"part off slow radius", &Practice::part_off_slow_radius, unit::mm, 0, 50},
    {"part off slow feed", &Practice::part_off_slow_feed, 0.05, 1},
    {"flat stop", &Practice::flat_stop, unit::mm, 0, 10},
    {"pilot above", &Practice::pilot_above, unit::mm, 1, 500},
    {"pilot share", &Practice::pilot_share, 0.05, 0.9},
    {"pilot slack", &Practice::pilot_slack, 1, 2},
    {"own drill worth", &Practice::own_drill_worth, unit::mm, 0, 20},
    {"worth drilling", &Practice::worth_drilling, unit::mm, 0.1, 100},
    {"peck from", &Practice::peck_from, 0.5, 50},
    {"spot width", &Practice::spot_width, 1, 10},
    {"bore finish", &Practice::bore_finish, unit::mm, 0.02, 5},
    {"least bore rough", &Practice::least_bore_rough, unit::mm, 0, 5},
    {"spring pass from", &Practice::spring_pass_from, 0.5, 20},
    {"widest edge", &Practice::widest_edge, unit::mm, 0.1, 20},
    {"clear of jaws", &Practice::clear_of_jaws, unit::mm, 0, 50},
    {"knurl feed", &Practice::knurl_feed, unit::mm_per_rev, 0.01, 2},
    {"knurl passes", &Practice::knurl_passes, 1, 20},
    {"shoulder run-out", &Practice::shoulder_run_out_pitches, 0.5, 20},
    {"run-in", &Practice::run_in_pitches, 0, 20},
    {"tap run-out", &Practice::tap_run_out_pitches, 0, 20},
    {"friction at jaws", &Practice::friction_at_jaws, 0.02, 1},
    {"axial grip", &Practice::axial_grip, 0.02, 1},
    {"grip safety", &Practice::grip_safety, 1, 10},
    {"least speed on power", &Practice::least_speed_on_power, 0, 1},
    {"drill feed share", &Practice::drill_feed_share, 0.001, 0.1},
    {"reamer feed factor", &Practice::reamer_feed_factor, 0.2, 10},
    {"deep from", &Practice::deep_from, 0.5, 50},
    {"threading carriage", &Practice::threading_carriage, unit::m_per_min, 0.1, 100},
    {"threading share", &Practice::threading_share, 0.05, 1},
    {"half-nut speed", &Practice::half_nut_speed, unit::m_per_min, 0.02, 10},
    {"hole table depth", &Practice::hole_table_depth, unit::mm, 0.1, 20},
    {"speed band", &Practice::speed_band, 0.005, 0.5},
    {"first feed", &Practice::first_feed, 0.01, 0.5},
    {"careful below", &Practice::careful_below, 0.1, 1},
    {"brave above", &Practice::brave_above, 1, 5},
    {"thread table depth", &Practice::thread_table_depth, unit::mm, 0.01, 20},
    {"centre compliance", &Practice::centre_compliance, um_per_N, 0, 10},
    {"steady compliance", &Practice::steady_compliance, um_per_N, 0, 10},
    {"follow rest behind", &Practice::follow_rest_behind, unit::mm, 0, 500}};

void put(MapReader& map, int Practice::*member, const Node&, const PracticeRow& row,
         Practice& practice) {
  const auto value = map.whole("value", static_cast<int>(row.low), static_cast<int>(row.high));
  if (value) practice.*member = *value;
}
template <class T>
void put(MapReader& map, T Practice::*member, const Node& value, const PracticeRow& row,
         Practice& practice) {
  if (const auto si = read_in_range(value, row.unit, row.low, row.high, map.notes()))
    practice.*member = T(*si);
}

}  // namespace

void read_practice(MapReader& map, Practice& practice) {
  const std::string name = map.text_or("name", "");
  const Node* value = map.need("value");
  const Source source = source_of(map);
  if (value == nullptr) return;
  const auto* row = std::find_if(std::begin(practice_rows), std::end(practice_rows),
                                 [&](const PracticeRow& r) { return r.name == name; });
  if (row == std::end(practice_rows))
    add_unknown_row(map.notes(), *map.find("name"), "practice", practice_names());
  else
    std::visit([&](auto member) { put(map, member, *value, *row, practice); }, row->member);
  practice.sources[name] = source;
}

std::vector<std::string> practice_names() {
  std::vector<std::string> names;
  for (const PracticeRow& row : practice_rows) names.emplace_back(row.name);
  return names;
}

}  // namespace turnwright
