"""Builds the static site: fetch the pinned runtime, compile ahead, paint the first screen."""

from web.build.packages import BuildError
from web.build.site import Built, build_site

__all__ = ["BuildError", "Built", "build_site"]
