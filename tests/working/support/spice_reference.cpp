#include "working/support/spice_reference.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <map>
#include <numeric>
#include <optional>
#include <sstream>
#include <stdexcept>

namespace loomleaf::test {

bool has_spice() { return std::system("ngspice --version > /dev/null 2>&1") == 0; }

namespace {

using Number = std::size_t;

// Nodes joined for a purpose.
class Joined {
 public:
  explicit Joined(Number count) : of_(count) { std::iota(of_.begin(), of_.end(), Number{0}); }
  Number operator()(NodeId node) const {
    Number at = node.value;
    while (of_[at] != at) at = of_[at];
    return at;
  }
  void join(NodeId a, NodeId b) { of_[(*this)(a)] = (*this)(b); }

 private:
  std::vector<Number> of_;
};

// A voltage that stands between two nodes, of a source or a converter's output.
struct Held {
  NodeId plus, minus;
  double volt;
  std::string element;
};

class CaseDeck {
 public:
  CaseDeck(const SpiceTask& task, Number number)
      : task_(task),
        number_(number),
        at_(task.points.cases[number]),
        parts_(task.circuit.nodes.size()),
        components_(task.circuit.nodes.size()) {
    for (const BranchId id : task_.circuit.branches.ids())
      if (is_closed(id)) {
        parts_.join(branch(id).a, branch(id).b);
        components_.join(branch(id).a, branch(id).b);
      }
    add_branches();
    add_sources();
    add_converters();
    if (at_.kind != Case::Kind::charge) {
      add_loads();
      add_coils();
    }
    add_grounds();
  }

  std::string elements, guesses;

  SpiceCase read(const SpiceValues& values) const {
    SpiceCase solved;
    for (const NodeId id : task_.circuit.nodes.ids()) {
      const auto found = values.find(node(id));
      solved.node_volt.push_back(found == values.end() ? 0.0 : found->second);
      solved.component.push_back(components_(id));
    }
    for (const BranchId id : task_.circuit.branches.ids()) {
      const double across = solved.node_volt[branch(id).a.value] - solved.node_volt[branch(id).b.value];
      solved.branch_ampere.push_back(is_closed(id) && branch(id).a != branch(id).b ? across / resistance(id) : 0.0);
    }
    return solved;
  }

 private:
  const Branch& branch(BranchId id) const { return task_.circuit.branches[id]; }
  // What has no resistance gets 0.1 microohm, which is 2 microvolt at 20 A: behind a bare source of 0 V ngspice loses a
  // node's voltage to the rounding of its pivots.
  double resistance(BranchId id) const { return std::max(task_.points.branch_resistance[id].in(ohms), 1e-7); }
  bool is_closed(BranchId id) const { return conducts(task_.circuit, id, task_.ways[at_.ways]); }
  std::string node(NodeId id) const { return fmt::format("n{}_{}", number_, id.value); }
  const Item& item(ItemId id) const { return task_.plan.items[id]; }
  template <class... Values>
  void add(fmt::format_string<Values...> form, Values&&... values) {
    elements += fmt::format(form, std::forward<Values>(values)...);
    elements += '\n';
  }

  void add_branches() {
    for (const BranchId id : task_.circuit.branches.ids()) {
      if (!is_closed(id) || branch(id).a == branch(id).b) continue;
      add("rb{}_{} {} {} {:.17g}", number_, id.value, node(branch(id).a), node(branch(id).b), resistance(id));
    }
  }

  void hold(NodeId plus, NodeId minus, double volt, const std::string& name) {
    held_.push_back({plus, minus, volt, name});
    components_.join(plus, minus);
    add("{} {} {} {:.17g}", name, node(plus), node(minus), volt);
  }

  // What a source is told to stand at in this case.
  double told_volt(const Source& source) const {
    return (at_.at_highest ? source.high : source.low).value_or(source.nominal).in(volts);
  }

  // Whether a source has a pole in common with a further one, + to -.
  bool is_in_chain(const TwoPole& source) const {
    return std::ranges::any_of(task_.circuit.sources, [&](const TwoPole& other) {
      return parts_(other.minus) == parts_(source.plus) || parts_(other.plus) == parts_(source.minus);
    });
  }

