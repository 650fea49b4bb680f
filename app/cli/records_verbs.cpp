#include "app/cli/asking.h"
#include "app/cli/people.h"
#include "app/cli/records.h"

// The verbs people, attempts and records.
namespace stirbench::cli {

namespace {

// What the parser fills; lives as long as the program.
struct Words {
  SignInOptions asking;
  std::string name;
  std::string second;
  std::string file;
  bool flag = false;
};

struct RecordsVerbs {
  CommonOptions& common;
  std::function<int()>& verb;
  std::shared_ptr<Words> words = std::make_shared<Words>();

  // `carry_out` runs when this verb was given.
  CLI::App* add(CLI::App& parent, const char* name, const char* help,
                const std::function<int(const CommonOptions&, const Words&)>& carry_out,
                bool with_asking = true) const {
    CLI::App* sub = parent.add_subcommand(name, help);
    add_common(*sub, common);
    if (with_asking) add_sign_in_options(*sub, words->asking);
    sub->callback([this_verb = &verb, &common = common, kept = words, carry_out] {
      *this_verb = [&common, kept, carry_out] { return carry_out(common, *kept); };
    });
    return sub;
  }
};

void add_people(CLI::App& app, const RecordsVerbs& make) {
  Words& w = *make.words;
  CLI::App* people = app.add_subcommand("people", "Who trains here, with which role");
  people->require_subcommand(1);
  make.add(
      *people, "list", "All people", [](const CommonOptions& c, const Words&) { return people_list(c); },
      false);
  CLI::App* add = make.add(*people, "add", "Add a person", [](const CommonOptions& c, const Words& k) {
    return people_add(c, k.asking, k.name, k.second);
  });
  add->add_option("NAME", w.name, "Name, unique")->required();
  add->add_option("--number", w.second, "Number on the house's own list");
  CLI::App* role = make.add(
      *people, "role",
      "Give a role: learner, instructor, manager, auditor. The first manager makes roles hold",
      [](const CommonOptions& c, const Words& k) { return people_role(c, k.asking, k.name, k.second); });
  role->add_option("NAME", w.name, "Who")->required();
  role->add_option("ROLE", w.second, "Role")->required();
  CLI::App* pin = make.add(
      *people, "pin", "Set your PIN, or give somebody a new one (--as a manager)",
      [](const CommonOptions& c, const Words& k) { return people_pin(c, k.asking, k.name, k.file); });
  pin->add_option("NAME", w.name, "Whose")->required();
  pin->add_option("--new-pin-file", w.file,
                  "Read the new PIN from this file (else $STIRBENCH_NEW_PIN, else the terminal)");
  CLI::App* import = make.add(
      *people, "import", "Take people from a CSV list; shows what would be done, --apply does it",
      [](const CommonOptions& c, const Words& k) { return people_import(c, k.asking, k.file, k.flag); });
  import->add_option("FILE", w.file, "CSV file with a column \"name\" and, if wanted, \"number\"")
      ->required();
  import->add_flag("--apply", w.flag, "Add them");
  CLI::App* remove =
      make.add(*people, "remove", "Take a person's name out for good; attempts and chain stay",
               [](const CommonOptions& c, const Words& k) { return people_remove(c, k.asking, k.name); });
  remove->add_option("NAME", w.name, "Who")->required();
}

void add_attempts(CLI::App& app, const RecordsVerbs& make) {
  CLI::App* attempts =
      make.add(app, "attempts", "Kept attempts, with their journals",
               [](const CommonOptions& c, const Words& k) { return attempts_list(c, k.asking, k.name); });
  attempts->add_option("--person", make.words->name, "Only this person's");
}

void add_records(CLI::App& app, const RecordsVerbs& make) {
  Words& w = *make.words;
  CLI::App* records =
      app.add_subcommand("records", "Verify, back up, restore, merge; where records are kept");
  records->require_subcommand(1);
  CLI::App* verify = make.add(
      *records, "verify", "Is everything what was written? Exit 3 and the place when not",
      [](const CommonOptions& c, const Words& k) { return records_verify(c, !k.flag, k.second); }, false);
  verify->add_flag("--no-journals", w.flag, "Do not read the journals");
  verify->add_option("--head", w.second, "A head that stands on paper, ROOM:COUNT:HASH");
  make.add(
      *records, "head", "The end of the audit chain, to keep on paper",
      [](const CommonOptions& c, const Words&) { return records_head(c); }, false);
  CLI::App* backup =
      make.add(*records, "backup", "Write everything into a new folder",
               [](const CommonOptions& c, const Words& k) { return records_backup(c, k.asking, k.file); });
  backup->add_option("FOLDER", w.file, "Folder that does not exist yet")->required();
  CLI::App* restore = make.add(
      *records, "restore", "Bring a back-up into an empty data folder or server",
      [](const CommonOptions& c, const Words& k) { return records_restore(c, k.file); }, false);
  restore->add_option("FOLDER", w.file, "The back-up")->required();
  CLI::App* merge =
      make.add(*records, "merge", "Take in another room's back-up, without loss",
               [](const CommonOptions& c, const Words& k) { return records_merge(c, k.asking, k.file); });
  merge->add_option("FOLDER", w.file, "The other room's back-up")->required();
  CLI::App* site =
      make.add(*records, "site", "Name the site, as certificates show it",
               [](const CommonOptions& c, const Words& k) { return records_site(c, k.asking, k.name); });
  site->add_option("NAME", w.name, "The site's name")->required();
  CLI::App* use = make.add(
      *records, "use", "Keep records on a server: postgresql://USER@HOST/NAME, or in the \"file\" again",
      [](const CommonOptions& c, const Words& k) { return records_use(c, k.second); }, false);
  use->add_option("DATABASE", w.second, "Address, or file")->required();
  make.add(*records, "rescore", "Play every kept journal again and compare with the kept score",
           [](const CommonOptions& c, const Words& k) { return records_rescore(c, k.asking); });
  CLI::App* items =
      make.add(*records, "items", "What each criterion told of the people here: how hard, how telling",
               [](const CommonOptions& c, const Words& k) { return records_items(c, k.asking, k.name); });
  items->add_option("--lesson", w.name, "Only this lesson's");
}

}  // namespace

void add_records_verbs(CLI::App& app, CommonOptions& common, std::function<int()>& verb) {
  // Each verb has its own words, so that one option's default cannot leak into another verb.
  add_people(app, RecordsVerbs{common, verb});
  add_attempts(app, RecordsVerbs{common, verb});
  add_records(app, RecordsVerbs{common, verb});
}

}  // namespace stirbench::cli
