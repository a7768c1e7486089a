#!/bin/sh
# Make sure that WebKitGTK, its driver and a screen that nobody sees are there.
set -eu
missing() {
    for program in WebKitWebDriver Xvfb; do
        command -v "$program" >/dev/null || echo "$program"
    done
}
[ -z "$(missing)" ] && exit 0
if [ "$(id -u)" = 0 ] && command -v apt-get >/dev/null; then
    export DEBIAN_FRONTEND=noninteractive
    apt-get update -qq && apt-get install -y -qq --no-install-recommends webkit2gtk-driver xvfb >/dev/null
fi
[ -z "$(missing)" ] && exit 0
echo "missing for the WebKit tests:" $(missing) >&2
echo "install WebKitGTK's WebDriver and Xvfb; on Debian and Ubuntu, as root: apt-get install webkit2gtk-driver xvfb" >&2
exit 1
