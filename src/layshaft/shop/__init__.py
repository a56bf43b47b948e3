"""The record: files opened, jobs worked through, results written. The only room that writes."""
