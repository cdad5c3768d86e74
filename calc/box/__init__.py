"""The filter box: its size, panels and joints, openings and their places, mounts, lining, stack and reach. Uses airflow."""
