/// All elements of one law, side by side: one indirect call a law, not one an element.
#pragma once

#include <array>
#include <cstddef>
#include <memory>
#include <span>
#include <vector>

#include "network/law.hpp"
#include "numeric/pattern.hpp"

namespace tideover::network {

class ElementGroup {
 public:
  virtual ~ElementGroup() = default;
  [[nodiscard]] virtual std::unique_ptr<ElementGroup> clone() const = 0;
  [[nodiscard]] virtual int count() const = 0;

  /// `y` and `f` have one slot more than there are unknowns: the reference node's, y = 0.
  virtual void add_rates(const double* y, double* f) const = 0;
  virtual void add_jacobian(const double* y, double* f, double* entries) const = 0;
  virtual void add_pattern(numeric::PatternMaker& maker) const = 0;
  /// Looks up the places of the Jacobian's entries.
  virtual void place(const numeric::Pattern& pattern) = 0;
  /// Turns node and state numbers into indices of unknowns; the reference becomes `trash`.
  virtual void number(int node_count, int trash) = 0;

  virtual void ledgers(const double* y, std::span<Ledger> out) const = 0;
  [[nodiscard]] virtual double stored(const double* y) const = 0;
};

/// Elements whose law is `L`.
template <Law L>
class ElementsOf final : public ElementGroup {
 public:
  static constexpr int width = L::ports + L::states;

  struct Item {
    L law;
    std::array<int, static_cast<std::size_t>(width)> unknown{};  ///< nodes, then states
    std::array<int, static_cast<std::size_t>(width* width)> entry{};
  };

  [[nodiscard]] std::unique_ptr<ElementGroup> clone() const override {
    return std::make_unique<ElementsOf>(*this);
  }
  [[nodiscard]] int count() const override { return static_cast<int>(items.size()); }

  void add_rates(const double* y, double* f) const override {
    for (const Item& item : items) {
      std::array<double, padded> in{};
      std::array<double, padded> out{};
      gather(item, y, in);
      item.law.equations(in.data(), in.data() + L::ports, out.data(), out.data() + L::ports);
      scatter(item, out, f);
    }
  }

  void add_jacobian(const double* y, double* f, double* entries) const override {
    using Number = numeric::Dual<width>;
    for (const Item& item : items) {
      std::array<Number, padded> in{};
      std::array<Number, padded> out{};
      for (std::size_t k = 0; k < item.unknown.size(); ++k) {
        in[k] = Number::input(y[item.unknown[k]], static_cast<int>(k));
      }
      item.law.equations(in.data(), in.data() + L::ports, out.data(), out.data() + L::ports);
      for (std::size_t row = 0; row < item.unknown.size(); ++row) {
        const double sign = row < L::ports ? -1.0 : 1.0;
        f[item.unknown[row]] += sign * out[row].value;
        const int* place = item.entry.data() + row * item.unknown.size();
        for (std::size_t k = 0; k < item.unknown.size(); ++k) {
          entries[place[k]] += sign * out[row].slope[k];
        }
      }
    }
  }

  void number(int node_count, int trash) override {
    for (Item& item : items) {
      for (std::size_t k = 0; k < item.unknown.size(); ++k) {
        int& u = item.unknown[k];
        u = k < L::ports ? (u < 0 ? trash : u) : node_count + u;
      }
    }
  }
  void add_pattern(numeric::PatternMaker& maker) const override {
    for (const Item& item : items) {
      for (const int row : item.unknown) {
        for (const int column : item.unknown) maker.add(row, column);
      }
    }
  }
  void place(const numeric::Pattern& pattern) override {
    for (Item& item : items) {
      std::size_t k = 0;
      for (const int row : item.unknown) {
        for (const int column : item.unknown) item.entry[k++] = pattern.find(row, column);
      }
    }
  }

  void ledgers(const double* y, std::span<Ledger> out) const override {
    for (std::size_t i = 0; i < items.size(); ++i) {
      std::array<double, padded> in{};
      gather(items[i], y, in);
      items[i].law.ledger(in.data(), in.data() + L::ports, out[i]);
    }
  }
  [[nodiscard]] double stored(const double* y) const override {
    double sum = 0.0;
    for (const Item& item : items) {
      std::array<double, padded> in{};
      gather(item, y, in);
      sum += stored_energy(item.law, in.data() + L::ports);
    }
    return sum;
  }

  std::vector<Item> items;

 private:
  static constexpr std::size_t padded = static_cast<std::size_t>(width == 0 ? 1 : width + 1);

  static void gather(const Item& item, const double* y, std::array<double, padded>& in) {
    for (std::size_t k = 0; k < item.unknown.size(); ++k) in[k] = y[item.unknown[k]];
  }
  static void scatter(const Item& item, const std::array<double, padded>& out, double* f) {
    for (std::size_t k = 0; k < item.unknown.size(); ++k) {
      f[item.unknown[k]] += k < L::ports ? -out[k] : out[k];
    }
  }
};

}  // namespace tideover::network
