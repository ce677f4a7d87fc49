#include "JobInstances.h"

#include <algorithm>
#include <filesystem>

#include "core/job/JobFile.h"
#include "core/milling/BlankSpec.h"
#include "core/planning/Statement.h"

namespace stavewright::cutting::bench {

Result<std::vector<JobInstance>> loadJobs(const std::string& folder) {
    std::vector<std::filesystem::path> files;
    std::error_code failed;
    for (const auto& entry : std::filesystem::directory_iterator(folder, failed)) {
        const std::string ending = entry.path().extension().string();
        if (ending == ".stavejob" || ending == ".json") {
            files.push_back(entry.path());
        }
    }
    if (failed) {
        return Error{ErrorCode::CannotRead, "The folder cannot be read.", folder};
    }
    std::sort(files.begin(), files.end());
    std::vector<JobInstance> jobs;
    for (const std::filesystem::path& file : files) {
        const Result<Document> document = readJob(file.string());
        if (!document) {
            return document.error();
        }
        const Result<std::vector<BlankSpec>> specs = blankSpecs(document.value());
        if (!specs) {
            return specs.error();
        }
        jobs.push_back(
            {file.stem().string(), planning::state(document.value(), specs.value(), {}).problem});
    }
    return jobs;
}

} // namespace stavewright::cutting::bench
