// No short circuit draws more than all supplies together can give, whatever they share.
#include <gtest/gtest.h>

#include <cmath>
#include <random>
#include <sstream>

#include "short_circuit/support/shorted.h"

namespace loomleaf::test {
namespace {

// Two batteries' buses of either pole, on which batteries, limited sources and converters stand with both poles, on top
// of each other, with a minus of their own, or with none.
class MixedPlan {
 public:
  explicit MixedPlan(unsigned seed) : random_(seed) {
    plan_ << "system 12 V, 24 V rules rv\n";
    for (const char* bus : {"P0", "P1", "N0", "N1", "M0"}) plan_ << "bus " << bus << "\n";
    for (int i = pick(1, 2); i > 0; --i) battery("B" + std::to_string(i));
    for (int i = pick(1, 3); i > 0; --i) limited("S" + std::to_string(i));
    if (pick(0, 2) == 0) converter();
    if (pick(0, 1) == 0) wire("P0", "P1", "red");
    if (pick(0, 1) == 0) wire("N0", "N1", "black");
    for (int i = 0; i < 4; ++i) {
      const std::string n = std::to_string(i);
      plan_ << "fuse C" << n << " 10 A blade on " << any({"P0", "P1", "M0"}) << "\nload L" << n << " 5 W 12 V\n";
      wire("C" + n, "L" + n + "+", "red");
      if (pick(0, 2) == 0) {
        plan_ << "fuse R" << n << " 10 A blade\n";
        wire("L" + n + "-", "R" + n, "black");
        wire("R" + n, any({"N0", "N1"}), "black");
      } else {
        wire("L" + n + "-", any({"N0", "N1"}), "black");
      }
    }
  }

  std::string text() const { return plan_.str(); }
  double gives_A() const { return gives_A_; }

 private:
  int pick(int least, int most) { return least + static_cast<int>(random_() % unsigned(most - least + 1)); }
  std::string any(const std::vector<std::string>& of) { return of[random_() % of.size()]; }

  void wire(const std::string& from, const std::string& to, const std::string& colour) {
    plan_ << "wire W" << ++wires_ << " " << from << " to " << to << " 6 AWG " << colour << " " << pick(1, 30)
          << "00 mm\n";
  }

  void poles(const std::string& id, const std::string& plus, const std::string& minus) {
    if (pick(0, 2) > 0) {
      plan_ << "fuse F" << id << " 60 A class-t on " << id << plus << "\n";
      wire("F" + id, any({"P0", "P1", "M0"}), "red");
    } else {
      wire(id + plus, any({"P0", "P1"}), "red");
    }
    const int where = pick(0, 5);  // now and then nowhere, or on top of another
    if (where > 0) wire(id + minus, where == 1 ? "M0" : any({"N0", "N1"}), "black");
  }

  void battery(const std::string& id) {
    const int gives = pick(5, 20) * 100;
    plan_ << "source " << id << " 12.8 V low 12.2 V 100 Ah max 100 A short-circuit " << gives << " A\n";
    gives_A_ += gives;
    poles(id, "+", "-");
  }

  void limited(const std::string& id) {
    const int limit = pick(5, 60);
    plan_ << "source " << id << " " << any({"charger", "solar", "alternator", "supply"}) << " 14.4 V limit " << limit
          << " A\n";
    gives_A_ += limit;
    poles(id, "+", "-");
  }

  void converter() {
    plan_ << "converter D in 12 V out 12 V 30 A isolated\n";
    gives_A_ += 30;
    wire(any({"P0", "P1"}), "D.in+", "red");
    wire("D.in-", any({"N0", "N1"}), "black");
    poles("D", ".out+", ".out-");
  }

  std::mt19937 random_;
  std::ostringstream plan_;
  double gives_A_ = 0.0;
  int wires_ = 0;
};

TEST(Bounded, NoDeviceHasToBreakMoreThanAllSuppliesTogetherGive) {
  std::size_t known = 0, beside = 0;
  for (unsigned seed = 1; seed <= 300; ++seed) {
    const MixedPlan mixed(seed);
    const Shorted plan(mixed.text());
    for (const Item& item : plan.seen.plan.items) {
      if (!item.is<Device>()) continue;
      const double ampere = plan.prospective(item.id);
      if (std::isnan(ampere)) continue;
      ++known;
      beside += ampere > 500.0;
      ASSERT_LE(ampere, mixed.gives_A() * (1.0 + 1e-6)) << item.id << " of\n" << mixed.text();
    }
  }
  EXPECT_GT(known, 500u);
  EXPECT_GT(beside, 200u);  // fed by a battery too
}

TEST(Bounded, NoShortAtAFarEndDrawsMore) {
  std::size_t known = 0;
  for (unsigned seed = 1; seed <= 300; ++seed) {
    const MixedPlan mixed(seed);
    const Shorted plan(mixed.text());
    for (const Conductor& conductor : plan.seen.plan.conductors) {
      const double ampere = plan.at_far_end(conductor.id);
      if (std::isnan(ampere)) continue;
      ++known;
      ASSERT_LE(ampere, mixed.gives_A() * (1.0 + 1e-6)) << conductor.id << " of\n" << mixed.text();
    }
  }
  EXPECT_GT(known, 1000u);
}

}  // namespace
}  // namespace loomleaf::test
