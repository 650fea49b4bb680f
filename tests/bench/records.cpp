#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <memory>
#include <random>
#include <string>

#include "app/library/library.h"
#include "app/library/reading/paths.h"
#include "app/records/archive.h"
#include "app/records/certifying.h"
#include "app/records/store_internal.h"
#include "app/records/verify.h"
#include "tests/app/records/server.h"

// The large figures of the records, printed as `name value` lines.
//   bench_records [FOLDER] [postgresql://...]   FOLDER must not exist; it is removed at the end. Without an
//                                               address a server of
//   its own is started, where Debian's postgresql is installed.
// kills: kill -9 at random moments during attempts and sign-offs; lost, half and broken must be 0. table:
// 1,000 people, 40 skills, 50,000 attempts, from the question to the finished table. flips: random bytes of a
// certificate, a journal and an archive.

using namespace stirbench;
using namespace stirbench::records;
namespace fs = std::filesystem;

namespace {

constexpr PinCost cheap{1, 8192};

double now_s() {
  return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

Attempt run_attempt(Store& store, const Person& person, const std::string& lesson) {
  Attempt a;
  a.person = person.id;
  a.lesson = lesson;
  a.mode = "test";
  a.machine = "hm-45";
  a.started_utc = store.now_utc();
  a = store.begin_attempt(a);
  {
    JournalFile journal(store.journal_path(a));
    journal.write("{\"r\":0,\"kind\":\"header\",\"of\":\"" + a.uid + "\"}\n");
    journal.write("{\"r\":1,\"kind\":\"end\"}\n");
  }
  a.passed = true;
  a.score_norm = 0.9;
  store.finish_attempt(a);
  return a;
}

Access make_manager(Store& store) {
  const Person ana = store.add_person("Ana");
  store.set_own_pin(ana.id, "", "739182");
  store.set_role(store.nobody(), ana.id, Role::manager);
  return store.sign_in(ana.id, "739182");
}

[[noreturn]] void work_until_killed(const StoreOptions& options, int pipe) {
  try {
    Store store(options);
    const Access who = store.sign_in(store.person_named("Ana")->id, "739182");
    const Person kim = *store.person_named("Kim");
    for (std::int64_t n = static_cast<std::int64_t>(store.observations().size()) + 1;; ++n) {
      Observation seen;
      seen.person = kim.id;
      seen.task = "Task";
      seen.machine = "m";
      seen.passed = true;
      store.add_observation(who, seen);
      run_attempt(store, kim, "never-dry");
      if (::write(pipe, &n, sizeof n) != static_cast<ssize_t>(sizeof n)) ::_exit(3);
    }
  } catch (const std::exception&) {
    ::_exit(2);
  }
}

void kills(const std::string& folder, int rounds) {
  const StoreOptions options{folder + "/kills", "", cheap, {}};
  {
    Store store(options);
    store.add_person(make_manager(store), "Kim");
  }
  std::mt19937 random(5);
  std::int64_t acknowledged = 0;
  int lost = 0, half = 0, broken = 0, killed = 0;
  for (int round = 0; round < rounds; ++round) {
    int ends[2];
    if (::pipe(ends) != 0) return;
    const pid_t child = ::fork();
    if (child == 0) {
      ::close(ends[0]);
      work_until_killed(options, ends[1]);
    }
    ::close(ends[1]);
    ::usleep(static_cast<useconds_t>(2000 + random() % 60000));
    ::kill(child, SIGKILL);
    int status = 0;
    ::waitpid(child, &status, 0);
    killed += WIFSIGNALED(status) ? 1 : 0;
    std::int64_t n = 0;
    while (::read(ends[0], &n, sizeof n) == static_cast<ssize_t>(sizeof n)) acknowledged = n;
    ::close(ends[0]);
    Store store(options);
    const auto seen = static_cast<std::int64_t>(store.observations().size());
    std::int64_t finished = 0;
    for (const Attempt& a : store.attempts(std::nullopt)) {
      finished += a.finished ? 1 : 0;
      if (a.finished && store.journal_text(a).find(a.uid) == std::string::npos) ++half;
    }
    // The numbers count observations; an attempt follows each, except where a kill came between.
    if (seen < acknowledged) ++lost;
    if (finished + round + 1 < acknowledged) ++lost;
    if (!verify_records(store).faults.empty()) ++broken;
  }
  std::printf("kills %d\nkills_acknowledged %lld\nkills_lost %d\nkills_half %d\nkills_broken %d\n", killed,
              static_cast<long long>(acknowledged), lost, half, broken);
}

// Filled by large inserts, without the chain: this measures reading.
void fill_table(Store& store, const library::Library& library) {
  Store::Impl& impl = store.impl();
  std::vector<std::string> lessons;
  for (const auto& [id, lesson] : library.lessons) lessons.push_back(id);
  impl.changed([&] {
    for (int p = 1; p <= 1000; ++p) {
      const std::string name = "Person " + std::to_string(p), key = "person " + std::to_string(p),
                        uid = random_uuid();
      impl.sql << "INSERT INTO person(id, name, name_key, uid) VALUES (:id, :name, :key, :uid)", soci::use(p),
          soci::use(name), soci::use(key), soci::use(uid);
    }
    std::mt19937 random(6);
    for (int a = 1; a <= 50000; ++a) {
      const int person = 1 + a % 1000, passed = random() % 10 < 8 ? 1 : 0, missed = 0;
      const std::string uid = random_uuid(), lesson = lessons[random() % lessons.size()],
                        mode = random() % 3 == 0 ? "practice" : "test";
      const std::string at = utc_text(1760000000LL + 600LL * a), card(900, 'x'), file = uid;
      impl.sql << "INSERT INTO attempt(id, person, lesson, lesson_hash, mode, machine, started_utc, passed, "
                  "score_norm, card_json, journal_file,"
                  " finished, uid, musts_missed) VALUES (:id, :person, :lesson, '', :mode, 'hm-45', :at, "
                  ":passed, 0.5, :card, :file, 1, :uid, :missed)",
          soci::use(a), soci::use(person), soci::use(lesson), soci::use(mode), soci::use(at),
          soci::use(passed), soci::use(card), soci::use(file), soci::use(uid), soci::use(missed);
    }
  });
}

void table(const std::string& folder, const std::string& database, const library::Library& shipped,
           const char* name) {
  library::Library library = shipped;
  training::Demand demand = library.demands.at("start-alone");
  demand.skills.clear();
  // Forty skills: the shipped ones, then more that the lessons are made to train.
  for (const auto& [id, skill] : shipped.skills) demand.skills.push_back(id);
  while (demand.skills.size() < 40) demand.skills.push_back("skill-" + std::to_string(demand.skills.size()));
  demand.skills.resize(40);
  std::size_t i = 0;
  for (const std::string& id : demand.skills) {
    library.skills[id].id = id;
    auto lesson = library.lessons.begin();
    std::advance(lesson, static_cast<std::ptrdiff_t>(i++ % library.lessons.size()));
    lesson->second.skills.push_back(id);
  }
  Store store(StoreOptions{folder + "/" + name, database, cheap, {}});
  fill_table(store, library);
  for (int turn = 0; turn < 3; ++turn) {
    const double began = now_s();
    const auto rows = standings(store, library, demand);
    std::printf("table_%s_s %.3f (%zu people, %zu skills)\n", name, now_s() - began, rows.size(),
                demand.skills.size());
  }
}

std::string flipped(std::string text, std::mt19937& random) {
  const std::size_t at = random() % text.size();
  text[at] = static_cast<char>(static_cast<unsigned char>(text[at]) ^ (1U + random() % 255U));
  return text;
}

void flips(const std::string& folder) {
  Store store(StoreOptions{folder + "/flips", "", cheap, {}});
  const Access who = make_manager(store);
  const Person kim = store.add_person(who, "Kim");
  const Attempt a = run_attempt(store, kim, "never-dry");
  CertificateText text;
  text.serial = random_uuid();
  text.holder = "Kim";
  text.head = store.head();
  const std::string certificate = write_certificate(text, make_key_pair().seed);
  back_up(store, who, folder + "/archive");
  std::mt19937 random(7);
  int tried = 0, unnoticed = 0;
  for (int i = 0; i < 20000; ++i, ++tried)
    unnoticed += check_certificate(flipped(certificate, random)).fault.empty() ? 1 : 0;
  const std::string journal = store.journal_path(a);
  const std::string whole = library::read_file(journal);
  for (int i = 0; i < 1000; ++i, ++tried) {
    library::write_atomically(journal, flipped(whole, random));
    const auto faults = verify_records(store).faults;
    unnoticed += faults.size() == 1 && faults[0].place == journal ? 0 : 1;
  }
  for (const auto& entry : fs::recursive_directory_iterator(folder + "/archive")) {
    if (!entry.is_regular_file()) continue;
    const std::string file = entry.path().string();
    const std::string bytes = library::read_file(file);
    for (int i = 0; i < 1000; ++i, ++tried) {
      library::write_atomically(file, flipped(bytes, random));
      try {
        verify_archive(folder + "/archive");
        ++unnoticed;
      } catch (const StoreError&) {
        // noticed
      }
    }
    library::write_atomically(file, bytes);
  }
  std::printf("flips %d\nflips_unnoticed %d\n", tried, unnoticed);
}

}  // namespace

int main(int argc, char** argv) {
  const std::string folder =
      argc > 1 ? argv[1] : (fs::temp_directory_path() / "stirbench-bench-records").string();
  if (fs::exists(folder)) {
    std::fprintf(stderr, "%s exists already; give a folder that does not.\n", folder.c_str());
    return 2;
  }
  const library::LoadResult loaded = library::load(std::string(STIRBENCH_SOURCE_DIR) + "/content", "");
  if (!loaded.problems.empty()) return 2;
  fs::create_directories(folder);
  try {
    table(folder, "", loaded.library, "sqlite");
    std::unique_ptr<records_test::Server> server;
    std::string address = argc > 2 ? argv[2] : "";
    if (address.empty()) {
      server = std::make_unique<records_test::Server>();
      if (server->ready()) address = server->address(server->new_database());
    }
    if (address.empty())
      std::printf("table_server_s none (no PostgreSQL server could be started)\n");
    else
      table(folder, address, loaded.library, "server");
    flips(folder);
    kills(folder, 300);
  } catch (const std::exception& error) {
    std::fprintf(stderr, "%s\n", error.what());
    return 1;
  }
  fs::remove_all(folder);
  return 0;
}
