#pragma once
// Pictures as plain memory: 8 bits each of red, green, blue. Decoding and painting are done outside
// the core; a view borrows the caller's pixels, an Image owns its own.

#include <cassert>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace stavewright::photo {

/// Borrowed pixels; rows start `stride` bytes apart. The owner must outlive the view.
struct ImageView {
    const std::uint8_t* data = nullptr;
    int width = 0;
    int height = 0;
    std::ptrdiff_t stride = 0;

    [[nodiscard]] bool isEmpty() const { return data == nullptr || width <= 0 || height <= 0; }
    /// The three bytes of a pixel inside the picture.
    [[nodiscard]] const std::uint8_t* at(int x, int y) const {
        assert(0 <= x && x < width && 0 <= y && y < height);
        return data + y * stride + static_cast<std::ptrdiff_t>(x) * 3;
    }
};

class Image {
  public:
    Image() = default;
    /// Black.
    Image(int width, int height)
        : m_width(width)
        , m_height(height)
        , m_bytes(static_cast<std::size_t>(width) * static_cast<std::size_t>(height) * 3) {
        assert(width >= 0 && height >= 0);
    }

    [[nodiscard]] int width() const { return m_width; }
    [[nodiscard]] int height() const { return m_height; }
    [[nodiscard]] std::ptrdiff_t stride() const { return static_cast<std::ptrdiff_t>(m_width) * 3; }
    [[nodiscard]] std::uint8_t* data() { return m_bytes.data(); }
    [[nodiscard]] std::uint8_t* at(int x, int y) {
        assert(0 <= x && x < m_width && 0 <= y && y < m_height);
        return m_bytes.data() + y * stride() + static_cast<std::ptrdiff_t>(x) * 3;
    }
    [[nodiscard]] ImageView view() const { return {m_bytes.data(), m_width, m_height, stride()}; }

  private:
    int m_width = 0;
    int m_height = 0;
    std::vector<std::uint8_t> m_bytes;
};

} // namespace stavewright::photo
