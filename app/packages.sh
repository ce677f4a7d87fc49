# Installs the Debian packages that are missing. Sourced by app/run.sh and tests/run.sh:
#   need_packages "${program_packages[@]}"
# As root it installs without questions; otherwise it tries sudo without a password; otherwise it prints the
# command to type and exits with 3.

program_packages=(
  build-essential cmake ninja-build ccache pkg-config
  qt6-base-dev qt6-svg-dev libgl1-mesa-dev qt6-qpa-plugins
  libboost-dev nlohmann-json3-dev libcli11-dev
  libopencv-core-dev libopencv-imgproc-dev qt6-image-formats-plugins libheif-dev
  coinor-libclp-dev coinor-libcbc-dev libzip-dev libsqlite3-dev
)
test_packages=(
  libgtest-dev libgmock-dev librapidcheck-dev libgeos-dev coinor-cbc
  poppler-utils python3 python3-jsonschema xvfb xauth
  clang-format clang-tidy
)

need_packages() {
  local missing=() package status
  for package in "$@"; do
    status=$(dpkg-query -W -f='${Status}' "$package" 2>/dev/null) || status=missing
    [ "$status" = 'install ok installed' ] || missing+=("$package")
  done
  [ ${#missing[@]} -eq 0 ] && return 0

  local as_root=()
  if [ "$(id -u)" -ne 0 ]; then
    if command -v sudo >/dev/null && sudo -n true 2>/dev/null; then
      as_root=(sudo -n)
    else
      echo "These packages are missing. Please type this, then start again:" >&2
      echo "  sudo apt-get install --no-install-recommends ${missing[*]}" >&2
      exit 3
    fi
  fi
  echo "Installing ${#missing[@]} missing packages: ${missing[*]}"
  "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get update -qq ||
    echo "Not every list of packages could be renewed; going on with those that are there." >&2
  "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive \
    apt-get install -y -qq --no-install-recommends "${missing[@]}" >/dev/null
}
