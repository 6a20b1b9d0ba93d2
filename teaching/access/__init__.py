"""Who may: permissions as a table, scope, guards, signing in, and how a form comes in once."""
