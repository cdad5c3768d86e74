"""The sizing as a whole: findings, choices, remedies, sound, make-up air, worked calculations. Uses airflow."""
