// What the files may say beside a figure or a requirement: its weight, a careful value, a
// keeper's word. Each is asked for here alone, so that a file format which has no such key yet
// answers as one that leaves it out.
#pragma once

#include <optional>
#include <string>
#include <type_traits>

#include "engine/brief/assumptions.h"
#include "engine/species/doubt.h"

namespace hummock {

// A `should` row never changes the exit status.
template <class Row>
bool must_be_met(const Row& row) {
  if constexpr (requires { row.weight; }) {
    return row.weight == decltype(row.weight)::must;
  } else {
    return true;
  }
}

// A keeper's word for `key`, in the species file or in the site file (`Given` is either).
template <class Given>
void take_confirmation(const Given& given, const std::string& key, Assumption& into) {
  if constexpr (requires { given.confirmations; }) {
    for (const auto& word : given.confirmations) {
      if (word.what != key) continue;
      into.confirmed_by = word.by;
      into.confirmed_on = word.on;
    }
  }
}

// The same of both files of a site, for the assumption's own key.
template <class Site>
void take_confirmations(const Site& site, Assumption& into) {
  take_confirmation(site.species, into.key, into);
  take_confirmation(site, into.key, into);
}

// Two of which one being so is enough for the verdict.
inline Assumption either_of(const Assumption& a, const Assumption& b) {
  Assumption out;
  out.key = a.key + "+" + b.key;
  out.words = a.words + ", or " + b.words;
  out.used_value = a.used_value + ", " + b.used_value;
  out.careful_value = a.careful_value + ", " + b.careful_value;
  const Assumption& sure = a.confirmed() ? a : b;
  out.confirmed_by = sure.confirmed_by;
  out.confirmed_on = sure.confirmed_on;
  return out;
}

}  // namespace hummock
