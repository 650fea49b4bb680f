#pragma once

#include "app/library/guide/guide.h"
#include "app/library/reading/shape.h"

// Field tables of content/fault_guides and content/evidence.
namespace stirbench::library {

const Object<FaultGuide>& guide_table();
const Object<LikelihoodTable>& evidence_table();
const Object<LikelihoodRow>& evidence_row_table();  // one of its rows
Json row_json(const LikelihoodRow& row);            // the same, to be written

}  // namespace stirbench::library
