"""All rules, in the order in which they are asked."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from soilrota.book.parts import ClientParts, SharedParts
from soilrota.book.rules import (
    agreement,
    analyses,
    areas,
    days,
    laboratory_forms,
    references,
    repeats,
    sampling,
    seasons,
)
from soilrota.problems import Problem

SHARED_RULES: tuple[Callable[[SharedParts], Iterator[Problem]], ...] = (
    repeats.shared_ids_are_unique,
    repeats.notes_form_names_once,
    references.shared_protocols_lead_somewhere,
    analyses.shared_analyses_exist,
    analyses.waits_name_analytes,
    seasons.spans_do_not_overlap,
    seasons.seasons_have_days,
    sampling.practice_gaps_are_long_enough,
    sampling.shared_protocols_are_sound,
    days.leave_ends_after_it_starts,
    laboratory_forms.form_names_are_unique,
    laboratory_forms.form_analyses_exist,
    laboratory_forms.form_units_lead_to_the_glossary,
    laboratory_forms.form_units_stand_once,
    laboratory_forms.form_headings_stand_once,
    laboratory_forms.forms_say_what_their_shape_needs,
    laboratory_forms.form_numbers_are_sound,
    laboratory_forms.form_encodings_exist,
)

CLIENT_RULES: tuple[Callable[[ClientParts], Iterator[Problem]], ...] = (
    repeats.ids_are_unique,
    repeats.bags_are_unique,
    repeats.map_draws_once,
    references.adviser_exists,
    references.samplers_exist,
    references.protocols_exist,
    references.zones_exist,
    references.ground_of_records_exists,
    references.ground_of_map_exists,
    references.laboratories_exist,
    references.own_protocols_lead_somewhere,
    references.stations_exist,
    analyses.own_analyses_exist,
    analyses.targets_name_methods,
    analyses.results_name_methods,
    analyses.targets_are_possible,
    analyses.results_are_possible,
    seasons.seasons_serve_the_hemisphere,
    sampling.own_protocols_are_sound,
    days.years_are_possible,
    days.applications_end_after_they_start,
    days.blackouts_end_after_they_start,
    days.results_are_reported_after_sampling,
    days.days_of_spreading_are_known,
    areas.areas_are_known,
    areas.areas_are_likely,
    areas.areas_suit_the_protocol,
    agreement.earlier_samplings_have_a_use,
    agreement.decisions_have_a_task,
    agreement.applications_name_zones,
    agreement.zones_are_uniform,
    agreement.rates_are_likely,
    agreement.targets_are_ranges,
    agreement.records_have_a_layer,
)
