"""The built web app, and a server on this machine for it and the JSON door."""

from fellwright.server.built_app import app_folder, write_app
from fellwright.server.listening import listen, serve
from fellwright.server.site import make_site

__all__ = ["app_folder", "listen", "make_site", "serve", "write_app"]
