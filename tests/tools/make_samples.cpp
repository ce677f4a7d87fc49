// Writes the sample jobs into a folder; the committed ones in samples/ are exactly its output.
//   make_samples samples

#include <iostream>

#include "core/job/JobFile.h"
#include "tests/tools/SamplePhotos.h"
#include "tests/tools/samples/Samples.h"

int main(int argc, char** argv) {
    using namespace stavewright;
    if (argc != 2) {
        std::cerr << "Give the folder to write the samples to.\n";
        return 2;
    }
    const std::string folder = argv[1];
    Document hallShelf = samples::hallShelf();
    samples::addPhotos(hallShelf, 4, 40, 2000);
    Document kitchenTable = samples::kitchenTable(); // its top is glued up of what is photographed
    samples::addPhotos(kitchenTable, 16, 80, 1400);
    const std::pair<const char*, Document> jobs[] = {{"hall-shelf", hallShelf},
                                                     {"kitchen-table", kitchenTable},
                                                     {"reading-room", samples::readingRoom()},
                                                     {"linen-chest", samples::linenChest()}};
    for (const auto& [name, job] : jobs) {
        if (const Status sound = validate(job); !sound) {
            std::cerr << name << ": " << describe(sound.error()) << '\n';
            return 1;
        }
        const std::string path = folder + "/" + name + ".stavejob";
        if (const Status written = writeJob(job, path); !written) {
            std::cerr << describe(written.error()) << '\n';
            return 1;
        }
        std::cout << path << ": " << job.boards.size() << " boards, " << job.parts.size()
                  << " parts\n";
    }
    return 0;
}
