#include "app/outing_replay.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "app/versions.hpp"
#include "outlook/sample_bytes.hpp"

namespace gloam::app {
namespace {

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    std::size_t at = 0;
    while (at < text.size()) {
        const std::size_t end = std::min(text.find('\n', at), text.size());
        lines.push_back(text.substr(at, end - at));
        at = end + 1;
    }
    return lines;
}

Result<OutingReport> remade(const sky::SkyTables& tables, const journal::CallRecord& record) {
    const auto sample = outlook::unpack_sample(record.states);
    if (!sample) {
        return tl::unexpected(sample.error());
    }
    return parse_outing_basis(record.inputs).and_then([&](const OutingBasis& basis) {
        return make_outing(tables, basis, *sample);
    });
}

}  // namespace

Result<Replayed> replay(const sky::SkyTables& tables, const journal::Journal& journal,
                        std::optional<std::int64_t> call) {
    auto stored = call ? find_call(journal, *call) : newest_call(journal);
    if (!stored) {
        return tl::unexpected(stored.error());
    }
    if (!*stored) {
        return fail(ErrorKind::kNotFound,
                    call ? fmt::format("the journal has no call {}", *call) : "the journal has no calls",
                    "ID", "gloam calls lists them; gloam evening makes one");
    }
    const journal::CallRecord& record = (*stored)->record;
    if (record.head.look == journal::Look::kCall) {
        return fail(ErrorKind::kUnsupported, "this call was no look at an outing",
                    fmt::format("call {}", (*stored)->id),
                    "give the number of an evening's or a morning's look");
    }
    auto report = remade(tables, record);
    const bool same = record.model_version == kModelVersion && record.tables_hash == kTablesHash;
    return Replayed{**std::move(stored), std::move(report), same};
}

std::string difference(const std::string& first, const std::string& second) {
    const auto a = lines_of(first);
    const auto b = lines_of(second);
    // Longest common subsequence of the lines behind each pair of places.
    std::vector<std::vector<std::size_t>> common(a.size() + 1, std::vector<std::size_t>(b.size() + 1, 0));
    for (std::size_t i = a.size(); i-- > 0;) {
        for (std::size_t j = b.size(); j-- > 0;) {
            common[i][j] =
                a[i] == b[j] ? common[i + 1][j + 1] + 1 : std::max(common[i + 1][j], common[i][j + 1]);
        }
    }
    std::string text;
    std::size_t i = 0;
    std::size_t j = 0;
    while (i < a.size() || j < b.size()) {
        if (i < a.size() && j < b.size() && a[i] == b[j]) {
            ++i;
            ++j;
        } else if (j == b.size() || (i < a.size() && common[i + 1][j] >= common[i][j + 1])) {
            text += "- " + a[i++] + "\n";
        } else {
            text += "+ " + b[j++] + "\n";
        }
    }
    return text;
}

}  // namespace gloam::app
