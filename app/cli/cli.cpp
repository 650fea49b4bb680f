#include "app/cli/cli.h"

#include <CLI/CLI.hpp>
#include <functional>
#include <iostream>

#include "app/cli/alarms.h"
#include "app/cli/asking.h"
#include "app/cli/checking/check.h"
#include "app/cli/common.h"
#include "app/cli/diagnosis.h"
#include "app/cli/explore.h"
#include "app/cli/fit/fit_verb.h"
#include "app/cli/lesson.h"
#include "app/cli/measure.h"
#include "app/cli/replay.h"
#include "app/cli/simulate.h"
#include "app/records/store.h"

namespace stirbench::cli {

namespace {

// What the parser fills and what is then to be done. Lives as long as the parser.
struct Parsed {
  CommonOptions common;
  DeskRequest desk;
  SimulateOptions simulate;
  MeasureOptions measure;
  LessonRunOptions lesson_run;
  ExploreOptions explore;
  std::string lesson_id;
  std::string journal;
  CheckOptions check;
  bool check_no_runs = false;
  std::string replay_pdf;
  CausesOptions causes;
  GuideOptions guide;
  EvidenceOptions evidence;
  std::function<int()> verb;
};

void add_simulate(CLI::App& app, Parsed& p) {
  CLI::App* sub = app.add_subcommand("simulate", "Run the simulated machine without a window");
  add_common(*sub, p.common);
  sub->add_option("--machine", p.simulate.machine, "Machine, e.g. hm-45")->required();
  sub->add_option("--recipe", p.simulate.recipe,
                  "Recipe chosen at the start; without --actions it is run by a prompt operator");
  sub->add_option("--actions", p.simulate.actions, "Actions file, JSON Lines (see: stirbench help actions)");
  sub->add_option("--fault", p.simulate.faults,
                  "Fault from the start, ID or ID=SEVERITY; may be given several times");
  sub->add_option("--ambient", p.simulate.ambient_degC, "Room temperature, degC (default 22)");
  sub->add_option("--humidity", p.simulate.humidity_norm,
                  "Relative humidity of the room, 0 .. 1 (default 0.5)");
  sub->add_option("--supply", p.simulate.supply_norm,
                  "Supply voltage over the nominal one, 0 .. 1.2 (default 1)");
  sub->add_option("--frequency", p.simulate.frequency_Hz, "Frequency of the supply, Hz (default 50)");
  sub->add_option("--seed", p.simulate.seed, "Seed of the random stream (default 1)")
      ->check(CLI::NonNegativeNumber);
  sub->add_option("--until", p.simulate.until_s, "Simulated seconds to run")->required();
  sub->add_option("--trace", p.simulate.trace, "Write a CSV trace");
  sub->add_option("--spread", p.simulate.spread,
                  "Run the plan on so many more machines whose uncertain constants are drawn (0 .. 1000)");
  sub->add_option("--spread-trace", p.simulate.spread_file,
                  "Where the least and greatest value of each number over those runs go, CSV");
  sub->add_option("--every", p.simulate.every_s, "Simulated seconds between trace rows (default 1)");
  sub->add_option("--journal", p.simulate.journal, "Write the session's journal");
  sub->callback([&p] { p.verb = [&p] { return simulate(p.common, p.simulate); }; });
}

void add_measure(CLI::App& app, Parsed& p) {
  CLI::App* sub = app.add_subcommand("measure", "One reading with an instrument on the simulated machine");
  MeasureOptions& o = p.measure;
  add_common(*sub, p.common);
  sub->add_option("--machine", o.machine, "Machine, e.g. hm-45")->required();
  sub->add_option("--meter", o.meter, "V~, V=, Ohm, continuity, clamp, insulation, gauges or contact");
  sub->add_option("--between", o.between, "Two terminals, e.g. E1.1 E1.2")->expected(2);
  sub->add_option("--wire", o.wires, "Number of a wire in the clamp; several are summed");
  sub->add_option("--at", o.at, "Point of the contact thermometer, e.g. suction_line");
  sub->add_option("--fault", o.faults, "Fault, ID or ID=SEVERITY; may be given several times");
  sub->add_option("--demand", o.demand, "What the controller wants on: heat, drive, chill");
  sub->add_option("--actions", o.actions, "Actions file that is played first, until --until");
  sub->add_option("--until", o.until_s, "Simulated seconds before the reading (default 0)");
  sub->add_option("--ambient", o.ambient_degC, "Room temperature, degC (default 22)");
  sub->add_option("--supply", o.supply_norm, "Supply voltage over the nominal one, 0 .. 1.2 (default 1)");
  sub->add_option("--probe", o.probe_degC, "Temperature of the product probe, degC (default: as simulated)");
  sub->add_option("--range", o.range, "Full scale that is set by hand (default: the meter chooses)");
  sub->add_option("--error", o.error, "Where in its accuracy the instrument lies, -1 .. 1 (default 0)");
  sub->add_option("--test-voltage", o.test_V, "Of the insulation tester, 250 .. 1000 V (default 500)");
  sub->add_flag("--isolated", o.isolated, "The isolator is off");
  sub->add_flag("--lid-open", o.lid_open, "The lid is open");
  sub->add_flag("--cover-open", o.cover_open, "The shaft cover is open");
  sub->add_flag("--unlicensed", o.unlicensed, "The person may not work on live parts");
  sub->add_flag("--list", o.list, "List parts, terminals and wires instead");
  sub->callback([&p] { p.verb = [&p] { return measure(p.common, p.measure); }; });
}

void add_lesson(CLI::App& app, Parsed& p) {
  CLI::App* lesson = app.add_subcommand("lesson", "List, show or run lessons");
  lesson->require_subcommand(1);
  CLI::App* list = lesson->add_subcommand("list", "All lessons");
  add_common(*list, p.common);
  list->callback([&p] { p.verb = [&p] { return lesson_list(p.common); }; });
  CLI::App* show = lesson->add_subcommand("show", "One lesson: its page, steps and criteria");
  add_common(*show, p.common);
  show->add_option("ID", p.lesson_id, "Lesson")->required();
  show->callback([&p] { p.verb = [&p] { return lesson_show(p.common, p.lesson_id); }; });
  CLI::App* run = lesson->add_subcommand(
      "run", "Play an actions file to the lesson's end and score it; exit 1 when not passed");
  add_common(*run, p.common);
  run->add_option("ID", p.lesson_run.id, "Lesson")->required();
  run->add_option("--actions", p.lesson_run.actions, "Actions file (default: the lesson's own right.jsonl)");
  run->add_option("--seed", p.lesson_run.seed, "Seed of the random stream (default: the lesson's)")
      ->check(CLI::NonNegativeNumber);
  run->add_flag("--follow", p.lesson_run.follow,
                "Play by the lesson's guide alone: each hand that it advises")
      ->excludes("--actions");
  run->add_option("--journal", p.lesson_run.journal, "Write the session's journal; the file must not exist");
  run->callback([&p] { p.verb = [&p] { return lesson_run(p.common, p.lesson_run); }; });
}

void add_explore(CLI::App& app, Parsed& p) {
  CLI::App* sub = app.add_subcommand(
      "explore",
      "Walk every reachable state of controller, guards, keys and safety parts, and prove the invariants");
  add_common(*sub, p.common);
  sub->add_option("--machine", p.explore.machine, "Machine, e.g. hm-45")->required();
  sub->add_option("--fault", p.explore.fault,
                  "Only with this fault of a safety part (default: sound parts, then each fault)");
  sub->add_option("--table", p.explore.table, "Write which invariants fall with which fault, as JSON");
  sub->add_option("--promela", p.explore.promela,
                  "Write the controller as a Promela model, for spin, and stop");
  sub->add_option("--without", p.explore.without,
                  "With --promela: leave this rule out, as a violation to be found");
  sub->callback([&p] { p.verb = [&p] { return explore(p.common, p.explore); }; });
}

void add_others(CLI::App& app, Parsed& p) {
  CLI::App* replay =
      app.add_subcommand("replay", "Run a kept journal again and compare every hash; exit 3 when it differs");
  add_common(*replay, p.common);
  replay->add_option("JOURNAL", p.journal, "Journal file")->required();
  replay->add_option("--pdf", p.replay_pdf, "Write the debrief: score and reasons, trend, events, cautions");
  replay->callback([&p] { p.verb = [&p] { return replay_journal(p.common, p.journal, p.replay_pdf); }; });
  CLI::App* check =
      app.add_subcommand("check", "Check a content folder; one problem a line, exit 2 when there is any");
  add_common(*check, p.common);
  check->add_option("CONTENT_DIR", p.check.content_dir, "Folder (default: the one in use)");
  check->add_flag("--trees", p.check.trees,
                  "Judge the trees of the fault guides too: every fault seen, every check asked, every "
                  "answer leads on (some seconds)");
  check->add_flag("--no-runs", p.check_no_runs, "Do not play the lessons' right and wrong runs");
  check->add_option(
      "--spread", p.check.spread,
      "Play each lesson's right run on so many machines whose uncertain constants are drawn, and name the "
      "criteria that hang on them (0 .. 1000, default 0)");
  check->add_flag(
      "--habits", p.check.habits,
      "Play unsafe and over-careful habits (content/conduct) in the middle of every lesson: none of "
      "the first may pass, none of the second may fail");
  check->add_option(
      "--draws", p.check.draws.draws,
      "Take each lesson on so many drawn starts as made-up people do who know, slip, repeat another "
      "run or do nothing: who passes, whether the draws are alike, what each item tells, and what "
      "the certificates' rule makes of it (1 .. 10000)");
  check->add_option("--seed", p.check.draws.seed, "With --draws: of the first draw (default 101)");
  check->add_option("--lesson", p.check.draws.lessons, "With --draws: only this lesson; may be given again");
  check->callback([&p] {
    p.verb = [&p] {
      p.check.with_runs = !p.check_no_runs;
      return check_content(p.common, p.check);
    };
  });
  CLI::App* help = app.add_subcommand("help", "Longer help: actions, alarms");
  help->require_subcommand(1);
  CLI::App* alarms = help->add_subcommand("alarms", "Every alarm: cause, consequence, action");
  add_common(*alarms, p.common);
  alarms->callback([&p] { p.verb = [&p] { return help_alarms(p.common); }; });
  CLI::App* actions = help->add_subcommand("actions", "Every action that an actions file may hold");
  add_common(*actions, p.common);
  actions->callback([&p] { p.verb = [&p] { return help_actions(p.common); }; });
}

void add_diagnosis(CLI::App& app, Parsed& p) {
  CLI::App* causes_app =
      app.add_subcommand("causes", "Probable causes of what a machine shows, and what to check next");
  add_common(*causes_app, p.common);
  causes_app->add_option("--machine", p.causes.machine, "Machine, e.g. hm-45")->required();
  causes_app->add_option("--symptom", p.causes.symptoms,
                         "What it shows: id or plain words; may be given several times");
  causes_app->add_option("--finding", p.causes.findings,
                         "CHECK=OUTCOME, or CHECK=OUTCOME@SURE with SURE in 0 .. 1");
  causes_app->add_option("--who", p.causes.who,
                         "Who is at the machine: anyone, technician, electrician, refrigeration");
  add_log_options(*causes_app, p.causes.log);
  causes_app->callback([&p] { p.verb = [&p] { return causes(p.common, p.causes); }; });
  CLI::App* guide_app = app.add_subcommand("guide", "The diagnostic tree of a symptom");
  add_common(*guide_app, p.common);
  guide_app->add_option("--machine", p.guide.machine, "Machine, e.g. hm-45")->required();
  guide_app->add_option(
      "--symptom", p.guide.symptom,
      "Id or plain words; without it: an overview of all symptoms and how well causes can be told apart");
  guide_app->add_option("--who", p.guide.who,
                        "Who is at the machine: anyone, technician, electrician, refrigeration");
  guide_app->add_option("--dot", p.guide.dot, "Write the tree as a graph in the DOT language");
  guide_app->add_option("--cards", p.guide.cards,
                        "Folder for PDF cards: one for --symptom, without it one for each symptom");
  guide_app->add_option("--paper", p.guide.paper, "a4 (default) or letter");
  guide_app->callback([&p] { p.verb = [&p] { return guide(p.common, p.guide); }; });
  CLI::App* make = app.add_subcommand(
      "evidence", "Simulate every fault of a machine and write how often it gave each answer");
  add_common(*make, p.common);
  make->add_option("--machine", p.evidence.machine, "Machine, e.g. hm-45")->required();
  make->add_flag("--verify", p.evidence.verify,
                 "Write nothing; exit 3 when the evidence no longer fits the content");
  make->add_option("--machines", p.evidence.machines_each,
                   "Machines for each cause and severity (default 120)");
  make->add_option("--threads", p.evidence.threads, "Threads (default: all the computer has)");
  make->add_option("--output", p.evidence.output,
                   "File (default: evidence/MACHINE.json in the content folder)");
  make->add_flag("--raw", p.evidence.raw,
                 "Print each reading of the good machine and of every cause, and write nothing");
  make->callback([&p] { p.verb = [&p] { return evidence(p.common, p.evidence); }; });
}

CommandResult carry_out(const Parsed& parsed) {
  CommandResult outcome;
  try {
    outcome.exit_code = parsed.verb();
  } catch (const Refusal& refusal) {
    say(refusal.what());
    outcome.exit_code = exit_bad_input;
  } catch (const records::StoreError& error) {
    say(error.what());
    outcome.exit_code = error.damaged ? exit_not_verified : exit_bad_input;
  } catch (const std::runtime_error& error) {
    say(error.what());
    outcome.exit_code = exit_bad_input;
  } catch (const std::invalid_argument& error) {
    say(error.what());
    outcome.exit_code = exit_bad_input;
  }
  return outcome;
}

}  // namespace

CommandResult run(int argc, const char* const* argv) {
  Parsed parsed;
  CLI::App app(
      "Stirbench: learn to run a heated mixer on a simulated one. Without a command it opens the desk.",
      "stirbench");
  app.set_version_flag("--version", STIRBENCH_VERSION);
  app.add_option("--content", parsed.common.content_dir,
                 "Content folder (default: the one that came with the program)");
  app.add_option("--data", parsed.common.data_dir, "Your own folder for recipes, attempts and settings");
  app.add_option("--screen", parsed.desk.screen, "Open the desk on this screen");
  app.add_option("--open", parsed.desk.journal, "Open the desk on the debrief of a kept journal");
  app.require_subcommand(0, 1);
  add_simulate(app, parsed);
  add_measure(app, parsed);
  add_lesson(app, parsed);
  add_explore(app, parsed);
  add_others(app, parsed);
  add_records_verbs(app, parsed.common, parsed.verb);
  add_certify_verbs(app, parsed.common, parsed.verb);
  add_diagnosis(app, parsed);
  add_fit_verb(app, parsed.common, parsed.verb);
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    // Help and version are answers; everything else the parser refuses is bad input.
    const int code = app.exit(error, std::cout, std::cerr);
    return {code == 0 ? exit_done : exit_bad_input, std::nullopt};
  }
  if (!parsed.verb) {
    parsed.desk.data_dir = parsed.common.data_dir;
    parsed.desk.content_dir = parsed.common.content_dir;
    return {exit_done, parsed.desk};
  }
  return carry_out(parsed);
}

}  // namespace stirbench::cli
