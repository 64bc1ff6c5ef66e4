"""Pure functions from records to elements: everything the page shows, SVG included."""
