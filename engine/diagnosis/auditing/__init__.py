"""What the knowledge cannot tell, and what it says of one thing: questions of its author."""
