#pragma once

#include <functional>
#include <string>

#include "app/library/library.h"
#include "app/records/store.h"

// Statements to a record store over HTTP, by xAPI 1.0.3 (xAPI-Communication: POST of an array to
// <endpoint>/statements).
//
// Nothing is lost: statements are written to the outbox first and removed only after the other side has
// confirmed them. A statement's id never changes, so that a statement sent twice, because an answer was lost,
// is stored once.
namespace stirbench::reports {

struct PushOptions {
  std::string url;   // the store's endpoint, without "/statements"; https, or http to this computer itself
  std::string user;  // HTTP basic; empty: none
  std::string secret;
  std::size_t batch = 50;            // statements in one request
  int tries = 4;                     // of one request, when the way or the other side fails
  double first_wait_s = 1.0;         // before the second try; doubles
  double timeout_s = 30.0;           // of one request
  std::function<void(double)> wait;  // empty: sleeps
};

struct PushResult {
  std::int64_t sent = 0;     // in this call
  std::int64_t refused = 0;  // in this call: the other side will never take them; kept with their reason
  std::int64_t left = 0;     // still in the outbox
  std::string problem;       // why it stopped, empty when everything was sent
};

// Throws StoreError when the records cannot be written, std::invalid_argument naming what is wrong with the
// URL. Everything else is reported in the result. The caller has checked Right::see_everybody.
PushResult push_statements(records::Store& store, const library::Library& library, const std::string& home,
                           const PushOptions& options);

// Empty, or why statements cannot be sent to this URL.
std::string why_not_target(const std::string& url);

}  // namespace stirbench::reports
