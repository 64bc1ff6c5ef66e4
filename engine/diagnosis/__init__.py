"""Where knowledge, inference and radio meet: compiling a set, cases, advice, reasons."""
