"""One client: read, built, held against every rule."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from soilrota.book.acceptances import build_acceptances
from soilrota.book.client_files import ClientFiles, read_client_files
from soilrota.book.clients import (
    build_blackouts,
    build_contacts,
    build_decisions,
    build_farm,
    build_gap_overrides,
    build_last_sampled,
    build_targets,
    build_zones,
)
from soilrota.book.corrections import standing
from soilrota.book.folders import stray_files
from soilrota.book.maps import access_of, avoided_of, build_features, fixed_points_of, outlines_of
from soilrota.book.parts import ClientParts, Feature, Located, Shared
from soilrota.book.places import items, whole
from soilrota.book.protocols import build_protocols, protocols_named
from soilrota.book.records import build_applications, build_cropping, build_field_notes, build_results
from soilrota.book.reminders import times
from soilrota.book.rules.catalogue import CLIENT_RULES
from soilrota.files import Document
from soilrota.model.client import Client
from soilrota.model.practice import Hemisphere
from soilrota.problems import Problem, Severity, has_errors, in_order


def load_client(root: Path, client_id: str, shared: Shared) -> tuple[Client | None, tuple[Problem, ...]]:
    """Read and check one client.

    Args:
        root: the book's folder.
        client_id: id of the client, one of `client_ids`.
        shared: what all clients share.

    Returns:
        The client with its warnings, or None where any of its files has an error; and all problems of all its files,
        in order.
    """
    files, problems = read_client_files(root, client_id, shared.practice.notes_form)
    problems += tuple(stray_files(root, client_id))
    if files.client is None:
        return None, in_order(problems)
    parts, found = build_parts(files, files.client, shared)
    further = further_problems(files.client, problems, (*found, *broken_rules(parts)))
    problems = in_order((*problems, *further))
    if has_errors(problems):
        return None, problems
    return _client(client_id, parts, problems), problems


def further_problems(document: Document, known: tuple[Problem, ...], found: tuple[Problem, ...]) -> tuple[Problem, ...]:
    """Return what the rules found beyond the problems already known.

    Of a place that has its problem nothing else is said, nor of an entry of the client's file that lacks a key which
    could not be used: what the rules say of it may only follow from that.
    """
    places = {problem.place for problem in known if problem.severity is Severity.ERROR}
    return tuple(
        problem
        for problem in found
        if problem.place not in places
        and not (
            problem.place.file == document.name
            and any(entry and _within(problem.place.path, entry) for entry in document.left_out)
        )
    )


def _within(path: str, entry: str) -> bool:
    """Return whether a path names an entry, or something inside it."""
    return path == entry or path.startswith((f"{entry}.", f"{entry}["))


def broken_rules(parts: ClientParts) -> Iterator[Problem]:
    """Yield what every rule across files finds; the rules of the map are loaded only where there is one."""
    for rule in CLIENT_RULES:
        yield from rule(parts)
    if parts.features:
        from soilrota.book.rules.ground import map_rules  # noqa: PLC0415 - loads shapely and pyproj

        yield from map_rules(parts)


def build_parts(files: ClientFiles, document: Document, shared: Shared) -> tuple[ClientParts, tuple[Problem, ...]]:
    """Return what the rules look at, and the problems met on the way there."""
    top = whole(document)
    features: tuple[Located[Feature], ...] = ()
    problems: tuple[Problem, ...] = ()
    if files.map is not None:
        features, problems = build_features(whole(files.map))
    outlines, access, avoided = outlines_of(features), access_of(features), avoided_of(features)
    own_protocols, found = build_protocols(top, shared.protocols)
    fixed_points = fixed_points_of(features)
    written = tuple((farm, build_zones(farm, outlines, fixed_points)) for farm in items(top, "farms"))
    zones = tuple(zone for _, some in written for zone in some)
    parts = ClientParts(
        shared=shared,
        file=top,
        hemisphere=Hemisphere(top.data["hemisphere"]),
        adviser=top.data["adviser"],
        time_zone=top.data.get("time_zone", shared.practice.time_zone),
        contacts=build_contacts(top),
        farms=tuple(build_farm(farm, some, outlines, access, avoided) for farm, some in written),
        zones=zones,
        last_sampled=tuple((zone.value, sampling) for zone in zones for sampling in build_last_sampled(zone)),
        targets=build_targets(top),
        decisions=build_decisions(top),
        gap_overrides=build_gap_overrides(top),
        own_protocols=own_protocols,
        protocols={**shared.protocols, **{protocol.value.id: protocol.value for protocol in own_protocols}},
        applications=build_applications(files.applications),
        field_notes=build_field_notes(files.field_notes),
        cropping=build_cropping(files.cropping),
        results=build_results(files.results),
        features=features,
        map_failed=files.map_failed or bool(problems),
        blackouts=build_blackouts(top),
        acceptances=build_acceptances(top),
    )
    return parts, (*problems, *found)


def _client(client_id: str, parts: ClientParts, problems: tuple[Problem, ...]) -> Client:
    """Return the checked client."""
    data = parts.file.data
    in_zones = [word for zone in parts.zones for word in zone.value.protocols]
    elsewhere = [decision.value.protocol for decision in parts.decisions]
    elsewhere += [note.value.protocol for note in parts.field_notes]
    elsewhere += [result.value.protocol for result in parts.results]
    results, corrections = standing([result.value for result in parts.results])
    return Client(
        id=client_id,
        name=data["name"],
        hemisphere=parts.hemisphere,
        country=data["country"],
        subdivision=data.get("subdivision", ""),
        language=data.get("language", parts.shared.practice.language),
        time_zone=parts.time_zone,
        contacts=parts.contacts,
        adviser=parts.adviser,
        farms=tuple(farm.value for farm in parts.farms),
        targets=tuple(target.value for target in parts.targets),
        decisions=tuple(decision.value for decision in parts.decisions),
        gap_overrides=tuple(override.value for override in parts.gap_overrides),
        applications=tuple(application.value for application in parts.applications),
        field_notes=tuple(note.value for note in parts.field_notes),
        results=results,
        protocols=protocols_named(in_zones, elsewhere, parts.protocols),
        practice=parts.shared.practice,
        warnings=tuple(problem for problem in problems if problem.severity is Severity.WARNING),
        place=parts.file.at(),
        blackouts=tuple(blackout.value for blackout in parts.blackouts),
        samplers=tuple(data.get("samplers", ())),
        corrections=corrections,
        acceptances=tuple(acceptance.value for acceptance in parts.acceptances),
        guideline=data.get("guideline", ""),
        yield_goal=data.get("yield_goal", ""),
        cropping=tuple(row.value for row in parts.cropping),
        build_up_years=data.get("build_up_years"),
        lead_times=times(data.get("reminders", {})),
    )
