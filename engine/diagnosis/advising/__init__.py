"""What follows from the findings: causes, next checks, reasons, when to stop."""
