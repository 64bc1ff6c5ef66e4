"""Messages of owners: what they tell, what to ask back, what a reply says."""
