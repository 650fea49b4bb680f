#include "app/records/archive.h"

#include <doctest/doctest.h>

#include <filesystem>
#include <nlohmann/json.hpp>

#include "app/records/verify.h"
#include "tests/app/records/rooms.h"

using namespace stirbench;
using namespace stirbench::records;
using namespace stirbench::records_test;
namespace fs = std::filesystem;

namespace {

std::string faults_of(Store& store) {
  std::string out;
  for (const RecordProblem& fault : verify_records(store).faults)
    out += fault.place + ": " + fault.what + "\n";
  return out;
}

int count_of(const std::vector<Attempt>& all, const std::string& lesson) {
  int n = 0;
  for (const Attempt& a : all) n += a.lesson == lesson ? 1 : 0;
  return n;
}

}  // namespace

TEST_CASE("back up and restore, also from a file to a server and back: the same people, journals and chain") {
  on_both([](bool on_server) {
    CAPTURE(on_server);
    const Room first("backup", false);
    const auto store = first.open();
    const Managed m = make_managed(*store);
    store->set_site(m.manager, "Tidewater Row");
    const Person kim = store->add_person(m.manager, "Kim", "7");
    const Attempt attempt = run_attempt(*store, kim, "never-dry", "test", true);
    CHECK(says(error_of([&] { back_up(*store, store->nobody(), first.file("b")); }), "takes a manager"));
    const ArchiveReport report = back_up(*store, m.manager, first.file("b"));
    CHECK(report.people == 2);
    CHECK(report.journals == 1);
    CHECK(says(error_of([&] { back_up(*store, m.manager, first.file("b")); }), "is not overwritten"));
    CHECK((fs::status(first.file("b")).permissions() & fs::perms::others_all) == fs::perms::none);

    const Room second("restore", on_server);
    const auto other = second.open();
    CHECK(restore(*other, first.file("b")).attempts == 1);
    CHECK(faults_of(*other) == "");
    CHECK(other->site() == "Tidewater Row");
    CHECK(other->sign_in(other->person_named("Ana Manager")->id, "739182").role == Role::manager);
    CHECK(other->journal_text(*other->attempt(1)) == store->journal_text(attempt));
    CHECK(other->attempt(1)->score_norm == attempt.score_norm);
    CHECK(says(error_of([&] { restore(*other, first.file("b")); }), "holds records already"));
    // And back again.
    const Access manager = other->sign_in(other->person_named("Ana Manager")->id, "739182");
    back_up(*other, manager, second.file("b2"));
    const Room third("back", false);
    const auto home = third.open();
    restore(*home, second.file("b2"));
    CHECK(faults_of(*home) == "");
    CHECK(home->journal_text(*home->attempt(1)) == store->journal_text(attempt));
  });
}

TEST_CASE("two rooms into one, without loss, and again without doubles") {
  on_both([](bool on_server) {
    CAPTURE(on_server);
    const Room left("left", on_server);
    const Room right("right", false);
    const auto a = left.open();
    const auto b = right.open();
    const Managed ma = make_managed(*a);
    const Managed mb = make_managed(*b);  // another Ana Manager
    b->set_site(mb.manager, "Room B");
    const Person kim_a = a->add_person(ma.manager, "Kim", "7");
    const Person kim_b = b->add_person(mb.manager, "Kim Long", "7");  // the same number: the same person
    const Person bo = b->add_person(mb.manager, "Bo");
    run_attempt(*a, kim_a, "never-dry", "test", true);
    run_attempt(*b, kim_b, "hot-product", "test", false);
    run_attempt(*b, bo, "never-dry", "guided", true);
    back_up(*b, mb.manager, right.file("out"));
    const ArchiveReport first = merge(*a, ma.manager, right.file("out"));
    CHECK(first.people == 2);  // Bo and the other Ana, under a name of its own
    CHECK(first.attempts == 2);
    CHECK(first.journals == 2);
    CHECK(a->person_named("Ana Manager (Room B)"));
    CHECK(a->person_named("Ana Manager (Room B)")->role == Role::learner);
    CHECK(faults_of(*a) == "");
    CHECK(a->attempts(kim_a.id).size() == 2);
    CHECK(count_of(a->attempts(std::nullopt), "never-dry") == 2);
    for (const Attempt& one : a->attempts(std::nullopt)) CHECK(says(a->journal_text(one), one.uid));
    const ArchiveReport again = merge(*a, ma.manager, right.file("out"));
    CHECK(again.people == 0);
    CHECK(again.attempts == 0);
    CHECK(a->attempts(std::nullopt).size() == 3);
    // The other room goes on; only what is new comes along.
    run_attempt(*b, bo, "locking-out", "test", true);
    b->anonymise(mb.manager, kim_b.id);
    back_up(*b, mb.manager, right.file("out2"));
    CHECK(merge(*a, ma.manager, right.file("out2")).attempts == 1);
    CHECK(faults_of(*a) == "");
    CHECK(verify_records(*a).heads.size() == 2);
    CHECK(says(error_of([&] { merge(*a, a->nobody(), right.file("out2")); }), "takes a manager"));
  });
}

TEST_CASE(
    "a forked chain, a strange archive and a way out of the folder are refused, and nothing is merged") {
  const Room left("left", false);
  const Room right("right", false);
  const auto a = left.open();
  const Managed ma = make_managed(*a);
  {
    const auto b = right.open();
    const Managed mb = make_managed(*b);
    back_up(*b, mb.manager, right.file("one"));
  }
  merge(*a, ma.manager, right.file("one"));
  // The same room's files copied, and both copies used: two chains that claim the same numbers.
  {
    const Room copy("copy", false);
    const auto c = copy.open();
    restore(*c, right.file("one"));
    const Access mc = c->sign_in(c->person_named("Ana Manager")->id, "739182");
    c->add_person(mc, "In the copy");
    back_up(*c, mc, copy.file("fork"));
    merge(*a, ma.manager, copy.file("fork"));
    const auto b = right.open();
    const Access mb = b->sign_in(b->person_named("Ana Manager")->id, "739182");
    b->add_person(mb, "In the first");
    back_up(*b, mb, right.file("two"));
  }
  const std::size_t before = a->people().size();
  CHECK(says(error_of([&] { merge(*a, ma.manager, right.file("two")); }),
             "another one than the chain kept here"));
  CHECK(a->people().size() == before);
  CHECK(faults_of(*a) == "");
  CHECK(says(error_of([&] { merge(*a, ma.manager, right.file("nowhere")); }), "manifest.json"));
  auto manifest = nlohmann::json::parse(test_support::read_file(right.file("one/manifest.json")));
  manifest.erase("sha256");
  manifest["files"]["../../secrets"] = sha256_hex("");
  manifest["sha256"] = sha256_hex(manifest.dump(2));
  test_support::write_file(right.file("one/manifest.json"), manifest.dump(2) + "\n");
  CHECK(says(error_of([&] { merge(*a, ma.manager, right.file("one")); }), "is no file of an archive"));
}
