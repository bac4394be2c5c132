"""The parts strip under the paper."""

from linework.bench.strip.strip import PartsStrip

__all__ = ["PartsStrip"]
