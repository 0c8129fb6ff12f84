"""Rounds: in fair order, each message once, nobody held up by another, nothing that should stay is sent."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from datetime import UTC, date, datetime, time, timedelta
from itertools import pairwise
from pathlib import Path

import pytest

from soilrota.delivery.faults import ServerError
from soilrota.delivery.limits import Hold
from soilrota.delivery.mime import Sender, compose
from soilrota.delivery.outbox import Outbox
from soilrota.delivery.retry import LONGEST_LIFE
from soilrota.delivery.sending import due, send_round
from soilrota.delivery.smtp import Line
from soilrota.delivery.values import OPEN, Entry, NewEntry, Outcome, State
from soilrota.model.mail import Mail, QuietHours
from soilrota.model.messages import Urgency
from tests.delivery.certificates import Certificate
from tests.delivery.making import MORNING, Clock, mail_to, message, new_entry, outbox_with
from tests.delivery.smtp_server import Answer, MailServer, Script

SENT = Outcome(State.SENT, "250 taken")
MAIL = Mail(host="mail.small.example", from_address="office@small.example")
HOUR = timedelta(hours=1)


class _Carrier:
    """Carries messages as a script says; remembers who it carried to."""

    def __init__(self, answer: Callable[[Entry, str], Outcome] = lambda _entry, _to: SENT) -> None:
        self._answer = answer
        self.carried: list[str] = []
        self.opened = 0
        self._is_open = False

    def open(self) -> bool:
        """Connect."""
        is_new, self._is_open = not self._is_open, True
        self.opened += is_new
        return is_new

    def send(self, entry: Entry, _eml: bytes, to: str, before_last: Callable[[], None]) -> Outcome:
        """Do as the script says."""
        outcome = self._answer(entry, to)
        if outcome.state in (State.SENT, State.UNSURE):
            before_last()
        self.carried.append(to)
        self._is_open = self._is_open and not outcome.broke
        return outcome


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """Return where an outbox lies."""
    return tmp_path / "outbox.sqlite"


def _states(outbox: Outbox) -> dict[str, int]:
    """Return how many messages are in each state."""
    found = [entry.state.value for entry in outbox.entries()]
    return {state: found.count(state) for state in sorted(set(found))}


def _many(number: int, domain: str, **more: object) -> Iterable[NewEntry]:
    """Yield messages to a domain."""
    for one in range(number):
        yield new_entry(f"{domain.partition('.')[0]}{one}", f"p{one}@{domain}", **more)


def test_a_thousand_messages_and_a_dead_domain(path: Path, certificate: Certificate) -> None:
    """All others are sent, each once, before the dead domain is tried again; its waits grow until it is given up."""

    def dead(step: str, to: str) -> Answer | None:
        return Answer("451 no answer from it") if (step, to[-12:]) == ("rcpt", "dead.example") else None

    clock = Clock()
    made = (*_many(100, "dead.example", urgency=Urgency.URGENT), *_many(900, "farms.example"))
    tried: list[datetime] = []
    with outbox_with(path, *made) as outbox, MailServer(certificate.of_server(), script=dead) as server:
        mail = mail_to(server.port, cap=5000)
        while outbox.entries(*OPEN):
            is_due = bool(due(outbox, clock.now()))
            tried += [clock.now()] if is_due else []
            if is_due or clock.now() - MORNING > LONGEST_LIFE:
                with Line(mail, None, certificate.trusted()) as line:
                    send_round(outbox, line, mail, clock.world())
            clock.moment += timedelta(minutes=30)
        assert _states(outbox) == {"given-up": 100, "sent": 900}
        assert all("451 no answer" in entry.answer for entry in outbox.entries(State.GIVEN_UP))
    assert sorted(one.to for one in server.accepted) == sorted(f"p{number}@farms.example" for number in range(900))
    asked = [to for step, to in server.asked if step == "rcpt"]
    assert [to.endswith("dead.example") for to in asked[:1000]] == [True] * 2 + [False] * 900 + [True] * 98
    waits = [(later - earlier) / HOUR for earlier, later in pairwise(tried)]
    assert waits[:6] == [0.5, 1, 2, 4, 8, 16]
    assert set(waits[6:]) == {16}


def test_a_server_that_refuses_all_night(path: Path, certificate: Certificate) -> None:
    """The round ends after a few and says so; everything still waits, and goes when the server is well."""
    ill = True
    script: Script = lambda step, _to: Answer("451 ill") if ill and step == "mail" else None  # noqa: E731
    clock = Clock()
    with outbox_with(path, *_many(50, "farms.example")) as outbox:
        with MailServer(certificate.of_server(), script=script) as server:
            mail = mail_to(server.port)
            with Line(mail, None, certificate.trusted()) as line:
                done = send_round(outbox, line, mail, clock.world())
            assert (done.held, len(done.tried)) == (Hold.SERVER, 3)
            assert "451 ill" in done.fault
            assert len(outbox.entries(*OPEN)) == 50
            ill, clock.moment = False, MORNING + HOUR
            with Line(mail, None, certificate.trusted()) as line:
                assert send_round(outbox, line, mail, clock.world()).held is None
        assert _states(outbox) == {"sent": 50}
    assert len(server.accepted) == 50


def test_a_server_that_cannot_be_reached_touches_nothing(path: Path) -> None:
    """No message is counted as tried."""

    class _Closed(_Carrier):
        def open(self) -> bool:
            raise ServerError("cannot be reached")

    with outbox_with(path, *_many(3, "farms.example")) as outbox:
        before = outbox.entries()
        done = send_round(outbox, _Closed(), MAIL, Clock().world())
        assert (done.held, done.fault, done.tried) == (Hold.SERVER, "cannot be reached", [])
        assert outbox.entries() == before


def test_refused_and_unsure_are_not_tried_again(path: Path) -> None:
    """However often rounds are made."""
    answers = {"al": Outcome(State.REFUSED, "550 no"), "jo": Outcome(State.UNSURE, "no answer", broke=True)}
    carrier = _Carrier(lambda entry, _to: answers.get(entry.address.partition("@")[0], SENT))
    clock = Clock()
    with outbox_with(path, *(new_entry(one) for one in ("al", "jo", "kim"))) as outbox:
        for _ in range(4):
            send_round(outbox, carrier, MAIL, clock.world())
            clock.moment += 24 * HOUR
        assert _states(outbox) == {"refused": 1, "sent": 1, "unsure": 1}
    assert len(carrier.carried) == 3


def test_a_server_that_refuses_us_does_not_refuse_every_message(path: Path) -> None:
    """A wrong login shows as refusals of every recipient: the round ends before all are lost to it."""
    carrier = _Carrier(lambda _entry, _to: Outcome(State.REFUSED, "554 relay denied"))
    with outbox_with(path, *_many(100, "farms.example")) as outbox:
        done = send_round(outbox, carrier, MAIL, Clock().world())
        assert (done.held, done.fault) == (Hold.SERVER, "554 relay denied")
        assert _states(outbox) == {"refused": 20, "waiting": 80}


def test_many_dead_addresses_hold_up_nobody(path: Path) -> None:
    """Once something was sent, it is they and not we who are refused."""
    refused = Outcome(State.REFUSED, "550 no such user")
    carrier = _Carrier(lambda entry, _to: refused if entry.address.startswith("dead") else SENT)
    made = (new_entry("first", urgency=Urgency.URGENT), *_many(50, "farms.example"))
    made += tuple(new_entry(f"d{number}", f"dead{number}@farms.example") for number in range(50))
    with outbox_with(path, *made) as outbox:
        assert send_round(outbox, carrier, MAIL, Clock().world()).held is None
        assert _states(outbox) == {"refused": 50, "sent": 51}


def test_a_used_line_that_broke_gets_a_second_chance(path: Path) -> None:
    """Servers end a connection after so many messages; the message goes over a new one, in the same round."""
    sent_on_this_line = 0

    def answer(_entry: Entry, _to: str) -> Outcome:
        nonlocal sent_on_this_line
        sent_on_this_line = (sent_on_this_line + 1) % 3
        return SENT if sent_on_this_line else Outcome(State.PUT_OFF, "421 enough", broke=True, is_servers=True)

    carrier = _Carrier(answer)
    with outbox_with(path, *_many(10, "farms.example")) as outbox:
        assert send_round(outbox, carrier, MAIL, Clock().world()).held is None
        assert _states(outbox) == {"sent": 10}
    assert carrier.opened == 5


def test_one_message_that_breaks_every_line_holds_up_no_other(path: Path) -> None:
    """It is put off; the others go."""
    broken = Outcome(State.PUT_OFF, "broke", broke=True, is_servers=True)
    carrier = _Carrier(lambda entry, _to: broken if entry.address.startswith("p4@") else SENT)
    with outbox_with(path, *_many(10, "farms.example")) as outbox:
        done = send_round(outbox, carrier, MAIL, Clock().world())
        assert (done.held, _states(outbox)) == (None, {"put-off": 1, "sent": 9})


def test_new_ones_go_before_those_put_off_and_the_urgent_first(path: Path) -> None:
    """A heap of old trouble does not hold up what was made tonight."""
    answers = {"old": Outcome(State.PUT_OFF, "451 later")}
    carrier = _Carrier(lambda entry, _to: answers.get(entry.address.partition("@")[0], SENT))
    clock = Clock()
    with outbox_with(path, new_entry("old", urgency=Urgency.URGENT)) as outbox:
        send_round(outbox, carrier, MAIL, clock.world())
        for name, urgency in (("later", Urgency.ORDINARY), ("now", Urgency.URGENT), ("soon", Urgency.SOON)):
            outbox.add(new_entry(name, urgency=urgency), MORNING)
        answers.clear()
        clock.moment += HOUR
        send_round(outbox, carrier, MAIL, clock.world())
    assert [to.partition("@")[0] for to in carrier.carried] == ["old", "now", "soon", "later", "old"]


def test_what_waited_too_long_is_given_up_and_not_sent(path: Path) -> None:
    """A book that gets its server after months does not pour out old reminders."""
    carrier = _Carrier()
    with outbox_with(path, new_entry("old", day=date(2027, 1, 1)), made_at=MORNING - timedelta(days=45)) as outbox:
        outbox.add(new_entry("new"), MORNING)
        done = send_round(outbox, carrier, MAIL, Clock().world())
        assert len(done.given_up) == 1
        assert "within 5 days" in outbox.entries(State.GIVEN_UP)[0].answer
    assert carrier.carried == ["new@farms.example"]


def test_the_cap_of_a_night(path: Path) -> None:
    """So many and no more, over several rounds of a night; the next night brings the next."""
    carrier, clock = _Carrier(), Clock()
    mail = Mail(host="mail.small.example", cap=4)
    with outbox_with(path, *_many(10, "farms.example")) as outbox:
        for hours, sent in ((0, 4), (1, 4), (13, 8), (26, 10)):
            clock.moment = MORNING + hours * HOUR
            done = send_round(outbox, carrier, mail, clock.world())
            assert len(carrier.carried) == sent
            assert done.held is (Hold.CAP if sent < 10 else None)


def test_quiet_hours_are_kept_within_a_round(path: Path) -> None:
    """A round that reaches them stops there."""
    carrier = _Carrier()
    clock = Clock(datetime(2027, 2, 15, 20, 58, 30, tzinfo=UTC), ticks=timedelta(seconds=10))
    mail = Mail(host="mail.small.example", quiet_hours=QuietHours(time(21), time(6)))
    with outbox_with(path, *_many(20, "farms.example"), made_at=clock.moment) as outbox:
        done = send_round(outbox, carrier, mail, clock.world())
        assert done.held is Hold.QUIET_HOURS
        assert 0 < len(carrier.carried) < 20
        clock.moment = datetime(2027, 2, 16, 6, 0, tzinfo=UTC)
        send_round(outbox, carrier, mail, clock.world())
    assert len(carrier.carried) == len(set(carrier.carried)) == 20


@pytest.mark.parametrize("switch", ["stopped", "ended"])
def test_a_switch_is_obeyed_in_the_middle_of_a_round(path: Path, switch: str) -> None:
    """The message at hand is finished, the next is not begun."""
    clock = Clock()

    def answer(_entry: Entry, _to: str) -> Outcome:
        setattr(clock, switch, True)
        return SENT

    carrier = _Carrier(answer)
    with outbox_with(path, *_many(3, "farms.example")) as outbox:
        done = send_round(outbox, carrier, MAIL, clock.world())
        assert done.held is {"stopped": Hold.STOPPED, "ended": Hold.ENDED}[switch]
        assert _states(outbox) == {"sent": 1, "waiting": 2}


def test_in_test_mode_everything_goes_to_one_address(path: Path) -> None:
    """And it is written down where it went."""
    carrier = _Carrier()
    mail = Mail(host="mail.small.example", test_address="trial@small.example")
    with outbox_with(path, *_many(3, "farms.example")) as outbox:
        send_round(outbox, carrier, mail, Clock().world())
        assert {entry.sent_to for entry in outbox.entries(State.SENT)} == {"trial@small.example"}
    assert carrier.carried == ["trial@small.example"] * 3


def test_what_was_made_without_a_sender_is_refused(path: Path) -> None:
    """It says why, and the server is not asked."""
    carrier = _Carrier()
    with outbox_with(path, compose(message(), Sender("Small", "nobody@practice.invalid"), MORNING)) as outbox:
        send_round(outbox, carrier, MAIL, Clock().world())
        assert "before the book had an address" in outbox.entries(State.REFUSED)[0].answer
    assert carrier.carried == []


def test_whichever_write_fails_nothing_is_sent_twice(path: Path) -> None:
    """A full disk at each write in turn: the next round sends the rest, and what is doubtful is unsure, not resent."""
    for number in range(1, 7):
        carrier, file = _Carrier(), path.with_name(f"{number}.sqlite")
        with outbox_with(file, *_many(3, "farms.example")) as outbox:
            outbox._connection.execute(
                f"CREATE TRIGGER full BEFORE INSERT ON steps WHEN (SELECT count(*) FROM steps) = {2 + number}"  # noqa: S608 - a number
                " BEGIN SELECT RAISE(ABORT, 'disk full'); END"
            )
            with pytest.raises(Exception, match="disk full"):
                send_round(outbox, carrier, MAIL, Clock().world())
            outbox._connection.execute("DROP TRIGGER full")
            outbox.find_cut_off(MORNING)
            send_round(outbox, carrier, MAIL, Clock().world())
            assert len(outbox.entries(State.SENT)) + len(outbox.entries(State.UNSURE)) == 3
            assert len(outbox.entries(State.UNSURE)) == (number % 2 == 0)
        assert len(carrier.carried) == len(set(carrier.carried)) == 3
