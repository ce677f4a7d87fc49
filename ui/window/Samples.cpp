#include "ui/window/Samples.h"

#include <QCoreApplication>
#include <QDir>

namespace stavewright::ui {

namespace {

const char* const firstName = "kitchen-table.stavejob";

QDir samplesFolder() {
    const QStringList candidates = {
        QCoreApplication::applicationDirPath() + "/../share/stavewright/samples",
        QStringLiteral(STAVEWRIGHT_SAMPLES_DIR),
    };
    for (const QString& candidate : candidates) {
        if (QDir(candidate).exists()) {
            return QDir(candidate);
        }
    }
    return QDir(candidates.last());
}

} // namespace

std::vector<Sample> allSamples() {
    std::vector<Sample> samples;
    const QFileInfoList files =
        samplesFolder().entryInfoList({"*.stavejob"}, QDir::Files, QDir::Name);
    for (const QFileInfo& file : files) {
        QString title = file.completeBaseName().replace('-', ' ');
        if (!title.isEmpty()) {
            title[0] = title[0].toUpper();
        }
        samples.push_back({title, file.absoluteFilePath()});
    }
    return samples;
}

QString firstSample() {
    const std::vector<Sample> samples = allSamples();
    for (const Sample& sample : samples) {
        if (sample.path.endsWith(firstName)) {
            return sample.path;
        }
    }
    return samples.empty() ? QString() : samples.front().path;
}

} // namespace stavewright::ui
