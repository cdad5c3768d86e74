"""The filter box: size, panels and joints, openings and their places, mounts, lining, stack, reach. Uses airflow."""
