"""Knowledge in YAML read, checked and handed on as frozen models."""