  // The highest voltage of the converters that charge a battery.
  double charged_volt(const TwoPole& battery) const {
    double volt = 0.0;
    for (const ConverterPorts& ports : task_.circuit.converters)
      if (parts_(ports.out_plus) == parts_(battery.plus) && parts_(ports.out_minus) == parts_(battery.minus))
        volt = std::max(volt, item(ports.item).as<Converter>()->out_voltage.in(volts));
    return volt;
  }

  bool meets_battery(NodeId plus) const {
    for (const TwoPole& source : task_.circuit.sources)
      if (!item(source.item).as<Source>()->is_limited() && parts_(source.plus) == parts_(plus)) return true;
    return false;
  }

  void add_sources() {
    const auto& sources = task_.circuit.sources;
    for (Number i = 0; i < sources.size(); ++i) {
      const Source& source = *item(sources[i].item).as<Source>();
      if (source.is_limited() && meets_battery(sources[i].plus)) {
        if (at_.kind == Case::Kind::charge)
          add("ip{}_{} {} {} {:.17g}", number_, i, node(sources[i].minus), node(sources[i].plus),
              source.limit.in(amperes));
        continue;
      }
      // Those that stand side by side stand at the lowest, or at the highest, to which what charges them brings them.
      double volt = told_volt(source);
      const bool is_charged = at_.at_highest && !is_in_chain(sources[i]);
      if (is_charged) volt = std::max(volt, charged_volt(sources[i]));
      for (const TwoPole& other : sources) {
        const Source& beside = *item(other.item).as<Source>();
        if (parts_(other.plus) != parts_(sources[i].plus) || parts_(other.minus) != parts_(sources[i].minus)) continue;
        if (beside.is_limited() != source.is_limited() && !is_charged) continue;
        volt = at_.at_highest ? std::max(volt, told_volt(beside)) : std::min(volt, told_volt(beside));
      }
      hold(sources[i].plus, sources[i].minus, volt, fmt::format("vs{}_{}", number_, i));
    }
  }

  void add_converters() {
    // A converter may feed another: rounds until one brings life to no more.
    std::vector<bool> done(task_.circuit.converters.size(), false);
    for (bool more = true; more;) {
      more = false;
      for (Number i = 0; i < done.size(); ++i) {
        const ConverterPorts& ports = task_.circuit.converters[i];
        if (done[i] || !voltage_across(ports.in_plus, ports.in_minus)) continue;
        done[i] = more = true;
        add_converter(i, ports, *item(ports.item).as<Converter>());
      }
    }
  }

  void add_converter(Number i, const ConverterPorts& ports, const Converter& converter) {
    const double volt = converter.out_voltage.in(volts);
    const double efficiency = converter.efficiency.value_or(0.85);
    const std::string in = fmt::format("v({},{})", node(ports.in_plus), node(ports.in_minus));
    const std::string input = fmt::format("bc{}_{} {} {}", number_, i, node(ports.in_plus), node(ports.in_minus));
    if (meets_battery(ports.out_plus)) {
      if (at_.kind != Case::Kind::charge && at_.kind != Case::Kind::load_charge) return;
      const double pushed = converter.rating->in(amperes);
      add("ic{}_{} {} {} {:.17g}", number_, i, node(ports.out_minus), node(ports.out_plus), pushed);
      add("{} I = {:.17g}/{}", input, volt * pushed / efficiency, in);
      return;
    }
    const std::string output = fmt::format("vc{}_{}", number_, i);
    hold(ports.out_plus, ports.out_minus, volt, output);
    add("{} I = {:.17g}*(-i({}))/{}", input, volt / efficiency, output, in);
  }

  // What held voltages bring to plus above minus, through their chains.
  std::optional<double> voltage_across(NodeId plus, NodeId minus) const {
    std::map<Number, double> reached{{parts_(minus), 0.0}};
    for (bool more = true; more;) {
      more = false;
      for (const Held& held : held_)
        if (const auto from = reached.find(parts_(held.minus)); from != reached.end())
          more = reached.emplace(parts_(held.plus), from->second + held.volt).second || more;
    }
    const auto found = reached.find(parts_(plus));
    if (found == reached.end() || parts_(plus) == parts_(minus)) return std::nullopt;
    return found->second;
  }

  // The same of the load case in these ways, which another deck works out.
  double lowest_across(const TwoPole& ends) const {
    for (Number i = 0; i < task_.points.cases.size(); ++i)
      if (const Case& other = task_.points.cases[i];
          other.ways == at_.ways && other.kind == Case::Kind::load && !other.at_highest)
        return *CaseDeck(task_, i).voltage_across(ends.plus, ends.minus);
    throw std::logic_error("no load case beside " + at_.name);
  }

