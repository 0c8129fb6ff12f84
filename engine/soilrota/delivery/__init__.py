"""What is sent: which reminders are due, one message a person a night, calendar files, and the way they leave.

```
choosing      a client's night, the practice's night → reminders with their facts
  window_events, farm_events, office_events   what is worth a reminder, whoever is told
  recipients  who is told of what
gathering     reminders, what was said before → what is due, one packet a person, the urgent first
messages      a packet, the files there are → a message: text and HTML from one view
  message_view, sentences, days, templates    words; attachments: which files go along
calendar_feeds  visits, the feed's last state → its next state (SEQUENCE, cancellations); feed_visits: what goes in
  ical        events → RFC 5545 text
preview       messages → text for a terminal, files to look at
```
"""
