#!/bin/sh
# Make sure there is a Chromium for the browser tests: the system's, or one that playwright keeps.
set -eu
cd "$(dirname "$0")/../.."
node tests/browser/chromium.mjs >/dev/null 2>&1 && exit 0
if [ "$(id -u)" = 0 ] && command -v apt-get >/dev/null; then
    export DEBIAN_FRONTEND=noninteractive
    apt-get update -qq && apt-get install -y -qq --no-install-recommends chromium >/dev/null
else
    npx playwright-core install chromium-headless-shell
fi
node tests/browser/chromium.mjs
