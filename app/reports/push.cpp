#include "app/reports/push.h"

#include <curl/curl.h>

#include <algorithm>
#include <chrono>
#include <stdexcept>
#include <thread>

#include "app/reports/xapi.h"

namespace stirbench::reports {

namespace {

using Json = nlohmann::json;
using Items = std::vector<records::OutboxItem>;

struct Answer {
  long status = 0;      // 0: no answer
  std::string problem;  // of the way there
  std::string body;     // its beginning
};

std::size_t keep_beginning(char* data, std::size_t size, std::size_t count, void* to) {
  auto& body = *static_cast<std::string*>(to);
  const std::size_t bytes = size * count;
  body.append(data, std::min(bytes, std::size_t{4096} - std::min<std::size_t>(4096, body.size())));
  return bytes;
}

// One connection, kept open over the requests of a push.
class Line {
 public:
  explicit Line(const PushOptions& options) : options_(options), curl_(curl_easy_init()) {
    if (curl_ == nullptr) throw std::runtime_error("The network library could not be started.");
    headers_ = curl_slist_append(headers_, "Content-Type: application/json");
    headers_ = curl_slist_append(headers_, "X-Experience-API-Version: 1.0.3");
    headers_ = curl_slist_append(headers_, "Expect:");
    const std::string url = options.url + (options.url.back() == '/' ? "" : "/") + "statements";
    curl_easy_setopt(curl_, CURLOPT_URL, url.c_str());
    curl_easy_setopt(curl_, CURLOPT_HTTPHEADER, headers_);
    curl_easy_setopt(curl_, CURLOPT_PROTOCOLS_STR, "http,https");
    curl_easy_setopt(curl_, CURLOPT_FOLLOWLOCATION, 0L);  // a redirect would carry the password elsewhere
    curl_easy_setopt(curl_, CURLOPT_NOSIGNAL, 1L);
    curl_easy_setopt(curl_, CURLOPT_TIMEOUT_MS, static_cast<long>(1000.0 * options.timeout_s));
    curl_easy_setopt(curl_, CURLOPT_WRITEFUNCTION, keep_beginning);
    if (!options.user.empty()) {
      curl_easy_setopt(curl_, CURLOPT_HTTPAUTH, CURLAUTH_BASIC);
      curl_easy_setopt(curl_, CURLOPT_USERNAME, options.user.c_str());
      curl_easy_setopt(curl_, CURLOPT_PASSWORD, options.secret.c_str());
    }
  }
  ~Line() {
    curl_slist_free_all(headers_);
    curl_easy_cleanup(curl_);
  }
  Line(const Line&) = delete;
  Line& operator=(const Line&) = delete;

  Answer post(const std::string& text) {
    Answer answer;
    curl_easy_setopt(curl_, CURLOPT_POSTFIELDSIZE_LARGE, static_cast<curl_off_t>(text.size()));
    curl_easy_setopt(curl_, CURLOPT_POSTFIELDS, text.c_str());
    curl_easy_setopt(curl_, CURLOPT_WRITEDATA, &answer.body);
    const CURLcode code = curl_easy_perform(curl_);
    if (code != CURLE_OK)
      answer.problem = curl_easy_strerror(code);
    else
      curl_easy_getinfo(curl_, CURLINFO_RESPONSE_CODE, &answer.status);
    return answer;
  }

  // Tries again while a later try may go better.
  Answer send(const Items& items) {
    std::string text = "[";
    for (const auto& item : items) text += (text.size() > 1 ? "," : "") + item.text;
    text += "]";
    double wait_s = options_.first_wait_s;
    for (int i = 1;; ++i) {
      Answer answer = post(text);
      const bool passing =
          answer.status == 0 || answer.status == 408 || answer.status == 429 || answer.status >= 500;
      if (!passing || i >= options_.tries) return answer;
      if (options_.wait)
        options_.wait(wait_s);
      else
        std::this_thread::sleep_for(std::chrono::duration<double>(wait_s));
      wait_s *= 2.0;
    }
  }

 private:
  const PushOptions& options_;
  CURL* curl_;
  curl_slist* headers_ = nullptr;
};

std::string words_of(const Answer& answer) {
  if (answer.status == 0) return answer.problem;
  std::string words = "answer " + std::to_string(answer.status);
  for (const char c : answer.body.substr(0, 160))
    words += words.size() < 200 && (c >= ' ' || c < 0) ? std::string(1, c) : std::string(" ");
  return words;
}

std::vector<std::string> ids_of(const Items& items) {
  std::vector<std::string> ids;
  for (const auto& item : items) ids.push_back(item.id);
  return ids;
}

bool taken(const Answer& answer) { return answer.status == 200 || answer.status == 204; }
// About what was sent, not about who sends or whether the other side is well.
bool is_about_content(const Answer& answer) {
  return answer.status == 400 || answer.status == 409 || answer.status == 413;
}

// False: no use in going on now.
bool deliver(records::Store& store, Line& line, const std::string& target, const Items& items,
             PushResult& result) {
  const Answer answer = line.send(items);
  if (taken(answer)) {
    store.sent(target, ids_of(items));
    result.sent += static_cast<std::int64_t>(items.size());
    return true;
  }
  if (!is_about_content(answer)) {
    result.problem = words_of(answer);
    store.not_sent(target, ids_of(items), result.problem);
    return false;
  }
  if (items.size() == 1) {
    store.refused(target, ids_of(items), words_of(answer));
    ++result.refused;
    return true;
  }
  // A store accepts a request as a whole or not at all: the statement that it refuses is found by bisection.
  const auto middle = items.begin() + static_cast<std::ptrdiff_t>(items.size() / 2);
  return deliver(store, line, target, {items.begin(), middle}, result) &&
         deliver(store, line, target, {middle, items.end()}, result);
}

}  // namespace

std::string why_not_target(const std::string& url) {
  const bool safe = url.starts_with("https://");
  if (!safe && !url.starts_with("http://")) return "URL: expected https://HOST/PATH, found \"" + url + "\"";
  const std::string rest = url.substr(safe ? 8 : 7);
  const std::string host = rest.substr(0, rest.find_first_of("/:?#"));
  const bool bracketed = rest.starts_with("[::1]");
  if (host.empty()) return "URL: expected a host in it, found \"" + url + "\"";
  if (rest.substr(0, rest.find('/')).find('@') != std::string::npos)
    return "URL: expected no name or password in it (use --user and --secret-file)";
  for (const char c : url) {
    if (c <= ' ' || c == 127 || c == '?' || c == '#')
      return "URL: expected the plain endpoint, without blanks, ? or #";
  }
  if (safe || host == "localhost" || host == "127.0.0.1" || bracketed) return {};
  return "URL: http:// is read by everybody on the way and is only taken for this computer itself; expected "
         "https://";
}

PushResult push_statements(records::Store& store, const library::Library& library, const std::string& home,
                           const PushOptions& options) {
  const std::string wrong = why_not_target(options.url);
  if (!wrong.empty()) throw std::invalid_argument(wrong);
  Items all;
  for (const Json& statement : all_statements(store, library, home))
    all.push_back({statement["id"].get<std::string>(), statement.dump(), 0});
  store.queue(options.url, all);
  PushResult result;
  Line line(options);
  for (Items next = store.queued(options.url, options.batch); !next.empty();
       next = store.queued(options.url, options.batch)) {
    if (!deliver(store, line, options.url, next, result)) break;
  }
  result.left = store.outbox(options.url).queued;
  return result;
}

}  // namespace stirbench::reports
