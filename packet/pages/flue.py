"""What every page says alike of a flue that the collector draws on; nothing where there is no such flue."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from calc.finding import Amount
from calc.measures.quantity import write_amount
from calc.sizing.appliances import is_fine
from calc.sizing.judging_make_up import name_appliance
from packet.words.phrases import take_words
from packet.words.say import say, write

if TYPE_CHECKING:
    from packet.job import AirJob
    from packet.pages.kit.kit import Kit


def tell_flue(job: AirJob) -> dict[str, str]:
    """Return every line of templates/words/flue.md with the limit, the opening and the heater of this job put in."""
    make_up, reader = job.sizing.make_up_air, job.reader
    words = take_words("flue", reader.language)
    most = write_amount(make_up.depression_pa, "draught_pa", reader)
    flow = write_amount(make_up.flow_m3s, "flow_m3s", reader)
    opening = write(Amount(make_up.opening_m2, "area_m2", toward="up"), reader)
    fine = is_fine(make_up.depression_pa)
    return {
        "title": words("title"),
        "keep": words("keep", heater=say(name_appliance(make_up.appliance), reader)),
        "limit": words("limit", most=most, opening=opening, flow=flow),
        "alarm": words("alarm"),
        "first": words("first"),
        "instrument": words("instrument_fine" if fine else "instrument"),
        "each_day": words("each_day", opening=opening),
        "test_again": words("test_again", most=most),
        "gate": words("gate", most=most),
        "switch": words("switch"),
        "switch_small": words("switch_small", most=most, opening=opening),
    }


def say_flue(job: AirJob, key: str) -> str:
    """Return one of those lines. Raises KeyError."""
    return tell_flue(job)[key]


def make_danger(job: AirJob, kit: Kit, *keys: str) -> list[Any]:
    """Return the panel with those lines, in a list; nothing where the collector draws on no flue."""
    if not job.project.shop.draws_on_flue:
        return []
    lines = tell_flue(job)
    return [kit.signal("DANGER", [lines[key] for key in keys], title=lines["title"])]
