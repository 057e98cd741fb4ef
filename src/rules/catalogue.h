// Every rule, by the name of its file. The order that people see them in is the table's in catalogue.cpp.
#pragma once

#include "loomleaf/rules/rule.h"

namespace loomleaf {

extern const Rule chassis_return;
extern const Rule colour_clash;
extern const Rule crowded_splice;
extern const Rule dead_short;
extern const Rule full_conduit;
extern const Rule fuse_too_small;
extern const Rule gauge_mismatch;
extern const Rule gauge_step;
extern const Rule hidden_splice;
extern const Rule idle_accept;
extern const Rule interrupt_rating;
extern const Rule least_size;
extern const Rule long_tail;
extern const Rule loose_end;
extern const Rule low_voltage;
extern const Rule no_return;
extern const Rule no_supply;
extern const Rule not_checked;
extern const Rule over_voltage;
extern const Rule overloaded_bus;
extern const Rule overloaded_contact;
extern const Rule overloaded_source;
extern const Rule overloaded_splice;
extern const Rule overloaded_wire;
extern const Rule reversed_polarity;
extern const Rule same_label;
extern const Rule short_not_cleared;
extern const Rule switched_return;
extern const Rule unfused_run;
extern const Rule unused_item;
extern const Rule voltage_clash;
extern const Rule voltage_drop;
extern const Rule voltage_rating;

}  // namespace loomleaf
