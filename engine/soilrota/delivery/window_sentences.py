"""What the windows of a client have to say, in words: one function a kind of `window_events`."""

from __future__ import annotations

from soilrota.delivery.days import joined
from soilrota.delivery.sentence_words import Said, Words
from soilrota.language import say, say_as, say_count


def opens_soon(words: Words) -> Said:
    """Return that sampling opens soon."""
    lines = [say("The last day is {day}.", day=words.day("last"))]
    if "best" in words.facts:
        lines.append(say("The best day is {day}.", day=words.day("best")))
    return Said(
        say("Soil sampling opens on {day}", day=words.day("first")),
        (" ".join(lines), *words.where),
        say_as("subject", "sampling opens soon"),
    )


def best_day(words: Words) -> Said:
    """Return that the best day is near."""
    return Said(
        say("The best day to sample is {day}, {away}", day=words.day("best"), away=words.away("best")),
        (
            *words.moved,
            say("No visit is planned for it yet. The last day in time is {day}.", day=words.day("last")),
            *words.where,
        ),
        say_as("subject", "best day to sample is near"),
    )


def closing(words: Words) -> Said:
    """Return that few days are left."""
    lines = [say("No visit is planned for it.")]
    if "what" in words.facts:
        what, day = words.facts["what"], words.day("decision")
        lines.append(say("Later samples come too late for a decision: {what}, on {day}.", what=what, day=day))
    return Said(
        say("Last day to sample in time: {day}, {away}", day=words.day("last"), away=words.away("last")),
        (*lines, *words.where),
        say_as("subject", "last days to sample"),
    )


def spreading(words: Words) -> Said:
    """Return what a planned spreading does to the days."""
    material, day, again = words.material, words.day("spread"), words.date("open_again")
    if words.facts["open_again"] > words.facts["season_last"]:
        after = say("After it, sampling has to wait until {day}, when the season is over.", day=again)
    else:
        after = say("After it, sampling has to wait until {day}.", day=again)
    if "last" in words.facts:
        before = say("The last day to sample before it is {day}.", day=words.day("last"))
        visit = (say("A visit is planned for {day}.", day=words.day("visit")),) if "visit" in words.facts else ()
        return Said(
            say("Sample before the {material} planned for {day}", material=material, day=day),
            (*words.moved, *visit, f"{after} {before}", *words.where),
            say_as("subject", "sample before spreading"),
        )
    lines = [*words.moved, after]
    if "until" in words.facts:
        until = words.day("until")
        lines.append(say("If it is put off until the samples are taken, they can be taken up to {day}.", day=until))
    return Said(
        say("The {material} planned for {day} leaves no day to sample", material=material, day=day),
        (*lines, *words.where),
        say_as("subject", "planned spreading leaves no day to sample"),
    )


def overdue(words: Words) -> Said:
    """Return that a season ended unsampled."""
    facts = words.facts
    if "visit" in facts:
        line = say("A visit is planned for {day}.", day=words.day("visit"))
    elif "first" not in facts:
        line = say("No day is open in the season to come either; the programme says what can be done.")
    elif facts["open"]:
        line = say("It can be sampled now, until {day}.", day=words.day("last"))
    else:
        line = say("The next days to sample are {first} to {last}.", first=words.day("first"), last=words.day("last"))
    months, ended = int(facts["months"]), words.date("ended")
    if months:
        head = say_count(
            "Sampling is overdue: the season ended on {day}, {count} month ago",
            "Sampling is overdue: the season ended on {day}, {count} months ago",
            months,
            day=ended,
        )
    else:
        head = say("Sampling is overdue: the season ended on {day}", day=ended)
    return Said(head, (line, *words.where), say_as("subject", "sampling overdue"))


def decision(words: Words) -> Said:
    """Return that a decision is near, and what it lacks."""
    facts = words.facts
    lines = []
    unsampled, out = facts["unsampled"], facts["out"]
    if unsampled:
        lines.append(say("Not sampled yet: {zones}.", zones=joined(sorted(set(unsampled)))))
        if "visit" in facts:
            lines.append(say("A visit is planned for {day}.", day=words.day("visit")))
        if "last" in facts:
            last = words.day("last")
            lines.append(say("The last day to sample so that results are there is {day}.", day=last))
        else:
            lines.append(say("Results of samples taken from now on come too late for it."))
    if out:
        lines.append(say("Sampled, results not back yet: {zones}.", zones=joined(sorted(set(out)))))
    if not unsampled and not out:
        lines.append(say("Nothing is missing: the samples that it needs were taken and their results are in."))
    head = say(
        "Decision {away}: {what}, on {day}",
        away=words.away("decision"),
        what=facts["what"],
        day=words.day("decision"),
    )
    return Said(head, (*words.moved, *lines), say_as("subject", "decision is near"))
