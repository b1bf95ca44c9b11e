"""A crowd of customers at a real shop: pages over HTTP, one process for the pages, nothing of it stood in for."""
