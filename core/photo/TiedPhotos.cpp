#include "core/photo/TiedPhotos.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <set>

namespace stavewright::photo {

namespace {

struct Seen {
    std::size_t photo = 0;
    PhotoPoint at;
};
using Spots = std::map<int, std::vector<Seen>>; ///< by number

Spots spotsOf(const std::vector<MarkedPhoto>& photos, const TiedPhotos& alone) {
    Spots spots;
    for (std::size_t i = 0; i < photos.size(); ++i) {
        if (!alone.photos[i].ok()) {
            continue; // would tie the others to something that stands nowhere
        }
        for (const SpotMark& spot : photos[i].controls->spots) {
            spots[spot.number].push_back({i, spot.at});
        }
    }
    return spots;
}

/// Photographs that hang together by spots, each group from the lowest index on.
std::vector<std::vector<std::size_t>> groupsOf(const Spots& spots, std::size_t count) {
    std::vector<std::size_t> root(count);
    std::iota(root.begin(), root.end(), std::size_t{0});
    const auto rootOf = [&root](std::size_t i) {
        while (root[i] != i) {
            i = root[i];
        }
        return i;
    };
    for (const auto& spot : spots) {
        for (const Seen& seen : spot.second) {
            const std::size_t a = rootOf(spot.second.front().photo);
            const std::size_t b = rootOf(seen.photo);
            root[std::max(a, b)] = std::min(a, b);
        }
    }
    std::map<std::size_t, std::vector<std::size_t>> groups;
    for (std::size_t i = 0; i < count; ++i) {
        groups[rootOf(i)].push_back(i);
    }
    std::vector<std::vector<std::size_t>> tied;
    for (auto& group : groups) {
        if (group.second.size() > 1) {
            tied.push_back(std::move(group.second));
        }
    }
    return tied;
}

void tie(const std::vector<std::size_t>& group, const Spots& spots,
         const std::vector<MarkedPhoto>& photos, TiedPhotos& face) {
    const auto refuse = [&face](std::string sentence) {
        face.untied.push_back({ErrorCode::BadInput, std::move(sentence), {}});
    };
    if (group.size() > mostTied) {
        refuse(std::to_string(group.size()) +
               " photographs hang together by their spots; at most " + std::to_string(mostTied) +
               " are fitted together.");
        return;
    }
    const BoardSize& size = photos[group.front()].size;
    std::vector<PhotoControls> controls;
    std::map<std::size_t, std::size_t> placeIn;
    for (const std::size_t photo : group) {
        if (photos[photo].size != size) {
            refuse("Photographs that show the same spots must have been measured alike; the length "
                   "and both widths must be the same for each.");
            return;
        }
        placeIn[photo] = controls.size();
        controls.push_back(*photos[photo].controls);
    }
    std::vector<SameSpot> pairs;
    for (const auto& spot : spots) {
        const std::vector<Seen>& seen = spot.second;
        for (std::size_t i = 1; i < seen.size(); ++i) { // from one photograph to the next
            if (placeIn.contains(seen[i].photo)) {
                pairs.push_back({placeIn[seen[i - 1].photo], seen[i - 1].at, placeIn[seen[i].photo],
                                 seen[i].at});
            }
        }
    }
    Result<std::vector<Straightening>> fitted = straightenFace(controls, pairs, size);
    if (!fitted) {
        refuse("The spots cannot be used: " + fitted.error().message);
        return;
    }
    for (const std::size_t photo : group) {
        face.photos[photo] = std::move(fitted.value()[placeIn[photo]]);
    }
}

MarkResidual residualOf(std::size_t index, const SpotMark& spot, std::size_t photo,
                        const Spots& spots, const TiedPhotos& face) {
    MarkResidual residual{MarkResidual::Of::Spot, index, {}, {}, false, true};
    const auto found = spots.find(spot.number);
    const auto own = face.photos[photo].value().map.toBoard(spot.at.pixels());
    if (found == spots.end() || !own) {
        return residual;
    }
    Point sum;
    int count = 0;
    for (const Seen& seen : found->second) {
        const auto there = seen.photo == photo
                               ? std::nullopt
                               : face.photos[seen.photo].value().map.toBoard(seen.at.pixels());
        if (there) {
            sum = {sum.x + there->x, sum.y + there->y};
            ++count;
        }
    }
    if (count > 0) {
        residual.alone = false;
        residual.along = own->x - sum.x / count;
        residual.across = own->y - sum.y / count;
    }
    return residual;
}

} // namespace

TiedPhotos tiedPhotos(const std::vector<MarkedPhoto>& photos) {
    TiedPhotos face;
    for (const MarkedPhoto& photo : photos) {
        face.photos.push_back(straighten(*photo.controls, photo.size));
    }
    const Spots spots = spotsOf(photos, face);
    for (const std::vector<std::size_t>& group : groupsOf(spots, photos.size())) {
        tie(group, spots, photos, face);
    }
    for (std::size_t i = 0; i < photos.size(); ++i) {
        if (!face.photos[i].ok()) {
            continue;
        }
        const std::vector<SpotMark>& marks = photos[i].controls->spots;
        for (std::size_t k = 0; k < marks.size(); ++k) {
            face.photos[i].value().residuals.push_back(residualOf(k, marks[k], i, spots, face));
        }
    }
    return face;
}

namespace {

void addNumbers(const PhotoControls& controls, std::set<int>& numbers) {
    for (const SpotMark& spot : controls.spots) {
        numbers.insert(spot.number);
    }
}

} // namespace

int freeSpot(const PhotoControls& into, const std::vector<const PhotoControls*>& others) {
    std::set<int> taken;
    addNumbers(into, taken);
    for (const PhotoControls* other : others) {
        addNumbers(*other, taken);
    }
    for (int number = 1; number <= highestSpot; ++number) {
        if (!taken.contains(number)) {
            return number;
        }
    }
    return 0;
}

int nextSpot(const PhotoControls& into, const std::vector<const PhotoControls*>& others) {
    std::set<int> here;
    std::set<int> elsewhere;
    addNumbers(into, here);
    for (const PhotoControls* other : others) {
        addNumbers(*other, elsewhere);
    }
    for (const int number : elsewhere) {
        if (!here.contains(number)) {
            return number;
        }
    }
    return freeSpot(into, others);
}

} // namespace stavewright::photo
