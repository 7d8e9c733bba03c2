"""The wheel, the source archive and an editable install all work, from anywhere, without a network.

Each is put into an empty environment that borrows the packages of the one that runs the tests.
"""

import os
import subprocess
import sys
import sysconfig
import tarfile
import venv
import zipfile
from dataclasses import dataclass
from pathlib import Path

import pytest

from assistant import __version__
from tests.house.tree import ROOT, project_files

ANYWHERE = Path(Path.cwd().anchor)
WAYS = ("wheel", "archive", "editable")


@dataclass(frozen=True, slots=True)
class Built:
    """What the build tool made of the project."""

    wheel: Path
    archive: Path


def run(*command: str | Path, cwd: Path = ANYWHERE) -> str:
    """Output of a command that knows nothing of this checkout; fails with what it said."""
    clean = {name: text for name, text in os.environ.items() if not name.startswith("PYTHON")}
    done = subprocess.run(command, cwd=cwd, env=clean, capture_output=True, text=True, check=False)
    assert done.returncode == 0, f"{command}\n{done.stdout}\n{done.stderr}"
    return done.stdout


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Built:
    """The source archive, and the wheel made from that archive."""
    out = tmp_path_factory.mktemp("built")
    run(sys.executable, "-m", "build", "--no-isolation", "--outdir", out, ROOT)
    (wheel,), (archive,) = out.glob("*.whl"), out.glob("*.tar.gz")
    return Built(wheel, archive)


@dataclass(frozen=True, slots=True)
class Environment:
    """An environment with the project in it."""

    way: str
    programs: Path

    @property
    def python(self) -> Path:
        return self.programs / "python"

    @property
    def drillside(self) -> Path:
        return self.programs / "drillside"


def empty_environment(folder: Path) -> Path:
    """A new environment that also sees the packages of this one; returns its programs' folder."""
    builder = venv.EnvBuilder(symlinks=os.name != "nt")
    builder.create(folder)
    where = {"base": str(folder), "platbase": str(folder)}
    packages = Path(sysconfig.get_path("purelib", "venv", vars=where))
    (packages / "borrowed.pth").write_text(sysconfig.get_path("purelib"), encoding="utf-8")
    return Path(sysconfig.get_path("scripts", "venv", vars=where))


@pytest.fixture(scope="module", params=WAYS)
def environment(
    request: pytest.FixtureRequest, built: Built, tmp_path_factory: pytest.TempPathFactory
) -> Environment:
    """The project installed in one of the three ways."""
    way: str = request.param
    programs = empty_environment(tmp_path_factory.mktemp(way))
    sources: dict[str, tuple[str | Path, ...]] = {
        "wheel": (built.wheel,),
        "archive": (built.archive,),
        "editable": ("--editable", ROOT),
    }
    offline = ("--quiet", "--no-deps", "--no-index", "--no-build-isolation", "--ignore-installed")
    pip = (sys.executable, "-m", "pip", "--python", programs / "python")
    run(*pip, "install", *offline, *sources[way])
    return Environment(way, programs)


def test_the_command_runs_from_anywhere(environment: Environment) -> None:
    assert __version__ in run(environment.drillside, "--version")


def test_the_package_runs_as_a_module_from_anywhere(environment: Environment) -> None:
    assert __version__ in run(environment.python, "-m", "assistant", "--version")


def test_the_flows_come_along_byte_for_byte(environment: Environment) -> None:
    asked = "from assistant.flow.place import flows_folder; print(flows_folder())"
    folder = Path(run(environment.python, "-c", asked).strip())
    names = [name for name in project_files() if name.startswith("flows/")]
    found = {name: (folder.parent / name).read_bytes() for name in names}
    assert found == {name: (ROOT / name).read_bytes() for name in names}
    assert (folder == ROOT / "flows") is (environment.way == "editable")


def test_the_wheel_holds_types_licence_and_nothing_of_the_tests(built: Built) -> None:
    with zipfile.ZipFile(built.wheel) as wheel:
        names = set(wheel.namelist())
    info = f"drillside-{__version__}.dist-info"
    assert {"assistant/py.typed", f"{info}/licenses/assistant/LICENSE"} <= names
    assert {name.split("/")[0] for name in names} == {"assistant", info}


def test_the_source_archive_holds_the_whole_project(built: Built) -> None:
    with tarfile.open(built.archive) as archive:
        names = {name.split("/", 1)[1] for name in archive.getnames()}
    assert names == {*project_files(), "PKG-INFO"}


def test_the_version_in_the_package_is_the_version_of_the_wheel(built: Built) -> None:
    assert built.wheel.name.split("-")[1] == __version__
