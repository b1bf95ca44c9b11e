"""What every room stands on: settings, database, files, the queue, helper processes, templates."""
