#pragma once
// The way every fallible function of the core answers: a value, or one Error.
//
//   Result<Length> r = parseLength("27 1/2", LengthStyle::inches());
//   if (!r) return r.error();
//   use(r.value());
//
// Exceptions are left for bugs and for running out of memory.

#include <cassert>
#include <string>
#include <utility>
#include <variant>

namespace stavewright {

/// What kind of thing went wrong; decides the exit code of the headless commands.
enum class ErrorCode {
    BadInput,    ///< what was given cannot be used (exit 2)
    CannotRead,  ///< the file is missing, a directory, unreadable (exit 2)
    CannotWrite, ///< the target cannot be written (exit 3)
    TooNew,      ///< written by a newer version of the program (exit 2)
    Cancelled,   ///< the user stopped it
    Internal     ///< a bug of ours, reported instead of crashing
};

/// One plain sentence (what, the value, what is allowed) and where it applies.
struct Error {
    ErrorCode code = ErrorCode::BadInput;
    std::string message; ///< a sentence for people, no trailing newline
    std::string place; ///< a file, or a JSON pointer, or the mark of a board or part; may be empty

    friend bool operator==(const Error&, const Error&) = default;
};

/// "place: message", or the message alone when there is no place.
[[nodiscard]] inline std::string describe(const Error& error) {
    return error.place.empty() ? error.message : error.place + ": " + error.message;
}

template <class T>
class [[nodiscard]] Result {
  public:
    Result(T value)
        : m_state(std::in_place_index<0>, std::move(value)) {}
    Result(Error error)
        : m_state(std::in_place_index<1>, std::move(error)) {}

    [[nodiscard]] bool ok() const { return m_state.index() == 0; }
    explicit operator bool() const { return ok(); }

    [[nodiscard]] const T& value() const& {
        assert(ok());
        return *std::get_if<0>(&m_state);
    }
    [[nodiscard]] T& value() & {
        assert(ok());
        return *std::get_if<0>(&m_state);
    }
    [[nodiscard]] T&& value() && {
        assert(ok());
        return std::move(*std::get_if<0>(&m_state));
    }
    [[nodiscard]] const Error& error() const {
        assert(!ok());
        return *std::get_if<1>(&m_state);
    }

  private:
    std::variant<T, Error> m_state;
};

/// Success without a value.
struct Done {
    friend bool operator==(const Done&, const Done&) = default;
};
using Status = Result<Done>;

} // namespace stavewright
