// SPDX-License-Identifier: MIT
#pragma once
// The drawing: what the part file says, with positions worked out, and nothing about machines.
// Lengths along the axis are distances from the right-hand end face, positive into the part.
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "turnwright/document/problem.hpp"
#include "turnwright/part/thread.hpp"
#include "turnwright/quantity/currency.hpp"
#include "turnwright/quantity/money.hpp"
#include "turnwright/quantity/quantity.hpp"

namespace turnwright {

/// The most pieces of a lot that any file may name.
inline constexpr int most_pieces = 10'000'000;

/// A toleranced size as written: a fit, deviations, or nothing (general tolerance).
struct Size {
  Length nominal{};
  std::string letters;  // of the fit, "" when none
  int grade = 0;
  bool toleranced = false;  // deviations were written
  Length upper{}, lower{};
};

/// Where an element lies: on the outside, or in a bore from one of the faces.
enum class Region { outside, bore_right, bore_left };

/// Where on an element; `unsaid` is settled from the neighbours.
enum class Side { unsaid, right, left };

struct EdgeBreak {
  bool round = false;
  Length width{};  // along the axis (chamfer), or the radius (round)
  Number angle{};  // from the axis, chamfer only
  Side side = Side::unsaid;
  Position at;
};

enum class CornerKind { fillet, relief_e, relief_f };
struct Corner {
  CornerKind kind = CornerKind::fillet;
  Length radius{};  // 0: by the standard
  Length depth{};   // relief only, 0: by the standard
  Side side = Side::unsaid;
  Position at;
};

enum class GrooveKind { plain, circlip, o_ring, vee, half_round };
struct Groove {
  GrooveKind kind = GrooveKind::plain;
  Length width{};                // 0 for a circlip: by the standard
  std::optional<Length> bottom;  // diameter
  std::optional<Length> depth;   // from the surface
  Length section{};              // of an O-ring
  Number angle{};                // between the walls of a V
  Length radius{};               // of a half-round one
  std::optional<Length> from;    // nearer edge, from the face of reference
  bool at_shoulder = false;
  Position at;
};

/// A tolerance of position to a datum: run-out, coaxiality, squareness.
enum class TieKind { runout, coaxial, square };
struct Tie {
  TieKind kind = TieKind::runout;
  Length value{};
  std::string datum;  // the letter of a seat
  Position at;
};

/// DIN 82: RAA straight, RBL and RBR spiral, RGE and RGV diamond, RKE and RKV cross.
struct Knurl {
  std::string kind;
  Length pitch{};
  Position at;
};

/// The run-out of a thread: by DIN 76, normal or short, or with its own width and bottom.
struct Undercut {
  bool short_form = false;
  Length width{}, bottom{};  // 0: by the standard
  Position at;
};

enum class ElementKind { cylinder, cone, arc, thread, polygon };

struct Element {
  Element();  // written once, in part.cpp, not in every file that copies one
  Element(const Element&);
  Element(Element&&) noexcept;
  Element& operator=(const Element&);
  Element& operator=(Element&&) noexcept;
  ~Element();

  ElementKind kind = ElementKind::cylinder;
  std::string text;  // as written, for messages
  Position at;
  Size size;               // diameter (cone and arc: at the right end); polygon: across flats
  Size left_size;          // cone, arc: diameter at the left end
  Length radius{};         // arc
  bool hollow = false;     // arc
  bool from_step = false;  // arc: begins at `size`, not at the diameter before it
  bool hexagon = false;    // polygon
  bool as_drawn = false;
  bool morse = false;           // cone: gauge diameter at its larger end
  std::optional<Number> taper;  // cone given by its taper on diameter
  Thread thread;
  Length from{}, to{};  // along the axis
  bool through = false;
  bool length_toleranced = false;
  Length length_upper{}, length_lower{};
  std::optional<Length> ra;
  bool ra_from_rz = false;
  std::vector<EdgeBreak> breaks;
  std::vector<Corner> corners;
  std::vector<Groove> grooves;
  std::vector<Tie> ties;
  std::string seat;
  std::optional<Knurl> knurl;
  std::optional<Undercut> undercut;  // of a thread
  std::optional<double> gauge_share;
  bool ground = false, no_spiral = false, flat = false;
  Length leave{};  // on diameter
  std::optional<Time> allow;

  Length length() const { return to - from; }
};

enum class StockForm { automatic, round, hexagon, square, tube, casting, forging };
struct PartStock {
  StockForm form = StockForm::automatic;
  Length size{};          // diameter, across flats, or stock per side
  Length wall{};          // tube
  std::string condition;  // "" when unsaid
  std::optional<Length> length, facing;
  bool from_bar = false;
  bool feed_said = false;  // the file says bar or blank
  bool customers = false;
  Position at;

