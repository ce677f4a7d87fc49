#include "core/job/FileAccess.h"

#include <cerrno>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <string_view>
#include <system_error>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include "core/job/JobFile.h"

namespace stavewright {

namespace {

/// An open file descriptor that closes itself.
class Descriptor {
  public:
    explicit Descriptor(int number)
        : m_number(number) {}
    Descriptor(const Descriptor&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;
    ~Descriptor() { (void)close(); }

    [[nodiscard]] bool isOpen() const { return m_number >= 0; }
    [[nodiscard]] int number() const { return m_number; }
    /// False when the system reports a late write error.
    [[nodiscard]] bool close() {
        const int number = std::exchange(m_number, -1);
        return number < 0 || ::close(number) == 0;
    }

  private:
    int m_number;
};

std::string reason(int code) { return std::generic_category().message(code); }

/// While it lives, writing beyond the process's file-size limit is an error (EFBIG) like a full
/// disk, and not a signal that would end the program with a half-written file beside the old one.
class SizeLimitAsError {
  public:
    SizeLimitAsError() {
        sigemptyset(&m_signal);
        sigaddset(&m_signal, SIGXFSZ);
        m_blocked = pthread_sigmask(SIG_BLOCK, &m_signal, &m_before) == 0;
    }
    SizeLimitAsError(const SizeLimitAsError&) = delete;
    SizeLimitAsError& operator=(const SizeLimitAsError&) = delete;
    ~SizeLimitAsError() {
        if (!m_blocked) {
            return;
        }
        const timespec atOnce{0, 0};
        while (sigtimedwait(&m_signal, nullptr, &atOnce) > 0) {
        }
        pthread_sigmask(SIG_SETMASK, &m_before, nullptr);
    }