  // Its own, the converter's that alone feeds it, the system's.
  double rated_volt(const Load& load, NodeId plus) const {
    if (load.rated_voltage) return load.rated_voltage->in(volts);
    for (const ConverterPorts& ports : task_.circuit.converters)
      if (parts_(ports.out_plus) == parts_(plus) && !meets_battery(plus))
        return item(ports.item).as<Converter>()->out_voltage.in(volts);
    return task_.plan.system.voltages.front().in(volts);
  }

  double share(const Item& load, Number) const {
    const Load& as = *load.as<Load>();
    const bool is_starter = as.kind == Load::Kind::starter;
    if (at_.kind == Case::Kind::starter) return item(*at_.subject).id == load.id ? 1.0 : 0.0;
    if (is_starter) return 0.0;
    return in_full_.count(load.id) ? 1.0 : as.use_share;
  }

  void add_loads() {
    if (at_.subject && at_.kind != Case::Kind::starter) find_full();
    for (Number i = 0; i < task_.circuit.loads.size(); ++i) {
      const TwoPole& load = task_.circuit.loads[i];
      const Load& as = *item(load.item).as<Load>();
      const double part = share(item(load.item), i);
      const auto brought = voltage_across(load.plus, load.minus);
      if (part == 0.0 || !brought) continue;
      const double volt = rated_volt(as, load.plus);
      const double watt =
          (as.power ? as.power->in(watts) : as.current->in(amperes)*volt) / as.efficiency.value_or(1.0) * part;
      const std::string ends = fmt::format("{} {}", node(load.plus), node(load.minus));
      if (as.kind == Load::Kind::resistive)
        add("rl{}_{} {} {:.17g}", number_, i, ends, volt * volt / watt);
      else if (as.kind == Load::Kind::constant_current)
        add("il{}_{} {} {:.17g}", number_, i, ends, watt / volt);
      else  // below half of what is brought there is only the other root of P = V x I, which no load stands at
        add("bl{}_{} {} I = {:.17g}/max(v({},{}),{:.17g})", number_, i, ends, watt, node(load.plus), node(load.minus),
            0.5 * *brought);
    }
  }

  // The loads that are reached from the subject's far end without passing another device; from its output on through
  // converters that charge nothing.
  void find_full() {
    std::vector<bool> reached(task_.circuit.nodes.size(), false);
    const auto spread = [&](NodeId from) {
      std::vector<NodeId> front{from};
      reached[from.value] = true;
      while (!front.empty()) {
        const NodeId at = front.back();
        front.pop_back();
        for (const BranchId id : task_.circuit.at[at]) {
          if (branch(id).kind == BranchKind::device || !is_closed(id)) continue;
          const NodeId next = branch(id).a == at ? branch(id).b : branch(id).a;
          if (reached[next.value]) continue;
          reached[next.value] = true;
          front.push_back(next);
        }
      }
    };
    for (const BranchId id : task_.circuit.branches.ids())
      if (branch(id).item == at_.subject) spread(branch(id).b);
    for (const ConverterPorts& ports : task_.circuit.converters)
      if (reached[ports.in_plus.value] && !meets_battery(ports.out_plus)) spread(ports.out_plus);
    for (const TwoPole& load : task_.circuit.loads)
      if (reached[load.plus.value]) in_full_[item(load.item).id] = true;
  }

  void add_coils() {
    for (Number i = 0; i < task_.circuit.coils.size(); ++i) {
      const TwoPole& coil = task_.circuit.coils[i];
      const auto volt = voltage_across(coil.plus, coil.minus);
      const Relay& relay = *item(coil.item).as<Relay>();
      if (!volt || !relay.coil_power) continue;
      // Its resistance is that at the batteries' low voltage, in every case.
      const double low = at_.at_highest ? lowest_across(coil) : *volt;
      add("rk{}_{} {} {} {:.17g}", number_, i, node(coil.plus), node(coil.minus),
          low * low / relay.coil_power->in(watts));
    }
  }

