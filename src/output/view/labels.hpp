// SPDX-License-Identifier: MIT
#pragma once
// What parts, stock, clampings, steps and rates are called, as messages: the same on screen, on
// paper and in files.
#include <string>

#include "turnwright/compare/tuned.hpp"
#include "turnwright/estimate/quote.hpp"
#include "turnwright/route/clamping_label.hpp"

namespace turnwright {

/// Words of enums: "step.rough", "cost.setup", "band.handling-times" …
Message word_of(StepKind kind);
Message word_of(CostKind kind);
Message word_of(BandRowId row);
Message word_of(Basis basis);
Message word_of(LimitId limit);
Message word_of(InputId input);
Message word_of(PriceStatus status);
Message word_of(TuneRule rule);
/// With its count or factor where it has one.
Message word_of(const ElementTime& element);
/// Where it is done beside the cutting or away from the machine; nothing where that waits for it.
Message beside_label(const ElementTime& element);
/// Empty for none.
Message word_of(Remedy remedy);

/// "Op 10".
Message operation_label(const Operation& operation);
/// "after turning: keyway", "6 EUR per piece", "at least 90.00" …, to be joined by commas.
Messages other_work_parts(const OtherWork& work, const std::string& currency);
/// The sentence on a piece, or its like on {pieces} where prices are for so many.
Message for_unit(Message message, const char* per_pieces, int price_unit);
/// "price each", "price per 100".
Message price_heading(const Price& price);
/// "price each at 40", "price per 100 at 40".
Message price_heading_at(int quantity, int price_unit);
/// "5 passes".
Message pass_count(std::size_t passes);
/// "power 4.1 kW of 5.5 kW", and what was changed for it where it decided.
Message limit_label(const LimitCheck& check);
/// What a source says of itself, and its basis.
Message source_label(const Shop& shop, const Source& source);

/// What to mind in this operation, by what it really has.
Messages operation_cautions(const Job& job, const Operation& operation, const OperationTime& time);
/// The usual cautions, for every step sheet.
const Messages& usual_cautions();

}  // namespace turnwright
