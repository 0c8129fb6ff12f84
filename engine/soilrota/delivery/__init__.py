"""What is sent: which reminders are due, one message a person a night, calendar files, and the way they leave.

```
choosing     a night → reminders with their facts              recipients      who is told of what
  window_events, farm_events, gone_visits, office_events: what is worth a reminder, whoever is told
gathering    what is new, one packet a person, urgent first    messages        a packet → text and HTML from one view
  message_view, sentences, days, templates: words; attachments: which files go along
  window_sentences: sentences of windows; sentence_words: what they are made of
feeds        a feed's last state and visits → its next state   ical            events → RFC 5545 text
  feed_visits: what goes into the feed of a client or a crew member
message_preview  messages → text for a terminal, files to look at

headers      names, subjects and addresses as header lines     mime         a message as the bytes that travel
values       states, entries, outcomes                         outbox_file  the outbox's file, checked
outbox       what waits, goes, went                            retry        when again, when no more
limits       stop switch, cap, quiet hours                     smtp         one line to the mail server
login        user and password, from outside the book          sending      one round over what waits
copies       the .eml files that people look at                preview      a message in a terminal
```
"""
