#include "loomleaf/takeoff/table.h"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

namespace loomleaf {
namespace {

TEST(Csv, QuotesCommasAndQuotesAfterRfc4180) {
  EXPECT_EQ(to_csv({"t", {"a", "b"}, {{"1,5", "say \"hi\""}}}), "a,b\r\n\"1,5\",\"say \"\"hi\"\"\"\r\n");
}

TEST(Csv, DefusesCellsThatStartAFormula) {
  EXPECT_EQ(to_csv({"t", {"a"}, {{"=1+1"}, {"+1"}, {"-1"}, {"@x"}, {"\t=1"}}}),
            "a\r\n'=1+1\r\n'+1\r\n'-1\r\n'@x\r\n' =1\r\n");
}

TEST(Csv, KeepsControlCharactersOut) { EXPECT_EQ(to_csv({"t", {"a"}, {{"x\x1b\ny"}}}), "a\r\nx  y\r\n"); }

TEST(TableJson, ReadsBackAsItWasWritten) {
  const auto json = nlohmann::json::parse(to_json({"t", {"a"}, {{"1"}, {"2"}}}));
  EXPECT_EQ(json["format"], "loomleaf-table/1");
  EXPECT_EQ(json["rows"][1][0], "2");
}

}  // namespace
}  // namespace loomleaf
