"""The program ``levelscoop``: one module a subcommand, each with ``add`` (its options) and ``run``."""
