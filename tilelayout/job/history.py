"""The past and future of a job: undo is keeping the old value.

A history is itself an immutable value. Steps of one gesture (a drag, typing in one box) become one step,
and a step that leads back to where it began is none.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from tilelayout.job.values import Job


@dataclass(frozen=True)
class Step:
    """One change with the name a person knows it by, and the job on its far side.

    In the past the far side is the job before the change, in the future the job after it.
    """

    label: str
    job: Job
    gesture: object | None = None


@dataclass(frozen=True)
class History:
    """The job as it is, with the steps that led here (latest last) and those undone (next last).

    `given_up` are the undone steps that the last step put an end to: they are back if it leads nowhere.
    """

    job: Job
    past: tuple[Step, ...] = ()
    future: tuple[Step, ...] = ()
    given_up: tuple[Step, ...] = ()

    def recorded(self, label: str, job: Job, gesture: object | None = None) -> History:
        """Return the history after a change to `job`; the same history if nothing has changed."""
        if job == self.job:
            return self
        if not self._continues(gesture):
            return History(job, (*self.past, Step(label, self.job, gesture)), given_up=self.future)
        begun = self.past[-1]
        if job == begun.job:
            return History(begun.job, self.past[:-1], self.given_up)
        return replace(self, job=job, past=(*self.past[:-1], replace(begun, label=label)))

    def undone(self) -> History:
        """Return the history one step back; itself at the beginning."""
        if not self.past:
            return self
        last = self.past[-1]
        return History(last.job, self.past[:-1], (*self.future, replace(last, job=self.job)))

    def redone(self) -> History:
        """Return the history one step on; itself if nothing was undone."""
        if not self.future:
            return self
        following = self.future[-1]
        return History(following.job, (*self.past, replace(following, job=self.job)), self.future[:-1])

    def _continues(self, gesture: object | None) -> bool:
        """Whether a step of this gesture belongs to the last one."""
        return (
            gesture is not None and bool(self.past) and not self.future and self.past[-1].gesture == gesture
        )
