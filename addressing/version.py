"""The program's version, as it stands in the manifest and in every plate."""

VERSION = "0.1.0"
