// From items to pieces: which symbol, which terminals on which rail.
#include <algorithm>
#include <map>

#include "parts.h"

namespace loomleaf {
namespace {

constexpr std::size_t most_poles = 6;  // of one piece of a connector

class PieceMaker {
 public:
  explicit PieceMaker(FigureMaking& making) : making_(making) {
    making.end_of = IndexedList<TerminalOf, LineEnd>(making.plan.terminals.size());
  }

  void add(ItemId id) {
    id_ = id;
    item_ = &making_.plan.items[id];
    std::visit([&](const auto& data) { add_data(data); }, item_->data);
    for (TerminalId terminal : item_->terminals)
      if (role(terminal) == TerminalRole::also) {
        Piece piece = start(PieceForm::bar, "terminal");
        piece.short_name = terminal_text(making_.plan, terminal);
        piece.terminals = {port(terminal, "node")};
        finish(std::move(piece));
      }
  }

 private:
  TerminalRole role(TerminalId terminal) const { return making_.plan.terminals[terminal].role; }

  std::optional<TerminalId> find(TerminalRole wanted, int pole = 1, int way = 1) const {
    for (TerminalId id : item_->terminals) {
      const Terminal& terminal = making_.plan.terminals[id];
      if (terminal.role == wanted && terminal.pole == pole && terminal.way == way) return id;
    }
    return std::nullopt;
  }

  Piece start(PieceForm form, std::string symbol) const {
    Piece piece;
    piece.item = id_;
    piece.form = form;
    piece.symbol = std::move(symbol);
    piece.short_name = item_->id;
    piece.later = item_->later;
    return piece;
  }

  static PieceTerminal port(std::optional<TerminalId> terminal, std::string name,
                            TerminalSide side = TerminalSide::either, int row = 0, std::string mark = "") {
    return {terminal, std::move(name), std::move(mark), side, row};
  }

  void finish(Piece piece) {
    const PieceId id = making_.figure.pieces.end_id();
    for (std::size_t i = 0; i < piece.terminals.size(); ++i)
      if (piece.terminals[i].terminal) making_.end_of[*piece.terminals[i].terminal] = {id, i};
    making_.figure.pieces.add(std::move(piece));
  }

  void add_across(std::string symbol) {
    Piece piece = start(PieceForm::across, std::move(symbol));
    piece.terminals = {port(find(TerminalRole::plus), "+"),
                       port(find(TerminalRole::minus), "-", TerminalSide::either, 1)};
    finish(std::move(piece));
  }
  void add_along(std::string symbol) {
    Piece piece = start(PieceForm::along, std::move(symbol));
    piece.terminals = {port(find(TerminalRole::in), "in", TerminalSide::left),
                       port(find(TerminalRole::out), "out", TerminalSide::right)};
    finish(std::move(piece));
  }
  void add_through(std::string symbol) {
    Piece piece = start(PieceForm::through, std::move(symbol));
    piece.terminals = {port(find(TerminalRole::in_plus), "in+", TerminalSide::left),
                       port(find(TerminalRole::in_minus), "in-", TerminalSide::left, 1),
                       port(find(TerminalRole::out_plus), "out+", TerminalSide::right),
                       port(find(TerminalRole::out_minus), "out-", TerminalSide::right, 1)};
    finish(std::move(piece));
  }
  void add_bar(std::string symbol) {
    Piece piece = start(PieceForm::bar, std::move(symbol));
    piece.terminals = {port(find(TerminalRole::node), "node")};
    finish(std::move(piece));
  }

  void add_data(const Source& source) {
    static constexpr const char* symbols[] = {"battery", "charger", "solar", "alternator", "supply"};
    add_across(symbols[static_cast<std::size_t>(source.kind)]);
  }
  void add_data(const Load& load) {
    const std::string& symbol = making_.words.symbol_for(item_->description);
    const bool plain_motor =
        symbol == making_.words.otherwise && (load.kind == Load::Kind::motor || load.kind == Load::Kind::starter);
    add_across(plain_motor ? "motor" : symbol);
  }
  void add_data(const Device& device) { add_along(device.is_breaker ? "breaker" : "fuse"); }
  void add_data(const Shunt&) { add_along("shunt"); }
  void add_data(const Dimmer&) { add_through("dimmer"); }
  void add_data(const Converter& converter) { add_through(converter.isolated ? "converter-isolated" : "converter"); }
  void add_data(const Splice&) { add_bar("splice"); }
  void add_data(const Bus&) { add_bar("bus"); }
  void add_data(const Chassis&) { add_bar("chassis"); }
  void add_data(const Tail&) { add_bar("tail"); }

  void add_data(const Switch& data) {
    for (int pole = 1; pole <= data.poles; ++pole) {
      Piece piece = start(data.ways == 1 ? PieceForm::along : PieceForm::selector, "switch");
      if (data.poles > 1) piece.short_name += " pole " + std::to_string(pole);
      piece.terminals = {port(find(TerminalRole::in, pole), "in", TerminalSide::left)};
      for (int way = 1; way <= data.ways; ++way) {
        const std::string name = data.ways == 1 ? "out" : "out" + std::to_string(way);
        piece.terminals.push_back(port(find(TerminalRole::out, pole, way), name, TerminalSide::right, way - 1,
                                       data.ways == 1 ? "" : std::to_string(way)));
      }
      if (data.ways > 1) piece.symbol = "selector";
      finish(std::move(piece));
    }
  }

