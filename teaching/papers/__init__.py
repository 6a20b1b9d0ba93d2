"""What is printed: facts to content to PDF. One file knows the PDF library."""
