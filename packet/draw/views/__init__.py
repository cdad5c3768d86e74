"""Drawings of box, ducts, panels, sheets, gauge, templates and plots. Uses draw and the job."""