  /// A casting or forging: raw on every side, no piece of bar.
  bool is_shaped() const { return form == StockForm::casting || form == StockForm::forging; }
};

struct GeneralTolerances {
  std::string iso_class;  // f, m, c, v; "" when plus_minus is given
  std::optional<Length> plus_minus;
};

struct Drawing {
  GeneralTolerances general;
  std::optional<Length> ra;
  Length edges{};
};

/// Of a centre hole (DIN 332): A plain, B with a protecting countersink, R curved.
enum class CentreForm { unsaid, a, b, r };
enum class CentreUse { unsaid, may, yes, no };
struct CentreRequest {
  bool right = false, left = false;
  CentreForm form = CentreForm::unsaid;
  Length pilot{};  // 0: by the standard
  CentreUse keep = CentreUse::unsaid;
};

/// What a price of work is for. The minutes are the other firm's, the dm2 the finished surface.
enum class ChargedBy { piece, lot, kg, minute, dm2 };
const char* name_of(ChargedBy per);

/// What other work waits for.
enum class WorkAfter { turning, roughing };
const char* name_of(WorkAfter after);

/// Own work with its time, or bought work with its price.
struct OtherWork {
  std::string what;
  std::optional<Time> time;
  std::optional<Amount> price;
  ChargedBy per = ChargedBy::piece;
  Amount minimum{}, certificate{}, transport{};  // bought: at least, and by the lot
  double scrap = 0;                              // of what goes in
  Time setup{};
  WorkAfter after = WorkAfter::turning;
  double days = 0;
  std::string machine;  // own work beside the lathes, by the hour of that machine; empty: theirs
  std::optional<Area> area;  // charged by dm2: what is plated, masks left out; none: all of it
  Position at;

  /// Neither minutes nor a price: to be filled in before the part is quoted.
  bool is_open() const { return !time && !price; }
};

/// Paid for once: jaws, a fixture, a gauge, a program, a sample inspection. A repeat order has
/// none.
enum class PaidBy { line, first_order, pieces };
struct OneOff {
  std::string what;
  std::optional<Time> time;
  std::optional<Amount> price;
  PaidBy paid = PaidBy::line;
  int pieces = 0;  // it is spread over, PaidBy::pieces
  Position at;
};

/// Unit learning, asked for: each doubling takes the time of a piece down to `rate`; the planned
/// time is reached at piece `planned_at`.
struct Learning {
  double rate = 1;
  int planned_at = 1;
};

/// A material that the shop does not list, described by one that it does.
struct MaterialLike {
  std::string like;
  std::optional<double> hardness;  // HB
  std::optional<Density> density;
  std::optional<UnitPrice> price;
};

/// A groove in an end face.
struct FaceGroove {
  Length width{}, depth{};
  Length inner{};  // its smaller diameter
  Position at;
};

struct FaceRequest {
  bool machined = true;
  std::optional<Length> ra;
  std::vector<FaceGroove> grooves;
};

/// What a request fixes of the price of its line, in place of the shop's policy.
struct Selling {
  std::optional<double> margin;    // share of the price
  std::optional<double> discount;  // taken off the price that was worked out, a share of it
  std::map<int, Amount> prices;    // by quantity: fixed by hand, for a price unit of pieces
  std::optional<double> rebate;    // off the goods of the order, in place of the policy's
  // The customers whose records these are of; empty: the request itself.
  std::string margin_of, discount_of, rebate_of;
  std::string request;      // the file that fixes them
  std::string option;       // offered beside the others, and not in the order's total
  bool whole_order = true;  // no other line is ordered with it: the minimum order is its own
};

struct Part {
  Part();  // written once, in part.cpp, not in every file that copies one
  Part(const Part&);
  Part(Part&&) noexcept;
  Part& operator=(const Part&);
  Part& operator=(Part&&) noexcept;
  ~Part();

  std::string file;
  std::string number, name, revision;
  bool repeat = false;
  bool inch = false;
  std::string material;  // empty: to be filled in, as in a draft
  Position material_at;
  std::optional<MaterialLike> like;
  PartStock stock;
  std::vector<int> quantities{1};
  Drawing drawing;
  Length overall{};  // the sum of the outside
  FaceRequest right_face, left_face;
  std::vector<Element> outside, bore_right, bore_left;
  CentreRequest centres;
  std::vector<OtherWork> other_work;
  std::vector<OneOff> one_offs;
  std::optional<Learning> learning;
  int releases = 1;                     // equal lots that it is delivered in
  int released = 0;                     // the quantity that these are of; 0: each
  int price_unit = 0;                   // pieces that a price is for; 0: the shop's
  std::vector<std::string> to_confirm;  // what a draft leaves to be settled
  Selling selling;

  /// Equal lots that this quantity is delivered in.
  int releases_at(int quantity) const {
    return released == 0 || released == quantity ? releases : 1;
  }
};

/// What a draft leaves empty and a quote needs: the material, minutes of other work.
Messages to_fill_in(const Part& part);

struct Document;
/// Reads a part file. All problems of it, or the part.
Checked<Part> read_part(std::string file, std::string_view text, const Currencies& currencies = {});
/// The same from a document read elsewhere.
Checked<Part> read_part(const Document& document, const Currencies& currencies = {});

}  // namespace turnwright
