"""The first page of the studio: listings, prices, and the list of orders."""
