#include <algorithm>
#include <array>
#include <set>

#include "app/library/loading.h"
#include "app/library/tables.h"

// Diagrams: content/diagrams/ID.json, and whether they show all of the circuits that they draw.
namespace stirbench::library {

namespace {

namespace w = electrics;

constexpr std::array<std::string_view, static_cast<std::size_t>(SymbolForm::count)> forms = {
    "terminals", "contacts", "coil", "element", "motor", "fan", "transformer", "box", "sensor", "earth"};

Shape<SymbolForm> form() {
  std::vector<std::pair<std::string, SymbolForm>> words;
  for (std::size_t i = 0; i < forms.size(); ++i)
    words.emplace_back(std::string(forms[i]), static_cast<SymbolForm>(i));
  return choice<SymbolForm>(std::move(words));
}

constexpr double most = 200.0;

Shape<DiagramSymbol> symbol() {
  using Pin = DiagramPin;
  Object<Pin> pin;
  pin.need("terminal", &Pin::terminal, text(1, 4), "Terminal of the part.")
      .need("x", &Pin::x, number(0.0, most, ""), "Steps from the left.")
      .need("y", &Pin::y, number(0.0, most, ""), "Steps from the top.");
  using S = DiagramSymbol;
  Object<S> t;
  t.need("part", &S::part, text(2, 6), "Letter and number of a part of the circuit.")
      .need("form", &S::form, form(), "How it is drawn.")
      .need("pins", &S::pins, list(pin.shape(), 1, 40),
            "Its terminals; of contacts in pairs, upper and lower end.")
      .check([](Reader& reader, const S& one) {
        if (one.form == SymbolForm::contacts && one.pins.size() % 2 != 0)
          reader.problem("pins in pairs for contacts", std::to_string(one.pins.size()), "/pins");
      });
  return t.shape();
}

Shape<DiagramSheet> sheet() {
  using Bar = DiagramBar;
  Object<Bar> bar;
  bar.need("terminal", &Bar::terminal, text(3, 14), "Part and terminal: X3.1.")
      .need("x", &Bar::x, number(0.0, most, ""), "Left end.")
      .need("to", &Bar::to, number(0.0, most, ""), "Right end.")
      .need("y", &Bar::y, number(0.0, most, ""), "Steps from the top.");
  using Turn = DiagramTurn;
  Object<Turn> turn;
  turn.need("wire", &Turn::wire, whole(1, 9999), "Number of the wire.")
      .need("y", &Turn::y, number(0.0, most, ""), "Where it runs across.");
  using S = DiagramSheet;
  Object<S> t;
  t.need("id", &S::id, slug(), "Unique in its file.")
      .need("title", &S::title, text(2, 60), "Name shown to people.")
      .need("width", &S::width, number(10.0, most, ""), "Steps of the grid.")
      .need("height", &S::height, number(10.0, most, ""), "Steps of the grid.")
      .need("symbols", &S::symbols, list(symbol(), 1, 100),
            "The parts, or those of their contacts that belong here.")
      .need("bars", &S::bars, list(bar.shape(), 0, 20), "Terminals drawn as bars.")
      .need("turns", &S::turns, list(turn.shape(), 0, 60), "Wires that do not run across halfway.");
  return t.shape();
}

// Names of all terminals that a sheet shows; what it shows that the circuit does not have is a problem.
std::set<std::string> shown_on(Loading& loading, const SourceText& source, const DiagramSheet& one,
                               std::size_t index, const w::Network& network) {
  std::set<std::string> out;
  const std::string here = "/sheets/" + std::to_string(index);
  const auto take = [&](const std::string& name, const std::string& where) {
    if (network.terminal(name) < 0)
      loading.problem(source.shown, here + where, "a terminal of the circuit", in_quotes(name));
    out.insert(name);
  };
  for (std::size_t i = 0; i < one.symbols.size(); ++i) {
    for (const DiagramPin& pin : one.symbols[i].pins)
      take(one.symbols[i].part + "." + pin.terminal, "/symbols/" + std::to_string(i));
  }
  for (std::size_t i = 0; i < one.bars.size(); ++i) take(one.bars[i].terminal, "/bars/" + std::to_string(i));
  return out;
}

// Each wire has to be drawn somewhere.
void judge_diagram(Loading& loading, const SourceText& source, const DiagramFile& file,
                   const w::Network& network) {
  std::vector<std::set<std::string>> shown;
  for (std::size_t i = 0; i < file.sheets.size(); ++i)
    shown.push_back(shown_on(loading, source, file.sheets[i], i, network));
  for (const w::Wire& wire : network.wires) {
    const bool drawn = std::any_of(shown.begin(), shown.end(), [&](const auto& sheet) {
      return sheet.contains(wire.from) && sheet.contains(wire.to);
    });
    if (!drawn)
      loading.problem(source.shown, "/sheets",
                      "wire " + std::to_string(wire.number) + " with both ends on one sheet",
                      wire.from + " and " + wire.to + " apart");
  }
}

}  // namespace

std::string_view symbol_form_word(SymbolForm form) { return forms[static_cast<std::size_t>(form)]; }

const Object<DiagramFile>& diagram_table() {
  static const Object<DiagramFile> table = [] {
    using S = DiagramFile;
    Object<S> t;
    t.format(1)
        .need("id", &S::id, slug(), "The file's name without .json.")
        .need("machines", &S::machines,
              list(one_of("a known machine", [](const Names& names) { return names.machines; }), 1, 20, true),
              "Whose circuits it draws.")
        .may("note", &S::note, text(0, 400), "For people.")
        .need("sheets", &S::sheets, list(sheet(), 1, 20), "What is drawn where.");
    return t;
  }();
  return table;
}

void load_diagrams(Loading& loading) {
  const bool sound = loading.problems.empty();
  for (const SourceText& source : json_files(loading, loading.content_dir + "/diagrams", "diagrams")) {
    DiagramFile one;
    // A circuit that could not be read would be missed by everything that is drawn of it.
    if (!sound || !read_text(loading, diagram_table(), source, one)) continue;
    if (one.id != source.stem)
      loading.problem(source.shown, "/id", "the file's name (" + in_quotes(source.stem) + ")",
                      in_quotes(one.id));
    for (const std::string& id : one.machines) {
      const auto machine = loading.library.machines.find(id);
      if (machine == loading.library.machines.end() || machine->second.circuit.empty()) continue;
      judge_diagram(loading, source, one, machine->second.circuit);
      loading.library.diagrams[id] = one.sheets;
    }
  }
}

}  // namespace stirbench::library
