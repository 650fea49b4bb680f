#include "app/reports/guide_card.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace stirbench::reports {

namespace {

using namespace diagnosis;

constexpr PaperStyle heading{13.0, true, 0.0};
constexpr PaperStyle strong{10.0, true, 0.05};
constexpr PaperStyle card_body{9.5, false, 0.1};
constexpr PaperStyle card_quiet{8.5, false, 0.35};

std::string whole(double x) { return std::to_string(std::lround(x)); }
std::string minutes(double x) {
  return (x < 9.95
              ? std::to_string(std::lround(10.0 * x) / 10) + "." + std::to_string(std::lround(10.0 * x) % 10)
              : whole(x)) +
         " min";
}
std::string chance_words(double p) { return p < 0.01 ? "below 1 %" : whole(100.0 * p) + " %"; }

class Card {
 public:
  Card(const GuideCard& card, Sheet sheet)
      : c_(card),
        paper_(sheet, false, card.machine_title + ": " + card.symptom),
        wide_(paper_.width() - 2.0 * left) {
    for (std::size_t i = 0; i < c_.tree.nodes.size(); ++i) {
      if (c_.tree.nodes[i].unusual)
        numbers_.push_back(0);
      else
        numbers_.push_back(c_.tree.nodes[i].question == Model::npos ? end_number(i) : ++steps_);
    }
  }

  std::string make() {
    add(c_.machine_title + " · fault-finding card", card_quiet);
    y_ += 2.0;
    add(c_.symptom, {20.0, true, 0.0});
    add("For: " + c_.who + ". " + whole(c_.tree.expected_min) +
            " min on average to a working machine, parts counted by their price; no tree with these checks "
            "is under " +
            whole(c_.tree.at_least_min) + " min.",
        card_quiet);
    y_ += 8.0;
    cautions();
    y_ += 8.0;
    add("Begin with step 1. Do what it says, then go where your answer leads.", strong);
    y_ += 6.0;
    for (std::size_t i = 0; i < c_.tree.nodes.size(); ++i) {
      if (c_.tree.nodes[i].question != Model::npos) step(i);
    }
    room(160.0);  // not without an end under it
    add("Ends", heading);
    y_ += 4.0;
    for (std::size_t e = 0; e < ends_.size(); ++e) end(e);
    foot();
    return paper_.bytes();
  }

 private:
  static constexpr double left = 48.0;
  static constexpr double bottom = 60.0;
  static constexpr double pad = 6.0;
  struct Line {
    std::string words;
    PaperStyle style;
    double indent = 0.0;
  };

  void add(const std::string& words, const PaperStyle& style) {
    y_ += paper_.text(left, y_, words, style, wide_) + 1.0;
  }

  void room(double height) {
    if (y_ + height <= paper_.height() - bottom) return;
    foot();
    paper_.next_page();
    ++page_;
    y_ = left;
  }

  void foot() {
    paper_.text(left, paper_.height() - 44.0,
                "Local codes, the maker's manual and the site's rules come first. Electrical and refrigerant "
                "work is for licensed people. Likelihoods come "
                "from simulated machines. Page " +
                    std::to_string(page_),
                {7.5, false, 0.35}, wide_);
  }

  // Lines in one frame, kept together.
  void block(const std::vector<Line>& lines) {
    double height = 2.0 * pad;
    for (const Line& one : lines)
      height += paper_.text_height(one.words, one.style, wide_ - 2.0 * pad - one.indent) + 1.5;
    room(height + 6.0);
    paper_.frame(left, y_, wide_, height);
    double y = y_ + pad;
    for (const Line& one : lines)
      y +=
          paper_.text(left + pad + one.indent, y, one.words, one.style, wide_ - 2.0 * pad - one.indent) + 1.5;
    y_ += height + 6.0;
  }

  void cautions() {
    std::vector<std::string> keys;
    const auto note = [&](const std::string& key) {
      if (std::find(keys.begin(), keys.end(), key) == keys.end()) keys.push_back(key);
    };
    for (const TreeNode& node : c_.tree.nodes) {
      if (node.question != Model::npos)
        for (const std::string& key : c_.model.check(node.question).cautions) note(key);
      for (const RepairAdvice& one : node.repairs) {
        if (one.before_call)
          for (const std::string& key : c_.model.causes[one.cause].cautions) note(key);
      }
    }
    note("local_rules");
    std::vector<Line> lines = {{"Cautions: read them before you begin", strong}};
    for (const std::string& key : keys) {
      const auto found = c_.cautions.find(key);
      if (found != c_.cautions.end())
        lines.push_back({found->second.text + " (sign " + found->second.sign + ")", card_body, 0.0});
    }
    block(lines);
  }

