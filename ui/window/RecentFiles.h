#pragma once
// The last six job files, newest first, kept in the user's settings.

#include <QStringList>

namespace stavewright::ui {

inline constexpr int mostRecentFiles = 6;

[[nodiscard]] QStringList recentFiles();
void rememberFile(const QString& path);

} // namespace stavewright::ui
