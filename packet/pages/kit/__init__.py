"""What pages are built with: flow, tables, forms, panels, the document. Uses draw."""
