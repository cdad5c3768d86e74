"""From the bytes of a project file to values: text, nodes with their places, fields, the typed project."""
