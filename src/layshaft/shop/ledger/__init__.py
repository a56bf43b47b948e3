"""The shop's record in a database: people, unit books, settings, jobs, and every entry that was made on a job.

Nothing here is changed or deleted once it is written but the summaries that stand on a job's own row; what a job comes
to is folded from its entries (`fold`). `write` is the one service that writes entries, `people` and `shelf` write the
rest. Looking things up without writing is in `desk`.
"""
