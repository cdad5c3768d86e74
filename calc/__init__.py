"""Pure computation: the typed project, sizing and geometry. No file, no PDF, no clock, no printing."""
