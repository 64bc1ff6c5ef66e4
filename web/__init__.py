"""The page: markup, looks, worker, the views that fill it, and what builds and serves it."""
