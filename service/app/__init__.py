"""The whole service put together, the same for the program and for the tests, and the API that it serves."""
