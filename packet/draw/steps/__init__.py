"""The pictures of the steps. Uses draw and its views."""