  // One node of each component stands at 0; guesses follow the held voltages from there.
  void add_grounds() {
    std::map<Number, NodeId> ground;
    for (const Held& held : held_) ground.emplace(components_(held.minus), held.minus);
    for (const NodeId id : task_.circuit.nodes.ids()) ground.emplace(components_(id), id);
    for (const auto& [component, id] : ground) add("vg{}_{} {} 0 0", number_, id.value, node(id));
    for (const NodeId id : task_.circuit.nodes.ids())
      if (const auto volt = voltage_across(id, ground.at(components_(id))))
        guesses += fmt::format(".nodeset v({})={:.17g}\n", node(id), *volt);
  }

  const SpiceTask& task_;
  Number number_;
  const Case& at_;
  Joined parts_, components_;
  std::vector<Held> held_;
  std::map<std::string, bool> in_full_;
};

std::string without_wrapping(std::string name) {
  if (name.rfind("v(", 0) == 0) return name.substr(2, name.size() - 3);
  return name;
}

// The ascii raw file: names behind "Variables:", values behind "Values:".
SpiceValues read_raw(const std::string& file) {
  std::ifstream in(file);
  std::vector<std::string> names;
  SpiceValues values;
  std::string line;
  enum class Section { head, naming, figures } section = Section::head;
  while (std::getline(in, line)) {
    if (line.rfind("Variables:", 0) == 0) {
      section = Section::naming;
    } else if (line.rfind("Values:", 0) == 0) {
      section = Section::figures;
    } else if (section == Section::naming) {
      std::istringstream words(line);
      std::string number, name;
      words >> number >> name;
      names.push_back(without_wrapping(name));
    } else if (section == Section::figures) {
      std::istringstream words(line);
      std::string word, last;
      while (words >> word) last = word;
      if (!last.empty() && values.size() < names.size()) values[names[values.size()]] = std::stod(last);
    }
  }
  return values;
}

}  // namespace

std::vector<SpiceValues> run_spice(const std::vector<std::string>& decks, const std::string& scratch_file) {
  const auto deck_file = [&](std::size_t i) { return fmt::format("{}_{}.cir", scratch_file, i); };
  const auto raw_file = [&](std::size_t i) { return fmt::format("{}_{}.raw", scratch_file, i); };
  const std::string script = scratch_file + ".cir", log = scratch_file + ".log";
  std::string commands = "* all decks\n.control\nset numdgt=15\nset filetype=ascii\n";
  for (std::size_t i = 0; i < decks.size(); ++i) {
    std::ofstream(deck_file(i)) << "* deck\n"
                                << decks[i]
                                << ".options reltol=1e-9 vntol=1e-11 abstol=1e-7 gmin=1e-18 itl1=500\n.end\n";
    std::filesystem::remove(raw_file(i));
    commands += fmt::format("source {}\nop\nwrite {} all\ndestroy all\nremcirc\n", deck_file(i), raw_file(i));
  }
  std::ofstream(script) << commands << "quit\n.endc\n.end\n";
  const std::string command = "ngspice -b -n " + script + " > " + log + " 2>&1";
  // Its exit status says nothing of a solution; no raw file is none.
  if (std::system(command.c_str()) != 0) throw std::runtime_error("ngspice did not run: " + command);
  std::vector<SpiceValues> values;
  for (std::size_t i = 0; i < decks.size(); ++i) {
    values.push_back(read_raw(raw_file(i)));
    for (const std::string& file : {deck_file(i), raw_file(i)}) std::filesystem::remove(file);
  }
  for (const std::string& file : {script, log}) std::filesystem::remove(file);
  return values;
}

std::string spice_deck(const SpiceTask& task, std::size_t in_case) { return CaseDeck(task, in_case).elements; }

std::vector<SpiceCase> solve_with_spice(const SpiceTask& task, const std::string& scratch_file) {
  std::vector<CaseDeck> cases;
  std::vector<std::string> decks;
  for (Number i = 0; i < task.points.cases.size(); ++i) {
    cases.emplace_back(task, i);
    decks.push_back(cases.back().elements + cases.back().guesses);
  }
  const std::vector<SpiceValues> values = run_spice(decks, scratch_file);
  std::vector<SpiceCase> solved;
  for (Number i = 0; i < cases.size(); ++i) {
    if (values[i].empty()) throw std::runtime_error("ngspice found no solution of " + task.points.cases[i].name);
    solved.push_back(cases[i].read(values[i]));
  }
  return solved;
}

}  // namespace loomleaf::test
