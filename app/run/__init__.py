"""Starting: the web application, the shop and its worker together, and whether all is well."""
