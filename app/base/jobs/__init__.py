"""The queue of builds behind three calls of our own: enqueue, progress, cancel."""

from __future__ import annotations

from app.base.jobs.queue import BuildJob, JobQueue, JobState

__all__ = ["BuildJob", "JobQueue", "JobState"]
