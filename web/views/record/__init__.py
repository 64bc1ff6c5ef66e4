"""The record of a case: one sheet, printed or as text."""
