"""How an order is paid."""
