"""Opens a file of resources/: tables, plug configurations, symbols, fonts, words.

A name is the path below resources/ with forward slashes: ``"tables/na/ampacity.csv"``. An
installed program carries its own copy of that folder inside the package; a checkout reads the
folder at its top, so that an edited table counts at once. A figure carries the mark of its
confidence.
"""

from linework.data.confidence import Confidence
from linework.data.files import ResourceError, exists, names, path, read_csv, read_text

__all__ = ["Confidence", "ResourceError", "exists", "names", "path", "read_csv", "read_text"]
