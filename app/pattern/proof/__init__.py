"""The checks over many bodies."""

from app.pattern.proof.run import BodyProof, Failure, ProofReport, Subject, prove, report_values

__all__ = ["BodyProof", "Failure", "ProofReport", "Subject", "prove", "report_values"]
