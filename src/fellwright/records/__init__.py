"""Readings as they were taken: frozen records of trees and kit, and the loader that checks them."""
