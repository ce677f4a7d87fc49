#pragma once
// The bytes of one photograph, known by their SHA-256. A job with 200 photographs is opened without
// reading any of them: a PhotoFile knows where its bytes stand and fetches them when they are asked
// for. Copies share them, so boards, edits and undo steps hold a photograph once.
//
//   const PhotoFile photo = PhotoFile::of(std::move(bytes));
//   if (const auto read = photo.read()) { decode(*read.value()); }

#include <cstdint>
#include <memory>
#include <string>

#include "core/base/Result.h"

namespace stavewright {

/// Where the bytes of a photograph stand. Read from any thread.
class PhotoSource {
  public:
    virtual ~PhotoSource() = default;
    [[nodiscard]] virtual std::uint64_t size() const = 0;
    /// Fails with a sentence when the place is damaged or gone.
    [[nodiscard]] virtual Result<std::shared_ptr<const std::string>> read() const = 0;
    /// Whether the file (or folder) that is at `path` now holds them.
    [[nodiscard]] virtual bool standsIn(const std::string& path) const = 0;
};

class PhotoFile {
  public:
    PhotoFile() = default; ///< no photograph; stands in no job
    /// Held in memory.
    [[nodiscard]] static PhotoFile of(std::string bytes);
    [[nodiscard]] static std::shared_ptr<const PhotoSource> inMemory(std::string bytes);
    /// Known by name only; reading fails until restOn says where the bytes are.
    [[nodiscard]] static PhotoFile named(std::string sha256);

    /// 64 hexadecimal digits; empty without a photograph.
    [[nodiscard]] const std::string& sha256() const;
    /// 0 where nobody knows.
    [[nodiscard]] std::uint64_t size() const;
    [[nodiscard]] bool hasSource() const;
    /// Checked against the name the first time.
    [[nodiscard]] Result<std::shared_ptr<const std::string>> read() const;
    /// As they stand, for writing them elsewhere.
    [[nodiscard]] Result<std::shared_ptr<const std::string>> readUnchecked() const;
    [[nodiscard]] bool standsIn(const std::string& path) const;

    /// The same bytes stand there now; all copies read them from there. Changes no value: two
    /// PhotoFiles are equal when their names are.
    void restOn(std::shared_ptr<const PhotoSource> source) const;

    friend bool operator==(const PhotoFile& a, const PhotoFile& b) {
        return a.m_shared == b.m_shared || a.sha256() == b.sha256();
    }

  private:
    struct Shared;
    std::shared_ptr<Shared> m_shared;
};

} // namespace stavewright
