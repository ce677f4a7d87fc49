#include "ui/photo/HeicFile.h"

#include <libheif/heif.h>

#include <algorithm>
#include <memory>

#include "core/photo/PictureFacts.h"

namespace stavewright::ui {

namespace {

template <class T, void (*release)(T*)>
struct Release {
    void operator()(T* object) const { release(object); }
};
template <class T, void (*release)(const T*)>
struct ReleaseConst {
    void operator()(const T* object) const { release(object); }
};
using Context = std::unique_ptr<heif_context, Release<heif_context, heif_context_free>>;
using Handle =
    std::unique_ptr<heif_image_handle, ReleaseConst<heif_image_handle, heif_image_handle_release>>;
using Decoded = std::unique_ptr<heif_image, ReleaseConst<heif_image, heif_image_release>>;

Error wrong(std::string sentence) { return {ErrorCode::BadInput, std::move(sentence), {}}; }

Error undecodable(const heif_error& error) {
    return wrong(std::string("The HEIC cannot be opened (") +
                 (error.message == nullptr ? "unknown reason" : error.message) +
                 "); set the phone's camera to save JPEG, or share the photograph as a JPEG.");
}

} // namespace

Result<QImage> decodeHeic(const QByteArray& file) {
    const Context context(heif_context_alloc());
    heif_error error = heif_context_read_from_memory_without_copy(
        context.get(), file.constData(), static_cast<std::size_t>(file.size()), nullptr);
    heif_image_handle* handlePointer = nullptr;
    if (error.code == heif_error_Ok) {
        error = heif_context_get_primary_image_handle(context.get(), &handlePointer);
    }
    const Handle handle(handlePointer);
    if (error.code != heif_error_Ok) {
        return undecodable(error);
    }
    photo::PictureFacts facts;
    facts.format = photo::PictureFormat::Heic;
    facts.width =
        static_cast<std::uint32_t>(std::max(0, heif_image_handle_get_width(handle.get())));
    facts.height =
        static_cast<std::uint32_t>(std::max(0, heif_image_handle_get_height(handle.get())));
    if (const Status size = photo::usableSize(facts); !size) {
        return size.error();
    }
    heif_image* imagePointer = nullptr;
    // Turns and mirrors as the file asks.
    error = heif_decode_image(handle.get(), &imagePointer, heif_colorspace_RGB,
                              heif_chroma_interleaved_RGB, nullptr);
    const Decoded image(imagePointer);
    if (error.code != heif_error_Ok) {
        return undecodable(error);
    }
    int stride = 0;
    const std::uint8_t* pixels =
        heif_image_get_plane_readonly(image.get(), heif_channel_interleaved, &stride);
    if (pixels == nullptr) {
        return wrong("The HEIC has no picture in it.");
    }
    const QImage borrowed(pixels, heif_image_get_width(image.get(), heif_channel_interleaved),
                          heif_image_get_height(image.get(), heif_channel_interleaved), stride,
                          QImage::Format_RGB888);
    return borrowed.copy();
}

} // namespace stavewright::ui
