"""What is sent: the outbox that remembers it, and the way to the mail server.

```
headers      names, subjects and addresses as header lines     mime         a message as the bytes that travel
values       states, entries, outcomes                         outbox_file  the outbox's file, checked
outbox       what waits, goes, went                            retry        when again, when no more
limits       stop switch, cap, quiet hours                     smtp         one line to the mail server
login        user and password, from outside the book          sending      one round over what waits
copies       the .eml files that people look at                preview      a message in a terminal
```
"""
