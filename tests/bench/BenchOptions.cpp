#include "BenchOptions.h"

#include <algorithm>
#include <cstdlib>

namespace stavewright::cutting::bench {

std::optional<BenchOptions> readOptions(int count, char** arguments) {
    BenchOptions options;
    for (int i = 1; i < count; ++i) {
        const std::string name = arguments[i];
        if (name == "--json") {
            options.json = true;
            continue;
        }
        if (i + 1 >= count) {
            return std::nullopt;
        }
        const std::string value = arguments[++i];
        const auto whole = [&] { return std::max(1, std::atoi(value.c_str())); };
        if (name == "--suite") {
            options.suite = value;
        } else if (name == "--boards") {
            options.boards = whole();
        } else if (name == "--seeds") {
            options.seeds = whole();
        } else if (name == "--seed-base") {
            options.seedBase = whole();
        } else if (name == "--threads") {
            options.threads = whole();
        } else if (name == "--instances") {
            options.instances = value;
        } else if (name == "--family") {
            options.family = value;
        } else if (name == "--distances") {
            options.distances = value != "off";
        } else if (name == "--seconds") {
            options.seconds = std::atof(value.c_str());
        } else {
            return std::nullopt;
        }
    }
    const bool needsFolder = options.suite == "jobs" || options.suite == "published";
    if (needsFolder && options.instances.empty()) {
        return std::nullopt;
    }
    return options;
}

std::string usage() {
    return "usage: bench_cutting --suite racks|widths|kinds|scale|cancel|exact|jobs|published "
           "[--boards "
           "N] [--seeds N] "
           "[--seed-base N] [--instances DIR] [--family NAME] [--seconds S] [--threads N] "
           "[--distances on|off] "
           "[--json]\n";
}

} // namespace stavewright::cutting::bench
