"""From the bytes of a project file to the typed project, or every fault of it. Uses fields and words."""
