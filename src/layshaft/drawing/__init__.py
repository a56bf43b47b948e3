"""Drawings from definitions to SVG."""
