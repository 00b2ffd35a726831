"""Jobs that stand in for others where dishes share: what holds for those, holds for these."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

from batchcook.dishwork.work import Link, Stream

__all__ = ["links_for", "streams_for"]


def links_for(links: Iterable[Link], stand_ins: Mapping[str, str]) -> list[Link]:
    """The links of the jobs that are stood in for, as links of those that stand in.

    Args:
        links: All links.
        stand_ins: Job to the job that stands in for it.
    """
    return [
        replace(
            link,
            before=stand_ins.get(link.before, link.before),
            after=stand_ins.get(link.after, link.after),
        )
        for link in links
        if {link.before, link.after} & stand_ins.keys()
    ]


def streams_for(streams: Iterable[Stream], stand_ins: Mapping[str, str]) -> list[Stream]:
    """The ways of foods that lead through jobs that are stood in for; arguments likewise."""
    return [
        replace(
            stream,
            moments=tuple(
                replace(moment, job=stand_ins.get(moment.job, moment.job))
                for moment in stream.moments
            ),
        )
        for stream in streams
        if any(moment.job in stand_ins for moment in stream.moments)
    ]
