"""The drawing model to PDF, SVG and DXF. Uses draw."""
