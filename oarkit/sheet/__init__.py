"""The design sheet: HTML, PDF, tables and results from one set of records."""