  private:
    sigset_t m_signal{};
    sigset_t m_before{};
    bool m_blocked = false;
};

/// The file that a chain of symbolic links stands for, whether it exists or not.
Result<std::string> behindLinks(std::string path) {
    constexpr int mostLinks = 40; // as the system itself follows
    for (int i = 0; i < mostLinks; ++i) {
        struct stat status {};
        if (lstat(path.c_str(), &status) != 0 || !S_ISLNK(status.st_mode)) {
            return path;
        }
        std::string target(4096, '\0');
        const ssize_t length = readlink(path.c_str(), target.data(), target.size());
        if (length <= 0 || static_cast<std::size_t>(length) == target.size()) {
            break;
        }
        target.resize(static_cast<std::size_t>(length));
        if (target.front() != '/') {
            const std::size_t slash = path.rfind('/');
            target = slash == std::string::npos ? target : path.substr(0, slash + 1) + target;
        }
        path = std::move(target);
    }
    return Error{ErrorCode::CannotWrite, "The link cannot be followed to a file.", path};
}

std::string folderOf(const std::string& path) {
    const std::size_t slash = path.rfind('/');
    if (slash == std::string::npos) {
        return ".";
    }
    return slash == 0 ? "/" : path.substr(0, slash);
}

/// False, with the reason in errno, when not everything could be written.
bool writeAll(int file, std::string_view bytes) {
    while (!bytes.empty()) {
        const ssize_t written = write(file, bytes.data(), bytes.size());
        if (written < 0 && errno == EINTR) {
            continue;
        }
        if (written <= 0) {
            return false;
        }
        bytes.remove_prefix(static_cast<std::size_t>(written));
    }
    return true;
}

/// Permissions of the file that is replaced, or those that a new file gets.
mode_t permissionsFor(const struct stat* old) {
    constexpr mode_t all = 07777;
    if (old) {
        return old->st_mode & all;
    }
    const mode_t mask = umask(0); // there is no call that only asks
    umask(mask);
    constexpr mode_t newFile = 0666;
    return newFile & ~mask;
}

} // namespace

Status writeAtomically(const std::string& path, std::string_view bytes) {
    return job::writeAtomicallyBy(path, [bytes](const job::Sink& sink) -> Status {
        (void)sink(bytes); // a failure is told by the writer
        return Done{};
    });
}

Status job::writeAtomicallyBy(const std::string& path,
                              const std::function<Status(const Sink&)>& fill) {
    const auto cannot = [&path](const std::string& why) {
        return Error{ErrorCode::CannotWrite, "The file cannot be written: " + why + '.', path};
    };
    const Result<std::string> followed = behindLinks(path);
    if (!followed) {
        return cannot("its symbolic link cannot be followed");
    }
    const std::string& target = followed.value();
    struct stat old {};
    const bool exists = stat(target.c_str(), &old) == 0;
    if (exists && S_ISDIR(old.st_mode)) {
        return cannot("there is a folder of that name");
    }
    if (exists && !S_ISREG(old.st_mode)) {
        return cannot("it is a device or a pipe and not an ordinary file");
    }
    if (exists && faccessat(AT_FDCWD, target.c_str(), W_OK, AT_EACCESS) != 0) {
        return cannot(reason(errno));
    }
    const std::string folder = folderOf(target);

    const SizeLimitAsError sizeLimitAsError;
    std::string temporary = folder + "/.stavewright-XXXXXX";
    Descriptor file(mkostemp(temporary.data(), O_CLOEXEC));
    if (!file.isOpen()) {
        return cannot(reason(errno) + " (folder “" + folder + "”)");
    }
    bool good = true;
    int firstReason = 0;
    const Status filled = fill([&](std::string_view bytes) {
        if (good && !writeAll(file.number(), bytes)) {
            good = false;
            firstReason = errno;
        }
        return good;
    });
    if (good && !filled) {
        (void)unlink(temporary.c_str());
        return filled.error();
    }
    if (good && exists) {
        // The owner can be kept only with the right to do so; the permissions always.
        [[maybe_unused]] const int kept = fchown(file.number(), old.st_uid, old.st_gid);
    }
    good = good && fchmod(file.number(), permissionsFor(exists ? &old : nullptr)) == 0 &&
           fsync(file.number()) == 0;
    good = good && file.close();
    good = good && std::rename(temporary.c_str(), target.c_str()) == 0;
    if (!good) {
        const int why = firstReason != 0 ? firstReason : errno;
        (void)unlink(temporary.c_str());
        return cannot(reason(why));
    }
    // The rename itself reaches the disk with its folder. Some file systems cannot sync folders;
    // the file is in place all the same.
    const Descriptor folderFile(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
    if (folderFile.isOpen()) {
        (void)fsync(folderFile.number());
    }
    return Done{};
}

namespace job {

namespace {

/// The open descriptor of an ordinary file, not blocking, so that a pipe without a writer does not
/// hold the program up.
Result<int> openOrdinary(const std::string& path, std::size_t most, struct stat& status) {
    const auto cannot = [](const std::string& why) {
        return Error{ErrorCode::CannotRead, "The file cannot be read: " + why + '.', {}};
    };
    const int file = ::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK);
    if (file < 0) {
        return cannot(reason(errno));
    }
    std::string why;
    if (fstat(file, &status) != 0) {
        why = reason(errno);
    } else if (S_ISDIR(status.st_mode)) {
        why = "it is a folder; a job file is due";
    } else if (!S_ISREG(status.st_mode)) {
        why = "it is a device or a pipe; a job file is due";
    } else if (static_cast<std::uintmax_t>(status.st_size) > most) {
        why = "it has " + std::to_string(status.st_size) + " bytes; at most " +
              std::to_string(most) + " are allowed";
    }
    if (!why.empty()) {
        (void)::close(file);
        return cannot(why);
    }
    return file;
}

} // namespace

Result<std::string> readWholeFile(const std::string& path, std::size_t most) {
    struct stat status {};
    const Result<int> opened = openOrdinary(path, most, status);
    if (!opened) {
        return opened.error();
    }
    const Descriptor file(opened.value());
    std::string content(static_cast<std::size_t>(status.st_size), '\0');
    std::size_t got = 0;
    while (got < content.size()) {
        const ssize_t count = read(file.number(), content.data() + got, content.size() - got);
        if (count < 0 && errno == EINTR) {
            continue;
        }
        if (count < 0) {
            return Error{
                ErrorCode::CannotRead, "The file cannot be read: " + reason(errno) + '.', {}};
        }
        if (count == 0) {
            break; // it was shortened while it was read
        }
        got += static_cast<std::size_t>(count);
    }
    content.resize(got);
    return content;
}

Result<OpenFile> openWholeFile(const std::string& path, std::size_t most) {
    struct stat status {};
    const Result<int> opened = openOrdinary(path, most, status);
    if (!opened) {
        return opened.error();
    }
    std::FILE* file = ::fdopen(opened.value(), "rb");
    if (file == nullptr) {
        (void)::close(opened.value());
        return Error{ErrorCode::CannotRead, "The file cannot be read: " + reason(errno) + '.', {}};
    }
    OpenFile result;
    result.file = {file, &std::fclose};
    result.size = static_cast<std::uint64_t>(status.st_size);
    result.device = static_cast<std::uint64_t>(status.st_dev);
    result.number = static_cast<std::uint64_t>(status.st_ino);
    return result;
}

bool isFileAt(const std::string& path, std::uint64_t device, std::uint64_t number) {
    struct stat status {};
    return stat(path.c_str(), &status) == 0 &&
           static_cast<std::uint64_t>(status.st_dev) == device &&
           static_cast<std::uint64_t>(status.st_ino) == number;
}

} // namespace job

} // namespace stavewright
