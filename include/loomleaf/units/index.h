// Typed positions in a list: the number of an item cannot be passed where the number of a node is meant.
#pragma once

#include <compare>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <vector>

namespace loomleaf {

template <class Of>
struct Index {
  std::uint32_t value = 0;
  constexpr Index() = default;
  constexpr explicit Index(std::size_t position) : value(static_cast<std::uint32_t>(position)) {}
  constexpr auto operator<=>(const Index&) const = default;
};

// A list that is read by its own kind of index alone.
template <class Of, class T>
class IndexedList {
 public:
  using Id = Index<Of>;
  IndexedList() = default;
  explicit IndexedList(std::size_t count, const T& value = T{}) : values_(count, value) {}

  Id add(T value) {
    values_.push_back(std::move(value));
    return Id(values_.size() - 1);
  }
  decltype(auto) operator[](Id id) { return values_[id.value]; }
  decltype(auto) operator[](Id id) const { return values_[id.value]; }
  std::size_t size() const { return values_.size(); }
  bool empty() const { return values_.empty(); }
  Id end_id() const { return Id(values_.size()); }
  auto begin() { return values_.begin(); }
  auto end() { return values_.end(); }
  auto begin() const { return values_.begin(); }
  auto end() const { return values_.end(); }

  // All indices in order: for (ItemId id : plan.items.ids()) ...
  class Ids {
   public:
    struct Step {
      std::size_t at;
      Id operator*() const { return Id(at); }
      Step& operator++() { ++at; return *this; }
      bool operator!=(const Step& other) const { return at != other.at; }
    };
    explicit Ids(std::size_t count) : count_(count) {}
    Step begin() const { return {0}; }
    Step end() const { return {count_}; }

   private:
    std::size_t count_;
  };
  Ids ids() const { return Ids(values_.size()); }

 private:
  std::vector<T> values_;
};

}  // namespace loomleaf

template <class Of>
struct std::hash<loomleaf::Index<Of>> {
  std::size_t operator()(loomleaf::Index<Of> id) const noexcept { return id.value; }
};
