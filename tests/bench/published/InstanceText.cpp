#include "InstanceText.h"

#include <cstdlib>
#include <fstream>
#include <sstream>

namespace stavewright::cutting::bench {

std::optional<Numbers> Numbers::of(const std::string& path) {
    std::ifstream file(path);
    if (!file) {
        return std::nullopt;
    }
    Numbers numbers;
    for (std::int64_t number = 0; file >> number;) {
        numbers.add(number);
    }
    return numbers;
}

std::int64_t Numbers::next() {
    if (isAtEnd()) {
        m_sound = false;
        return 0;
    }
    return m_numbers[m_place++];
}

std::map<std::string, Numbers> namedNumbers(const std::string& path) {
    std::ifstream file(path);
    std::map<std::string, Numbers> instances;
    Numbers* current = nullptr;
    for (std::string word; file >> word;) {
        if (word.find_first_not_of("-0123456789") != std::string::npos) {
            current = &instances[word];
        } else if (current != nullptr) {
            current->add(std::atoll(word.c_str()));
        }
    }
    return instances;
}

std::string KnownLine::text(const std::string& field) const {
    const auto found = m_fields.find(field);
    return found == m_fields.end() ? std::string() : found->second;
}

std::optional<std::int64_t> KnownLine::number(const std::string& field) const {
    const std::string value = text(field);
    if (value.empty()) {
        return std::nullopt;
    }
    return std::atoll(value.c_str());
}

std::optional<std::vector<KnownLine>> knownValues(const std::string& path) {
    std::ifstream file(path);
    if (!file) {
        return std::nullopt;
    }
    const auto split = [](const std::string& line) {
        std::vector<std::string> fields;
        std::istringstream text(line);
        for (std::string field; std::getline(text, field, ';');) {
            fields.push_back(field);
        }
        return fields;
    };
    std::string line;
    std::getline(file, line);
    const std::vector<std::string> names = split(line);
    std::vector<KnownLine> known;
    while (std::getline(file, line)) {
        const std::vector<std::string> values = split(line);
        std::map<std::string, std::string> fields;
        for (std::size_t i = 0; i < names.size() && i < values.size(); ++i) {
            fields[names[i]] = values[i];
        }
        known.emplace_back(std::move(fields));
    }
    return known;
}

} // namespace stavewright::cutting::bench
