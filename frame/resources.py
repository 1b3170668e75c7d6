"""Where the lessons and assets lie: beside the package in a checkout, inside it in a wheel."""

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent
_ROOT = _PACKAGE if (_PACKAGE / "assets").is_dir() else _PACKAGE.parent

ASSETS = _ROOT / "assets"
LESSONS = _ROOT / "lessons"
VOICE = ASSETS / "voice" / "en"
PROBLEM_WORDS = ASSETS / "words" / "problems.en.toml"
GRADES = ASSETS / "sheets" / "grades.toml"
RUNS = ASSETS / "sheets" / "runs.toml"
