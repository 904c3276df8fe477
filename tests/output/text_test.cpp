// Numbers, names, hashes and comma-separated values against their standards.
#include <gtest/gtest.h>

#include <clocale>

#include "fitup/job.h"
#include "output/csv.h"
#include "output/text.h"

namespace fitup::output {
namespace {

// FIPS 180-4 with its example values (NIST, "SHA-256 examples"): one block, two blocks, a million times 'a', none.
TEST(Sha256, PublishedVectors) {
  EXPECT_EQ(sha256_hex("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  EXPECT_EQ(sha256_hex(""), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
  EXPECT_EQ(sha256_hex("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq"),
            "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
  EXPECT_EQ(sha256_hex(std::string(1000000, 'a')), "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
}

TEST(Number, DropsTrailingZerosAndTheSignOfZero) {
  EXPECT_EQ(number(984), "984");
  EXPECT_EQ(number(1.5), "1.5");
  EXPECT_EQ(number(0.30000000000000004), "0.3");
  EXPECT_EQ(number(-0.0001), "0");
  EXPECT_EQ(number(1200, 0), "1200");
  EXPECT_EQ(fixed(-0.0000001, 6), "0.000000");
  EXPECT_EQ(fixed(-1.25, 1), "-1.2");
}

TEST(Number, DoesNotFollowTheLocale) {
  const char* decimal_comma = std::setlocale(LC_ALL, "de_DE.UTF-8");
  EXPECT_EQ(number(1234.5), "1234.5") << (decimal_comma ? "with decimal comma" : "in the C locale");
  std::setlocale(LC_ALL, "C");
}

TEST(Slug, KeepsLettersDigitsAndSingleHyphens) {
  EXPECT_EQ(slug("Left bottom, ring  member"), "left-bottom-ring-member");
  EXPECT_EQ(slug("  --x--  "), "x");
  EXPECT_EQ(slug("../etc/passwd"), "etc-passwd");
  EXPECT_EQ(slug("\xC3\xBC"), "part");
  EXPECT_EQ(slug(std::string(300, 'a')).size(), 60U);
  EXPECT_EQ(file_safe("EN AW-5754"), "EN-AW-5754");
}

// XML 1.0, production 2: a document holds no U+FFFE and no U+FFFF, and what is no UTF-8 is no character.
TEST(XmlText, HoldsOnlyWhatXmlMayHold) {
  EXPECT_EQ(xml_text("a<b & c>d"), "a&lt;b &amp; c&gt;d");
  EXPECT_EQ(xml_text("a\xEF\xBF\xBE-b\xEF\xBF\xBF"), "a\xEF\xBF\xBD-b\xEF\xBF\xBD");
  EXPECT_EQ(xml_text("\xFF\xC3"), "\xEF\xBF\xBD\xEF\xBF\xBD");
  EXPECT_EQ(xml_text("\x01\n"), "  ");
  const std::string allowed = "\xC3\xBC \xEF\xBF\xBD \xF0\x9F\x94\xA9 \xEE\x80\x80";
  EXPECT_EQ(xml_text(allowed), allowed);
}

// RFC 4180, section 2: CRLF (1), quotes round a field with a comma, quote or line break (6), quotes doubled (7).
TEST(Csv, FollowsRfc4180) {
  const std::vector<CsvRow> rows{{"a", "b,c", "say \"x\""}, {"", "two\r\nlines", ""}};
  const std::string text = write_csv(rows);
  EXPECT_EQ(text, "a,\"b,c\",\"say \"\"x\"\"\"\r\n,\"two\r\nlines\",\r\n");
  EXPECT_EQ(read_csv(text), rows);
}

TEST(Csv, RefusesAnOpenQuote) {
  EXPECT_FALSE(read_csv("a,\"b\r\n"));
  EXPECT_FALSE(read_csv("a,b\"c\r\n"));
  EXPECT_FALSE(read_csv("\"a\"b\r\n"));
}

}  // namespace
}  // namespace fitup::output
