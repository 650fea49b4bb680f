#include "app/records/items.h"

#include <map>
#include <nlohmann/json.hpp>

namespace stirbench::records {

namespace {

struct ReadCard {
  std::vector<std::string> criteria;
  std::vector<double> points;
  std::vector<double> shares;
};

// The criteria with their shares; none when something is missing.
ReadCard read_card(const std::string& card_json) {
  const nlohmann::json card = nlohmann::json::parse(card_json, nullptr, false);
  ReadCard out;
  if (!card.is_object() || !card.contains("criteria") || !card["criteria"].is_array()) return out;
  for (const nlohmann::json& one : card["criteria"]) {
    const bool whole = one.is_object() && one.contains("id") && one["id"].is_string() && one.contains("of") &&
                       one["of"].is_number() && one.contains("points") && one["points"].is_number() &&
                       one.contains("met") && one["met"].is_boolean();
    if (!whole) return {};
    // An injury, and what is asked in every lesson, are items only where they went wrong.
    const nlohmann::json everywhere = one.value("everywhere", nlohmann::json());
    if (one["id"] == training::injury_criterion || (everywhere.is_boolean() && everywhere.get<bool>()))
      continue;
    const double of = one["of"].get<double>();
    out.criteria.push_back(one["id"].get<std::string>());
    out.points.push_back(of);
    out.shares.push_back(of > 0.0 ? one["points"].get<double>() / of : one["met"].get<bool>() ? 1.0 : 0.0);
  }
  return out;
}

struct Gathered {
  LessonItems out;
  std::vector<double> points;
  std::vector<training::Play> plays;
};

}  // namespace

std::vector<LessonItems> items_of(const std::vector<Attempt>& attempts) {
  std::map<std::string, Gathered> by_lesson;
  for (const Attempt& attempt : attempts) {
    if (!attempt.finished || (attempt.mode != "practice" && attempt.mode != "test")) continue;
    ReadCard card = read_card(attempt.card_json);
    if (card.criteria.empty()) continue;
    Gathered& all = by_lesson[attempt.lesson];
    if (all.plays.empty()) {
      all.out.lesson = attempt.lesson;
      all.out.criteria = card.criteria;
      all.points = card.points;
    }
    if (card.criteria != all.out.criteria || card.points != all.points) continue;
    ++all.out.attempts;
    all.out.passed += attempt.passed ? 1 : 0;
    all.plays.push_back({attempt.passed, std::move(card.shares)});
  }
  std::vector<LessonItems> out;
  for (auto& [lesson, all] : by_lesson) {
    all.out.items = training::item_figures(all.points, all.plays);
    all.out.alpha = training::alpha_of(all.points, all.plays);
    out.push_back(std::move(all.out));
  }
  return out;
}

}  // namespace stirbench::records
