#pragma once

#include <array>
#include <cstddef>
#include <tuple>
#include <type_traits>

// How the fields of the state are listed and visited, for the hash and for naming differences.
//
// Each struct of the state has one list, Fields<S>, in which every member stands beside its name:
//   template <> struct Fields<Padlock> {
//     using S = Padlock;
//     static constexpr auto list = std::tuple{field<&S::on>("on"), field<&S::tag>("tag"), ...};
//   };
// The list's order is the order of the visit, and so of the hash. A member that is left out or listed twice
// does not compile: a list holds as many different members as the struct can be initialised with.
//
// A visitor has: operator()(name, value) and operator()(name, value, index) for numbers, bools and
// enumerations; enter(name, index) and leave() round a struct inside, with the index `alone` when it is not
// in an array.
namespace stirbench::machine {

inline constexpr std::size_t alone = static_cast<std::size_t>(-1);

template <auto member>
struct Member {};

// A member under its name. An empty name: it goes by that of the struct that holds it.
template <auto member>
struct Field {
  using Key = Member<member>;
  const char* name = "";
};
template <auto member>
constexpr Field<member> field(const char* name) {
  return {name};
}

// An array of which only the first `count` count.
template <auto member, auto count>
struct CountedField {
  using Key = Member<member>;
  const char* name = "";
};
template <auto member, auto count>
constexpr CountedField<member, count> counted_field(const char* name) {
  return {name};
}

// A member that is not part of the visit; the list says why.
template <auto member>
struct UnseenField {
  using Key = Member<member>;
};
template <auto member>
constexpr UnseenField<member> unseen() {
  return {};
}

template <typename S>
struct Fields;  // each struct's own list

template <typename S>
concept HasFields = requires {
  Fields<S>::list;
};

namespace detail {

struct Anything {
  template <typename T>
  constexpr operator T() const;  // never defined: only asked whether it would fit
};

template <typename S, typename... Taken>
consteval std::size_t members_of() {
  if constexpr (requires { S{Taken{}..., Anything{}}; })
    return members_of<S, Taken..., Anything>();
  else
    return sizeof...(Taken);
}

// Deriving twice from the same Member does not compile.
template <typename... Each>
struct Different : Each... {};

template <typename... Each>
consteval std::size_t different(const std::tuple<Each...>&) {
  return sizeof(Different<typename Each::Key...>) > 0 ? sizeof...(Each) : 0;
}

template <typename T>
struct IsArray : std::false_type {};
template <typename T, std::size_t n>
struct IsArray<std::array<T, n>> : std::true_type {};

}  // namespace detail

// Whether the list of S holds every member of it, each once.
template <typename S>
inline constexpr bool lists_every_member = detail::different(Fields<S>::list) == detail::members_of<S>();

// Visits the fields of S, which may be const, in the order of its list.
template <typename V, typename S>
void visit(V& v, S& s);

template <typename V, typename T>
void visit_item(V& v, const char* name, T& item, std::size_t index) {
  if constexpr (HasFields<std::remove_const_t<T>>) {
    v.enter(name, index);
    visit(v, item);
    v.leave();
  } else if (index == alone) {
    v(name, item);
  } else {
    v(name, item, index);
  }
}

template <typename V, typename S, auto member>
void visit_field(V& v, S& s, const Field<member>& one) {
  auto& value = s.*member;
  if constexpr (detail::IsArray<std::remove_cvref_t<decltype(value)>>::value) {
    for (std::size_t i = 0; i < value.size(); ++i) visit_item(v, one.name, value[i], i);
  } else {
    visit_item(v, one.name, value, alone);
  }
}

template <typename V, typename S, auto member, auto count>
void visit_field(V& v, S& s, const CountedField<member, count>& one) {
  for (std::size_t i = 0; i < s.*count; ++i) visit_item(v, one.name, (s.*member)[i], i);
}

template <typename V, typename S, auto member>
void visit_field(V&, S&, const UnseenField<member>&) {}

template <typename V, typename S>
void visit(V& v, S& s) {
  using Plain = std::remove_const_t<S>;
  static_assert(lists_every_member<Plain>, "Fields<S>::list does not hold every member of S once");
  std::apply([&](const auto&... each) { (visit_field(v, s, each), ...); }, Fields<Plain>::list);
}

}  // namespace stirbench::machine
