"""One thing of the knowledge as plain records, and in words."""
