#include <memory>

#include "app/cli/certify.h"

// The verb certify, and records export.
namespace stirbench::cli {

namespace {

using Run = std::function<int(const CommonOptions&, const CertifyOptions&)>;

struct CertifyVerbs {
  CommonOptions& common;
  std::function<int()>& verb;
  std::shared_ptr<CertifyOptions> o = std::make_shared<CertifyOptions>();

  CLI::App* add(CLI::App& parent, const char* name, const char* help, const Run& carry_out,
                bool with_asking = true) const {
    CLI::App* sub = parent.add_subcommand(name, help);
    add_common(*sub, common);
    if (with_asking) add_sign_in_options(*sub, o->asking);
    sub->callback([this_verb = &verb, &common = common, kept = o, carry_out] {
      *this_verb = [&common, kept, carry_out] { return carry_out(common, *kept); };
    });
    return sub;
  }
};

constexpr const char* demand_help = "Which certificate, see: stirbench certify demands";

void add_people_part(CLI::App& certify, const CertifyVerbs& make) {
  CertifyOptions& o = *make.o;
  CLI::App* check = make.add(certify, "check", "What a person still needs; exit 1 when something is missing",
                             certify_check);
  check->add_option("NAME", o.name, "Who")->required();
  check->add_option("--demand", o.demand, demand_help);
  CLI::App* seen =
      make.add(certify, "seen", "Sign that you saw a person do a task at the real machine", certify_seen);
  seen->add_option("NAME", o.name, "Who did it")->required();
  seen->add_option("--demand", o.demand, demand_help);
  seen->add_option("--task", o.task, "Number or words of the task")->required();
  seen->add_option("--machine", o.machine, "Which real machine")->required();
  seen->add_flag("--not-yet", o.flag, "It was not done well yet");
  seen->add_option("--note", o.note, "Note");
  CLI::App* issue =
      make.add(certify, "issue", "Issue a certificate; exit 1 and what is missing when the demand is not met",
               certify_issue);
  issue->add_option("NAME", o.name, "For whom")->required();
  issue->add_option("--demand", o.demand, demand_help);
  CLI::App* renew = make.add(
      certify, "renew", "Issue the next one after a certificate in force, on fresh evidence", certify_renew);
  renew->add_option("SERIAL", o.name, "The present one")->required();
  for (CLI::App* sub : {issue, renew}) {
    sub->add_option("--out", o.file, "Write the certificate's file");
    sub->add_option("--pdf", o.pdf, "Write the certificate as PDF with its QR symbol");
  }
  CLI::App* revoke = make.add(certify, "revoke", "Take a certificate back", certify_revoke);
  revoke->add_option("SERIAL", o.name, "Which")->required();
  revoke->add_option("--reason", o.note, "Why")->required();
}

}  // namespace

void add_certify_verbs(CLI::App& app, CommonOptions& common, std::function<int()>& verb) {
  const CertifyVerbs make{common, verb};
  CertifyOptions& o = *make.o;
  CLI::App* certify =
      app.add_subcommand("certify", "Who is safe on what, until when; certificates that verify anywhere");
  certify->require_subcommand(1);
  make.add(
      *certify, "demands", "What each certificate asks for",
      [](const CommonOptions& c, const CertifyOptions&) { return certify_demands(c); }, false);
  CLI::App* set = make.add(*certify, "set", "Keep a demand of the house's own, or change a shipped one",
                           certify_demand_set);
  set->add_option("FILE", o.file, "JSON as in content/assessments")->required();
  CLI::App* table =
      make.add(*certify, "table", "Everybody against one certificate: who may work, who is due, who is stuck",
               certify_table);
  table->add_option("--demand", o.demand, demand_help);
  add_people_part(*certify, make);
  CLI::App* list = make.add(*certify, "list", "Certificates that were issued", certify_list);
  list->add_option("--person", o.name, "Only this person's");
  CLI::App* verify = make.add(*certify, "verify",
                              "Is a certificate's file what was signed? Needs no records. Exit 0, 1 or 3",
                              certify_verify, false);
  verify->add_option("FILE", o.file, "The file, or one with the text of the QR symbol")->required();
  verify->add_option("--key", o.key,
                     "Print of the site's key as it hangs on its wall; another key then ends with 1");
  make.add(
      *certify, "key", "The print of this site's key, for its wall",
      [](const CommonOptions& c, const CertifyOptions&) { return certify_key(c); }, false);

  const CertifyVerbs exporting{common, verb};
  CLI::App* records = app.get_subcommand("records");
  CLI::App* out = exporting.add(*records, "export",
                                "Write attempts, certificates, table (CSV), table-pdf, board (who may work "
                                "today, PDF) or xapi (statements)",
                                records_export);
  out->add_option("WHAT", exporting.o->format, "attempts, certificates, board, table, table-pdf, xapi")
      ->required();
  out->add_option("--out", exporting.o->file, "File to write")->required();
  out->add_option("--demand", exporting.o->demand, demand_help);
  out->add_option("--home", exporting.o->home, "xapi: address under which lessons and accounts are named");

  const CertifyVerbs pushing{common, verb};
  CLI::App* push = pushing.add(
      *records, "push", "Send statements to a record store; what cannot be sent waits for the next time",
      records_push);
  push->add_option("URL", pushing.o->name, "The store's endpoint, https://HOST/PATH, without /statements")
      ->required();
  push->add_option("--user", pushing.o->note,
                   "Name there; its password from --secret-file, $STIRBENCH_STORE_SECRET or the terminal");
  push->add_option("--secret-file", pushing.o->file, "Read the password from this file");
  push->add_option("--home", pushing.o->home, "Address under which lessons and accounts are named");
}

}  // namespace stirbench::cli
