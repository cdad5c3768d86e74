"""The files beside the packet: CSV, JSON, parts for machines, large pages, the helper's page. Uses draw."""
