"""What a unit is: a book's text read into definitions, with every fault told at once, and what follows from them."""

from layshaft.book.book import Book, BookFaults, check_book, load_book
from layshaft.book.fault import Fault, FaultReport
from layshaft.book.separation import Tree

__all__ = ["Book", "BookFaults", "Fault", "FaultReport", "Tree", "check_book", "load_book"]
