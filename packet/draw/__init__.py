"""One drawing model and its backends: PDF, SVG and DXF."""
