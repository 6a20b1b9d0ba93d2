"""Small things a template asks for, such as a mark drawn as SVG."""
