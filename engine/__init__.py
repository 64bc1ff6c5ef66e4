"""Diagnosis of old two-way radios: a Bayesian fault tree, exact, in plain Python."""

from engine.diagnosis.advising.advice import step
from engine.diagnosis.advising.steps import Step
from engine.diagnosis.case import Case, Finding, Kit
from engine.diagnosis.entry import read_answer
from engine.diagnosis.model import SetModel
from engine.diagnosis.storage import load_model

__all__ = ["Case", "Finding", "Kit", "SetModel", "Step", "load_model", "read_answer", "step"]
