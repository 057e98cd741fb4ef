#include "protection/support/random_plan.h"

namespace loomleaf::test {
namespace {

class RandomPlan {
 public:
  explicit RandomPlan(unsigned seed) : random_(seed) {}

  TestPlan build() {
    feeds_ = buses("P", number(2, 4));
    backs_ = buses("N", number(1, 3));
    const int batteries = number(0, 2), limited = number(batteries == 0 ? 1 : 0, 2);
    int can_be_cut = limited;
    for (int i = 0; i < batteries; ++i) pole(built_.plan.items[built_.battery("BAT" + text(i), 12)].id);
    for (int i = 0; i < limited; ++i) pole(built_.plan.items[built_.limited("SUN" + text(i), rating(), 12)].id);
    if (chance(15)) {
      built_.battery("TOP", 12);  // in series on whatever it meets
      wire("TOP-", any(feeds_));
      wire("TOP+", any(feeds_));
    }
    for (int i = number(0, 1); i > 0; --i) {
      built_.converter("DC" + text(i), rating(), 12, chance(50));
      wire("DC" + text(i) + ".in+", any(feeds_));
      wire("DC" + text(i) + ".in-", any(backs_));
      wire("DC" + text(i) + ".out+", chance(50) ? any(feeds_) : buses("Q" + text(i), 1).front());
      wire("DC" + text(i) + ".out-", any(backs_));
      ++can_be_cut;
    }
    for (int i = number(1, 8 - can_be_cut); i > 0; --i) fuse("F" + text(i));
    for (int i = number(0, 3); i > 0; --i) wire(any(feeds_), any(feeds_));
    for (int i = number(1, 3); i > 0; --i) wire(any(backs_), any(backs_));
    if (chance(20)) contact();
    if (chance(20)) changeover();
    for (int i = number(1, 4); i > 0; --i) {
      const Load::Kind kinds[] = {Load::Kind::electronic, Load::Kind::electronic, Load::Kind::motor,
                                  Load::Kind::resistive, Load::Kind::starter};
      built_.load("L" + text(i), kinds[number(0, 4)]);
      pole("L" + text(i));
    }
    if (chance(4)) wire(any(feeds_), any(backs_));  // a short
    return std::move(built_);
  }

 private:
  using Names = std::vector<std::string>;

  int number(int least, int most) {
    return least + static_cast<int>(random_() % static_cast<unsigned>(most - least + 1));
  }
  bool chance(int percent) { return number(1, 100) <= percent; }
  double rating() {
    const double ratings[] = {1, 2, 3, 5, 7.5, 10, 0.1, 0.2, 0.3};
    return ratings[number(0, 8)];
  }
  const std::string& any(const Names& of) {
    return of[static_cast<std::size_t>(number(0, static_cast<int>(of.size()) - 1))];
  }
  static std::string text(int i) { return std::to_string(i); }

  Names buses(const std::string& stem, int count) {
    Names made;
    for (int i = 0; i < count; ++i) {
      made.push_back(stem + text(i));
      built_.bus(made.back());
    }
    return made;
  }

  void wire(const std::string& from, const std::string& to) {
    if (built_.terminal(from) == built_.terminal(to)) return;
    const double may_carry = rating() * 2, length = number(1, 6) * 0.1 + wires_ * 0.0001;  // no two alike
    const bool turned = chance(50);
    built_.wire("W" + text(++wires_), turned ? to : from, turned ? from : to, may_carry, length, chance(50));
  }

  // + and - of a source or load, seldom the wrong way round.
  void pole(const std::string& id) {
    const bool crossed = chance(6);
    wire(id + (crossed ? "-" : "+"), any(feeds_));
    wire(id + (crossed ? "+" : "-"), any(backs_));
  }

  void fuse(const std::string& id) {
    built_.fuse(id, rating());
    const Names& side = chance(85) ? feeds_ : backs_;
    const std::string to = any(side);
    if (chance(50))
      built_.on(id, any(side));
    else
      wire(any(side), id + ".in");
    wire(id + ".out", to);
  }

  void contact() {
    built_.isolator("S");
    wire(any(feeds_), "S.in");
    wire("S.out", any(feeds_));
  }

  void changeover() {
    built_.changeover("C", 2, wires_ % 2 == 0);
    const Names& side = chance(80) ? feeds_ : backs_;
    wire("C.in", any(side));
    wire("C.out1", any(side));
    wire("C.out2", any(side));
  }

  std::mt19937 random_;
  TestPlan built_;
  Names feeds_, backs_;
  int wires_ = 0;
};

}  // namespace

TestPlan random_plan(unsigned seed) { return RandomPlan(seed).build(); }

}  // namespace loomleaf::test
