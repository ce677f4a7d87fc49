#include "core/lumber/PhotoFile.h"

#include <mutex>
#include <utility>

#include "core/lumber/Sha256.h"

namespace stavewright {

namespace {

class InMemory final : public PhotoSource {
  public:
    explicit InMemory(std::string bytes)
        : m_bytes(std::make_shared<const std::string>(std::move(bytes))) {}
    [[nodiscard]] std::uint64_t size() const override { return m_bytes->size(); }
    [[nodiscard]] Result<std::shared_ptr<const std::string>> read() const override {
        return m_bytes;
    }
    [[nodiscard]] bool standsIn(const std::string& /*path*/) const override { return false; }

  private:
    std::shared_ptr<const std::string> m_bytes;
};

} // namespace

struct PhotoFile::Shared {
    std::string sha256;
    std::mutex guard; // of what follows
    std::shared_ptr<const PhotoSource> source;
    bool checked = false;

    std::shared_ptr<const PhotoSource> present() {
        const std::lock_guard lock(guard);
        return source;
    }
};

PhotoFile PhotoFile::of(std::string bytes) {
    PhotoFile file = named(sha256Of(bytes));
    file.m_shared->source = inMemory(std::move(bytes));
    file.m_shared->checked = true;
    return file;
}

std::shared_ptr<const PhotoSource> PhotoFile::inMemory(std::string bytes) {
    return std::make_shared<InMemory>(std::move(bytes));
}

PhotoFile PhotoFile::named(std::string sha256) {
    PhotoFile file;
    file.m_shared = std::make_shared<Shared>();
    file.m_shared->sha256 = std::move(sha256);
    return file;
}

const std::string& PhotoFile::sha256() const {
    static const std::string none;
    return m_shared ? m_shared->sha256 : none;
}

std::uint64_t PhotoFile::size() const {
    const auto source = m_shared ? m_shared->present() : nullptr;
    return source ? source->size() : 0;
}

bool PhotoFile::hasSource() const { return m_shared && m_shared->present(); }

Result<std::shared_ptr<const std::string>> PhotoFile::readUnchecked() const {
    const auto source = m_shared ? m_shared->present() : nullptr;
    if (!source) {
        return Error{ErrorCode::CannotRead,
                     "The photograph itself is missing from the job file; add it again.",
                     {}};
    }
    return source->read();
}

Result<std::shared_ptr<const std::string>> PhotoFile::read() const {
    auto bytes = readUnchecked();
    if (!bytes) {
        return bytes;
    }
    {
        const std::lock_guard lock(m_shared->guard);
        if (m_shared->checked) {
            return bytes;
        }
    }
    if (sha256Of(*bytes.value()) != sha256()) {
        return Error{ErrorCode::CannotRead,
                     "The photograph is damaged: its bytes are not those it was saved with.",
                     {}};
    }
    const std::lock_guard lock(m_shared->guard);
    m_shared->checked = true;
    return bytes;
}

bool PhotoFile::standsIn(const std::string& path) const {
    const auto source = m_shared ? m_shared->present() : nullptr;
    return source && source->standsIn(path);
}

void PhotoFile::restOn(std::shared_ptr<const PhotoSource> source) const {
    if (m_shared) {
        const std::lock_guard lock(m_shared->guard);
        m_shared->source = std::move(source);
    }
}

} // namespace stavewright