  // What an end says to do: its repairs in order as far as they pay, three at the most.
  std::vector<std::size_t> repairs_of(const TreeNode& node) const {
    std::vector<std::size_t> out;
    for (std::size_t i = 0; i < node.repairs.size() && i < 3; ++i) {
      if (!node.repairs[i].before_call || (i > 0 && node.repairs[i].p < 0.02)) break;
      out.push_back(node.repairs[i].cause);
    }
    return out;
  }

  // Ends that say the same are one.
  int end_number(std::size_t index) {
    const TreeNode& node = c_.tree.nodes[index];
    const std::vector<std::size_t> causes = repairs_of(node);
    auto found =
        std::find_if(ends_.begin(), ends_.end(), [&](const End& one) { return one.causes == causes; });
    if (found == ends_.end())
      found = ends_.insert(ends_.end(), End{causes, std::vector<double>(causes.size(), 1.0),
                                            std::vector<double>(causes.size(), 0.0)});
    for (std::size_t i = 0; i < causes.size(); ++i) {
      found->least_p[i] = std::min(found->least_p[i], node.repairs[i].p);
      found->most_p[i] = std::max(found->most_p[i], node.repairs[i].p);
    }
    return static_cast<int>(found - ends_.begin()) + 1;
  }

  std::string leads_to(std::size_t node) const {
    if (c_.tree.nodes[node].unusual)
      return "does not fit what was said: ask the guide with all answers, or call service";
    return c_.tree.nodes[node].question == Model::npos ? "end " + std::to_string(numbers_[node])
                                                       : "step " + std::to_string(numbers_[node]);
  }

  void step(std::size_t index) {
    const TreeNode& node = c_.tree.nodes[index];
    const Check& check = c_.model.check(node.question);
    std::vector<Line> lines = {
        {"Step " + std::to_string(numbers_[index]) + "   " + check.title, strong},
        {minutes(check.minutes) + " · " + std::string(access_state_title(check.needs)) + " · " +
             std::string(who_title(check.who)),
         card_quiet},
        {check.how, card_body},
        {"Good: " + check.expected, card_body}};
    std::size_t other = Model::npos;
    for (std::size_t o = 0; o < node.child.size(); ++o) {
      if (node.child[o] == Model::npos) continue;
      if (c_.tree.nodes[node.child[o]].unusual)
        other = node.child[o];
      else
        lines.push_back({check.outcomes[o].title + "  →  " + leads_to(node.child[o]), card_body, 14.0});
    }
    if (other != Model::npos) lines.push_back({"Any other answer  →  " + leads_to(other), card_body, 14.0});
    block(lines);
  }

  void end(std::size_t number) {
    const End& said = ends_[number];
    std::vector<Line> lines = {{"End " + std::to_string(number + 1), strong}};
    for (std::size_t i = 0; i < said.causes.size(); ++i) {
      const Cause& cause = c_.model.causes[said.causes[i]];
      const std::string least = chance_words(said.least_p[i]);
      const std::string most = chance_words(said.most_p[i]);
      lines.push_back(
          {cause.title + " (" + (least == most ? most : least + " to " + most) + ")", strong, 6.0});
      lines.push_back({cause.repair, card_body, 14.0});
      lines.push_back({"Proof: " + cause.verify, card_body, 14.0});
      lines.push_back(
          {std::string(who_title(cause.who)) + " · " + std::string(access_state_title(cause.repair_needs)) +
               " · " + minutes(cause.repair_min) + (cause.parts.empty() ? "" : " · parts: " + cause.parts),
           card_quiet, 14.0});
    }
    lines.push_back({said.causes.empty()
                         ? "Call service and hand over what you found."
                         : "If that does not help: call service and hand over what you found.",
                     card_body, 6.0});
    block(lines);
  }

  struct End {
    std::vector<std::size_t> causes;
    std::vector<double> least_p, most_p;  // by cause: over the places that lead here
  };

  const GuideCard& c_;
  Paper paper_;
  double wide_;
  double y_ = left;
  int page_ = 1;
  int steps_ = 0;
  std::vector<End> ends_;
  std::vector<int> numbers_;
};

}  // namespace

std::string guide_card_pdf(const GuideCard& card, Sheet sheet) { return Card(card, sheet).make(); }

}  // namespace stirbench::reports
