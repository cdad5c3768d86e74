"""The tool's version, without loading anything."""

VERSION = "0.1.0"
