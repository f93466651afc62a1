"""What a drink is and how it is built: pure, but for reading a book's folder in
``recipes.reading.reader``.
"""
