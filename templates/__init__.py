"""The words of the packet: one small file a step, a caution, a sheet."""
