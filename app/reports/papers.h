#pragma once

#include <string>
#include <vector>

#include "app/library/library.h"
#include "app/records/certifying.h"

// The documents that a manager prints, as PDF bytes.
namespace stirbench::reports {

// One page: who, what, until when, on what evidence, what it is not; QR symbol with the short line
// (certificate.h).
std::string certificate_pdf(const records::CertificateText& text, const std::string& short_line,
                            const std::string& key_print);

// People against skills, for the wall: the same marks as on the screen, and who may work today.
std::string standings_pdf(const std::vector<records::Standing>& rows, const library::Library& library,
                          const training::Demand& demand, const std::string& site, std::int64_t now_s);

// The board for the shift: who may work alone today, in large letters; then whose certificate expires soon,
// and everyone else, who must work with another person. One certificate per page.
struct BoardPart {
  const training::Demand* demand = nullptr;
  std::vector<records::Standing> rows;
};
std::string shift_board_pdf(const std::vector<BoardPart>& parts, const std::string& site, std::int64_t now_s);

}  // namespace stirbench::reports
