"""The night over a whole book, and the check of it.

```
night        lock, ledger, digests → orders → answers → files, ledger rows, season.csv, run.json
  opening        the lock, the ledger, what is known    lock, ledger, ledger_file
  intake         the inbox, in a night or alone         intake_step  bytes made safe, answers put in place
    inbox          which files are whole                  received, set_aside  what became of files and rows
    intake_work    what a worker does for a file          intake_reading, intake_checks, intake_judging, bags
    intake_report  how it went, in words and as data      check_records, check_bags  blind check samples
  fingerprints   digests of the book's files and of the engine, standard library alone    engine_files  where it lies
  book_facts     what is known of the whole book
  standing       whether a client need not be looked at    read_once  each client is read once a night
  still          a night that has nothing to do            still_until  up to which day that is so
  workers        workers that can be killed one by one      inside   what runs within a worker
  work           what a worker does for a client            season_rows, season   the table
  settling       answer → files in place → ledger → entry
  shared_step    whether documents of the practice stand   calendar_work, checks_work  what a worker makes of them
  pack_step      whether field packs stand                 pack_work, pack_values  what a worker makes of them
    bag_issue, issued  ids and points given out            layouts, counts  where cores come from, what they tell
  outputs        the output folder                          run_report   run.json
checking     every problem of a book, nothing made
learning     a laboratory's file drafted from a file of its results
reading      the book as both see it                        blanks   what a new file still has to be told
```
Modules import what reads YAML, draws maps or sets pages only where there is work, so that a night in which nothing
changed costs next to nothing.
"""