  // Coil and contact belong together by their name (IEC 61082), so that each can stand in its own circuit.
  void add_data(const Relay&) {
    Piece coil = start(PieceForm::across, "coil");
    std::optional<TerminalId> first = find(TerminalRole::coil_86), second = find(TerminalRole::coil_85);
    std::string first_mark = "86", second_mark = "85";
    for (const TwoPole& joined : making_.circuit.coils)
      if (joined.item == id_ && first && joined.plus != making_.circuit.node_of[*first]) {
        std::swap(first, second);
        std::swap(first_mark, second_mark);
      }
    coil.short_name += " coil";
    coil.terminals = {port(first, "+", TerminalSide::either, 0, first_mark),
                      port(second, "-", TerminalSide::either, 1, second_mark)};
    finish(std::move(coil));
    Piece contact = start(PieceForm::selector, "selector");
    contact.terminals = {port(find(TerminalRole::common_30), "in", TerminalSide::left, 0, "30"),
                         port(find(TerminalRole::make_87), "out1", TerminalSide::right, 0, "87"),
                         port(find(TerminalRole::break_87a), "out2", TerminalSide::right, 1, "87a")};
    finish(std::move(contact));
  }

  // Poles that serve the same circuit next to each other are one piece; poles that nothing joins are drawn once, alone.
  void add_data(const Connector& data) {
    std::vector<int> used;
    for (int pole = 1; pole <= data.poles; ++pole)
      if (is_joined(find(TerminalRole::in, pole)) || is_joined(find(TerminalRole::out, pole))) used.push_back(pole);
    if (used.empty()) used.push_back(1);
    for (std::size_t first = 0; first < used.size();) {
      std::size_t end = first + 1;
      while (end < used.size() && end - first < most_poles &&
             circuit_of_pole(used[end]) == circuit_of_pole(used[first]))
        ++end;
      Piece piece = start(PieceForm::along, "connector");
      if (data.poles > 1) {
        piece.short_name += (end - first == 1 ? " pole " : " poles ") + std::to_string(used[first]);
        if (end - first > 1)
          piece.short_name += (used[end - 1] - used[first] == static_cast<int>(end - first) - 1 ? "-" : "..") +
                              std::to_string(used[end - 1]);
      }
      for (std::size_t k = first; k < end; ++k) {
        const int row = static_cast<int>(k - first);
        const std::string mark = data.poles > 1 ? std::to_string(used[k]) : "";
        piece.terminals.push_back(port(find(TerminalRole::in, used[k]), "in", TerminalSide::left, row, mark));
        piece.terminals.push_back(port(find(TerminalRole::out, used[k]), "out", TerminalSide::right, row, mark));
      }
      finish(std::move(piece));
      first = end;
    }
  }

  bool is_joined(std::optional<TerminalId> terminal) const { return terminal && joined_[*terminal]; }

  std::size_t circuit_of_pole(int pole) const {
    const auto in = find(TerminalRole::in, pole), out = find(TerminalRole::out, pole);
    for (const auto& terminal : {in, out})
      if (terminal && serves_[*terminal] > 0) return serves_[*terminal];
    return 0;
  }

  IndexedList<TerminalOf, bool> find_joined() const {
    IndexedList<TerminalOf, bool> joined(making_.plan.terminals.size(), false);
    for (const Conductor& conductor : making_.plan.conductors) joined[conductor.from] = joined[conductor.to] = true;
    for (const Item& item : making_.plan.items) {
      if (item.on) joined[*item.on] = true;
      if (item.on_terminal) joined[*item.on_terminal] = true;
    }
    return joined;
  }
  IndexedList<TerminalOf, std::size_t> find_served() const {
    IndexedList<TerminalOf, std::size_t> serves(making_.plan.terminals.size(), std::size_t{0});
    for (ConductorId id : making_.plan.conductors.ids()) {
      const Conductor& conductor = making_.plan.conductors[id];
      for (TerminalId terminal : {conductor.from, conductor.to})
        if (serves[terminal] == 0) serves[terminal] = making_.circuit_of[id];
    }
    return serves;
  }

  FigureMaking& making_;
  ItemId id_;
  const Item* item_ = nullptr;
  IndexedList<TerminalOf, bool> joined_ = find_joined();
  IndexedList<TerminalOf, std::size_t> serves_ = find_served();
};

}  // namespace

void make_pieces(FigureMaking& making) {
  std::vector<ItemId> items;
  for (ItemId id : making.plan.items.ids()) items.push_back(id);
  std::sort(items.begin(), items.end(),
            [&](ItemId a, ItemId b) { return natural_less(making.plan.items[a].id, making.plan.items[b].id); });
  PieceMaker maker(making);
  for (ItemId id : items) maker.add(id);
}

}  // namespace loomleaf
